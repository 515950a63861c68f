"""Figures: what is typed becomes a figure of the trade, worked out, explained and told, on pages and as commands."""
