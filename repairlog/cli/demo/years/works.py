"""How a leak of the years is repaired: what leaks, the method that suits it, and the material that it takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from types import MappingProxyType
from typing import Any

from repairlog.cli.demo.years.network import Street


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """`source`: its fields. `cause`, `method`, `task`: of the repair. `item`: what is taken from the shelf. `shows`:
    what a picture of it shows."""

    source: Mapping[str, Any]
    cause: str
    method: str
    item: str
    task: str
    shows: str


METHODS = MappingProxyType(
    {
        "clamp": ("bolt-on clamp", "bolt-on clamp", "install clamp"),
        "joint": ("joint encapsulation", "joint sealant, two-part", "encapsulate joint"),
        "thread": ("joint remade with thread sealant", "thread sealant", "make threaded joint"),
        "coupling": ("coupling replaced", "PE coupling", "join PE"),
        "riser": ("riser replaced", "PE coupling", "join PE"),
        "section": ("pipe replaced, two couplings", "PE coupling", "join PE"),
    }
)
"""Method as written, the item that it uses, and the covered task."""

CAST_IRON_SERVICE = MappingProxyType({"material": "steel", "coating": "bare"})
"""Services off cast-iron mains are of steel; iron of that size was not laid (common practice, no source)."""

CUT = ("excavation_damage", "other_outside_force_damage")
"""Causes by which the pipe itself is cut open."""


def work_on(chance: Random, street: Street, *, cause: str) -> Work:
    """What leaks on that street by that cause, and what is done about it."""
    main = dict(street.main)
    if cause == "equipment_failure":
        return _at_the_meter(chance, main, cause=cause)
    part = {"part": chance.choice(("main", "service", "service"))}
    source = {**main, **part} | ({"size": chance.choice(("3/4 in", "1 in"))} if part["part"] == "service" else {})
    if main["material"] == "plastic_pe":
        return _on_plastic(source, cause=cause)
    if main["material"] == "cast_iron" and part["part"] == "service":
        source |= CAST_IRON_SERVICE
    elif main["material"] == "cast_iron":
        if cause != "corrosion_failure":
            return _work("joint", {**source, "component": "bell and spigot joint", "defect": "joint"}, cause=cause)
        return _work("clamp", {**source, "component": "pipe", "defect": "crack"}, cause=cause)
    if cause == "pipe_weld_or_joint_failure":
        return _work("thread", {**source, "component": "service tee", "defect": "thread"}, cause=cause)
    return _work("clamp", {**source, "component": "pipe", "defect": "hole"}, cause=cause)


def _on_plastic(source: Mapping[str, Any], *, cause: str) -> Work:
    """Polyethylene does not corrode; what does on such a street is the steel riser of a service."""
    if cause == "corrosion_failure":
        riser = {"part": "service", "component": "riser", "material": "steel", "size": "3/4 in", "defect": "hole"}
        return _work("riser", {**source, **riser}, cause=cause)
    if cause in CUT:
        return _work("section", {**source, "component": "pipe", "defect": "hole"}, cause=cause)
    return _work("coupling", {**source, "component": "mechanical coupling", "defect": "seal"}, cause=cause)


def _at_the_meter(chance: Random, main: Mapping[str, Any], *, cause: str) -> Work:
    component = chance.choice(
        ("lever valve", "outlet union", "regulator inlet thread", "insulating joint on the riser")
    )
    source = {"part": "meter_set", "component": component, "material": "steel", "size": "3/4 in", "defect": "thread"}
    return _work("thread", {**source, "pressure": main["pressure"]}, cause=cause)


def _work(method: str, source: Mapping[str, Any], *, cause: str) -> Work:
    name, item, task = METHODS[method]
    shows = "meter_set" if source["part"] == "meter_set" else "coupling" if task == "join PE" else method
    return Work(source=source, cause=cause, method=name, item=item, task=task, shows=shows)
