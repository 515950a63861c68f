"""The checkout holds what it should and names no machine."""

import re
import subprocess

import pytest

from tests.house import reading

TOP = {
    ".ci",
    ".gitignore",
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "config",
    "demo",
    "migrations",
    "pyproject.toml",
    "repairlog",
    "requirements.lock",
    "tests",
}
# Written in pieces, so that this file does not find itself.
MACHINE = re.compile(
    "|".join(
        [r"(?<![\w.-])/(?:work|root|home|tmp|opt|Users)" + "/", r"\.pyenv" + "/", "pypi" + r"\.org", "npmjs" + r"\."]
    )
)
ROOMS_WITHOUT_A_NOTION = {"utils", "util", "helpers", "helper", "common", "misc"}


@pytest.fixture(scope="module")
def tracked() -> list[str]:
    if not (reading.ROOT / ".git").exists():
        pytest.skip("not a git checkout")
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=reading.ROOT, capture_output=True, text=True, check=True)
    return [name for name in listed.stdout.split("\0") if name and (reading.ROOT / name).exists()]


def machines_named(text: str) -> list[str]:
    return [found.group() for found in MACHINE.finditer(text)]


def test_nothing_stands_at_the_top_but_what_the_drawing_shows(tracked):
    assert {name.partition("/")[0] for name in tracked} - TOP == set()


def test_no_file_names_a_machine_s_folder_or_a_registry(tracked):
    texts = {name: (reading.ROOT / name).read_bytes().decode("utf-8", "replace") for name in tracked}
    assert {name: found for name, text in texts.items() if (found := machines_named(text))} == {}


def test_no_room_is_named_after_no_notion(tracked):
    words = {name: set(re.split(r"[/._]", name)) & ROOMS_WITHOUT_A_NOTION for name in tracked}
    assert {name: found for name, found in words.items() if found} == {}


@pytest.mark.parametrize("pieces", [("see /ro", "ot/x"), ("'/ho", "me/a/b'"), ("from py", "pi.org")])
def test_a_machine_s_folder_would_be_seen(pieces):
    assert len(machines_named("".join(pieces))) == 1


def test_a_folder_of_the_house_is_no_machine_s():
    assert machines_named("repairlog/home/x, sqlite:////absolute/path.db, tests/work/tmp/") == []


def test_the_scripts_are_executable(tracked):
    assert [
        name for name in tracked if name.startswith(".ci/") and not (reading.ROOT / name).stat().st_mode & 0o100
    ] == []
