"""Effects: what entries make of the tables. Pure functions from entries to rows; post and rebuild use the same ones."""
