"""The verifier must catch a plan that does not follow its build record."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cutting import Unheeded, cut_plan, verify
from scantling.piece.model import MaterialKind

SHEET = {"kind": MaterialKind.SHEET, "text": "birch plywood 18", "species": "birch plywood", "label": 18.0}


@pytest.fixture(scope="module")
def job(make):
    parts = [make.part(f"rail {i}", 700, 80, 19) for i in range(3)]
    machined = make.piece(*parts, make.part("panel", 500, 300, 17.6, **SHEET))
    shop = make.shop(make.board("W1"), make.board("W2"), make.sheet())
    plan = cut_plan(machined, shop, seconds=0.1)
    assert verify(plan, machined, shop) == ()
    assert {layout.stock for layout in plan.layouts} == {"W1", "ply"}
    return plan, machined, shop


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("boards: {W1: leave}", "left alone"),
        ("boards: {W1: {cut: {rail 9: 1 x 1 x 1}}}", "cut up already"),
        ("boards: {w1: cut}", "cut up already"),
        ("rail 1: {from: W2}", "wanted from W2"),
        ("boards: {ply: cut}", "less what is gone"),
    ],
)
def test_a_plan_against_its_record_is_caught(make, job, lines: str, words: str) -> None:
    plan, machined, shop = job
    assert any(words in complaint for complaint in verify(plan, make.noted(machined, lines), shop))


def test_a_wish_dropped_in_silence_is_caught_and_a_told_one_is_not(make, job) -> None:
    plan, machined, shop = job
    noted = make.noted(machined, "rail 1: {from: W2}")
    told = replace(plan, unheeded=(Unheeded("rail 1", ("W2",), "W2 has no room for rail 1"),))
    assert verify(plan, noted, shop)
    assert verify(told, noted, shop) == ()


def test_a_spoiled_part_that_is_called_cut_is_caught(make, job) -> None:
    plan, machined, shop = job
    lines = "boards: {W2: {cut: {rail 1: 800 x 86 x 19}}}"
    mine = next(blank for blank in plan.blanks if blank.part == "rail 1")
    rest = cut_plan(make.noted(machined, lines), shop, seconds=0.1)
    assert mine not in rest.blanks
    spoiled = make.noted(machined, f"rail 1: {{spoiled: 1}}\n{lines}")
    complaints = verify(rest, spoiled, shop)
    assert any("was spoiled" in complaint for complaint in complaints)


def test_a_blank_called_cut_that_is_in_no_record_is_caught(job) -> None:
    plan, machined, shop = job
    first, *others = plan.blanks
    complaints = verify(replace(plan, blanks=tuple(others), made=(first,)), machined, shop)
    assert any("called cut" in complaint for complaint in complaints)


def test_a_blank_cut_too_small_is_caught(make, job) -> None:
    _, machined, shop = job
    right = make.noted(machined, "boards: {W2: {cut: {rail 1: 800 x 86 x 19}}}")
    plan = cut_plan(right, shop, seconds=0.1)
    wrong = make.noted(machined, "boards: {W2: {cut: {rail 1: 800 x 70 x 19}}}")
    assert any("too small" in complaint for complaint in verify(plan, wrong, shop))


def test_turned_grain_is_caught(make, job) -> None:
    plan, machined, shop = job
    loose = tuple(replace(blank, grain_fixed=False) for blank in plan.blanks if blank.part == "panel")
    rest = tuple(blank for blank in plan.blanks if blank.part != "panel")
    turned = replace(plan, blanks=(*rest, *loose))
    assert any("may not be turned" in complaint for complaint in verify(turned, machined, shop))
    assert verify(turned, make.noted(machined, "panel: {grain: may turn}"), shop) == ()
    assert verify(turned, make.noted(machined, "panel: {grain: stays}"), shop)


def test_an_offcut_larger_than_noted_is_caught(make, job) -> None:
    _, machined, shop = job
    noted = make.noted(
        machined, "boards: {W1: {cut: {rail 0: 800 x 86 x 19}, left: [1500 x 180 at 860 x 0]}, W2: leave}"
    )
    plan = cut_plan(noted, shop, seconds=0.1)
    assert verify(plan, noted, shop) == ()
    assert any(layout.stock == "W1 offcut 1" for layout in plan.layouts)
    less = make.noted(
        machined, "boards: {W1: {cut: {rail 0: 800 x 86 x 19}, left: [900 x 180 at 860 x 0]}, W2: leave}"
    )
    assert any("its size is not the shop's" in complaint for complaint in verify(plan, less, shop))
