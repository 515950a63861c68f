"""Where a leak is, in one line."""

from dataclasses import dataclass

import pytest

from repairlog.words.addresses import address_of_leak


@dataclass(frozen=True)
class Place:
    house_number: str = ""
    street: str = ""
    cross_street: str = ""
    town: str = ""
    location: str = ""


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (Place("14", "Quarry Lane", town="Harrowsedge", location="by the gate"), "14 Quarry Lane, Harrowsedge"),
        (Place("", "Fallow Road", "Priory Road", "Harrowsedge"), "Fallow Road at Priory Road, Harrowsedge"),
        (Place("", "Fallow Road", "@ Priory Road", "Harrowsedge"), "Fallow Road at Priory Road, Harrowsedge"),
        (Place(cross_street="Priory Road"), "Priory Road"),
        (Place(town="Harrowsedge", location="by the gate"), "Harrowsedge"),
        (Place("14", location="by the gate"), "14, by the gate"),
        (Place(location="Mill Bridge, north side"), "Mill Bridge, north side"),
        (Place("14"), "14"),
        (Place(), "no address"),
    ],
)
def test_an_address_is_what_was_written_of_it(place, said):
    assert address_of_leak(place) == said
