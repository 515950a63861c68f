"""Pages of the storekeeper."""
