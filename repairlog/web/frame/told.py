"""What a form's page says beside its boxes: complaints, how measures were heard, what may be kept as written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from wtforms import Form

from repairlog import units
from repairlog.intake import Complaint
from repairlog.intake.form import Heard, boxes_by_path
from repairlog.words import _, complaints, measures


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that could not be read. `id`: of the box on the page, empty where it has none; `label`: what stands
    above that box."""

    id: str
    label: str
    message: str
    hint: str


@dataclass(frozen=True, slots=True)
class Keep:
    """A measure that nobody could read may be kept as it was written. `name`, `value`: of the box to tick."""

    name: str
    value: str
    ticked: bool


@dataclass(slots=True)
class Told:
    """All of it, by the id of the box. `wrongs`: what could not be read, in its order. `heard`: how measures were read.
    `keeps`: what may be kept as written. `offsets`: which of two hours, where one comes twice. `focus`: the box to go
    to."""

    wrongs: list[Wrong] = field(default_factory=list)
    heard: dict[str, str] = field(default_factory=dict)
    keeps: dict[str, Keep] = field(default_factory=dict)
    offsets: dict[str, list[tuple[str, str]]] = field(default_factory=dict)
    focus: str = ""

    def of(self, id: str) -> list[Wrong]:
        """What is wrong with that box."""
        return [wrong for wrong in self.wrongs if wrong.id == id]

    def within(self, id: str) -> bool:
        """Whether anything is wrong in that list, or somebody is to go there."""
        return self.focus.startswith(id) or any(wrong.id.startswith(id) for wrong in self.wrongs)


def in_page_order(told: Told, forms: Iterable[Form]) -> None:
    """Put what is wrong in the order in which its boxes stand on the page; what has no box first."""
    ids = [box.id for form in forms for box in boxes_by_path(form).values()]
    told.wrongs.sort(key=lambda wrong: ids.index(wrong.id) if wrong.id in ids else -1)


def tell_heard(told: Told, form: Form, *, by_path: Mapping[str, Heard], complain: bool) -> None:
    """Tell how each measure of a form was heard. `complain`: say of those that nobody could read what is wrong, where
    nothing is said of them yet."""
    boxes = boxes_by_path(form)
    ticked = form["kept_as_text"].data or [] if "kept_as_text" in form else []
    for path, each in by_path.items():
        box = boxes.get(path)
        if box is None:
            continue
        if isinstance(each, units.Measure):
            told.heard[box.id] = measures.read_back(each)
        else:
            if each.code != "too_long":
                told.keeps[box.id] = Keep(form["kept_as_text"].name, path, ticked=path in ticked)
            if complain and path not in ticked and not told.of(box.id):
                told.wrongs.append(Wrong(box.id, _label(boxes, path), *measures.sentence(each.code, each.facts)))


def tell_complaints(told: Told, forms: Sequence[Sequence[Form]], *, complaints_made: Iterable[Complaint]) -> None:
    """Tell each complaint beside its box. `forms`: those of each entry of the call, in its order; of boxes of one path
    that of the first form."""
    boxes = [{path: box for form in reversed(of) for path, box in boxes_by_path(form).items()} for of in forms]
    for complaint in complaints_made:
        of_form = boxes[complaint.entry] if complaint.entry < len(boxes) else {}
        box = of_form.get(complaint.field)
        shown = box is not None and box.type != "HiddenField"
        if box is not None and complaint.code == "hour_comes_twice":
            told.offsets[box.id] = _two_hours(complaint)
        label = _label(of_form, complaint.field) if shown else ""
        sentence = complaints.sentence(_in_words(complaint, of_form))
        told.wrongs.append(Wrong(box.id if box is not None and shown else "", label, *sentence))


def _label(boxes: Mapping[str, Any], path: str) -> str:
    """What stands above the box at that path, with its list and the number of its row."""
    box = boxes[path]
    if "." not in path:
        return str(box.label.text)
    rows: Any = boxes[path.partition(".")[0]]
    row = box if box.type == "FormField" else boxes[path.rpartition(".")[0]]
    where = _("{rows}, row {number}").format(rows=rows.label.text, number=list(rows).index(row) + 1)
    return where if box is row else f"{where}: {box.label.text}"


def _two_hours(complaint: Complaint) -> list[tuple[str, str]]:
    first, second = list(complaint.facts["would_have"])
    return [
        (first, _("The first time: before the clocks were put back ({offset})").format(offset=first)),
        (second, _("The second time: after the clocks were put back ({offset})").format(offset=second)),
    ]


def _in_words(complaint: Complaint, boxes: Mapping[str, Any]) -> Complaint:
    """The complaint with what a screen shows for codes and names of fields."""
    wanted = complaint.facts.get("would_have", [])
    if complaint.code == "not_one_of" and complaint.field in boxes:
        shown = {each.value: each.label for each in boxes[complaint.field].choices or ()}
    elif complaint.code == "needs_one_of":
        shown = {name: boxes[f"{complaint.field}.{name}"].label.text for name in wanted}
    else:
        return complaint
    return replace(complaint, facts={**complaint.facts, "would_have": [shown.get(each, each) for each in wanted]})
