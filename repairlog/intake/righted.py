"""Understanding corrections and voids: a correction works out again every field that depends on what it changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from repairlog.entries.entry import Moments, Standing, written_truly
from repairlog.entries.fields import EntryKind
from repairlog.entries.kinds import DID, KINDS, RIGHTING, field_at
from repairlog.entries.naming import own_subject, target_of
from repairlog.entries.standing import GIVEN_BY_THE_DOOR, paths_unknown, standing, touches, with_changes
from repairlog.intake.complaint import Complaint
from repairlog.intake.known import Known
from repairlog.intake.said import Reading, Said, said_of
from repairlog.intake.understood import Understanding, put_when, understood_of
from repairlog.intake.when import moment_in

NOT_VOIDED = ("operator", "area")
"""What these open stands for good: everything else rests on it."""

RESTS_ON = {"pressure": "atmosphere", "gas": "lel_basis"}
"""What is understood once for a whole entry, by the quantity of the measures that are read by it."""


def righting_understood(
    said: Said, *, known: Known, moments: Moments, reading: Reading, chain: Sequence[Standing]
) -> Understanding:
    """What is made of a `corrected` or a `void`. `chain`: its target and all that puts that right, as sealed."""
    out = Understanding()
    target = target_of(said.said)
    raw = next(entry for entry in chain if entry.id == target)
    root = next(entry for entry in chain if entry.kind not in RIGHTING)
    zone = known.zone_of(own_subject(root.said))
    made_at = written_truly(said.written, moments)
    put_when(out.understood, moment_in(made_at, zone), stem="happened", zone=zone)
    if said.said["kind"] == "void":
        if KINDS[raw.kind].opens in NOT_VOIDED:
            reading.complain("entry", "not_to_be_voided", got=raw.kind)
        after = standing([*chain, _as_standing(said, index=max(entry.index for entry in chain) + 1)])
        left = next(entry for entry in after if entry.id == root.id)
        if left.void is None:
            _demand_readable(left, reading=reading)
            _demand_read_right(left, raw, after=after, known=known, moments=moments, reading=reading)
        return out
    _correction(out, said, raw, known=known, moments=moments, reading=reading, chain=chain)
    return out


def _demand_readable(left: Standing, *, reading: Reading) -> None:
    """A void that takes a correction away, or gives one back, leaves an entry that can still be read."""
    if unread := _unreadable(left, {}, position=0):
        reading.complain("entry", "leaves_unreadable", got=", ".join(dict.fromkeys(c.field for c in unread)))


def _demand_read_right(
    left: Standing, raw: Standing, *, after: Sequence[Standing], known: Known, moments: Moments, reading: Reading
) -> None:
    """A later correction was read with the one that goes or comes back: by its gas, or in its area's zone. What it
    says must be read the same without."""
    while raw.kind == "void":
        raw = next(entry for entry in after if entry.id == target_of(raw.said))
    later = [e for e in after if e.kind == "corrected" and e.void is None and e.index > raw.index]
    keys = {key[4:] for entry in later for key in entry.understood if key.startswith("now.")}
    if raw.kind != "corrected" or not keys or reading.complaints:
        return
    said, _ = said_of(_as_form(left, {}), 0)
    as_first = known.as_before(left.index)
    again = understood_of(said.said, known=as_first, moments=moments, reading=Reading(0)).understood
    if differ := sorted(key for key in keys - {"atmosphere"} if again.get(key) != left.understood.get(key)):
        reading.complain("entry", "leaves_misread", got=", ".join(differ))


def _unreadable(entry: Standing, private: Mapping[str, str], *, position: int) -> list[Complaint]:
    """What could not be read of an entry as it stands, if it came now with these private values."""
    form = _as_form(entry, private)
    _again, complaints = said_of(form, position)
    if not form["did"]:
        complaints.append(Complaint(entry=position, field="did", code="field_missing"))
    return [each for each in complaints if each.code != "field_missing" or each.field not in entry.private]


def _as_form(entry: Standing, private: Mapping[str, str]) -> dict[str, Any]:
    return {**entry.said, "did": list(entry.by.get("did", ())), **{p: v for p, v in private.items() if "." not in p}}


def _correction(
    out: Understanding,
    said: Said,
    raw: Standing,
    *,
    known: Known,
    moments: Moments,
    reading: Reading,
    chain: Sequence[Standing],
) -> None:
    if raw.kind == "void":
        reading.complain("entry", "void_is_not_corrected")
        return
    changes = said.said.get("changes", [])
    if not changes:
        reading.complain("changes", "field_missing")
    for path in paths_unknown(raw.kind, said.said):
        reading.complain("changes", "field_unknown", got=path, would_have=_fields_of(KINDS[raw.kind]))
    if reading.complaints:
        return
    now = next(entry for entry in standing(chain) if entry.id == raw.id)
    _demand_said_anew(said, now, chain=chain, reading=reading)
    hide_private(said, now, chain=chain)
    mine = _as_standing(said, index=max(entry.index for entry in chain) + 1)
    corrected = with_changes(now, mine)
    typed = {c["field"]: to for c in changes if (to := said.private.get(f"changes.{c['key']}.to"))}
    again = _understood_again(corrected, typed, known=known, moments=moments, reading=reading, chain=chain)
    if "units" in again:
        out.understood["units"] = again["units"]  # the table that the new measures were read with
    hangs = [touches(raw.kind, change["field"]) for change in changes]
    for key, value in again.items():
        differs = now.understood.get(key) != value
        if key not in GIVEN_BY_THE_DOOR and (differs or any(hang(key) for hang in hangs)):
            out.understood[f"now.{key}"] = value
    _put_what_measures_rest_on(out, raw, again)


def _put_what_measures_rest_on(out: Understanding, raw: Standing, again: Mapping[str, Any]) -> None:
    """A corrected measure brings the atmosphere or the LEL that it was read by, also where that stands already by
    another correction: a void may take that one away."""
    measured = {key[4:] for key in out.understood if key.startswith("now.")}
    quantities = {field.quantity for key in measured if (field := field_at(KINDS[raw.kind], key)) is not None}
    for quantity, name in RESTS_ON.items():
        if quantity in quantities and name in again and raw.understood.get(name) != again[name]:
            out.understood[f"now.{name}"] = again[name]


def _understood_again(
    corrected: Standing,
    private: Mapping[str, str],
    *,
    known: Known,
    moments: Moments,
    reading: Reading,
    chain: Sequence[Standing],
) -> Mapping[str, Any]:
    """The corrected entry read as if it came now: its complaints are those of the correction. `private`: the values
    that the correction brings for fields that stand beside the journal."""
    reading.complaints += _unreadable(corrected, private, position=reading.position)
    again, _ = said_of(_as_form(corrected, {}), reading.position)
    if reading.complaints:
        return {}
    if corrected.kind == "corrected":
        without = [entry for entry in chain if entry.id != corrected.id]
        inner = Reading(reading.position)
        done = righting_understood(again, known=known, moments=moments, reading=inner, chain=without)
        reading.complaints += inner.complaints
        return {key: value for key, value in done.understood.items() if key.startswith("now.")}
    as_first = known.as_before(corrected.index)
    return understood_of(again.said, known=as_first, moments=moments, reading=reading).understood


def hide_again(said: Said, chain: Sequence[Standing]) -> None:
    """Hide the private values of a correction that is in the journal already, as they were hidden when it came in."""
    mine = next((entry.index for entry in chain if str(entry.id) == said.said["id"]), None)
    before = [entry for entry in chain if mine is None or entry.index < mine]
    now = next((entry for entry in standing(before) if entry.id == target_of(said.said)), None)
    if now is not None and "changes" in said.said:
        hide_private(said, now, chain=before)


def hide_private(said: Said, target: Standing, *, chain: Sequence[Standing]) -> None:
    """A new value of a private field stands beside the journal, as the old one does; of a correction's own new value,
    too. `target`: what is corrected, as it stands; `chain`: what that puts right, if it is itself a correction."""
    kept = []
    renamed = {change["field"]: change.get("to", "") for change in said.said["changes"]}
    for change in said.said["changes"]:
        if "to" in change and _is_private(change["field"], target, chain=chain, renamed=renamed):
            said.private[f"changes.{change['key']}.to"] = change["to"]
            change = {name: value for name, value in change.items() if name != "to"}
        kept.append(change)
    said.said["changes"] = kept


def _demand_said_anew(said: Said, target: Standing, *, chain: Sequence[Standing], reading: Reading) -> None:
    """Where a correction is put right in the field that it speaks of, and one of the two fields is private, its value
    is to be said again: a private one stands nowhere in the journal, and another one is not hidden by being moved."""
    renamed = {change["field"]: change.get("to", "") for change in said.said["changes"]}
    for row, _, end in (path.rpartition(".") for path in renamed):
        value = f"{row}.to"
        if target.kind == "corrected" and end == "field" and value not in renamed:
            was, is_now = (_is_private(value, target, chain=chain, renamed=names) for names in ({}, renamed))
            if was != is_now:
                reading.complain(value, "field_missing")


def _is_private(path: str, of: Standing, *, chain: Sequence[Standing], renamed: Mapping[str, str]) -> bool:
    if of.kind != "corrected":
        field = field_at(KINDS[of.kind], path)
        return field is not None and field.private
    row, _, end = path.rpartition(".")
    if end != "to":
        return False
    inner = renamed.get(f"{row}.field") or of.said_at(f"{row}.field")
    target = next(entry for entry in chain if entry.id == target_of(of.said))
    return _is_private(inner, target, chain=chain, renamed={})


def _as_standing(said: Said, *, index: int) -> Standing:
    """The correction as it will stand, before anything is understood of it."""
    return Standing(
        index=index,
        said=said.said,
        understood={},
        by={},
        moments={},
        private=dict.fromkeys(said.private, "beside"),
    )


def _fields_of(kind: EntryKind) -> list[str]:
    rows = [f"{rows.name}.KEY.{each.name}" for rows in (*kind.rows, DID) for each in rows.fields]
    return [each.name for each in kind.fields] + rows
