"""What is wrong in a rulebook's text, with the place where it stands."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches

from repairlog.rulebooks.lines import Lines

Facts = Mapping[str, str | list[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """One thing wrong. `file`: its name; `line`: from 1. `rule`: which one, such as `due repair-2`, empty for the head
    of the file. `key`: where in it, empty for the whole. `got`, `expected`, `perhaps`: what came, what was expected,
    what was perhaps meant, each empty where there is none. `facts`: of a measure or an interval that cannot be read,
    for the sentence of `code`."""

    file: str
    line: int
    rule: str
    key: str
    code: str
    got: str = ""
    expected: str = ""
    perhaps: str = ""
    facts: Facts = field(default_factory=dict)


class RulebookWrong(Exception):
    """A rulebook cannot be used. `wrongs`: everything that is wrong in it."""

    def __init__(self, wrongs: Sequence[Wrong]) -> None:
        super().__init__("; ".join(f"{each.file}:{each.line}: {each.rule} {each.key} {each.code}" for each in wrongs))
        self.wrongs = tuple(wrongs)


@dataclass(frozen=True, slots=True, kw_only=True)
class At:
    """A place in a file: the head, a rule, or a key of one. Whatever is found wrong there goes into `wrongs`."""

    file: str
    lines: Lines
    wrongs: list[Wrong]
    kind: str = ""
    place: int = 0
    id: str = ""
    key: str = ""

    def inner(self, key: str) -> At:
        """The place of that key in this one."""
        name = f"{self.key}.{key}" if self.key else key
        return At(
            file=self.file,
            lines=self.lines,
            wrongs=self.wrongs,
            kind=self.kind,
            place=self.place,
            id=self.id,
            key=name,
        )

    def wrong(
        self,
        code: str,
        *,
        got: object = "",
        among: Collection[str] = (),
        expected: str = "",
        perhaps: str = "",
        facts: Facts | None = None,
    ) -> None:
        """Note one thing that is wrong here."""
        shown = _shown(got)
        self.wrongs.append(
            Wrong(
                file=self.file,
                line=self.lines.of(self.kind, place=self.place, key=self.key.partition(".")[0]),
                rule=" ".join(filter(None, (self.kind, self.id or (str(self.place) if self.kind else "")))),
                key=self.key,
                code=code,
                got=shown,
                expected=expected or ", ".join(among),
                perhaps=perhaps or close_to(shown, among),
                facts=facts or {},
            )
        )


def close_to(got: str, among: Collection[str]) -> str:
    """The name among those that was perhaps meant; empty where none is near."""
    folded = {each.casefold(): each for each in among}
    near = get_close_matches(got.casefold(), list(folded), n=1)
    return folded[near[0]] if near else ""


def _shown(got: object) -> str:
    return str(got)[:80].replace("\n", " ")
