"""What is owed of a leak, by when and by which clause: a fold over its life under a rulebook. It takes no today."""

from repairlog.trade.due.life import Graded, Life, Look, When
from repairlog.trade.due.owed import Item, Missing, Owed, owed
from repairlog.trade.due.story import life_of

__all__ = ["Graded", "Item", "Life", "Look", "Missing", "Owed", "When", "life_of", "owed"]
