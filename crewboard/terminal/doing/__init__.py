"""What a person does from a page, step by step: what is asked, then what is written."""
