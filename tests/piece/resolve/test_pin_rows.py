"""Rows of shelf-pin holes: how many, and what is refused."""

from __future__ import annotations

import pytest

from scantling.errors import ResolveError
from scantling.piece import Piece, read_piece_text, resolve

TEXT = """
piece: One side
units: inches
overall: {wide: 3/4, deep: 10, high: 24}
materials: {wood: cherry 3/4}
parts:
  side: {wide: left to right, deep: front to back, high: bottom to top,
    work: [{shelf pins: right, rows: [2], from: 6, to: 18, every: PITCH}]}
"""


def side(pitch: str) -> Piece:
    return resolve(read_piece_text(TEXT.replace("PITCH", pitch), "side.yaml"))


def test_a_row_holds_as_many_as_its_pitch_allows() -> None:
    # source: by hand; 12 in by steps of 1 1/4: 9 steps and a rest, so 10 holes
    (row,) = side("1 1/4").parts[0].work
    assert len(row.places) == 10  # type: ignore[union-attr]


@pytest.mark.parametrize("pitch", ["1/64", "3/16"])
def test_holes_that_run_into_each_other_are_refused(pitch: str) -> None:
    """A pitch of 1/64 once made over a thousand holes, and the plan never came."""
    with pytest.raises(ResolveError, match="run into each other") as refused:
        side(pitch)
    assert refused.value.place is not None
