"""Files and functions stay small enough to be read, and every test bites."""

import ast
from collections.abc import Callable

from tests.house import reading

FILE_LINES = 400
FUNCTION_LINES = 60
POSITIONAL = 2
BITING_CALLS = {"raises", "warns", "fail"}
BITING_NAMES = ("check_", "holds_")


def long_functions(source: str) -> list[str]:
    return [it.name for it in reading.functions(source) if it.end_lineno - it.lineno + 1 > FUNCTION_LINES]


def toothless_tests(source: str) -> list[str]:
    """Tests that nothing can make fail: no check in them, nor in a function of the same file that they call."""
    checking = {it.name for it in reading.functions(source) if checks(it)}
    tests = [it for it in reading.functions(source) if it.name.startswith("test_")]
    return [it.name for it in tests if it.name not in checking and not checking & calls(it)]


def checks(function: ast.FunctionDef) -> bool:
    """An assert, a pytest.raises, or a call of what is named after checking."""
    named = any(name in BITING_CALLS or name.startswith(BITING_NAMES) for name in calls(function))
    return named or any(isinstance(node, ast.Assert) for node in ast.walk(function))


def calls(function: ast.FunctionDef) -> set[str]:
    return {reading.name_called(node) for node in ast.walk(function) if isinstance(node, ast.Call)}


def too_many_positional(source: str) -> list[str]:
    """Functions for others that may be called with more than two arguments unnamed; `self` and `cls` aside."""
    return [it.name for it in reading.functions(source) if it.name[0] != "_" and _positional(it) > POSITIONAL]


def _positional(function: ast.FunctionDef) -> int:
    names = [argument.arg for argument in (*function.args.posonlyargs, *function.args.args)]
    return len([name for name in names if name not in {"self", "cls"}])


def found_in(*folders: str, by: Callable[[str], object]) -> dict[str, object]:
    files = {reading.place(file): by(file.read_text()) for file in reading.python_files(*folders)}
    return {place: it for place, it in files.items() if it}


def too_long(source: str) -> int:
    """How many lines a file has, where that is more than two notions need; else 0."""
    lines = len(source.splitlines())
    return lines if lines > FILE_LINES else 0


def test_no_file_is_longer_than_two_notions():
    assert found_in("repairlog", "tests", by=too_long) == {}


def test_no_function_is_longer_than_a_screen():
    assert found_in("repairlog", by=long_functions) == {}


def test_no_function_takes_more_than_two_arguments_unnamed():
    assert found_in("repairlog", by=too_many_positional) == {}


def test_every_test_can_fail():
    found = found_in("tests", by=toothless_tests)
    assert {place: names for place, names in found.items() if place.rpartition("/")[2].startswith("test_")} == {}


def test_a_file_of_four_hundred_lines_is_kept_and_of_four_hundred_and_one_is_found():
    assert (too_long("x\n" * 400), too_long("x\n" * 401)) == (0, 401)


def test_a_function_of_sixty_lines_is_kept_and_of_sixty_one_is_found():
    lines = "    pass\n"
    assert long_functions(f"def f():\n{lines * 58}    return\n") == []
    assert long_functions(f"def f():\n{lines * 59}    return\n") == ["f"]


def test_a_test_without_a_check_is_found():
    source = "def test_a():\n run()\ndef test_b():\n assert run()\ndef test_c():\n check_all()\ndef other():\n run()"
    assert toothless_tests(source) == ["test_a"]


def test_a_check_in_a_function_of_the_same_file_counts_and_only_there():
    source = "def same(a, b):\n assert a == b\ndef test_a():\n same(1, 2)\ndef test_b():\n other(1, 2)"
    assert toothless_tests(source) == ["test_b"]


def test_a_third_unnamed_argument_is_found():
    source = (
        "def f(a, b, c): ...\ndef _own(a, b, c): ...\ndef g(a, b, *, c): ...\nclass K:\n    def h(self, a, b): ...\n"
    )
    assert too_many_positional(source) == ["f"]
