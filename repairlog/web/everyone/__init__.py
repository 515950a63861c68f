"""Pages that every person reads."""
