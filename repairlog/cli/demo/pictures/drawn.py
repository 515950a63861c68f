"""The kinds of picture that a demo shows, each drawn by a function of its own; no two seeds give the same one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from repairlog.cli.demo.pictures import things
from repairlog.cli.demo.pictures.paper import HIGH, WIDE, Color, Sheet, blank, developed, filled, grains, shade, soil

ASPHALT: Color = (92, 94, 98)
BRICK: Color = (158, 92, 74)
TAPES: tuple[Color, ...] = ((44, 46, 50), (196, 178, 62), (70, 92, 120))


def drawn(kind: str, *, seed: str) -> bytes:
    """A JPEG of that kind. Raises KeyError for one that nobody draws."""
    sheet = blank(f"{kind} {seed}")
    PICTURES[kind](sheet)
    return developed(sheet)


def _dig(sheet: Sheet) -> None:
    """A street opened: asphalt, the cut edges, the pipe at the bottom, the spoil and a cone beside."""
    filled(sheet, (0, 0, WIDE, HIGH), color=ASPHALT, towards=1.16)
    grains(sheet, (0, 0, WIDE, HIGH), color=ASPHALT, count=320, largest=7)
    left, top = sheet.near(190, 40), sheet.near(190, 30)
    right, bottom = left + sheet.near(540, 50), top + sheet.near(400, 30)
    soil(sheet, (left, top, right, bottom))
    sheet.draw.rectangle((left, top, right, top + 34), fill=shade(ASPHALT, 0.55))
    sheet.draw.rectangle((left, top + 34, right, top + 66), fill=(132, 124, 112))
    color = things.PIPES[sheet.chance.choice(("steel", "coated", "plastic"))]
    things.pipe(sheet, y=bottom - sheet.near(110, 20), thick=sheet.near(66, 14), color=color, left=left, right=right)
    heap = [(right + 20, HIGH), (right + 90, bottom - 120), (WIDE + 60, bottom - 40), (WIDE + 60, HIGH)]
    sheet.draw.polygon(heap, fill=(120, 94, 66))
    grains(sheet, (right + 60, bottom - 60, WIDE, HIGH), color=(120, 94, 66), count=90, largest=26)
    _cone(sheet, x=sheet.near(90, 20), y=sheet.near(560, 40))


def _cone(sheet: Sheet, *, x: int, y: int) -> None:
    orange: Color = (226, 104, 36)
    sheet.draw.polygon([(x - 64, y), (x - 12, y - 210), (x + 12, y - 210), (x + 64, y)], fill=orange)
    sheet.draw.polygon([(x - 44, y - 74), (x - 30, y - 128), (x + 30, y - 128), (x + 44, y - 74)], fill=(238, 238, 234))
    sheet.draw.rounded_rectangle((x - 88, y - 12, x + 88, y + 16), 8, fill=shade(orange, 0.8))


def _pipe(sheet: Sheet) -> None:
    """Pipe laid bare, with its rust and a rule beside it."""
    soil(sheet, (0, 0, WIDE, HIGH))
    y, thick = sheet.near(330, 30), sheet.near(150, 30)
    color = things.PIPES[sheet.chance.choice(("steel", "steel", "coated"))]
    things.pipe(sheet, y=y, thick=thick, color=color)
    things.rust(sheet, y=y, thick=thick, count=sheet.near(90, 40))
    things.rule(sheet, y=y + thick // 2 + sheet.near(70, 20))


def _clamp(sheet: Sheet) -> None:
    """A clamp bolted over the place, and tape wound on either side of it."""
    soil(sheet, (0, 0, WIDE, HIGH))
    y, thick, x = sheet.near(380, 30), sheet.near(140, 20), sheet.near(480, 60)
    color = things.PIPES["steel"]
    things.pipe(sheet, y=y, thick=thick, color=color)
    things.rust(sheet, y=y, thick=thick, count=24)
    wound = sheet.chance.choice(TAPES)
    for left in (x - 330, x + 150):
        things.tape(sheet, left=left, right=left + 180, y=y, thick=thick, color=wound)
    things.clamp(sheet, x=x, y=y, thick=thick)


def _tape(sheet: Sheet) -> None:
    """The repair wrapped from end to end."""
    soil(sheet, (0, 0, WIDE, HIGH))
    y, thick = sheet.near(360, 40), sheet.near(160, 20)
    things.pipe(sheet, y=y, thick=thick, color=things.PIPES["steel"])
    left = sheet.near(150, 40)
    wound = sheet.chance.choice(TAPES)
    things.tape(sheet, left=left, right=left + sheet.near(620, 40), y=y, thick=thick, color=wound)


def _coupling(sheet: Sheet) -> None:
    """Two ends of plastic pipe joined."""
    soil(sheet, (0, 0, WIDE, HIGH))
    y, thick = sheet.near(360, 40), sheet.near(110, 16)
    things.pipe(sheet, y=y, thick=thick, color=things.PIPES["plastic"])
    things.coupling(sheet, x=sheet.near(480, 70), y=y, thick=thick)
    things.rule(sheet, y=y + 130)


def _wall(sheet: Sheet) -> None:
    """Brickwork, and the ground before it."""
    filled(sheet, (0, 0, WIDE, 590), color=BRICK, towards=0.86)
    for row, y in enumerate(range(0, 590, 46)):
        sheet.draw.line((0, y, WIDE, y), fill=(190, 178, 166), width=5)
        for x in range(-60 if row % 2 else 0, WIDE, 120):
            sheet.draw.line((x, y, x, y + 46), fill=(190, 178, 166), width=5)
            of = shade(BRICK, sheet.chance.uniform(0.86, 1.12))
            sheet.draw.rectangle((x + 3, y + 3, x + 116, y + 42), fill=of)
    grass: Color = sheet.chance.choice(((104, 124, 70), (122, 116, 104), (224, 228, 232)))
    filled(sheet, (0, 590, WIDE, HIGH), color=grass, towards=0.82)
    grains(sheet, (0, 596, WIDE, HIGH), color=grass, count=120, largest=12)


def _meter_set(sheet: Sheet) -> None:
    """A meter set at a wall: riser, valve, regulator, meter, and the line into the house."""
    _wall(sheet)
    x, y = sheet.near(600, 30), sheet.near(290, 20)
    pipes: Color = (132, 138, 142)
    riser = x - 280
    things.upright(sheet, x=riser, thick=38, top=y - 140, bottom=HIGH - 90, color=pipes)
    things.pipe(sheet, y=y - 140, thick=38, color=pipes, left=riser - 18, right=x - 80)
    for at in (x - 90, x + 90):
        things.upright(sheet, x=at, thick=38, top=y - 160, bottom=y - 110, color=pipes)
    things.pipe(sheet, y=y - 160, thick=38, color=pipes, left=x + 72, right=WIDE)
    things.meter(sheet, x=x, y=y)
    things.valve(sheet, x=riser, y=y + 170, thick=36)


def _valve(sheet: Sheet) -> None:
    """A valve on its riser, close up."""
    _wall(sheet)
    x, y = sheet.near(430, 80), sheet.near(340, 40)
    things.upright(sheet, x=x, thick=sheet.near(72, 8), top=0, bottom=HIGH - 80, color=(132, 138, 142))
    things.valve(sheet, x=x, y=y, thick=62)


PICTURES: Mapping[str, Callable[[Sheet], None]] = MappingProxyType(
    {
        "clamp": _clamp,
        "coupling": _coupling,
        "dig": _dig,
        "meter_set": _meter_set,
        "pipe": _pipe,
        "tape": _tape,
        "valve": _valve,
    }
)
"""What can be drawn, by the name under which the demo's files ask for it."""
