"""The pages of figures: the address keeps what was asked, the answer shows its working, a refusal stands at its box."""

from __future__ import annotations

import re
from hashlib import sha256
from io import BytesIO

import pytest
from markupsafe import escape

from repairlog.figures.shelf import FIGURES

FLOW = "/figures/flow?hole=3%2F16+in&pressure=60+psi&duration=6+h"


@pytest.fixture
def reader(book, site):
    return site.client(book.crew)


def test_every_figure_has_a_page_that_asks_before_it_answers(reader):
    overview = reader.get("/figures").text
    for name, figure in FIGURES.items():
        page = reader.get(f"/figures/{name}")
        assert (page.status_code, f"<h1>{escape(figure.title)}</h1>" in page.text, "Answer" in page.text) == (
            200,
            True,
            False,
        )
        assert f'href="/figures/{name}"' in overview
        assert all(f'name="{it.name}"' in page.text for it in figure.inputs)


def test_an_address_is_answered_with_the_working_and_its_boxes_stay_filled(reader):
    page = reader.get(FLOW)
    assert page.status_code == 200
    for said in (
        "<dd>choked</dd>",
        "Flow: 2,840 scf/h (60 degF, 14.73 psia)",
        "outside over inside 0.19674",
        'value="3/16 in"',
        "Soil holds a buried leak back",
        "qualified people govern",
    ):
        assert said in page.text


def test_what_cannot_be_worked_out_stands_at_its_box_and_in_the_sum(reader):
    page = reader.get("/figures/flow?hole=-3+in&pressure=60+psy")
    assert page.status_code == 200
    assert page.text.count("is below zero, which this cannot be.") == 2
    assert page.text.count('aria-invalid="true"') == 2
    assert 'value="-3 in"' in page.text
    assert "Answer" not in page.text


def test_what_may_be_given_again_is_a_line_each_or_a_key_each(reader):
    by_lines = reader.get("/figures/loss?segment=30+scfh,+240+h%0D%0A2+scfh,+10+h").text
    by_keys = reader.get("/figures/loss?segment=30+scfh,+240+h&segment=2+scfh,+10+h").text
    assert ("Gas lost: 7,220 scf" in by_lines, "Gas lost: 7,220 scf" in by_keys) == (True, True)


def test_a_log_is_read_from_its_box_and_a_gap_in_it_is_told(reader):
    good = reader.get("/figures/cure?log=0,20%0D%0A1,20%0D%0A2,20&reference=20+C&q=5000").text
    assert ("Counts as: 2.00 h at 20" in good, "0,20\r\n1,20" in good) == (True, True)
    gap = reader.get("/figures/cure?log=0,20%0D%0A1,20%0D%0A2,20%0D%0A9,20&reference=20+C&q=5000").text
    assert "the log has a gap of more than 3 h" in gap


def test_more_than_an_address_holds_is_refused_and_no_piece_of_it_is_worked_out(reader):
    for minutes, answers in ((180, True), (250, False)):
        log = "%0A".join(f"{at / 60:.4f},20" for at in range(minutes))
        page = reader.get(f"/figures/cure?reference=20+C&q=5000&log={log}").text
        assert ("Counts as: " in page, "More was typed than an address can hold" in page) == (answers, not answers)
    assert 'maxlength="2001"' in page


def sent_as_a_file(reader, log: bytes, *, name: str):
    """The page's answer to that file; what stood in the page's address is typed beside it."""
    page = reader.get("/figures/cure/file?reference=20+C&q=5000").text
    assert ('id="reference" name="reference"' in page, 'value="20 C"' in page) == (True, True)
    token = re.findall(r'name="csrf_token" value="([^"]+)"', page)[-1]
    typed = {"csrf_token": token, "reference": "20 C", "q": "5000", "file": (BytesIO(log), name)}
    return reader.post("/figures/cure/file", data=typed)


def test_a_log_comes_as_a_file_and_is_named_by_its_digest(reader):
    log = ("hours,temperature\n" + "".join(f"{at / 60:.5f},20\n" for at in range(1441))).encode()
    sent = sent_as_a_file(reader, log, name="day.csv")
    assert sent.status_code == 200
    for said in ("Counts as: 24.0 h at 20", "<dd>day.csv</dd>", sha256(log).hexdigest(), "1,442 lines"):
        assert said in sent.text


@pytest.mark.parametrize(
    ("log", "said"),
    [
        (b"", "No file came with this"),
        (b"0,20\n1,20\n2,20\n9,20\n", "the log has a gap of more than 3 h"),
        (b"\xff\xfe\x00\x01", "The log has fewer than two readings."),
        (b"0,20\n1,warm\n", "Line 2 of the log cannot be read"),
    ],
)
def test_a_file_that_is_no_log_is_told(log, said, reader):
    sent = sent_as_a_file(reader, log, name="log.csv")
    assert (sent.status_code, said in sent.text, 'value="5000"' in sent.text) == (422, True, True)


def test_choices_stand_in_words_and_not_in_codes(reader):
    page = reader.get("/figures/grade?reading=45+%25LEL&place=outside_wall").text
    assert '<option value="outside_wall" selected>Outside wall</option>' in page
    assert ("<dd>Outside wall</dd>" in page, ">not said</option>" in page) == (True, True)
    for name, figure in FIGURES.items():
        codes = [code for it in figure.inputs for code in it.choices if "_" in it.words.get(code, code)]
        assert codes == [], name


def test_a_page_reads_no_file_of_the_server(reader):
    page = reader.get("/figures/cure?log=%2Fetc%2Fhostname&reference=20+C&q=5000")
    assert (page.status_code, "Answer" in page.text) == (200, False)
    assert "The log has fewer than two readings." in page.text


def test_a_figure_that_there_is_not_is_not_found_and_text_stays_text(reader):
    assert reader.get("/figures/unknown").status_code == 404
    assert "<script>alert" not in reader.get("/figures/flow?hole=<script>alert(1)</script>&pressure=1+psi").text
