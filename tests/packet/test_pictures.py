"""The README's pictures: there, small, on a ground of their own, and asking for nothing outside."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

PICTURES = Path(__file__).parents[2] / "docs" / "pictures"
DRAWINGS = ("desk-sewing.svg", "board.svg", "apart.svg")


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_stands_alone(name):
    root = ElementTree.fromstring((PICTURES / name).read_text(encoding="utf-8"))
    assert root.attrib["aria-label"]
    assert root[0].attrib["fill"] == "#fff"
    # source: published; CSS Fonts 4, 3.1: a family name that holds a digit word must be quoted
    assert root.attrib["font-family"].startswith("'Source Sans 3'")


@pytest.mark.parametrize("name", DRAWINGS)
def test_a_drawing_asks_for_nothing(name):
    text = (PICTURES / name).read_text(encoding="utf-8").replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|href|url\(|<script|<image", text)


@pytest.mark.parametrize("name", [*DRAWINGS, "page.png"])
def test_small(name):
    # source: by hand; a page of the web should not need more than this for one picture
    assert (PICTURES / name).stat().st_size < 200_000
