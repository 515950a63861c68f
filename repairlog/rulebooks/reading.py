"""One text of a rulebook, read by itself: its head and its own rules, or all that is wrong in it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from repairlog.rulebooks.forms import CITED, DROP, FORMS, HEAD, Form, made, read_keys
from repairlog.rulebooks.lines import lines_of
from repairlog.rulebooks.wrong import At, Wrong
from repairlog.trade.rulebook import Cited, Drop, Rule
from repairlog.trade.rulebook.kept import digest_of_text

_LINE_SAID = re.compile(r"\(at line (\d+)")
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A text that could be read. `digest`: SHA-256 of it, hex. `rules`: kind, rule and where it stands. `at`: the head;
    whatever is found wrong later goes to its `wrongs`."""

    file: str
    text: str
    digest: str
    id: str
    title: str
    authority: str
    status: str
    first: date | None
    last: date | None
    extends: tuple[str, ...]
    says: str
    rules: tuple[tuple[str, Rule, At], ...]
    drops: tuple[tuple[Drop, At], ...]
    at: At


def read_text(raw: bytes, *, file: str) -> tuple[Text | None, list[Wrong]]:
    """The text, None where it cannot be made out at all, and what is wrong in it. `file`: how it is named to people."""
    wrongs: list[Wrong] = []
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as problem:
        line = raw[: problem.start].count(b"\n") + 1
        return None, [Wrong(file=file, line=line, rule="", key="", code="not_utf8")]
    at = At(file=file, lines=lines_of(text), wrongs=wrongs)
    try:
        told = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as problem:
        return None, [_not_toml(str(problem), text=text, file=file)]
    return _text(told, text=text, at=at), wrongs


def _not_toml(said: str, *, text: str, file: str) -> Wrong:
    found = _LINE_SAID.search(said)
    line = int(found[1]) if found else text.count("\n") + 1
    return Wrong(file=file, line=line, rule="", key="", code="not_toml", got=said.partition(" (at ")[0])


def _text(told: Mapping[str, Any], *, text: str, at: At) -> Text | None:
    tables = {name: value for name, value in told.items() if name in (*FORMS, "drop")}
    head = read_keys(HEAD, told, at=at, known=frozenset((*FORMS, "drop")))
    id = told.get("id")
    named = id if isinstance(id, str) else ""
    if named and not _ID.fullmatch(named):
        at.inner("id").wrong("not_an_id", got=named)
    rules = [each for kind, value in tables.items() if kind != "drop" for each in _rules(kind, value, of=named, at=at)]
    drops = [(drop, place) for drop, place in _tables(DROP, "drop", tables.get("drop", []), at=at, rulebook=named)]
    _ids_once(rules)
    if head is None:
        return None
    return Text(
        file=at.file,
        text=text,
        digest=digest_of_text(text),
        id=head["id"],
        title=head["title"],
        authority=head["authority"],
        status=head["status"],
        first=head.get("first"),
        last=head.get("last"),
        extends=head.get("extends", ()),
        says=head.get("says", ""),
        rules=tuple(rules),
        drops=tuple(drops),
        at=at,
    )


def _rules(kind: str, value: object, *, of: str, at: At) -> list[tuple[str, Rule, At]]:
    return [(kind, rule, place) for rule, place in _tables(FORMS[kind], kind, value, at=at, rulebook=of, cites=True)]


def _tables(
    form: Form, kind: str, value: object, *, at: At, rulebook: str, cites: bool = False
) -> list[tuple[Any, At]]:
    """Each table of that kind that can be read, with its place; what cannot is noted."""
    if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
        at.inner(kind).wrong("not_a_list_of_tables", got=kind)
        return []
    found = []
    for place, told in enumerate(value, start=1):
        id = told.get("id", f"grade-{told.get('code', '')}".casefold() if kind == "grade" else "")
        named = id if isinstance(id, str) else ""
        here = At(file=at.file, lines=at.lines, wrongs=at.wrongs, kind=kind, place=place, id=named)
        if named and not _ID.fullmatch(named):
            here.inner("id").wrong("not_an_id", got=named)
        rule = _rule(form, told, at=here, rulebook=rulebook, cites=cites)
        if rule is not None:
            found.append((rule, here))
    return found


def _rule(form: Form, told: Mapping[str, object], *, at: At, rulebook: str, cites: bool) -> Any:
    if not cites:
        return made(form, told, at=at, rulebook=rulebook)
    own = frozenset(form.keys)
    cited_keys = frozenset(CITED.keys)
    cited: Cited | None = made(CITED, {k: v for k, v in told.items() if k in cited_keys}, at=at, rulebook=rulebook)
    if cited and cited.first and cited.last and cited.last < cited.first:
        at.inner("until").wrong("ends_before_it_begins", got=cited.last, expected=str(cited.first))
    more = {} if "id" in told or "code" not in own else {"id": at.id}
    rule = made(form, told, at=at, known=cited_keys, cited=cited, **more)
    return rule if cited else None


def _ids_once(rules: list[tuple[str, Rule, At]]) -> None:
    seen: dict[str, At] = {}
    for _, rule, at in rules:
        if rule.id in seen:
            line = at.lines.of(seen[rule.id].kind, place=seen[rule.id].place, key="")
            at.inner("id").wrong("id_twice", got=rule.id, expected=str(line))
        seen.setdefault(rule.id, at)
