"""`repairlog demo`: the book of an invented operator, told in files and played through the one door."""
