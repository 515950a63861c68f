"""Years of an invented operator, from shares and a network told in files and one seed: the same ones every time."""
