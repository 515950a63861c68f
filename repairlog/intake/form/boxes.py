"""The box of a field: which native control asks for it, and what stands around it. What was typed is kept as typed."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from datetime import date
from typing import Any

from wtforms import Field as Box
from wtforms import FieldList, HiddenField, SelectField, StringField, TextAreaField
from wtforms.fields.choices import SelectChoice  # type: ignore[attr-defined]  # newer than its stubs
from wtforms.validators import InputRequired, Length
from wtforms.widgets import TextInput

from repairlog.entries.fields import Field
from repairlog.words import _, boxes, codes

Choices = Sequence[tuple[str, str]]
"""What may be chosen: the value, and what is shown for it."""

_DAY_OF_CALENDAR = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", re.ASCII)
_PICKED = re.compile(r"(?P<day>\S*) ?(?P<hour>[0-9]{2}:[0-9]{2}(?::[0-9]{2})?)?(?: (?P<offset>[+-][0-9]{2}:[0-9]{2}))?")


class Asked:
    """Marks a box with who asks for it, by name and in words; a form says so beside the box. It looks at nothing."""

    def __init__(self, by: Sequence[str]) -> None:
        self.field_flags = {"asked_by": tuple(by), "asked": boxes.asked_by(by)} if by else {}

    def __call__(self, _form: object, _box: object) -> None:
        """What a library's validator is; nothing is wrong with a box left empty."""


class DayBox(StringField):
    """A day, from a native picker; a text that no picker would show is left standing as text."""

    def __call__(self, **around: object) -> Any:
        return TextInput("date" if is_day_or_empty(self.data or "") else "text")(self, **around)


class WhenBox(StringField):
    """A day, and its hour where that is known: two native pickers of one name, which together are one text. A third
    one, of the offset, stands beside them in the hour that clocks repeat."""

    def process_formdata(self, valuelist: list[Any]) -> None:
        self.data = " ".join(part for part in map(str.strip, valuelist) if part)

    @property
    def picked(self) -> dict[str, str] | None:
        """Day, hour and offset, each perhaps empty; None where pickers cannot show what was typed."""
        match = _PICKED.fullmatch(self.data or "")
        if match is None or not is_day_or_empty(match["day"]):
            return None
        return {name: part or "" for name, part in match.groupdict().items()}


class MeasureBox(StringField):
    """A measure as people say it; the unit is typed with it, so the keyboard has letters."""


class TouchBox(StringField):
    """A text that is mostly one of a few known ones (`known`), each a touch; any other is typed. Of a touch and a text
    that came together the touch counts, as the page says by hiding the text."""

    def __init__(self, *args: Any, known: Choices = (), **around: Any) -> None:
        super().__init__(*args, **around)
        self.known = known

    def process_formdata(self, valuelist: list[Any]) -> None:
        self.data = next((text for text in map(str.strip, valuelist) if text), "")

    @property
    def other(self) -> str:
        """What is typed and none of the known ones."""
        return "" if self.data in dict(self.known) else self.data or ""


class ChoiceBox(SelectField):
    """One of the choices; what was chosen before and stands no longer among them is shown as it was."""

    def iter_choices(self) -> Any:
        offered: list[Any] = list(super().iter_choices())
        yield from offered
        if self.data and not any(each.selected for each in offered):
            yield offered[0]._replace(value=self.data, label=self.data, selected=True)


def is_day_or_empty(text: str) -> bool:
    """Whether a native picker of days can show it."""
    if not text:
        return True
    try:
        return _DAY_OF_CALENDAR.fullmatch(text) is not None and bool(date.fromisoformat(text))
    except ValueError:
        return False


def box_of(of: Field, *, choices: Choices | None, label: str = "") -> Any:
    """The box of a declared field. `choices`: what may be chosen, where the page says it; a code brings its own.
    `label`: what stands above it, where the page says it. Raises ValueError for a field that only choices can ask for,
    without any said."""
    around = _around(of, label)
    if of.kind == "code" or choices is not None:
        offered = choices if choices is not None else [(code, codes.word(code)) for code in of.codes]
        return ChoiceBox(**around, choices=_to_choose(offered))
    if of.kind in ("ref", "entry", "hole"):
        raise ValueError(f"the page says no choices for the field {of.name!r}: give them, or leave the field out")
    return _typed(of, around)


def touch_box_of(of: Field, *, known: Choices, label: str = "") -> Any:
    """The box of a text that is mostly one of these and may be any other. `label`: as `box_of` takes it."""
    around = _around(of, label)
    return TouchBox(**{**around, "validators": [*around["validators"], Length(max=of.longest)]}, known=known)


def offer(box: Box, choices: Choices) -> None:
    """Have a box of choices offer these instead of its own."""
    box.choices = _to_choose(choices)  # type: ignore[attr-defined]


def say_who_asks(form: Iterable[Box], *, among: Collection[str]) -> None:
    """Have the boxes of a form say which of these authorities ask for them, and note that one does (`asked_here`)."""
    for box in form:
        if isinstance(box, FieldList):
            for row in box:
                say_who_asks(row.form, among=among)
        elif by := [each for each in box.flags.asked_by or () if each in among]:
            box.flags.asked, box.flags.asked_here = boxes.asked_by(by), True
        else:
            box.flags.asked = ""


def _around(of: Field, label: str) -> dict[str, Any]:
    return {
        "label": label or boxes.label(of.says),
        "validators": [InputRequired()] if of.required else [Asked(of.asked_by)],
    }


def _to_choose(choices: Choices) -> list[Any]:
    """Nothing first: what nobody chose is not chosen."""
    return [SelectChoice(value, label) for value, label in (("", _("Choose")), *choices)]


def _typed(of: Field, around: dict[str, Any]) -> Any:
    if of.kind == "when":
        return WhenBox(**around)
    if of.kind == "day":
        return DayBox(**around)
    if of.kind == "text" and of.longest >= boxes.LONG_TEXT:
        # a paste is not cut off: what is too long is told, and still stands there
        said = boxes.what_becomes_of_private() if of.private else boxes.what_becomes_of_text()
        return TextAreaField(**around, description=said)
    around["validators"] = [*around["validators"], Length(max=of.longest)]
    if of.kind == "measure":
        said = boxes.how_said(of.quantity)
        return MeasureBox(**around, description=said, render_kw={"autocapitalize": "none", "spellcheck": "false"})
    if of.kind == "whole":
        return StringField(**around, render_kw={"inputmode": "numeric"})
    return StringField(**around, description=boxes.what_becomes_of_private() if of.private else "")


def hidden() -> Any:
    """A box that nobody sees: an id, a row's key."""
    return HiddenField()
