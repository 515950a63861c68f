"""`repairlog rules`: check, list and show, as a person reads them."""

from __future__ import annotations

from pathlib import Path

BROKEN = Path(__file__).parent.parent / "rulebooks" / "broken"
OWN = """id = "own"
title = "Our own manual"
authority = "invented"
status = "in_force"
extends = ["gb"]

[[target]]
id = "sooner"
beside = "act"
within = "8 hours"
clause = "7"
source = "invented"
mark = "text_checked"
checked = 2026-11-25
"""


def test_what_is_shipped_holds(say):
    told = say("rules", "check")
    assert (told.code, told.out, told.err) == (0, "11 of 11 files hold.\n", "")


def test_a_broken_file_is_told_of_and_ends_1(say):
    file = BROKEN / "misspelt-unit.toml"
    told = say("rules", "check", str(file))
    assert (told.code, told.err) == (1, "")
    assert told.out == f"{file.parent}/{file.with_suffix('.expected').read_text()}"


def test_a_folder_is_checked_whole(say):
    told = say("rules", "check", str(BROKEN))
    assert told.code == 1
    assert {line.split(":")[0].rpartition("/")[2] for line in told.out.splitlines()} >= {
        "not-toml.toml",
        "id-twice.toml",
    }


def test_a_folder_without_a_rulebook_is_told_of(say, tmp_path):
    told = say("rules", "check", str(tmp_path))
    assert (told.code, told.out) == (2, "")
    assert told.err.endswith(f"\nThere is no rulebook, a file *.toml, in {tmp_path}.\n")


def test_the_list_says_what_each_is_and_how_much_is_to_be_confirmed(say):
    told = say("rules", "list")
    assert told.code == 0
    lines = told.out.splitlines()
    assert len(lines) == 11
    assert lines[0] == (
        "gb: Great Britain: Gas Safety (Management) Regulations 1996 (in force). 8 rules, 0 of them to be confirmed."
    )
    assert any("(proposed, not law)" in line for line in lines)


def test_a_rulebook_is_printed_as_in_force_on_a_day(say):
    before, after = (say("rules", "show", "us-federal", "--on", day).out for day in ("2025-10-08", "2025-10-09"))
    assert "annual-report-before-october-2025" in before
    assert "annual-report-before-october-2025" not in after
    assert "As in force on 2025-10-09" in after


def test_a_rule_from_memory_is_printed_as_to_be_confirmed(say):
    out = say("rules", "show", "us-guide").out
    assert "\nrepair-2 [to be confirmed]\n  Repair: 1 calendar year, not exceeding 15 months" in out
    assert "\nsurvey-elsewhere\n" in out


def test_a_file_of_ones_own_is_printed_with_what_it_extends(say, tmp_path):
    (tmp_path / "own.toml").write_text(OWN)
    told = say("rules", "show", str(tmp_path / "own.toml"))
    assert (told.code, told.err) == (0, "")
    assert told.out.startswith("Our own manual\ninvented; in force\n")
    assert "Beside act: 8 hours; a target, never late." in told.out
    assert "12 hours" in told.out


def test_a_name_that_is_no_rulebook_is_told_of_with_what_was_perhaps_meant(say):
    told = say("rules", "show", "us-gide")
    assert (told.code, told.out) == (2, "")
    assert "\nThere is no rulebook “us-gide”, nor such a file; there are: gb, us-ca," in told.err
    assert told.err.endswith("Perhaps “us-guide” is meant.\n")


def test_the_operator_s_own_folder_is_checked_and_listed_beside_what_is_shipped(say, tmp_path, monkeypatch):
    (tmp_path / "own.toml").write_text(OWN)
    monkeypatch.setenv("REPAIRLOG_RULEBOOKS", str(tmp_path))
    assert say("rules", "check").out == "12 of 12 files hold.\n"
    assert "own: Our own manual (in force)." in say("rules", "list").out
    assert "8 hours" in say("rules", "show", "own").out


def test_what_is_wrong_in_the_operator_s_own_folder_is_told_with_its_place(say, tmp_path, monkeypatch):
    (tmp_path / "own.toml").write_text(OWN.replace('beside = "act"', 'beside = "acts"'))
    monkeypatch.setenv("REPAIRLOG_RULEBOOKS", str(tmp_path))
    told = say("rules", "check")
    assert (told.code, told.out.count("\n")) == (1, 1)
    assert told.out.startswith(f"{tmp_path}/own.toml:")


def test_a_folder_that_is_not_there_is_told_of(say, tmp_path, monkeypatch):
    monkeypatch.setenv("REPAIRLOG_RULEBOOKS", str(tmp_path / "gone"))
    told = say("rules", "list")
    assert told.code == 2
    assert "REPAIRLOG_RULEBOOKS" in told.err
