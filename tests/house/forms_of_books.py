"""What the forms about companies, people, crews, instruments, areas and places send, in a walk of every route."""

from __future__ import annotations

from typing import Any

from tests.makers import book as m
from tests.makers import companies
from tests.makers import digs as d


def of_the_books(book: m.Book, named: dict[str, str]) -> dict[str, tuple[str, dict[str, Any]]]:
    """By endpoint, the part whose boxes its form has, and what is typed into them."""
    return {
        "person_said.new": ("entry", {"name": "K. Ames", "happened": "2026-03-02", "id": m.new_id()}),
        "person_said.page": ("entry", m.qualified(named["person"])),
        "company_said.new": ("entry", companies.company("Weir Works")),
        "company_said.page": ("entry", companies.left(named["company"])),
        "crews.new": ("entry", m.crew(book)),
        "put_right.void_of_books": ("void", m.void(named["evaluation"])),
        "areas.new": (
            "entry",
            {
                "id": m.new_id(),
                "name": "Low Vale",
                "code": f"L{m.new_id()[-5:]}",
                "zone": "America/Denver",
                "happened": "2026-01-05",
            },
        ),
        "areas.cut_over": ("entry", m.cut_over(book.area)),
        "instrument_said.new": ("entry", m.instrument(book)),
        "instrument_said.page": ("entry", m.checked(named["instrument"])),
        "place_said.new": ("entry", d.place(book)),
        "place_said.retire": ("entry", d.retired(named["place"])),
        "made_one.page": ("entry", d.made_one(named["person"], named["signs in nowhere"])),
        "moves.move": ("entry", m.moved(named["instrument"], book.other_area)),
        "crews.change": ("entry", m.crew_changed(named["crew"], name="Truck 5")),
    }
