"""One value as one line of canonical JSON (RFC 8785), over a domain so narrow that every writer of JSON agrees on it.

What may be sealed: objects with ASCII names, lists, text in Unicode form NFC, whole numbers that a binary64 holds
exactly, true and false. What is absent is left out: never null, never an empty text, list or object. Without
floating-point numbers and with ASCII names, RFC 8785 comes down to sorted names and its few escapes, which is what
orjson writes.
"""

from dataclasses import dataclass, replace
from typing import Final
from unicodedata import is_normalized

import orjson

LARGEST_INTEGER: Final = 2**53 - 1
"""The largest whole number that may be sealed, and its negative the smallest. Source: RFC 7493 (I-JSON) 2.2."""

DEEPEST: Final = 32
"""Levels of nesting that may be sealed. An entry needs five; the bound ends a value that contains itself."""

REASONS: Final = {
    "deep": f"it lies more than {DEEPEST} levels down; an entry holds values and lists of flat rows",
    "empty": "what is absent is left out, never written as null or as an empty text, list or object",
    "kind": "only text, whole numbers, true and false, lists and objects are sealed; write a measure as text",
    "large": "beyond 2^53 - 1 not every reader of JSON keeps a whole number exactly; write it as text",
    "name": "a name in an object is text of ASCII characters, at least one",
    "not_nfc": "the text is not in Unicode form NFC; normalise it first",
    "surrogate": "the text holds half of a surrogate pair, which UTF-8 cannot carry",
}


class NotSealable(ValueError):
    """A value that the journal cannot hold.

    `path` says where (`said.readings[2].value`; empty where the value itself is meant), `code` is one of `REASONS`,
    `found` the name of the type that came. The value is not told: it may be private.
    """

    def __init__(self, code: str, *, path: str, found: str) -> None:
        super().__init__(f"{path or 'the value'} ({found}) cannot be sealed: {REASONS[code]}")
        self.code = code
        self.path = path
        self.found = found


@dataclass(frozen=True, slots=True)
class _Fault:
    code: str
    found: str
    path: str = ""


def canonical(value: object) -> bytes:
    """The UTF-8 bytes of RFC 8785 for `value`: names sorted, no white space, the shortest escapes, no line end.

    `value`: dict, list, str, int and bool themselves, no subclass of them; the module says what is refused.
    Raises NotSealable with the first fault met. Source: RFC 8785 sections 3.2.2 and 3.2.3.
    """
    fault = _fault(value, 0)
    if fault is not None:
        raise NotSealable(fault.code, path=fault.path.removeprefix("."), found=fault.found)
    return orjson.dumps(value, option=orjson.OPT_SORT_KEYS)


def text_fault(text: str) -> str | None:
    """Why `text` cannot be sealed, as a code of `REASONS`; None where it can."""
    if not text:
        return "empty"
    if text.isascii():
        return None
    try:
        text.encode()
    except UnicodeEncodeError:
        return "surrogate"
    return None if is_normalized("NFC", text) else "not_nfc"


def _fault(value: object, depth: int) -> _Fault | None:
    # Runs for every value of every line. Types are compared, not asked with isinstance: True is an int, and a subclass
    # may be written as anything. A path is put together only on the way back from a fault, and ASCII text, most of a
    # line, is passed over by its holder's loop without a call: that takes a third off the whole.
    if type(value) is str:
        code = text_fault(value)
    elif type(value) is dict:
        return _fault_in_object(value, depth) if value and depth < DEEPEST else _emptiness_or_depth(value)
    elif type(value) is list:
        return _fault_in_list(value, depth) if value and depth < DEEPEST else _emptiness_or_depth(value)
    elif type(value) is int:
        code = None if -LARGEST_INTEGER <= value <= LARGEST_INTEGER else "large"
    elif value is None:
        code = "empty"
    else:
        code = None if type(value) is bool else "kind"
    return None if code is None else _Fault(code, type(value).__name__)


def _fault_in_object(value: dict[object, object], depth: int) -> _Fault | None:
    for name, item in value.items():
        if type(name) is not str or not name or not name.isascii():
            return _Fault("name", type(name).__name__, _step(name))
        if type(item) is str and item and item.isascii():
            continue
        fault = _fault(item, depth + 1)
        if fault is not None:
            return replace(fault, path=_step(name) + fault.path)
    return None


def _fault_in_list(value: list[object], depth: int) -> _Fault | None:
    for place, item in enumerate(value):
        if type(item) is str and item and item.isascii():
            continue
        fault = _fault(item, depth + 1)
        if fault is not None:
            return replace(fault, path=f"[{place}]{fault.path}")
    return None


def _emptiness_or_depth(value: dict[object, object] | list[object]) -> _Fault:
    return _Fault("deep" if value else "empty", type(value).__name__)


def _step(name: object) -> str:
    return f".{name}" if isinstance(name, str) and name.isascii() and name.isidentifier() else f"[{name!a}]"
