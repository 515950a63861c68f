"""Pages of those who take calls and send people."""
