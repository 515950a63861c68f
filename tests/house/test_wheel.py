"""The wheel is whole: installed where no checkout can be reached, it makes a book, fills a demo, and serves a page."""

import json
import os
import re
import subprocess
import sys
import urllib.parse
import urllib.request
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path

import pytest

from tests.house import reading
from tests.makers.demo import ADDRESS
from tests.makers.site import TOKEN


def kept() -> dict[str, str]:
    """The environment without anything that leads to the checkout."""
    leads = ("PYTHON", "VIRTUAL_ENV", "REPAIRLOG")
    return {key: value for key, value in os.environ.items() if not key.startswith(leads)}


def run(*words: str | Path, cwd: Path, **more: str) -> str:
    answer = subprocess.run(words, cwd=cwd, env=kept() | more, capture_output=True, text=True, stdin=subprocess.DEVNULL)
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
    assert "repairlog/shipped/demo/book/book.toml" in names
    assert {name.split("/")[3] for name in names if name.startswith("repairlog/shipped/demo/")} == {"book", "years"}
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


def test_the_installed_program_fills_a_demo_and_serves_its_pages(installed, tmp_path):
    demo = json.loads(
        run(installed / "repairlog", "demo", "--no-serve", "--years", "0", "--at", "here", "--json", cwd=tmp_path)
    )
    assert demo["database"] == f"sqlite:///{tmp_path}/here/demo.db"
    assert [area["code"] for area in demo["areas"]] == ["ES", "HF"]
    crew = demo["sign_ins"][0]
    with served(installed / "repairlog", demo["database"], cwd=tmp_path) as address:
        browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        form = {"name": crew["name"], "password": crew["password"]}
        form["csrf_token"] = TOKEN.search(read(browser, f"{address}/sign-in"))[1]
        read(browser, f"{address}/sign-in", data=form)
        leaks = read(browser, f"{address}/leaks")
    assert crew["name"] in leaks
    assert re.search(r"\bES-\d\d-\d{4}\b", leaks)


def read(browser: urllib.request.OpenerDirector, address: str, *, data: dict[str, str] | None = None) -> str:
    sent = urllib.parse.urlencode(data).encode() if data else None
    with browser.open(address, data=sent, timeout=60) as page:
        return page.read().decode()


@contextmanager
def served(program: Path, url: str, *, cwd: Path) -> Iterator[str]:
    """The address of a server of the installed program, ended by its own number."""
    words = (program, "serve", "--port", "0", "--database", url)
    pipes = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "text": True}
    process = subprocess.Popen(words, cwd=cwd, env=kept(), **pipes)
    try:
        line = process.stdout.readline()
        found = ADDRESS.search(line)
        assert found, line
        yield found.group()
    finally:
        process.terminate()
        process.communicate(timeout=60)
