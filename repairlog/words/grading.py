"""What readings call for, in sentences: the grade, the criterion, and what nobody answered."""

from __future__ import annotations

from collections.abc import Sequence
from zoneinfo import ZoneInfo

from repairlog.trade.grading import OWNER, AskedAfterVenting, CalledFor, Met, Nearly, Waited
from repairlog.trade.grading.vented import Moment
from repairlog.trade.rulebook import Cited
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.rulebooks.cited import mark_word

MOST_NEARLY = 2
"""Criteria nearly met that are told; those of the most hazardous grades."""


def lines(called: CalledFor, nearly: Sequence[Nearly]) -> list[str]:
    """What a person should read, line by line, the grade first."""
    if called.grade is None or called.by is None:
        told = [_("Nothing that was found calls for a grade by a criterion that can be measured.")]
    else:
        told = [_called(called.by), *_assumed(called.by)]
    told += [_nearly(each) for each in _worth_telling(called, nearly)]
    if called.not_judged:
        told.append(_("Readings in ppm-m and of carbon monoxide set no grade: take a reading with a probe."))
    return told


def decided_by(readings: Sequence[str]) -> list[str]:
    """Which readings decided, each as people say it; nothing where none did."""
    return [_("Decided by {readings}.").format(readings=_listed(readings))] if readings else []


def known_how(cited: Cited, *, confirmed: str) -> str:
    """How far the criterion is known. `confirmed`: the day on which an officer confirmed it, empty where nobody did."""
    if confirmed:
        return _("Confirmed on {day}.").format(day=day(confirmed))
    if cited.mark == "text_checked":
        return _("Its text was checked.")
    return _("Proposed: {mark}, and nobody here has confirmed it.").format(mark=mark_word(cited.mark))


def after_venting(waited: Waited) -> list[str]:
    """What a rule asks after venting before a lower grade, and what of it is lacking, as far as that is known."""
    asked = _("Before a lower grade wait {wait} after venting, then read again ({clause}).")
    return [asked.format(wait=waited.rule.wait, clause=waited.rule.cited.clause), _lacking(waited)]


def _lacking(waited: Waited) -> str:
    venting = waited.venting
    if venting.stopped is None:
        return _("Nobody said yet when venting stopped.")
    stopped = _stamp(venting.stopped, zone=venting.zone)
    if not venting.reads:
        return _("Venting stopped on {stopped}, and nobody has read since.").format(stopped=stopped)
    read = _stamp(venting.reads[-1], zone=venting.zone)
    if waited.lacks:
        told = _("Venting stopped on {stopped}, and the last reading, on {read}, came too soon.")
    else:
        told = _("Venting stopped on {stopped}, and the last reading was on {read}: the wait was kept.")
    return told.format(stopped=stopped, read=read)


def _stamp(moment: Moment, *, zone: ZoneInfo) -> str:
    on = day(moment.on.isoformat())
    return f"{on} {moment.at.astimezone(zone):%H:%M}" if moment.at else on


def not_said_after_venting(asked: AskedAfterVenting) -> list[str]:
    """What a rulebook leaves open about venting; nothing where it says that it leaves nothing open."""
    if asked.gap is None:
        return []
    told = _("This rulebook gives no figure. To be filled in by the operator: {what} ({clause}).")
    return [told.format(what=asked.gap.fill_in, clause=asked.gap.cited.clause)]


def _called(met: Met) -> str:
    criterion = met.criterion
    return _("Calls for grade {grade} at least: {says} ({clause}).").format(
        grade=criterion.calls_for, says=criterion.says, clause=criterion.cited.clause
    )


def _assumed(met: Met) -> list[str]:
    if not met.assumed:
        return []
    names = _listed([conditions().get(each, each) for each in met.assumed])
    return [_("Nobody answered, so it counts as so: {names}.").format(names=names)]


def _worth_telling(called: CalledFor, nearly: Sequence[Nearly]) -> list[Nearly]:
    """Those nearly met that would call for a more hazardous grade than the one called for."""
    return [each for each in nearly if called.grade is None or each.rank < called.grade.rank][:MOST_NEARLY]


def _nearly(nearly: Nearly) -> str:
    says, grade = nearly.criterion.says, nearly.criterion.calls_for
    if nearly.lacks == "only_at_4_4":
        return _("Nearly grade {grade}, met where 100 %LEL is 4.4 % gas: {says}.").format(grade=grade, says=says)
    if nearly.lacks == "reading":
        return _("Not grade {grade} by this reading: {says}.").format(grade=grade, says=says)
    lacks = conditions().get(nearly.lacks, nearly.lacks)
    return _("Grade {grade} if {lacks}: {says}.").format(grade=grade, lacks=lacks, says=says)


def conditions() -> dict[str, str]:
    """The conditions of criteria in words, by their codes."""
    return {
        "ignited": _("gas is burning"),
        "seen_heard_or_felt": _("the leak is seen, heard or felt"),
        "excavation_damage": _("somebody dug into the pipe"),
        "frost": _("there is frost in the ground"),
        "paved_wall_to_wall": _("the area is paved from wall to wall"),
        "not_paved_wall_to_wall": _("the area is not paved from wall to wall"),
        "likely_to_reach_outside_wall": _("gas is likely to reach the outside wall of a building"),
        "not_likely_to_reach_outside_wall": _("gas is not likely to reach the outside wall of a building"),
        "significant_migration": _("gas spreads far through the ground"),
        "probable_future_hazard": _("it is likely to become a hazard"),
        "public_or_property_endangered": _("people or property may be endangered"),
        OWNER: _("the substructure is not one made for gas"),
    }


def _listed(names: Sequence[str]) -> str:
    return "; ".join(names)
