"""Rulebooks in words: what is wrong in a file, and what a rulebook says, printed so that a lawyer can read it."""

from repairlog.words.rulebooks.cited import cited_line, mark_word, status_word
from repairlog.words.rulebooks.printed import Part, Printed, dropped_line, printed
from repairlog.words.rulebooks.wrong import wrong_line

__all__ = ["Part", "Printed", "cited_line", "dropped_line", "mark_word", "printed", "status_word", "wrong_line"]
