"""Gas lost by a leak, from its sheet: its own hours and pressures, and a rate or a hole only as far as that holds."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest

from repairlog import cli
from repairlog.entries.entry import Moments
from tests.makers import book as m
from tests.web.everyone.read import link, text_of

LATER = Moments(received=datetime(2026, 4, 1, tzinfo=UTC))


@pytest.fixture
def book(sqlite_store):
    return m.opened(sqlite_store)


@pytest.fixture
def crew(book, site):
    return site.client(book.crew)


@pytest.fixture
def repaired(book):
    leak = m.leak(book, happened="2026-03-03 07:52")
    source = m.source(leak["id"], pressure="60 psi", size="1 1/4 in", material="steel", part="service")
    hole = {"hole_size": "1/16 in", "pressure_found": "60 psi", "pipe_temperature": "57 F"}
    attempt = m.attempt(leak["id"], source=source["id"], happened="2026-03-13 07:52", **hole)
    held = m.test_of(leak["id"], attempt["id"], kind_of_test="pressure_hold", pressure="90 psi", duration="15 min")
    number = book.say(leak, source, attempt, held, moments=LATER)[0].number
    return leak["id"], number


def test_the_sheet_leads_to_the_leak_s_own_hours_and_pressures(crew, repaired):
    leak, number = repaired
    at = link(crew.get(f"/leaks/{leak}").text, "Gas lost by this leak")
    said = text_of(crew.get(at).text)
    assert f"Gas lost by {number}" in said
    assert (
        "3 Mar 2026, 07:52 EST \N{EN DASH} 13 Mar 2026, 07:52 EDT 239 hours, 60 psi" in said
    )  # clocks went forward on 8 March
    assert "Its repairs tell of: 1/16 in" in said


def test_a_measured_rate_goes_over_its_hours_into_the_figure_and_back_to_the_leak(crew, repaired):
    leak, number = repaired
    sent = crew.get(f"/leaks/{leak}/lost?basis=measured&rate=2+scfh")
    page = crew.get(sent.location).text
    assert (sent.status_code, "Gas lost: 478 scf" in text_of(page)) == (303, True)
    assert "stays below 3,000,000 cubic feet (191.3, incident)" in text_of(page)
    assert link(page, f"Keep this on {number}").startswith(f"/leaks/{leak}/figures/loss/keep?segment=2+scfh")


def test_a_buried_leak_without_a_rate_cannot_be_estimated_whatever_its_hole(crew, repaired):
    leak, _number = repaired
    at = f"/leaks/{leak}/lost"
    assert "cannot be estimated from what is on the books" in crew.get(f"{at}?basis=measured").text
    buried = crew.get(f"{at}?basis=factor&hole=1%2F16+in").text
    assert ("holds only for gas that blows free" in text_of(buried), 'value="1/16 in"' in buried) == (True, True)
    assert crew.get(f"{at}?basis=blows-free&hole=1%2F16+in").status_code == 303
    assert "This is needed" in crew.get(f"{at}?basis=hearsay&rate=2+scfh").text
    assert "below zero" in crew.get(f"{at}?basis=blows-free&hole=-1+in").text


def test_the_command_reads_the_book_and_says_what_it_does_not_know(book, crew, repaired, capsys):
    _leak, number = repaired
    at = book.store.engine.url.render_as_string(hide_password=False)

    def said(*words):
        code = cli.run(["figure", "loss", "--json", *words])
        return code, json.loads(capsys.readouterr().out)

    code, told = said("--leak", number.lower(), "--database", at, "--basis", "measured", "--rate", "2 scfh")
    assert (code, told["hours"], told["volume_scf"]) == (0, 239, 478)
    code, told = said("--leak", number, "--database", at, "--hole", "1/16 in")
    assert (code, told["error"]["code"]) == (2, "hole_not_free")
    code, told = said("--leak", number, "--database", at)
    assert (code, told["error"]["code"]) == (2, "cannot_be_estimated")
    code, told = said("--leak", "ES-99-1", "--database", at, "--rate", "2 scfh")
    assert (code, told["error"]["code"]) == (2, "no_such_leak")
    assert said("--rate", "2 scfh")[1]["error"]["code"] == "missing"
    assert said("--leak", number, "--segment", "2 scfh, 1 h")[1]["error"]["code"] == "not_together"


@pytest.fixture
def of_two(book):
    """A leak of two sources, of which one was tight on 5 March and the other on the 13th."""
    leak = m.leak(book, happened="2026-03-03 07:52")
    sources = [m.source(leak["id"], pressure=at) for at in ("60 psi", "7 in wc")]
    done = zip(sources, ("2026-03-05 07:52", "2026-03-13 07:52"), ("60 psi", "7 in wc"), strict=True)
    attempts = [m.attempt(leak["id"], source=it["id"], happened=at, pressure_found=psi) for it, at, psi in done]
    number = book.say(leak, *sources, *attempts, moments=LATER)[0].number
    return leak["id"], number


def test_each_of_several_sources_takes_its_own_rate_or_all_of_them_one(crew, of_two):
    leak, number = of_two
    at = f"/leaks/{leak}/lost"
    said = text_of(crew.get(at).text)
    assert ("All 2 sources together" in said, "Source 1 by itself" in said, "Source 2 by itself" in said) == (True,) * 3
    sent = crew.get(f"{at}?basis=measured&rate_1=30+scfh&rate_2=2+scfh")
    page = crew.get(sent.location).text
    # By hand: 48 h of 30 scfh and 239 h of 2 scfh.
    assert (sent.status_code, "Gas lost: 1,920 scf" in text_of(page)) == (303, True)
    assert "source 2: 2 scf/h x 239 h = 478 scf" in text_of(page)
    keep = link(page, f"Keep this on {number}")
    kept = crew.get(keep).text
    assert "source 1: 30 scfh @ 60 psi" in kept
    whole = crew.get(crew.get(f"{at}?basis=measured&rate=2+scfh").location).text
    assert "all 2 sources: 2 scf/h x" in text_of(whole)
    part = crew.get(f"{at}?basis=measured&rate_1=30+scfh")
    assert (part.status_code, "Source 2 has neither a rate nor a hole." in text_of(part.text)) == (200, True)
    assert 'id="rate_1" name="rate_1" value="30 scfh"' in part.text
    unread = crew.get(f"{at}?basis=measured&rate_1=30+scfh&rate_2=2+psi").text
    assert 'id="rate_2" name="rate_2" value="2 psi" maxlength="60" autocomplete="off"' in unread
    assert unread.count('aria-invalid="true"') == 1


def test_the_command_takes_a_rate_for_each_source(book, of_two, capsys):
    _leak, number = of_two
    at = book.store.engine.url.render_as_string(hide_password=False)
    words = ["figure", "loss", "--json", "--leak", number, "--database", at, "--basis", "measured"]

    def said(*more):
        code = cli.run([*words, *more])
        return code, json.loads(capsys.readouterr().out)

    code, told = said("--rate", "1=30 scfh", "--rate", "2=2 scfh")
    assert (code, told["volume_scf"], told["hours"]) == (0, 1918, 287)
    assert [it["of"] for it in told["segments"]] == ["source 1", "source 2"]
    for more, field, code in (
        (("--rate", "1=30 scfh"), "rate", "source_without_rate"),
        (("--rate", "1=30 scfh", "--rate", "1=2 scfh"), "rate", "given_both"),
        (("--rate", "3=30 scfh"), "rate", "no_such_source"),
        (("--rate", "1=30 scfh", "--hole", "2=1/8 in"), "hole", "hole_not_free"),
    ):
        ended, told = said(*more)
        assert (ended, told["error"]["field"], told["error"]["code"]) == (2, field, code)


def test_the_sheet_offers_the_figures_that_suit_with_the_leak_s_own_values(crew, repaired):
    leak, _number = repaired
    sheet = crew.get(f"/leaks/{leak}").text
    flow = link(sheet, "Flow through the hole")
    assert "Flow: 316 scf/h" in crew.get(flow).text
    assert f"leak={leak}" in flow
    assert "hole=1/16+in&pressure=60+psi" in flow
    assert link(sheet, "Tape").endswith("&od=1.66+in")
    assert link(sheet, "Cure").endswith("&temperature=57+F")
    assert "material=steel&nps=1+1/4&pressure=60+psi&line=service" in link(sheet, "Pipe")
    assert "start=90+psi&hours=0.25" in link(sheet, "Pressure held")
    back = crew.get(link(sheet, "Pipe")).text
    assert f'href="/leaks/{leak}"' in back


def test_a_leak_high_up_brings_its_own_atmosphere(book, site):
    leak = m.leak(book, area=book.other_area)
    source = m.source(leak["id"], pressure="60 psi")
    attempt = m.attempt(leak["id"], source=source["id"], hole_size="1/16 in")
    book.say(leak, source, attempt, moments=LATER)
    sheet = site.client(book.officer).get(f"/leaks/{leak['id']}").text
    assert "atmosphere=83.4" in link(sheet, "Flow through the hole")
