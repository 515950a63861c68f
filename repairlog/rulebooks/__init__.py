"""Rulebook text, wherever it came from, becomes frozen values; what is wrong in it is told with its place."""

from repairlog.rulebooks.handed import rulebooks_of, shelf_with
from repairlog.rulebooks.reading import Text, read_text
from repairlog.rulebooks.shelf import Shelf, read_shelf, shelf_of, shipped_shelf
from repairlog.rulebooks.wrong import RulebookWrong, Wrong

__all__ = [
    "RulebookWrong",
    "Shelf",
    "Text",
    "Wrong",
    "read_shelf",
    "read_text",
    "rulebooks_of",
    "shelf_of",
    "shelf_with",
    "shipped_shelf",
]
