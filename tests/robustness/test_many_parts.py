# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Pieces of some hundred parts, as a slip in a count or a step makes them, end soon in a plan."""

from __future__ import annotations

import time

import pytest

from scantling.piece import read_piece_text
from scantling.plan import make_plan
from scantling.shop import default_shop

HEAD = "piece: many\nunits: mm\noverall: {wide: 9000, deep: 400, high: 900}\nmaterials: {wood: cherry 3/4}\nparts:\n"
SECONDS = (
    5.0  # of processor time for 300 parts, twice what it takes; parts all in one another grow as pairs do
)
RAIL = "  rail: {wide: left to right, deep: 20 back from front, high: 60 up from bottom, grain: wide}\n"
SLAT = "  slat: {wide: 20, deep: thick back from back of rail, high: 500 up from bottom, grain: high, copies: {row: right, spread: left to right, count: 300, ends: closed}}\n"
GRID = """  slat: {wide: 20, deep: thick back from front, high: 500 up from bottom, grain: high, copies: {row: right, spread: left to right, count: 150, ends: closed}}
  bar: {wide: left to right, deep: thick back from front, high: 2 up from bottom, grain: wide, copies: {row: up, count: 150, every: 5/2}}
"""
RING = "  spoke: {wide: 20 centred on middle, deep: front to back, high: 20 up from bottom, grain: deep, copies: {ring: SPOKES}}\n"


@pytest.mark.parametrize(
    ("lines", "count", "code"),
    [
        pytest.param(RAIL + SLAT + "joints: [{join: slat, to: rail, with: screws}]\n", 301, "", id="joined"),
        pytest.param(RAIL + SLAT, 301, "touch without joint", id="loose"),
        pytest.param(GRID, 300, "unexplained overlap", id="through each other"),
        pytest.param(RING.replace("SPOKES", "150"), 150, "parts in one another", id="round a middle"),
        pytest.param(
            RING.replace("SPOKES", "500"), 500, "parts in one another", id="hundreds round a middle"
        ),
    ],
)
def test_some_hundred_parts_are_planned_soon(lines: str, count: int, code: str) -> None:
    start = time.process_time()
    plan = make_plan(read_piece_text(HEAD + lines, "many.yaml"), default_shop())
    assert time.process_time() - start < SECONDS * max(1, count / 300) ** 2
    assert len(plan.piece.parts) == count
    assert not code or code in {finding.code for finding in plan.findings}
