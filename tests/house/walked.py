"""A book with something for every route there is, and the browser of each who comes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO

import pytest
from flask.testing import FlaskClient

from repairlog.access import Refused
from repairlog.entries.entry import Moments
from repairlog.records import blobs
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import companies
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.program import actors
from tests.makers.site import Site, site


@dataclass(frozen=True)
class Walk:
    """A book with something for every route, and the browser of each who comes. `named`: what stands in an address."""

    site: Site
    browsers: dict[str, FlaskClient]
    named: dict[str, str]


def walked(sqlite_store: Store) -> Walk:
    """The pages are asked who may do it, not which page a form came from."""
    book = m.opened(sqlite_store)
    leak, left = m.leak(book), m.leak(book)
    attempt = m.attempt(leak["id"], happened="2026-03-03 12:00")
    other, dig, source = m.leak(book), d.dig(book, [leak["id"]]), m.source(leak["id"])
    call = c.call(book)
    book.say(leak, attempt, dig, call, source)
    number = book.say(other)[0].number
    just_now = Moments(received=datetime.now(UTC))  # what is left unfinished goes after 90 days
    with pytest.raises(Refused):
        book.say(left, m.ending(left["id"]), by=book.crew, moments=just_now)
    first, lower = m.grade(leak["id"], grade="1"), m.grade(leak["id"], grade="2", happened="2026-03-04")
    odd = m.grade(leak["id"], grade="C+", happened="2026-03-02")
    given = m.given(leak["id"], work="restoration")
    book.say(first, lower, odd, given)
    named = {
        "name": "notebook.css",
        "figure": "flow",
        "kind": "visit",
        "lot": book.lot,
        "what": "move",
        "code": "refused",
        "leak": leak["id"],
        "attempt": attempt["id"],
        "id": left["id"],
    }
    file = d.attached(leak["id"])
    book.say(file)
    named |= {"digest": file["digest"]}
    named |= {"source": source["id"], "other_leak": other["id"]}
    named |= {"dig": dig["id"], "step": "owed", "number": number}
    named |= {"entry": odd["id"], "gap": "grade_not_known", "grade_set": lower["id"], "given": given["id"]}
    named |= {"call": call["id"], "at": "told", "rulebook": "gb", "row": "named", "area": book.area}
    crew, meter = m.crew(book), m.instrument(book)
    book.say(crew, meter)
    truck = s.shelf(book)
    book.say(truck)
    named |= {"shelf": truck["id"]}
    hired = companies.company()
    book.say(hired)
    named |= {"company": hired["id"]}
    named |= {"crew": crew["id"], "person": str(book.crew.person), "instrument": meter["id"]}
    adopted, sure = m.adopted(book.area), m.confirmed(book.area)
    book.say(adopted, sure)
    named |= {"area": book.area, "rule": "permanent", "adopted": sure["id"]}
    evaluation = m.qualified(str(book.crew.person))
    book.say(evaluation)
    named |= {"evaluation": evaluation["id"]}
    named |= {"signs in nowhere": m.new_id()}
    book.say({"kind": "person_added", "id": named["signs in nowhere"], "name": "B. Hale", "happened": "2025-01-02"})
    named |= {"operator": book.operator}
    place, elsewhere = d.place(book), m.leak(book, street="Weir Street")
    book.say(place, elsewhere)
    named |= {"place": place["id"], "street": str(d.street_id("Quarry Lane", "Harrowsedge"))}
    open_site = site(book)
    open_site.app.config["WTF_CSRF_ENABLED"] = False
    kept = open_site.app.extensions["repairlog.files"]
    blobs.put(kept.folder, BytesIO(b"tag 31\n"), most=kept.most)
    browsers = {who: open_site.client(actor) for who, actor in actors(book).items()}
    return Walk(open_site, browsers | {"nobody": open_site.app.test_client()}, named)
