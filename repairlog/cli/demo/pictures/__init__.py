"""Invented photographs: drawn from a seed, so that a demo's records have something to show."""
