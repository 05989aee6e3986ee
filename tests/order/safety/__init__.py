"""Begin, sign, close: the safety rules of the work day."""
