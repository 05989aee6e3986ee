"""The safety rules: what is checked, who may sign, what stops a beginning or a closing. Pure."""
