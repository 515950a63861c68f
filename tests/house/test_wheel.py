"""The wheel is whole: installed where no checkout can be reached, it makes a book and verifies it."""

import json
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.house import reading

pytestmark = pytest.mark.xdist_group("wheel")


def run(*words: str | Path, cwd: Path, **more: str) -> str:
    kept = {
        key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "VIRTUAL_ENV", "REPAIRLOG"))
    }
    answer = subprocess.run(words, cwd=cwd, env=kept | more, capture_output=True, text=True, stdin=subprocess.DEVNULL)
    assert answer.returncode == 0, f"{words}: {answer.stdout}{answer.stderr}"
    return answer.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", folder, cwd=reading.ROOT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of an empty environment with the wheel in it, at the versions of the lock."""
    folder = tmp_path_factory.mktemp("installed")
    lock = (reading.ROOT / "requirements.lock").read_text()
    pins = re.findall(r"^([\w.-]+)(?:\[.*?\])?(==[^\\\n]+)", lock, flags=re.M)
    (folder / "constraint.txt").write_text("".join(f"{name}{rest}\n" for name, rest in pins))
    run(sys.executable, "-m", "venv", folder / "env", cwd=folder)
    pip = (folder / "env" / "bin" / "python", "-m", "pip", "install", "-q", "-c", folder / "constraint.txt")
    run(*pip, wheel, cwd=folder, PIP_CONSTRAINT="")
    return folder / "env" / "bin"


def test_the_wheel_brings_the_package_its_licence_and_nothing_else(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.partition("/")[0].partition("-")[0] for name in names} == {"repairlog"}
    assert "repairlog/shipped/config/settings.example.toml" in names
    assert "repairlog/shipped/migrations/script.py.mako" in names
    assert [name for name in names if name.endswith("licenses/LICENSE")] != []
    assert [name for name in names if "__pycache__" in name] == []


def test_the_installed_program_answers_from_inside_its_own_environment(installed, tmp_path):
    where = "from repairlog import shipped; print(shipped.migrations())"
    assert run(installed / "python", "-I", "-c", where, cwd=tmp_path).startswith(str(installed.parent))
    assert "Usage: repairlog" in run(installed / "repairlog", "--help", cwd=tmp_path)


def test_the_installed_program_makes_a_book_and_verifies_it(installed, tmp_path):
    database = ("--database", f"sqlite:///{tmp_path}/book.db")
    words = "--operator,Eastmarsh Gas,--area,Eastmarsh,--area-code,ES,--zone,America/New_York,--elevation,0 ft"
    run(installed / "repairlog", "init", *database, *words.split(","), "--admin-name", "M. Aldous", cwd=tmp_path)
    head = json.loads(run(installed / "repairlog", "journal", "head", *database, "--json", cwd=tmp_path))
    assert head["size"] > 0
    against = f"{head['size']}:{head['root']}"
    run(installed / "repairlog", "journal", "verify", *database, "--against", against, cwd=tmp_path)
    run(installed / "repairlog", "rebuild", "--check", *database, cwd=tmp_path)
