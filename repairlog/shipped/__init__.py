"""Finds what is shipped beside the code: in a checkout, or inside an installed wheel."""

from pathlib import Path

_HERE = Path(__file__).resolve().parent
_CHECKOUT = _HERE.parent.parent


def config() -> Path:
    """The folder with the settings' example, and with whatever else an operator may read and copy."""
    return folder("config")


def migrations() -> Path:
    """The folder that Alembic reads: every change that the tables have gone through."""
    return folder("migrations")


def folder(name: str) -> Path:
    """The shipped folder of that name: the one inside the wheel if there is one, else the checkout's.

    Raises FileNotFoundError, naming both places, where neither is a folder.
    """
    places = (_HERE / name, _CHECKOUT / name)
    for place in places:
        if place.is_dir():
            return place
    looked = " nor ".join(str(place) for place in places)
    raise FileNotFoundError(f"{name}/ is missing: neither {looked} is a folder; install repairlog again")
