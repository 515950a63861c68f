"""What a picture is drawn on: a sheet with its chance, the ground that fills it, and how it becomes a small file."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from random import Random

from PIL import Image, ImageDraw, ImageFilter

WIDE, HIGH = 960, 720
"""Pixels in which it is drawn; half of them each way are kept, so that edges come out smooth."""

Color = tuple[int, int, int]
SOILS: tuple[Color, ...] = ((126, 96, 66), (112, 88, 64), (140, 108, 78), (104, 92, 78))
STEEL: Color = (150, 156, 160)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A picture while it is drawn. `chance`: what makes two of one kind differ."""

    image: Image.Image
    draw: ImageDraw.ImageDraw
    chance: Random

    def near(self, value: int, by: int) -> int:
        """That number, more or less."""
        return value + self.chance.randint(-by, by)


def blank(seed: str) -> Sheet:
    """An empty sheet; the same seed always draws the same."""
    image = Image.new("RGB", (WIDE, HIGH), (200, 200, 196))
    return Sheet(image, ImageDraw.Draw(image), Random(seed))  # noqa: S311 - a drawing, no secret


def shade(color: Color, by: float) -> Color:
    """The color lighter (above 1) or darker (below 1)."""
    red, green, blue = (max(0, min(255, round(each * by))) for each in color)
    return (red, green, blue)


def filled(sheet: Sheet, box: tuple[int, int, int, int], *, color: Color, towards: float) -> None:
    """A box of that color that runs, from its top to its bottom, to another shade of it."""
    left, top, right, bottom = box
    for y in range(top, bottom, 4):
        part = (y - top) / max(1, bottom - top)
        sheet.draw.rectangle((left, y, right, min(y + 4, bottom)), fill=shade(color, 1 + (towards - 1) * part))


def grains(sheet: Sheet, box: tuple[int, int, int, int], *, color: Color, count: int, largest: int) -> None:
    """Stones and crumbs of that color in a box."""
    left, top, right, bottom = box
    for _each in range(count):
        x, y = sheet.chance.randint(left, right), sheet.chance.randint(top, bottom)
        size = sheet.chance.randint(2, largest)
        of = shade(color, sheet.chance.uniform(0.72, 1.3))
        sheet.draw.ellipse((x, y, x + size, y + size * sheet.chance.uniform(0.5, 0.9)), fill=of)


def soil(sheet: Sheet, box: tuple[int, int, int, int]) -> Color:
    """Ground that was dug open; its color."""
    color = sheet.chance.choice(SOILS)
    filled(sheet, box, color=color, towards=0.66)
    grains(sheet, box, color=color, count=260, largest=22)
    return color


def developed(sheet: Sheet) -> bytes:
    """The picture as a small JPEG, a little soft as a telephone makes it in the rain."""
    light = sheet.chance.uniform(0.9, 1.06)
    small = sheet.image.resize((WIDE // 2, HIGH // 2), Image.Resampling.BOX).filter(ImageFilter.GaussianBlur(0.5))
    out = BytesIO()
    small.point(lambda level: min(255, round(level * light))).save(out, "JPEG", quality=72)
    return out.getvalue()
