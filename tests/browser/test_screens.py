"""The pictures of README.md are there, light enough to load, and the script that makes them still finds their pages."""

import re

from tests.house.reading import ROOT
from tests.makers.screens import FOLDER, PICTURES, made

NAMES = sorted(picture.name for picture in PICTURES)
HEAVIEST = 150_000
"""Bytes of one picture."""


def weights(folder):
    """By name, which pictures of a folder are heavier than that."""
    return {file.stem: size for file in folder.glob("*.png") if (size := file.stat().st_size) > HEAVIEST}


def test_every_picture_of_the_readme_is_there_and_is_made_by_the_script():
    shown = re.findall(r"!\[[^\]]+\]\(demo/screens/([a-z-]+)\.png\)", (ROOT / "README.md").read_text())
    assert sorted(shown) == sorted(file.stem for file in FOLDER.iterdir()) == NAMES
    assert weights(FOLDER) == {}


def test_the_script_finds_the_pages_that_the_pictures_show(chromium, tmp_path):
    titles = made(chromium, into=tmp_path / "screens")
    assert titles == {picture.name: picture.title for picture in PICTURES}
    assert sorted(file.stem for file in (tmp_path / "screens").iterdir()) == NAMES
    assert weights(tmp_path / "screens") == {}
