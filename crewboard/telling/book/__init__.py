"""The book: what a reader of the record is told, each sentence with what stands behind it."""
