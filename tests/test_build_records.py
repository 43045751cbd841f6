"""The build record through the whole plan, and its page in the documentation."""

from __future__ import annotations

import re
from importlib.resources import as_file, files
from pathlib import Path

import pytest

from scantling.cutting import board_cut, compare
from scantling.errors import ResolveError
from scantling.piece import read_piece, read_record_text
from scantling.piece.model import Axis
from scantling.plan import Plan, make_plan
from scantling.quantity import LengthUnit
from scantling.shop import read_shop

PAGE = Path(__file__).parents[1] / "docs" / "build-record.md"


@pytest.fixture(scope="module")
def job():
    with as_file(files("scantling") / "examples") as folder:
        document = read_piece(Path(folder) / "sewing-desk.yaml")
        shop = read_shop(Path(folder) / "shops" / "sewing-desk.yaml")
    return document, shop, make_plan(document, shop)


def planned(job, lines: str, before: Plan | None = None) -> Plan:
    record = read_record_text(f"build: one\nunits: inches\n{lines}\n", "one.build.yaml")
    return make_plan(job[0], job[1], record, before=before.cut_plan if before else None)


def told(plan: Plan) -> list[str]:
    return [finding.message for finding in plan.findings if finding.code == "build record not followed"]


def test_a_board_left_alone_and_one_that_is_not_there(job) -> None:
    before = job[2]
    board = before.cut_plan.layouts[0].stock
    plan = planned(job, f"boards: {{{board}: leave, W99: leave}}", before)
    assert board not in {layout.stock for layout in plan.cut_plan.layouts}
    assert told(plan) == ["nothing on the rack or for sale is called W99"]
    assert not [finding for finding in plan.must_fix if finding.check == "stock"]
    finding = next(f for f in plan.findings if f.code == "build record not followed")
    assert (finding.place.line, finding.place.file) == (3, "one.build.yaml")


def test_a_part_the_piece_does_not_have_is_an_error_at_its_character(job) -> None:
    with pytest.raises(ResolveError) as caught:
        planned(job, "fold rial: {from: W3}")
    assert caught.value.place is not None
    assert (caught.value.place.line, caught.value.place.character) == (3, 1)
    assert "fold rail" in str(caught.value)


def test_a_cut_board_stays_cut_and_its_blanks_are_still_milled_and_glued(job) -> None:
    before = job[2]
    layout = next(l for l in before.cut_plan.layouts if any("layer" in p.blank for p in l.placed))
    line = board_cut(before.cut_plan, layout, LengthUnit.INCHES).line
    plan = planned(job, f"boards:\n  {line}", before)
    assert told(plan) == []
    assert compare(before.cut_plan, plan.cut_plan).blanks_moved == 0
    cut = {placed.blank for placed in layout.placed}
    assert {blank.id for blank in plan.cut_plan.made} == cut
    assert {g.part for g in plan.cut_plan.glue_ups} == {g.part for g in before.cut_plan.glue_ups}
    parts = {blank.part for blank in plan.cut_plan.made}
    flattened = {p for step in plan.build_plan.steps if step.stage.value == "flatten" for p in step.parts}
    assert parts <= flattened


def test_the_record_on_its_page_can_be_read_and_planned(job) -> None:
    found = re.search(r"```yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    record = read_record_text(found[1], "desk.build.yaml")
    plan = make_plan(job[0], job[1], record)
    stocks = {layout.stock for layout in plan.cut_plan.layouts}
    assert stocks.isdisjoint({"W2", "W9"})
    assert plan.machined.by_name["tray back"].part.fixed
    assert "lid lip" in {blank.part for blank in plan.cut_plan.blanks}
    assert [blank.id for blank in plan.cut_plan.made] == ["left spacer"]
    assert not [finding for finding in plan.findings if finding.code == "cut plan is unsound"]


def test_a_leg_measured_thin_leaves_what_is_made_for_all_legs_as_planned(job) -> None:
    """The spacer is read from both left legs; one of them came out 1/16 in thin."""
    was, built = job[2].piece, planned(job, "left front leg: {wide: 1 9/16, cut: done}").piece
    other = [p.name for p in was.parts if abs(p.size(Axis.WIDE) - built.part(p.name).size(Axis.WIDE)) > 0.01]
    assert other == ["left front leg"]
    assert built.part("left front leg").size(Axis.WIDE) == pytest.approx(25.4 * 25 / 16)
