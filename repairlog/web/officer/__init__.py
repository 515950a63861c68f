"""Pages of the compliance officer."""
