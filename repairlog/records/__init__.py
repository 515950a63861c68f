"""What happened: the journal, and the facts read from it."""
