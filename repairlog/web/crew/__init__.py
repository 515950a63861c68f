"""Pages that a crew fills in at the truck."""
