"""The figures of the trade as commands: exit codes, JSON, what a person reads, and how soon."""

import json
import os
import subprocess
import sys

import pytest

from repairlog import cli

CAUTION = "Figures are aids. The operator's procedures, the maker's instructions, the law and qualified people govern."


def called(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit code, output and errors of the command."""
    code = cli.run(["figure", *words])
    told = capsys.readouterr()
    return code, told.out, told.err


def test_a_figure_as_json_has_every_digit_and_how_it_was_worked(capsys: pytest.CaptureFixture[str]) -> None:
    code, output, errors = called(capsys, "loss", "--segment", "30 scfh, 240 h", "--json")
    assert (code, errors) == (0, "")
    assert json.loads(output) == {
        "volume_scf": 7200.0,
        "hours": 240.0,
        "methane_kg": 138.24,
        "co2e_t": 3.87072,
        "gwp": 28.0,
        "segments": [{"rate_scfh": 30.0, "hours": 240.0, "volume_scf": 7200.0}],
        "formula": "sum of rate x elapsed hours; methane 0.0192 kg/ft3 x 1",
        "source": (
            "40 CFR 98.233 (u) for the density; 40 CFR part 98, Table A-1, amended at 89 FR 31894 (25 April 2024),"
            " in force 1 January 2025, first for reports of 2024 for the potential"
        ),
        "version": "2",
        "understood": {"segment": "30 scfh, 240 h", "methane_share": "1"},
        "bounds": ["as good as its rates; a rate is taken to hold until the next one"],
        "steps": ["30 scf/h x 240 h = 7,200 scf (60 degF, 14.73 psia)"],
        "cautions": [
            "For a buried leak, a measured rate or a factor: a hole's flow holds for gas that blows free.",
            "Not compared with what is to be reported: neither measured nor blowing free.",
            CAUTION,
        ],
    }


def test_a_person_sees_honest_digits_what_was_understood_and_the_caution(capsys: pytest.CaptureFixture[str]) -> None:
    code, output, _errors = called(capsys, "flow", "--hole", "3/16 in", "--pressure", "60 psi")
    lines = output.splitlines()
    assert (code, lines[:3], lines[-1]) == (
        0,
        ["Flow: 2,840 scf/h (60 degF, 14.73 psia)", "By mass: 0.0165 kg/s", "Regime: choked"],
        CAUTION,
    )
    assert {"  Hole across: 0.1875 in", "  Pressure in the line: 60 psi gauge"} <= set(lines)


def test_what_cannot_be_worked_out_ends_2_and_names_its_option(capsys: pytest.CaptureFixture[str]) -> None:
    words = ("flow", "--hole", "3 in", "--id", "2 in", "--pressure", "60 psi")
    message, hint = (
        "A hole 3 in wide does not fit in a pipe 2 in wide inside.",
        "Look at the two units; for a line cut through, ask for a severed line.",
    )
    code, output, errors = called(capsys, *words, "--json")
    error = {"field": "hole", "code": "hole_wider_than_pipe", "message": message, "hint": hint}
    assert (code, json.loads(output), errors) == (
        2,
        {"error": error, "errors": [error]},
        f"--hole: {message}\n{hint}\n",
    )
    assert called(capsys, *words) == (2, "", f"--hole: {message}\n{hint}\n")


def test_a_figure_takes_less_than_eight_tenths_of_a_second() -> None:
    # Of the processor, the best of three: by the clock it hangs on who else is at work on the machine.
    words = [sys.executable, "-m", "repairlog.cli", "figure", "flow", "--hole", "1/8 in", "--pressure", "60 psi"]
    best = 60.0
    for _ in range(3):
        before = os.times()
        subprocess.run(words, capture_output=True, check=True)
        after = os.times()
        best = min(best, after.children_user + after.children_system - before.children_user - before.children_system)
    assert best < 0.8


def test_a_figure_wakes_neither_the_book_nor_the_pages() -> None:
    look = (
        "import sys; from repairlog import cli; cli.run(['figure', 'flow', '--hole', '1 in', '--pressure', '1 psi']);"
        " print([m for m in ('sqlalchemy', 'flask', 'repairlog.records', 'repairlog.intake') if m in sys.modules])"
    )
    answer = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert answer.stdout.endswith("\n[]\n")
