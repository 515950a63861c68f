"""Reads the project's own Python files as syntax trees, for the tests that hold the house's habits."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def python_files(*folders: str) -> list[Path]:
    """Every Python file below these folders of the checkout, in order."""
    return sorted(file for folder in folders for file in (ROOT / folder).rglob("*.py"))


def place(file: Path) -> str:
    """The file as the checkout names it."""
    return file.relative_to(ROOT).as_posix()


def imported(source: str) -> set[str]:
    """The dotted names of all that the source imports, in functions too: `a.b` and `a.b.c` for `from a.b import c`."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def mentioned(source: str) -> set[str]:
    """The dotted names that the source mentions, resolved through its imports: `dt.now` is `datetime.datetime.now`."""
    tree = ast.parse(source)
    origins = dict(_origins(tree))
    found = {dotted(node) for node in ast.walk(tree) if isinstance(node, ast.Attribute | ast.Name)}
    heads = ((name.partition("."), name) for name in found if name)
    return {origins.get(head, head) + dot + rest for (head, dot, rest), _name in heads}


def dotted(node: ast.expr) -> str:
    """`a.b.c` for a chain of attributes on a name; empty for anything else."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute) and (before := dotted(node.value)):
        return f"{before}.{node.attr}"
    return ""


def called(source: str) -> list[tuple[int, str]]:
    """Line and last name of every call: `commit` for `connection.commit()`."""
    calls = (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call))
    return [(call.lineno, name_called(call)) for call in calls]


def name_called(call: ast.Call) -> str:
    """The last name of what is called; empty where it has none."""
    return getattr(call.func, "attr", None) or getattr(call.func, "id", "")


def functions(source: str) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Every function of the source, inner ones and methods too."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def _origins(tree: ast.Module) -> Iterator[tuple[str, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield (alias.asname, alias.name) if alias.asname else (alias.name.partition(".")[0],) * 2
        elif isinstance(node, ast.ImportFrom) and node.module:
            for alias in node.names:
                yield alias.asname or alias.name, f"{node.module}.{alias.name}"
