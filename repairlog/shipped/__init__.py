"""Finds what is shipped beside the code: in a checkout, or inside an installed wheel."""

from pathlib import Path

_HERE = Path(__file__).resolve().parent
_CHECKOUT = _HERE.parent.parent


def config() -> Path:
    """The folder with the settings' example, and with whatever else an operator may read and copy."""
    return folder("config")


def demo() -> Path:
    """The folder with the book of an invented operator, as files."""
    return folder("demo/book")


def migrations() -> Path:
    """The folder that Alembic reads: every change that the tables have gone through."""
    return folder("migrations")


def folder(name: str, *, among: tuple[Path, ...] = (_HERE, _CHECKOUT)) -> Path:
    """The shipped folder of that name in the first of `among` that has one: the wheel's before the checkout's.

    Raises FileNotFoundError, naming every place looked at, where none is a folder.
    """
    places = [place / name for place in among]
    for place in places:
        if place.is_dir():
            return place
    looked = " nor ".join(map(str, places))
    raise FileNotFoundError(f"{name}/ is missing: neither {looked} is a folder; install repairlog again")
