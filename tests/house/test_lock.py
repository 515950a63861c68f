"""requirements.lock pins all that pyproject.toml asks for, by digest, and records no address."""

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.house import reading

LOCK = (reading.ROOT / "requirements.lock").read_text()
PROJECT = tomllib.loads((reading.ROOT / "pyproject.toml").read_text())["project"]
ASKED = [*PROJECT["dependencies"], *(line for extra in PROJECT["optional-dependencies"].values() for line in extra)]
PIN = re.compile(
    r"^(?P<name>[A-Za-z0-9._-]+)(\[[^]]+\])?==(?P<version>[^\s;]+)( ; [^\\]+)? \\\n(?P<hashes>( {4}--hash=.*\n)+)", re.M
)


def addresses(text: str) -> list[str]:
    """Lines that name a host, an index or a folder."""
    return [line for line in text.splitlines() if re.search(r"https?:|index-url|find-links|[/@]|\\(?!$)", line)]


def pins() -> dict[str, set[str]]:
    """Each pinned name and its versions: one, or one a range of Pythons."""
    found: dict[str, set[str]] = {}
    for pin in PIN.finditer(LOCK):
        found.setdefault(canonicalize_name(pin["name"]), set()).add(pin["version"])
    return found


def test_the_lock_records_no_address():
    assert addresses(LOCK) == []


@pytest.mark.parametrize("line", ["--index-url x", "a @ b", "# via -r /srv/a.in", "a==1 --find-links x", "http://x"])
def test_an_address_would_be_seen(line):
    assert addresses(line) == [line]


def test_every_line_is_a_pin_a_digest_or_a_comment():
    assert re.sub(r"^ +#.*\n", "", PIN.sub("", LOCK), flags=re.M) == ""


@pytest.mark.parametrize("line", ASKED)
def test_what_the_project_asks_for_is_pinned_within_what_it_asks(line):
    asked = Requirement(line)
    versions = pins()[canonicalize_name(asked.name)]
    assert versions
    assert all(version in asked.specifier for version in versions)
