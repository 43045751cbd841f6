"""Free sizes and free choices: the first value that passes, and why."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from scantling.piece import NO_RECORD, read_piece_text
from scantling.settle import Settled, settle
from scantling.shop import default_shop

BOX = """
piece: Box round a block
units: inches
overall: {wide: 12, deep: 10, high: 20}
sizes: {room: WISH, spare: 1}
materials: {wood: yellow-poplar 1/2}
parts:
  base: {wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}
  roof: {wide: left to right, deep: front to back, high: thick up from top of base + 2 + room, grain: wide}
  end: {wide: thick inward from left, deep: front to back, high: between base and roof, grain: deep,
    copies: left and right}
joints:
  - {join: end, to: [base, roof], with: glue}
holds: {block: {wide: 4, deep: 4, high: 2, mass: 2 lb, on: base, clear: 1/4}}
room: {air: {dry: 35 %, damp: 50 %, at: 70 F}}
"""


@pytest.fixture(scope="module")
def settled() -> Callable[[str], Settled]:
    def answer(wish: str) -> Settled:
        document = read_piece_text(BOX.replace("WISH", wish), "box.yaml")
        _, sizes = settle(document, default_shop(), NO_RECORD)
        return sizes[0]

    return answer


def test_least_is_the_first_value_that_clears(settled: Callable[[str], Settled]) -> None:
    # source: by hand; 1/4 in clear over a 2 in block: room 0, 1/16, 1/8, 3/16 fail, 1/4 in passes
    found = settled("least within 0 to 1 by 1/16")
    assert found.value == pytest.approx(0.25 * 25.4)
    assert found.ok
    assert "block" in found.why


def test_most_starts_at_the_other_end(settled: Callable[[str], Settled]) -> None:
    # source: by hand; everything from 1/4 in up passes, so the greatest value stands
    found = settled("most within 0 to 1 by 1/16")
    assert found.value == pytest.approx(25.4)
    assert "no check" in found.why


def test_a_range_without_an_answer_says_so(settled: Callable[[str], Settled]) -> None:
    # source: by hand; 1/8 in is all the range gives, 1/4 in is wanted
    found = settled("least within 0 to 1/8 by 1/16")
    assert found.value == 0.0
    assert not found.ok
    assert "block" in found.why


def test_angles_settle_in_degrees(settled: Callable[[str], Settled]) -> None:
    text = BOX.replace("WISH", "1/4").replace("spare: 1", "lean: least within 2 deg to 4 deg by 1 deg")
    _, sizes = settle(read_piece_text(text, "box.yaml"), default_shop(), NO_RECORD)
    assert (sizes[0].name, sizes[0].text) == ("lean", "2 deg")
