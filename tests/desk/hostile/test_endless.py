"""Words so long or so alike that looking at them could take for ever."""

from __future__ import annotations

from time import monotonic

import pytest

from scantling.desk.build.clock import minutes_said
from scantling.desk.keeping.heads import Kind, head_of
from scantling.errors import ReadError
from scantling.piece.editing.differing import difference
from scantling.shop import read_shop_text
from scantling.shop.editing import pasted

LONG = 8.0  # seconds, on a machine that is busy with other tests


@pytest.fixture(autouse=True)
def in_time():
    start = monotonic()
    yield
    assert monotonic() - start < LONG


@pytest.mark.parametrize("words", ["1d" + " " * 300_000 + "x", "1" * 300_000, "1 h " * 70_000, " " * 900_000])
def test_a_time(words: str) -> None:
    assert minutes_said(words) is None


@pytest.mark.parametrize("space", ["\n" * 20_000, " ", "a\n" * 20_000, "\n".join(map(str, range(20_000)))])
def test_two_texts_side_by_side(space: str) -> None:
    before = f"piece: A\n{space}note: {'x ' * 20_000}\n"
    after = f"piece: B\n{space[:-7]}\nnote: {'y ' * 20_000}\n\n{space}"
    told = difference(before, after)
    assert told[0].text == "piece: A"
    assert any(line.text.startswith("note: y") for line in told)


@pytest.mark.parametrize(
    "text", ["piece" + " " * 400_000, "'" * 400_000, '"\\' * 200_000, "piece: \n" * 50_000, "{" * 400_000]
)
def test_the_head_of_a_file(text: str) -> None:
    assert head_of("a.yaml", text).kind is Kind.PIECE
    said = head_of("a.yaml", f"piece: {text}")
    assert said.kind is Kind.PIECE
    assert len(said.title) <= len(text)


@pytest.mark.parametrize(
    "cells",
    ["\t" * 150_000, "1,5 x " * 30_000, "\n" * 150_000, "1.000," * 30_000, '"' * 150_001, "9" * 150_000],
)
def test_pasted_cells(cells: str) -> None:
    found = pasted("shop: A shed\nunits: inches\n", "machines", cells)
    assert found.faults or not any(any(row.values()) for row in found.rows)


@pytest.mark.parametrize(
    "text", ["[" * 3000, "{a: " * 3000, "- " * 3000, "? " * 3000, "a: &a [" + "*a, " * 3000, "'" * 90_001]
)
def test_a_shop_that_nests_without_end_is_told(text: str) -> None:
    with pytest.raises(ReadError):
        read_shop_text(f"shop: A\nunits: inches\nboards: {text}", "shop.yaml")
