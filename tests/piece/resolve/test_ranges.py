# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""The ends of every range are tried: spans that vanish, grain that turns."""

from pathlib import Path

import pytest

from scantling.piece import range_notices, read_piece, read_piece_text

HEAD = "piece: p\nunits: inches\noverall: {wide: 30, deep: 15, high: 28}\nmaterials: {wood: cherry 3/4}\n"
EXAMPLES = sorted(
    p
    for p in (Path(__file__).parents[3] / "src" / "scantling" / "examples").glob("*.yaml")
    if "build" not in p.name and p.stem != "hall-pieces"
)


def notices(text):
    return range_notices(read_piece_text(HEAD + text, "p.yaml"))


def test_a_span_that_vanishes():
    text = "sizes: {gap: 4 within 1 to 20}\nparts: {a: {wide: left + gap to right - gap, deep: front to back, high: thick up from bottom, grain: wide}}\n"
    (found,) = notices(text)
    # source: by hand; 30 - 2 x 15 leaves nothing
    assert found.number / 25.4 == pytest.approx(15, abs=0.01)
    assert "from gap 15 in" in found.message
    assert found.place.line == 5


def test_grain_that_turns():
    text = "sizes: {tall: 12 within 2 to 40}\nparts: {a: {wide: 6 right from left, deep: thick back from front, high: tall up from bottom}}\n"
    (found,) = notices(text)
    # source: by hand; 12 high by 6 wide runs up; under 9 it cannot be told, under 4 it lies
    assert found.number / 25.4 == pytest.approx(9, abs=0.01)
    assert "too alike" in found.message or "turns" in found.message


def test_a_range_that_holds():
    assert (
        notices(
            "sizes: {gap: 4 within 1 to 10}\nparts: {a: {wide: left + gap to right - gap, deep: front to back, high: thick up from bottom, grain: wide}}\n"
        )
        == ()
    )


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_the_examples_hold_over_their_ranges(path):
    assert [n.message for n in range_notices(read_piece(path))] == []
