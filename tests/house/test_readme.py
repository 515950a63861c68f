"""README.md and the command line agree, in both directions."""

import re
import shlex
from collections.abc import Iterator

import click
import pytest

from repairlog import cli
from repairlog.cli import lazily
from tests.house import reading

README = (reading.ROOT / "README.md").read_text()


def leaves(path: tuple[str, ...], command: click.Command) -> Iterator[tuple[str, ...]]:
    """The full name of every command that does something."""
    if isinstance(command, lazily.StandIn):
        yield from leaves(path, lazily.loaded(command.meant))
    elif isinstance(command, click.Group):
        for name, inner in command.commands.items():
            yield from leaves((*path, name), inner)
    else:
        yield path


def shown(text: str) -> list[list[str]]:
    """The words after `repairlog` in each command line of the fenced blocks; lines that go on are joined."""
    fences = "\n".join(re.findall(r"^```sh\n(.*?)^```", text, flags=re.M | re.S)).replace("\\\n", " ")
    commands = [part for line in fences.splitlines() for part in line.split(" && ")]
    return [shlex.split(it)[1:] for it in commands if re.match(r"(\.venv/bin/)?repairlog\b", it.strip())]


def unknown_words(words: list[str]) -> list[str]:
    """What of a shown command line is no subcommand or option of ours."""
    command = cli.overview()
    while words and isinstance(command, click.Group) and not words[0].startswith("-"):
        inner = command.commands.get(words[0])
        if inner is None:
            return words[:1]
        command, words = lazily.loaded(inner.meant) if isinstance(inner, lazily.StandIn) else inner, words[1:]
    options = {name for parameter in command.params for name in parameter.opts} | {"--help"}
    return [word for word in words if word.startswith("--") and word not in options]


@pytest.mark.parametrize("name", cli.SUBCOMMANDS)
def test_every_command_stands_in_the_readme(name):
    missing = [
        " ".join(path) for path in leaves((name,), cli.load(name)) if " ".join(("repairlog", *path)) not in README
    ]
    assert missing == []


def test_every_command_line_of_the_readme_can_be_typed():
    assert len(shown(README)) >= 7
    assert {" ".join(words): wrong for words in shown(README) if (wrong := unknown_words(words))} == {}


def test_every_setting_stands_in_the_example_file():
    settings = set(re.findall(r"\bREPAIRLOG_[A-Z_]+\b", (reading.ROOT / "repairlog" / "settings.py").read_text()))
    example = set(re.findall(r"\bREPAIRLOG_[A-Z_]+\b", (reading.ROOT / "config" / "settings.example.toml").read_text()))
    assert settings == example != set()


def test_a_command_line_over_two_lines_is_read_as_one():
    text = "```sh\n.venv/bin/repairlog rebuild \\\n  --check\ncp a b && repairlog --help\n```\nrepairlog prose\n"
    assert shown(text) == [["rebuild", "--check"], ["--help"]]


def test_a_word_that_is_no_command_is_found():
    assert unknown_words(["rebiuld", "--check"]) == ["rebiuld"]
    assert unknown_words(["--hlep"]) == ["--hlep"]


def test_the_readme_s_first_line_of_commands_needs_python_alone():
    lines = [line for line in README.splitlines() if line.startswith("python3 -m venv .venv && ")]
    assert lines == [
        "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/repairlog demo",
        "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/pytest",
    ]
