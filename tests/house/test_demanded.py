"""A skipped test is a line here and a failure where every test is demanded."""

import os
import subprocess
import sys

import pytest

from tests.house import reading

SKIPS = {
    "in the test": "import pytest\ndef test_a():\n    pytest.skip('nothing here')\n",
    "by a mark": "import pytest\n@pytest.mark.skip(reason='nothing here')\ndef test_a():\n    pass\n",
    "as a file": "import pytest\npytest.skip('nothing here', allow_module_level=True)\n",
    "by a fixture": (
        "import pytest\n@pytest.fixture\ndef it():\n    pytest.skip('nothing here')\ndef test_a(it):\n    pass\n"
    ),
}
REAL_LISTS = "from tests.makers.filings import folder\ndef test_a():\n    folder()\n"
EXPECTED_FAILURE = "import pytest\n@pytest.mark.xfail\ndef test_a():\n    raise ValueError\n"


def ran(folder, source, *, demanded):
    (folder / "test_it.py").write_text(source)
    (folder / "pytest.ini").write_text("[pytest]\n")
    environment = os.environ | {"PYTHONPATH": str(reading.ROOT), "REPAIRLOG_REQUIRE_ALL": demanded}
    words = [sys.executable, "-m", "pytest", "-p", "tests.house.demanded", "-p", "no:cacheprovider"]
    return subprocess.run(words, cwd=folder, env=environment, capture_output=True, text=True)


@pytest.mark.parametrize("source", SKIPS.values(), ids=SKIPS)
def test_a_skip_fails_where_every_test_is_demanded_and_nowhere_else(source, tmp_path):
    here, there = ran(tmp_path, source, demanded=""), ran(tmp_path, source, demanded="1")
    assert "1 skipped" in here.stdout
    assert there.returncode != 0
    assert "skipped, where REPAIRLOG_REQUIRE_ALL=1 demands every test" in there.stdout
    assert "nothing here" in there.stdout


def test_a_failure_that_is_expected_is_no_skip(tmp_path):
    assert ran(tmp_path, EXPECTED_FAILURE, demanded="1").returncode == 0


def test_real_lists_that_are_not_there_are_skipped_wherever_all_is_demanded(tmp_path, monkeypatch):
    monkeypatch.delenv("REPAIRLOG_FILINGS", raising=False)
    answer = ran(tmp_path, REAL_LISTS, demanded="1")
    assert (answer.returncode, "1 skipped" in answer.stdout) == (0, True)
