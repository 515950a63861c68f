"""The codes of rulebooks in words."""

from __future__ import annotations

from repairlog.words import _


def plain(code: str) -> str:
    """A code's word; one that is its own word with its blanks back; empty for none."""
    own = {
        "gas_associated": _("gas-associated"),
        "other": _("not gas-associated"),
        "paved_wall_to_wall": _("paved from wall to wall"),
        "not_paved_wall_to_wall": _("not paved from wall to wall"),
        "seen_heard_or_felt": _("seen, heard or felt"),
        "replacement_planned": _("the pipe is to be replaced"),
        "residual_gas": _("gas is left in the soil"),
        "plastic_pipe": _("the pipe is plastic"),
        "temporary_repair": _("the repair is temporary"),
        "downgraded_without_repair": _("it was given a lower grade without a repair"),
        "owner_not_there": _("neither the owner nor another adult is there"),
        "not_our_gas": _("the gas is another's"),
        "steel_30_percent_smys": _("steel at 30 % of SMYS or more"),
        "steel_below_30_percent_smys": _("steel below 30 % of SMYS"),
    }
    return own.get(code, code.replace("_", " "))


def task_word(task: str) -> str:
    """What is to be done; KeyError for an unknown task."""
    return {
        "act": _("Act, until the hazard is gone"),
        "repair": _("Repair"),
        "permanent_repair": _("Repair for good"),
        "re_evaluate": _("Look at it again"),
        "follow_up": _("Look after the repair"),
        "tell_fire_department": _("Tell the fire department"),
        "tell_police": _("Tell the police"),
        "tell_owner": _("Tell the owner"),
        "letter_to_owner": _("Write to the owner"),
        "review": _("A supervisor's review"),
    }[task]


def counted_word(start: str) -> str:
    """From which day it runs; KeyError for an unknown code."""
    return {
        "reported": _("the report"),
        "found": _("the day it was found"),
        "graded": _("its grading"),
        "upgraded": _("the higher grade"),
        "downgraded": _("the lower grade"),
        "repaired": _("the repair"),
        "temporarily_repaired": _("the temporary repair"),
        "looked_at": _("the last look at it"),
        "told": _("the moment dispatch was told"),
    }[start]
