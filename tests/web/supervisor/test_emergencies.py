"""What people did in an emergency is reviewed, from Today or from the sheet, over what was noted of its first hour."""

from __future__ import annotations

from repairlog.records.tables.facts import OF_KIND
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import site


def test_an_emergency_is_reviewed_over_its_first_hour_and_waits_no_longer(book: m.Book, leak: str) -> None:
    supervisor, crew = (site(book).client(who) for who in (book.supervisor, book.crew))
    sheet, review = f"/leaks/{leak}", f"/leaks/{leak}/emergency-review"
    assert review not in supervisor.get(sheet).text
    assert "No moment of a first hour is noted" in supervisor.get(review).text
    book.say(c.moment(leak, place="14 and 16, to the hall"), c.moment(leak, moment="area_made_safe"), m.note(leak))
    ways = [f'href="{review}"' in client.get(at).text for client in (supervisor, crew) for at in (sheet, "/today")]
    assert ways == [True, True, False, False]
    shown = supervisor.get(review).text
    assert ["14 and 16, to the hall" in shown, m.note(leak)["text"] in shown] == [True, False]
    refused = fill_in(supervisor, review, review__happened=["2026-03-04", "09:30"])
    assert (refused.status_code, rows(book.store, OF_KIND["emergency_reviewed"])) == (422, [])
    said = {
        "review__procedures": "followed_in_part",
        "review__found": "out in four minutes",
        "review__changed": "a card",
    }
    assert fill_in(supervisor, review, **said, review__happened=["2026-03-04", "09:30"]).status_code == 303
    (kept,) = rows(book.store, OF_KIND["emergency_reviewed"])
    assert (kept["procedures"], kept["found"], kept["changed"]) == ("followed_in_part", "out in four minutes", "a card")
    told = " ".join(supervisor.get(sheet).text.split())
    assert "Review of the emergency: procedures followed in part" in told
    assert (review in told, review in supervisor.get("/today").text) == (True, False)
