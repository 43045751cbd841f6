"""What the worker makes of a plan for the pages of a build."""

from __future__ import annotations

import pickle
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from scantling.building import Stage
from scantling.desk.build.boards_view import boards_view, cut_words
from scantling.desk.build.difference import difference
from scantling.desk.build.labels import OwnSheet, label_sheets, labels_print
from scantling.desk.build.looked_at import context
from scantling.desk.build.parts_view import part_view, parts_view
from scantling.desk.build.records import Record
from scantling.desk.build.sheet_view import board_sheet
from scantling.desk.build.standing import proposals, standing_view
from scantling.desk.build.view import build_view, part_picture, step_picture
from scantling.desk.working import Asked
from scantling.errors import ReadError
from scantling.piece import read_record_text
from scantling.piece.model import Part
from scantling.quantity import LengthUnit

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def ticks(
    asked: Asked, *numbers: int, ago: timedelta = timedelta(days=30)
) -> tuple[tuple[str, datetime], ...]:
    keys = {step.number: step.key for step in build_view(asked).steps}
    return tuple((keys[number], NOW - ago) for number in numbers)


def noted(asked: Asked, text: str) -> Asked:
    return replace(asked, record=text)


def record_of(asked: Asked) -> Record:
    return Record(asked.record_file, asked.record, context(asked).plan.piece.name)


def test_every_step_is_told_with_what_its_plan_says(asked: Asked) -> None:
    plan, view = context(asked).plan, build_view(asked)
    assert [step.number for step in view.steps] == [step.number for step in plan.build_plan.steps]
    for shown, step in zip(view.steps, plan.build_plan.steps, strict=True):
        assert shown.cautions == step.cautions
        at_wood = step.stage in (Stage.BUY, Stage.CHOOSE)
        assert [part.name for part in shown.parts] == ([] if at_wood else list(step.parts))
        assert bool(shown.timers) == (bool(step.wait) and not shown.buys)
        assert not shown.timers or shown.timers[-1].minutes == step.wait
    assert pickle.loads(pickle.dumps(view)) == view


def test_glue_has_a_timer_for_the_clamps_too(asked: Asked) -> None:
    timers = [step.timers for step in build_view(asked).steps if len(step.timers) > 1]
    assert timers
    for clamps, cure in timers:
        assert "in clamps" in clamps.what
        assert clamps.minutes < cure.minutes


def test_pictures_bring_no_style_of_their_own(asked: Asked) -> None:
    for step in build_view(asked).steps:
        svg = step_picture(asked, step.number)
        assert svg.startswith("<svg")
        assert "style" not in svg
    assert step_picture(asked, 999) == ""
    assert "<svg" in part_picture(asked, context(asked).plan.piece.parts[0].name)


def test_how_it_stands_at_first_and_at_last(asked: Asked) -> None:
    first = standing_view(asked, (), (), NOW)
    assert first.done == 0
    assert first.steps[first.now].word == "ready"
    numbers = [step.number for step in build_view(asked).steps]
    last = standing_view(asked, ticks(asked, *numbers), (), NOW)
    assert last.done == len(numbers)
    assert (last.left, last.finish, last.now) == ("0 min", NOW, numbers[-1])


def test_a_board_is_sawn_once_all_its_cuts_are_ticked(asked: Asked) -> None:
    steps = [step for step in context(asked).plan.build_plan.steps if step.stock]
    board = steps[0].stock[0]
    of_it = [step.number for step in steps if board in step.stock]
    assert board not in standing_view(asked, (), (), NOW).begun
    half = standing_view(asked, ticks(asked, *of_it[:-1]), (), NOW)
    assert half.sawn == ()
    assert (board in half.begun) == (len(of_it) > 1)
    assert board in standing_view(asked, ticks(asked, *of_it), (), NOW).sawn


def test_at_the_saw_each_board_is_drawn_with_its_cuts(asked: Asked) -> None:
    layouts = {layout.stock: layout for layout in context(asked).plan.cut_plan.layouts}
    steps = [step for step in build_view(asked).steps if step.boards]
    assert {step.stage for step in steps} == {Stage.CHOOSE.value, Stage.ROUGH_CUT.value}
    for step in steps:
        first = board_sheet(asked, step.number, "no such board")
        assert first
        assert (first.name, first.boards) == (step.boards[0], step.boards)
        last = board_sheet(asked, step.number, step.boards[-1])
        assert last
        assert (last.name, last.near(1)) == (step.boards[-1], "")
        assert len(last.sheet["cuts"]) == len(layouts[last.name].cuts)
        assert "<svg" in last.sheet["svg"]
    assert board_sheet(asked, 999, "") is None


def test_no_change_says_the_same_before_and_after(asked: Asked) -> None:
    """A part half an inch narrower moves blanks about, and the steps with them."""
    part = _part(asked, parts_view(asked)[0].name)
    for size in part.sizes:
        planned = context(asked).plan.piece.part(part.name)
        mm = dict(zip(("length", "width", "thickness"), _long_wide_thick(planned), strict=True))[size.noun]
        text = record_of(asked).measured(
            part.name, size.axis, f"{mm * 0.97:.1f} mm", LengthUnit.MM, done=False
        )
        found = difference(asked, noted(asked, text))
        assert all(c.was != c.will for group in found.groups for c in group.changes if c.was)


def _long_wide_thick(part: Part) -> tuple[float, float, float]:
    return part.length, part.width, part.thickness


def test_notes_and_ticks_of_steps_that_are_gone_are_told(asked: Asked) -> None:
    gone = (("Paint it red ~a.b.c", NOW),)
    standing = standing_view(asked, gone, gone, NOW)
    assert [each.words for each in standing.astray] == ["Paint it red"]
    assert [each.words for each in standing.lost_notes] == ["Paint it red"]


def test_what_fits_in_an_hour(asked: Asked) -> None:
    found = proposals(asked, (), NOW, 60)
    standing = standing_view(asked, (), (), NOW)
    assert found
    assert all(standing.steps[each.step].word == "ready" for each in found)


def test_a_part_says_what_is_to_be_measured(asked: Asked) -> None:
    """A part with tongues or tenons is asked for between its shoulders, its overall length beside it."""
    names = [line.name for line in parts_view(asked)]
    assert sorted(names) == sorted(part.name for part in context(asked).plan.piece.parts)
    meant = {size.meant for name in names for size in _part(asked, name).sizes}
    assert any(words.startswith("between shoulders") for words in meant)
    assert "from face to face" in meant
    assert part_view(asked, "mantelpiece") is None


def _part(asked: Asked, name: str):  # type: ignore[no-untyped-def]
    found = part_view(asked, name)
    assert found
    return found


def test_a_measured_size_stands_in_the_part_and_in_the_difference(asked: Asked) -> None:
    name = parts_view(asked)[0].name
    size = _part(asked, name).sizes[0]
    planned = context(asked).plan.piece.part(name).length
    text = record_of(asked).measured(name, size.axis, f"{planned - 2:.1f} mm", LengthUnit.MM, done=True)
    after = noted(asked, text)
    assert _part(after, name).sizes[0].noted
    assert _part(after, name).cut
    heads = {group.head: group.changes for group in difference(asked, after).groups}
    assert any(change.about.endswith(f"{name}, {size.noun}") for change in heads["Parts"])


def test_the_same_record_makes_no_difference(asked: Asked) -> None:
    assert difference(asked, replace(asked, record="build: box\n")).groups == ()


def test_a_board_noted_as_cut_stays_as_it_was_planned(asked: Asked) -> None:
    """Every other board keeps its layout, and what is noted reads back as the blanks of the plan."""
    board = boards_view(asked)[0].name
    before = context(asked).plan.cut_plan
    blanks = {blank.id: blank for blank in before.blanks}
    layout = next(each for each in before.layouts if each.stock == board)
    text = record_of(asked).boards_cut(cut_words(asked, (board,)))
    (used,) = read_record_text(text, "r").stock
    unit = context(asked).plan.piece.unit
    for said, placed in zip(used.blanks, layout.placed, strict=True):
        blank = blanks[placed.blank]
        # noted to 1/32 in, so off by half of that at most; source: arithmetic
        assert said.long.within(unit) == pytest.approx(blank.rough_length, abs=25.4 / 64 + 1e-6)
        assert said.wide.within(unit) == pytest.approx(blank.rough_width, abs=25.4 / 64 + 1e-6)
    after = context(noted(asked, text)).plan.cut_plan
    assert board not in {each.stock for each in after.layouts}
    was = {each.stock: len(each.placed) for each in before.layouts if each.stock != board}
    assert {each.stock: len(each.placed) for each in after.layouts} == was
    told = {c.about: c.will for group in difference(asked, noted(asked, text)).groups for c in group.changes}
    assert told[board] == "noted as cut"


def test_a_spoiled_part_is_cut_again_from_other_wood(asked: Asked) -> None:
    board = boards_view(asked)[0].name
    cut = noted(asked, record_of(asked).boards_cut(cut_words(asked, (board,))))
    lost = read_record_text(cut.record or "", "r").stock[0].blanks[0].name
    part = next(line.name for line in parts_view(asked) if lost.startswith(line.name))
    again = noted(cut, record_of(cut).spoiled(part, 1))
    heads = [group.head for group in difference(cut, again).groups]
    assert "Boards and sheets" in heads
    assert _part(again, part).spoiled == 1


def test_what_cannot_be_planned_is_told_as_trouble(asked: Asked) -> None:
    with pytest.raises(ReadError):
        difference(asked, noted(asked, "build: box\nmantelpiece: {wide: 3}\n"))


def test_labels_are_printed_on_any_sheet_that_fits(asked: Asked) -> None:
    for sheet in label_sheets(asked)[:2]:
        assert labels_print(asked, sheet.name, 1).startswith(b"%PDF")
    own = OwnSheet(False, 2, 4, 90, 60, 10, 10, 5, 5)
    assert labels_print(asked, own, 3).startswith(b"%PDF")
    with pytest.raises(ReadError, match="do not fit across"):
        labels_print(asked, replace(own, across=3), 1)
    with pytest.raises(ReadError, match="no such sheet"):
        labels_print(asked, "napkin", 1)
