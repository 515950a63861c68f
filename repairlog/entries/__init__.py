"""The closed list of what can be entered: each kind, each field, declared once."""
