"""The command itself: quick to say what it can do, one sentence for a person's mistake."""

import subprocess
import sys
import time
from pathlib import Path

import click
import pytest

from repairlog import __version__, cli
from tests.makers.postgresql import free_port

HEAVY = ("alembic", "flask", "hypothesis", "pint", "psycopg", "sqlalchemy")


def spoken(*words: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "repairlog.cli", *words], capture_output=True, text=True, cwd=cwd)


def test_help_names_every_subcommand_with_its_line():
    answer = spoken("--help")
    assert (answer.returncode, answer.stderr) == (0, "")
    for name, it in cli.SUBCOMMANDS.items():
        assert f"  {name.ljust(8)} {it.help}\n" in answer.stdout


def test_help_takes_less_than_four_tenths_of_a_second():
    # The best of five, since the other core may be busy with other tests.
    best = 60.0
    for _ in range(5):
        began = time.perf_counter()
        spoken("--help")
        best = min(best, time.perf_counter() - began)
    assert best < 0.4


def test_help_imports_nothing_heavy():
    look = (
        f"import sys; from repairlog import cli; cli.run(['--help']); print([m for m in {HEAVY} if m in sys.modules])"
    )
    answer = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert answer.stdout.endswith("\n[]\n")


def test_version_is_the_package_s_own():
    assert spoken("--version").stdout == f"repairlog {__version__}\n"


@pytest.mark.parametrize("name", cli.SUBCOMMANDS)
def test_every_subcommand_of_the_table_is_there_and_asks_nothing_for_its_help(name, capsys):
    assert isinstance(cli.load(name), click.Command)
    assert cli.run([name, "--help"]) == 0
    assert capsys.readouterr().out.startswith(f"Usage: repairlog {name} ")


def test_an_unknown_subcommand_is_told_in_a_sentence_and_ends_2(capsys):
    assert cli.run(["rebiuld"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("Usage: repairlog [OPTIONS] COMMAND [ARGS]...\nNo such command 'rebiuld'.")


def test_no_subcommand_at_all_shows_the_overview_once_and_ends_2(capsys):
    assert cli.run([]) == 2
    assert capsys.readouterr().err.count("Usage:") == 1


ENDS = {
    "stopped": (click.Abort(), 2, "Stopped; nothing more was done.\n"),
    "mistaken": (click.ClickException("the area is not known"), 2, "the area is not known\n"),
    "no-file": (
        FileNotFoundError(2, "No such file or directory", "list.csv"),
        2,
        "list.csv: No such file or directory\n",
    ),
    "found-wrong": (click.exceptions.Exit(1), 1, ""),
    "done": (click.exceptions.Exit(0), 0, ""),
}
FAULT = ZeroDivisionError()


@click.command("trial")
@click.argument("end")
def trial(end: str) -> None:
    raise ENDS[end][0] if end in ENDS else FAULT


@pytest.fixture
def _with_trial(monkeypatch):
    monkeypatch.setitem(cli.SUBCOMMANDS, "trial", cli.Subcommand("tests.cli.test_entry:trial", "ends as it is told"))


@pytest.mark.usefixtures("_with_trial")
@pytest.mark.parametrize("end", ENDS)
def test_what_a_subcommand_raises_becomes_an_exit_code_and_one_sentence(end, capsys):
    _raised, code, told = ENDS[end]
    assert cli.run(["trial", end]) == code
    assert capsys.readouterr().err == told


@pytest.mark.usefixtures("_with_trial")
def test_a_subcommand_asked_wrongly_says_how_it_is_asked_and_ends_2(capsys):
    assert cli.run(["trial"]) == 2
    assert capsys.readouterr().err == "Usage: repairlog trial [OPTIONS] END\nMissing argument 'END'.\n"


@pytest.mark.usefixtures("_with_trial")
def test_a_fault_of_our_own_is_not_dressed_up_as_a_mistake_of_the_person():
    with pytest.raises(ZeroDivisionError):
        cli.run(["trial", "fault"])


INIT = "--operator,Eastmarsh,--area,Eastmarsh,--area-code,ES,--zone,Europe/Dublin,--elevation,0 m,--admin-name,D. O."


@pytest.mark.parametrize("words", [["journal", "head"], ["rebuild", "--check"], ["init", *INIT.split(",")]])
@pytest.mark.parametrize(
    ("kind", "told"),
    [
        (
            "no such kind",
            "“mysql://x/y” is no address of a database that RepairLog can open. Write it like sqlite:///FILE or ",
        ),
        ("not a database", "The database cannot be opened: file is not a database. "),
        ("nobody answers", "The database cannot be opened: connection failed: connection to server at"),
    ],
)
def test_a_database_that_cannot_be_opened_is_told_in_a_sentence_by_every_command(words, kind, told, tmp_path, capsys):
    (tmp_path / "letter.txt").write_text(
        "Dear Mr. Okoro, the pit at Quarry Lane is to be left open until Thursday." * 20
    )
    url = {
        "no such kind": "mysql://x/y",
        "not a database": f"sqlite:///{tmp_path}/letter.txt",
        "nobody answers": f"postgresql://nobody@127.0.0.1:{free_port()}/nothing",
    }[kind]
    assert cli.run([*words, "--database", url]) == 2
    assert capsys.readouterr().err.startswith(told)
