"""Slips of the pen: each is told with file, line, character and what to write instead."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece import read_piece, resolve
from scantling.shop import read_shop_text

# file, line, character (counted by hand), words of the message, words of the remedy
SLIPS = [
    ("misspelt", 7, 39, 'no part is called "right sdie"', ""),
    (
        "place-as-size",
        7,
        17,
        "this wants a length, but this is a place along wide",
        "a place less a place is a size",
    ),
    ("place-as-size2", 7, 57, "this is a place along deep", "a place less a place is a size"),
    ("wrong-axis", 7, 17, "this is a place along deep, but wide wants one along wide", "left or right"),
    (
        "circle",
        7,
        78,
        "this goes round in a circle: shelf high -> rail high -> shelf high",
        "from something else",
    ),
    ("negative", 7, 17, "this comes out at -1 1/2 in", "low side"),
    ("unknown-species", 4, 19, 'no wood or sheet is called "chery"', "cherry"),
    ("bad-key", 7, 51, '"depth" is no key of a part', '"deep"'),
    ("bad-joint", 8, 40, 'no joint is called "dadoe"', '"dado"'),
    ("bad-material", 7, 15, 'no material is called "wod"', '"wood"'),
    ("bad-top-key", 2, 1, '"unit" is no key of the top level', '"units"'),
    ("two-places", 7, 17, "two places cannot be added", "centred on"),
    ("comma", 7, 94, "a decimal comma?", "9.5"),
    ("missing-span", 7, 3, "nothing says where it stands high", "add `high: ...`"),
    ("broken-yaml", 3, 10, "a brace is not closed", "`}`"),
    ("unknown-unit", 7, 80, '"furlongs" was not expected here', "a span is"),
    ("count-length", 7, 120, "wants a count, but this is a length", ""),
]


def slip(pieces, name: str) -> ReadError:
    with pytest.raises(ReadError) as caught:
        resolve(read_piece(pieces / "wrong" / f"{name}.yaml"))
    return caught.value


@pytest.mark.parametrize(("name", "line", "character", "says", "instead"), SLIPS, ids=[s[0] for s in SLIPS])
def test_told_where_and_what_instead(pieces, name, line, character, says, instead) -> None:
    # source: by hand, counted in the file
    error = slip(pieces, name)
    assert error.place is not None
    assert (error.place.line, error.place.character) == (line, character)
    assert error.place.file.endswith(f"{name}.yaml")
    assert says in str(error)
    assert instead in str(error)


def test_nearest_name_of_a_copy(pieces) -> None:
    # source: docs/piece-language.md: no part is called "back stirp" (nearest: "back strip")
    assert "right side" in slip(pieces, "misspelt").remedy


def test_a_length_for_a_count(pieces) -> None:
    # source: docs/piece-language.md: every message says what to write instead
    assert "8" in slip(pieces, "count-length").remedy


# change to the shop (old, new), line, character, words
SHOP_SLIPS = [
    ("mitre saw", "miter sow", 8, 3, 'did you mean "mitre saw"'),
    ("units: inches\n", "", 1, 1, "write units: inches, or units: mm"),
    ("96, for sale", "96 for sale", 6, 12, "such as L1: 96, for sale"),
    ("spruce 2x4", "spruce 2x44", 6, 5, 'the dressed size of "2x44" is not known'),
    ("kerf 1/8", "kerf one eighth", 8, 19, '"one eighth" is not a number'),
    ("machines:", "machins:", 7, 1, "machines"),
]


@pytest.mark.parametrize(
    ("old", "new", "line", "character", "says"), SHOP_SLIPS, ids=[s[1] for s in SHOP_SLIPS]
)
def test_slips_in_the_shop(pieces, old, new, line, character, says) -> None:
    # source: by hand, counted in the file
    text = (pieces / "shops" / "sticks.yaml").read_text()
    assert old in text
    with pytest.raises(ReadError) as caught:
        read_shop_text(text.replace(old, new, 1), "sticks.yaml")
    assert caught.value.place is not None
    assert (caught.value.place.line, caught.value.place.character) == (line, character)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    "line",
    ["sheets: {birch plywood 3/4: {P1: 96 x 48 x 7.1}}", 'boards: {"cherry, 4/4 rough": {C1: 8 x 96 x 1}}'],
)
def test_sizes_nobody_has(pieces, line) -> None:
    # source: common practice, no source: 3/4 measures 0.7 or so; no board is a foot long and 8 ft wide
    text = (pieces / "shops" / "sticks.yaml").read_text()
    with pytest.raises(ReadError):
        read_shop_text(f"{text}{line}\n", "sticks.yaml")
