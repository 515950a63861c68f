"""Things that lie in a trench or hang on a wall: pipe, clamp, tape, coupling, valve, meter."""

from __future__ import annotations

from repairlog.cli.demo.pictures.paper import STEEL, WIDE, Color, Sheet, filled, grains, shade

PIPES: dict[str, Color] = {"steel": (92, 84, 78), "coated": (58, 60, 64), "plastic": (222, 188, 58)}
RUST: Color = (142, 78, 42)


def pipe(sheet: Sheet, *, y: int, thick: int, color: Color, left: int = 0, right: int = WIDE) -> None:
    """A pipe from the left to the right, lit from above. `y`: its middle."""
    for line in range(thick):
        part = line / thick
        light = 1.25 - 2.2 * abs(part - 0.3) ** 1.4
        sheet.draw.line((left, y - thick // 2 + line, right, y - thick // 2 + line), fill=shade(color, max(0.4, light)))


def upright(sheet: Sheet, *, x: int, thick: int, top: int, bottom: int, color: Color) -> None:
    """A riser, lit from the left."""
    for line in range(thick):
        light = 1.25 - 2.2 * abs(line / thick - 0.3) ** 1.4
        at = x - thick // 2 + line
        sheet.draw.line((at, top, at, bottom), fill=shade(color, max(0.4, light)))


def rust(sheet: Sheet, *, y: int, thick: int, count: int) -> None:
    """Pits and rust along a pipe."""
    box = (60, y - thick // 3, WIDE - 90, y + thick // 3)
    grains(sheet, box, color=RUST, count=count, largest=34)
    grains(sheet, box, color=(62, 40, 30), count=count // 4, largest=14)


def clamp(sheet: Sheet, *, x: int, y: int, thick: int) -> None:
    """A band of sheet steel round the pipe, with its lugs and bolts on top."""
    half, over = sheet.near(120, 16), 14
    top = y - thick // 2 - over
    for line in range(thick + 2 * over):
        light = 1.28 - 1.9 * abs(line / (thick + 2 * over) - 0.28) ** 1.3
        sheet.draw.line((x - half, top + line, x + half, top + line), fill=shade(STEEL, max(0.45, light)))
    sheet.draw.rectangle((x - half, top, x + half, y + thick // 2 + over), outline=shade(STEEL, 0.5), width=3)
    lug = (x - half + 14, top - 30, x + half - 14, top + 10)
    sheet.draw.rounded_rectangle(lug, 10, fill=shade(STEEL, 0.82), outline=shade(STEEL, 0.5), width=3)
    for bolt in range(x - half + 44, x + half - 30, 62):
        sheet.draw.rectangle((bolt - 7, top - 62, bolt + 7, top - 20), fill=shade(STEEL, 0.68))
        sheet.draw.regular_polygon((bolt, top - 34, 19), 6, fill=shade(STEEL, 1.12), outline=shade(STEEL, 0.45))


def tape(sheet: Sheet, *, left: int, right: int, y: int, thick: int, color: Color) -> None:
    """Tape wound round the pipe in turns that lap over."""
    lean, step = 38, sheet.near(46, 6)
    for turn in range(left, right, step):
        edge = [(turn, y - thick // 2 - 6), (turn + step, y - thick // 2 - 6)]
        edge += [(turn + step + lean, y + thick // 2 + 6), (turn + lean, y + thick // 2 + 6)]
        sheet.draw.polygon(edge, fill=shade(color, sheet.chance.uniform(0.9, 1.14)), outline=shade(color, 0.62))
    sheet.draw.line((left, y - thick // 4, right, y - thick // 4), fill=shade(color, 1.6), width=5)


def coupling(sheet: Sheet, *, x: int, y: int, thick: int) -> None:
    """A coupling with a nut at either end."""
    body: Color = (70, 74, 78)
    pipe(sheet, y=y, thick=thick + 40, color=body, left=x - 130, right=x + 130)
    for at in (x - 150, x + 150):
        nut = (at - 38, y - thick // 2 - 34, at + 38, y + thick // 2 + 34)
        sheet.draw.rounded_rectangle(nut, 8, fill=shade(body, 1.2), outline=shade(body, 0.5), width=3)
        for ridge in range(nut[1] + 14, nut[3], 26):
            sheet.draw.line((nut[0] + 4, ridge, nut[2] - 4, ridge), fill=shade(body, 0.7), width=4)


def rule(sheet: Sheet, *, y: int) -> None:
    """A folding rule laid beside, so that sizes can be seen: marks, no figures."""
    left, color = sheet.near(120, 40), (232, 206, 92)
    sheet.draw.rectangle((left, y, left + 560, y + 34), fill=color, outline=shade(color, 0.6), width=2)
    for mark in range(14, 560, 14):
        deep = 20 if mark % 70 == 0 else 10
        sheet.draw.line((left + mark, y, left + mark, y + deep), fill=(60, 52, 30), width=2)


def valve(sheet: Sheet, *, x: int, y: int, thick: int) -> None:
    """A lever valve in a riser, its lever across or along as chance has it."""
    body: Color = (176, 148, 84)
    sheet.draw.rounded_rectangle(
        (x - thick, y - 52, x + thick, y + 52), 18, fill=body, outline=shade(body, 0.5), width=4
    )
    for edge in (y - 70, y + 46):
        box = (x - thick + 6, edge, x + thick - 6, edge + 26)
        sheet.draw.rectangle(box, fill=shade(body, 0.82), outline=shade(body, 0.5), width=3)
    red: Color = (186, 54, 44)
    across = sheet.chance.random() < 0.5
    lever = (x - 14, y - 20, x + 210, y + 20) if across else (x - 20, y - 14, x + 20, y + 190)
    sheet.draw.rounded_rectangle(lever, 16, fill=red, outline=shade(red, 0.6), width=3)
    sheet.draw.regular_polygon((x, y, 24), 6, fill=shade(STEEL, 1.1), outline=shade(STEEL, 0.5))


def meter(sheet: Sheet, *, x: int, y: int) -> None:
    """A meter with its dial and the regulator beside it."""
    case: Color = (188, 192, 190)
    filled(sheet, (x - 150, y - 120, x + 150, y + 190), color=case, towards=0.8)
    sheet.draw.rounded_rectangle((x - 150, y - 120, x + 150, y + 190), 26, outline=shade(case, 0.55), width=5)
    sheet.draw.rounded_rectangle(
        (x - 96, y - 84, x + 96, y + 4), 12, fill=(242, 244, 240), outline=(90, 92, 92), width=4
    )
    for dial in range(x - 62, x + 63, 62):
        sheet.draw.ellipse((dial - 24, y - 64, dial + 24, y - 16), outline=(60, 62, 62), width=3)
        hand = (dial + sheet.chance.randint(-16, 16), y - 40 - sheet.chance.randint(2, 16))
        sheet.draw.line((dial, y - 40, *hand), fill=(30, 30, 30), width=4)
    gray: Color = (128, 136, 140)
    sheet.draw.ellipse((x - 350, y - 210, x - 210, y - 70), fill=gray, outline=shade(gray, 0.55), width=4)
    sheet.draw.ellipse((x - 308, y - 168, x - 252, y - 112), fill=shade(gray, 1.15), outline=shade(gray, 0.6), width=3)
