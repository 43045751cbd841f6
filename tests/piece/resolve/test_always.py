# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""What always holds: order of writing, symmetry, one answer, nothing changed afterwards."""

import dataclasses
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.piece import read_piece_text, resolve
from scantling.piece.model import Axis

HEAD = "piece: p\nunits: inches\noverall: {wide: 30, deep: 15, high: 28}\nmaterials: {wood: cherry 3/4}\n"
LINES = (
    "  leg: {wide: size inward from left, deep: size inward from front, high: floor to bottom of top, copies: four corners}\n",
    "  top: {wide: left to right, deep: front to back, high: thick down from top, grain: wide}\n",
    "  front rail: {wide: between left front leg and right front leg, deep: thick back from front, high: 4 down from top of leg}\n",
    "  end rail: {wide: thick inward from outside of leg, deep: between front leg and back leg, high: same as front rail, grain: deep, copies: left and right}\n",
)
JOINTS = "joints:\n  - {join: every rail, to: leg, with: METHOD}\n  - {join: top, to: [leg, every rail], with: slotted screws}\n"


def piece_of(lines, size="2", method="tenon", wide="30"):
    text = HEAD.replace("wide: 30", f"wide: {wide}") + f"sizes: {{size: {size}}}\nparts:\n" + "".join(lines)
    return resolve(read_piece_text(text + JOINTS.replace("METHOD", method), "p.yaml"))


def by_name(piece):
    return {part.name: part.box for part in piece.parts}


@pytest.mark.parametrize("order", list(permutations(range(4))))
def test_order_of_writing_never_matters(order):
    assert by_name(piece_of([LINES[i] for i in order])) == by_name(piece_of(LINES))


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.integers(8, 40), st.integers(160, 400), st.sampled_from(["tenon", "dowels", "loose tenon", "bridle"])
)
def test_a_mirrored_piece_is_its_own_image(size, wide, method):
    piece = piece_of(LINES, f"{size}/8", method, f"{wide}/8")
    boxes = by_name(piece)
    for name, box in boxes.items():
        words = name.split()
        other = " ".join({"left": "right", "right": "left"}.get(w, w) for w in words)
        image = boxes[other]
        assert image.low[0] == pytest.approx(piece.overall.high[0] - box.high[0])
        assert image.sizes == pytest.approx(box.sizes)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.sampled_from(["tenon", "dowels", "bridle", "pocket screws", "finger joint", "mitre"]))
def test_no_method_moves_a_visible_size(method):
    first, second = piece_of(LINES), piece_of(LINES, method=method)
    assert by_name(first) == by_name(second)
    assert len(first.joints) == len(second.joints)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.integers(8, 40))
def test_shoulders_and_legs_fill_the_width(size):
    piece = piece_of(LINES, f"{size}/8")
    rail, leg = piece.part("front rail"), piece.part("left front leg")
    assert rail.length + 2 * leg.box.size(Axis.WIDE) == pytest.approx(30 * 25.4)


def test_same_words_same_piece():
    assert piece_of(LINES) == piece_of(LINES)


def test_a_piece_cannot_be_changed():
    piece = piece_of(LINES)
    with pytest.raises(dataclasses.FrozenInstanceError):
        piece.name = "other"
    with pytest.raises(dataclasses.FrozenInstanceError):
        piece.parts[0].name = "other"
    with pytest.raises(TypeError):
        piece.parts[0].box.low[0] = 3


def test_every_example_twice(example):
    for name in ("sewing-desk", "chest-of-drawers", "round-table", "four-legged-stool"):
        assert example(name) == example(name)
