"""Gaps of a leak, a file a theme."""
