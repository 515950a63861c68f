"""The calls of the full book, the first hour at the leak that one of them became, and an emergency that waits."""

from __future__ import annotations

from tests.makers import book as m
from tests.makers import calls as c


def calls_and_a_first_hour(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """A call that becomes a leak, one that is the same, a customer's piping, one in error; a first hour."""
    numbers = [{"key": "n1", "what": "premise", "number": "P-30117"}]
    caller = {
        "caller_name": "J. Thwaite",
        "caller_address": "2 Weir Street",
        "caller_phone": "555-0142",
        "caller_story": "smells it since last evening",
    }
    where = {"cross_street": "Mill Lane", "postal_code": "04417", "location": "by the steps", "street": "Fuller Row"}
    call, same, customers, wrong = (c.call(book, **where, **caller, outside_numbers=numbers) for _ in range(4))
    leak = m.leak(book, from_call=call["id"], happened="2026-03-03 07:44", street="Fuller Row")
    crew, person = {"crew": ids["crew"]}, {"person": str(book.crew.person)}
    steps = [c.sent(call["id"], **crew), c.on_way(call["id"], **crew), c.on_site(call["id"], **crew)]
    found = c.outcome(call["id"], outcome="operators_leak", found_leak=leak["id"], remarks="gas at the wall")
    book.say(call, same, customers, wrong, *steps, leak, found)
    book.say(c.outcome(same["id"], outcome="same_call", same_as=call["id"]))
    others = [c.sent(customers["id"], **person), c.on_way(customers["id"], **person, named="and a helper")]
    others += [c.on_way(customers["id"], named="a helper"), c.on_site(customers["id"], **person)]
    others += [
        c.sent(same["id"], named="a helper", happened="2026-03-03 07:40"),
        c.on_site(same["id"], named="a helper"),
    ]
    book.say(*others, c.outcome(customers["id"], outcome="customers", made_safe="shut_off_and_tagged", tag="R-118"))
    book.say(c.reviewed(customers["id"], reason="note read"), by=book.supervisor)
    went = c.sent(wrong["id"])
    book.say(went, m.void(wrong["id"]), m.corrected(same["id"], ("caller_phone", "555-0143")))
    hour = [c.moment(leak["id"], people_count=6, place="14 and 16", controlled_by="curb_valve", remarks="quiet")]
    hour += [c.told(leak["id"], named="engine 4", how="radio", reference="F-22", remarks="standing by")]
    hour += [c.decided(leak["id"], report_to="city", facts="nobody hurt", reason="below every threshold")]
    looked_over = {
        "found": "out within four minutes",
        "changed": "a card in every truck",
        "remarks": "the crew was there",
    }
    hour += [c.emergency_reviewed(leak["id"], procedures="followed_in_part", **looked_over)]
    crew_leader = {"from_person": str(book.crew.person), "to_person": str(book.supervisor.person)}
    told = {"valves": "curb valve shut", "vents": "one over the service", "last_readings": "60 %LEL at 13:40"}
    told |= {"customers_off": 1, "next_reading_by": "2026-03-03 15:00", "remarks": "dog in the yard"}
    waiting, given = m.waiting(leak["id"]), m.given(leak["id"], **crew, **person, by_on="2026-03-04")
    hour += [waiting, given, m.given(leak["id"], work="restoration")]
    book.say(*hour, c.watch(leak["id"], **crew_leader, **told), c.watch(ids["troubled"], happened="2026-03-04"))
    book.say(
        *(c.moment(ids["troubled"], moment=which, happened="2026-03-04") for which in ("people_out", "area_made_safe"))
    )  # nobody reviewed it
    calls = {"call": call["id"], "same_call": same["id"], "customers_call": customers["id"]}
    calls |= {"wrong_call": wrong["id"], "went": went["id"]}
    return calls | {"from_call": leak["id"], "in_hand": given["id"]}
