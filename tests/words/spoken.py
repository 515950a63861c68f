"""Every code that the source can raise, found in its syntax trees, so that none is without its sentence."""

import ast
from collections.abc import Iterator

from tests.house import reading


def gap_codes() -> set[str]:
    """Codes of gaps: what `Gap` is made with, and what a function named `_code...` gives back."""
    trees = _trees("repairlog/trade")
    made = {text for tree in trees for call in _calls(tree, "Gap") for text in _named(call, "code")}
    functions = (node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    given = {
        text
        for function in functions
        if function.name.startswith("_code")
        for node in ast.walk(function)
        if isinstance(node, ast.Return) and node.value
        for text in _answers(node.value)
    }
    return (made | given) - {""}


def ending_reasons() -> set[str]:
    """What an ending may lack: the codes that `trade.ending` puts into `why_not`."""
    (tree,) = _trees("repairlog/trade/ending.py")
    words = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    return {word for word in words if word.startswith(("no_attempt", "attempt_", "source_"))} - {"source_added"}


def complaint_codes(of: str = "") -> set[str]:
    """Codes of complaints about a call: of `intake`, of pages and of `units`; of one file of `intake` where that is
    named."""
    intake, units = _trees(f"repairlog/intake/{of}"), _trees("repairlog/units") if not of else []
    intake += _trees("repairlog/web") if not of else []
    found = {text for tree in intake for call in _calls(tree, "complain") for text in _answers(call.args[1])}
    found |= {text for tree in intake for call in _calls(tree, "Complaint") for text in _named(call, "code")}
    found |= {text for tree in intake for call in _calls(tree, "WhenUnclear") for text in _answers(call.args[0])}
    return found | {text for tree in units for call in _calls(tree, "complaint") for text in _answers(call.args[0])}


def refusal_codes() -> set[str]:
    """Codes of what a whole call is not recorded for: the `code` of exceptions that a call can meet on its way."""
    trees = [tree for room in ("access", "entries", "intake", "records") for tree in _trees(f"repairlog/{room}")]
    not_ready = {text for tree in trees for call in _calls(tree, "NotReady") for text in _answers(call.args[0])}
    classes = (node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.ClassDef))
    return not_ready | {
        text
        for each in classes
        for line in each.body
        if isinstance(line, ast.Assign) and any(getattr(target, "id", "") == "code" for target in line.targets)
        for text in _answers(line.value)
    }


def _trees(place: str) -> list[ast.Module]:
    at = reading.ROOT / place
    return [ast.parse(file.read_text()) for file in ([at] if at.is_file() else sorted(at.rglob("*.py")))]


def _calls(tree: ast.Module, name: str) -> Iterator[ast.Call]:
    calls = (node for node in ast.walk(tree) if isinstance(node, ast.Call))
    return (call for call in calls if reading.name_called(call) == name)


def _named(call: ast.Call, name: str) -> list[str]:
    return [text for word in call.keywords if word.arg == name for text in _answers(word.value)]


def _answers(value: ast.expr) -> list[str]:
    """The texts that an expression can be: a constant, or either side of a choice."""
    if isinstance(value, ast.IfExp):
        return _answers(value.body) + _answers(value.orelse)
    return [value.value] if isinstance(value, ast.Constant) and isinstance(value.value, str) else []
