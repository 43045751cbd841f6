"""Part sheets and cut sheets: the numbers a maker works to."""

from __future__ import annotations

from dataclasses import replace
from math import atan, cos, degrees, radians, sqrt, tan

import pytest

from scantling.joinery.features import MachinedPart
from scantling.packet.cut_sheets import defects_on
from scantling.packet.frames import cross, frame_of, lean_angles
from scantling.packet.marks import is_even_run
from scantling.packet.part_sheets import rounding_notes
from scantling.packet.part_views import PartViews
from scantling.packet.shown import Sizes, bound, duration, work_time
from scantling.packet.steps import added, number_ranges
from scantling.piece.model import Axis, Face, Lean, Shape
from scantling.quantity import Style
from scantling.quantity.kinds import LengthUnit

INCH = 25.4


def sheet(data, name):
    return next(s for s in data["sheets"] if s["name"] == name)


def plain(words):
    return words.replace("\u00a0", " ")


def test_both_lengths_of_a_part_that_goes_in(bench_data):
    # source: by hand; 32 1/2 between the sides, 3/8 into each: 33 1/4
    assert plain(sheet(bench_data, "shelf")["long"]) == (
        "32 1/2 in (825.5 mm) between shoulders, 33 1/4 in (844.6 mm) overall"
    )


def test_hands_are_named_on_one_sheet(bench_data):
    assert sheet(bench_data, "side")["copies"] == ["2L as drawn: left side", "2R opposite hand: right side"]


def test_dowel_holes_in_the_upper_end(bench_data):
    holes = sheet(bench_data, "side")["holes"]
    dowels = next(h for h in holes if h["purpose"].startswith("dowel"))
    assert dowels["count"] == 3
    assert dowels["face"] == "far end (top)"
    assert plain(dowels["deep"]) == "1 1/16 (27)"
    # source: by hand; at 2, 6, 10 from the bench's front, 1/2 more than from the side's front edge;
    # measured from the back edge (lower in the drawing) that is 11 1/2 - 10 = 1 1/2, 5 1/2, 9 1/2
    assert [plain(p) for p in dowels["across"].split(", ")] == ["1 1/2", "5 1/2", "9 1/2"]
    assert plain(dowels["through"]) == "3/8"
    assert dowels["along"] == ""  # it is drilled that way


def test_dado_places_and_depth(bench_data):
    dado = next(c for c in sheet(bench_data, "side")["cuts"] if c["kind"] == "dado")
    assert plain(dado["along"]) == "4 to 4 3/4"  # source: by hand; shelf between 4 and 4 3/4
    assert plain(dado["across"]) == "1/2 to 10 1/2"  # source: by hand; 11 1/2 - 11, 11 1/2 - 1
    assert plain(dado["deep"]) == "3/8 (9.5)"
    assert dado["face"] == "near face (right)"


def test_a_grid_of_holes_is_said_by_its_lines(bench_data):
    (holes,) = sheet(bench_data, "top")["holes"]
    assert holes["count"] == 6
    assert plain(holes["along"]) == "1 3/8, 34 5/8"  # source: by hand; middles of the two sides
    assert holes["across"] == "2, 6, 10"


def test_a_sheet_groove_that_rounds_badly_says_so(bench_data):
    # source: by hand; 6.0 mm prints as 1/4 in = 6.35 mm, 0.35 mm loose
    notes = sheet(bench_data, "side")["notes"]
    assert any("6.0 mm wide" in plain(n) and "fit the part that goes in" in plain(n) for n in notes)


def test_rounded_sum_is_checked_against_overall(kit):
    # source: by hand; in eighths 0.9/16 in rounds to 0 at both ends, but 36 + 2 x 0.9/16 rounds to 36 1/8
    sizes = Sizes(Style(LengthUnit.INCHES, 8))
    tongue = INCH / 16 * 0.9
    longer = kit.TOP.box.with_span(Axis.WIDE, kit.TOP.box.low[0] - tongue, kit.TOP.box.high[0] + tongue)
    views = PartViews(frame_of(MachinedPart(kit.TOP, longer)), {}, (1.0, 1.0, 1.0))
    (note,) = rounding_notes(MachinedPart(kit.TOP, longer), (), views, sizes)
    assert "do not add up" in note
    assert rounding_notes(MachinedPart(kit.TOP, kit.TOP.box), (), views, sizes) == []


def test_frame_is_right_handed_and_starts_at_a_corner(kit):
    frame = frame_of(MachinedPart(kit.LEFT, kit.LEFT.box))
    assert cross(frame.along, frame.up) == frame.toward
    assert frame.place(frame.origin) == (0, 0, 0)
    assert frame.true == pytest.approx((17.25 * INCH, 11 * INCH, 0.75 * INCH))  # source: by hand


def test_compound_lean_in_numbers(kit):
    # source: exact; piece-language.md 2.5: length h sqrt(1 + tan2 a + tan2 b), sight line atan(tan b / tan a)
    height, angle = 584.2, radians(9)
    shift = height * tan(angle)
    leg = replace(kit.LEFT, box=kit.LEFT.box.with_span(Axis.HIGH, 0, height))
    leg = replace(leg, shape=Shape(lean=Lean(Face.BOTTOM, (-shift, -shift))))
    lean = lean_angles(leg)
    assert lean.sideways == pytest.approx(9)
    assert lean.resultant == pytest.approx(degrees(atan(sqrt(2) * tan(angle))))
    assert round(lean.resultant, 2) == 12.63  # source: published; piece-language.md section 4 (b)
    assert lean.sight_line == pytest.approx(45)
    assert lean.length == pytest.approx(height / cos(radians(lean.resultant)))


def test_leaning_frame_follows_the_stick(kit):
    height = 500.0
    leg = replace(kit.LEFT, box=kit.LEFT.box.with_span(Axis.HIGH, 0, height))
    leg = replace(leg, shape=Shape(lean=Lean(Face.BOTTOM, (-300.0, 0.0))))
    frame = frame_of(MachinedPart(leg, leg.box))
    norm = sqrt(300**2 + 500**2)
    # source: by hand; from the foot, 300 to the left, up to the head: 300 right and 500 up
    assert frame.along == pytest.approx((300 / norm, 0, 500 / norm))
    assert cross(frame.along, frame.up) == pytest.approx(frame.toward)


def test_straight_part_has_no_angles(kit):
    assert lean_angles(kit.LEFT) is None


def test_cut_sheets_number_the_cuts_and_name_the_blanks(bench_data):
    first = bench_data["cutting"]["layouts"][0]
    assert [cut["number"] for cut in first["cuts"]] == [1, 2, 3, 4, 5]
    assert [blank["label"] for blank in first["blanks"]] == ["1 (1 of 2)", "1 (2 of 2)"]
    assert plain(first["cuts"][1]["setting"]) == "37 in (939.8 mm)"  # source: by hand
    assert first["cuts"][3]["gives"] == "blank 1 (1 of 2) and waste"
    assert "on the rack" in first["facts"]


def test_defects_are_drawn_and_named(bench_data, bench):
    assert len(defects_on("C1", bench.shop)) == 1
    assert defects_on("P1#2", bench.shop) == ()
    assert ">knot</text>" in bench_data["cutting"]["layouts"][0]["svg"]


def test_areas_shares_add_up(bench_data):
    shares = [int(row["words"].split(", ")[1].split()[0]) for row in bench_data["cutting"]["shares"]]
    assert sum(shares) == pytest.approx(100, abs=2)  # source: exact; stock = blanks + kerf + offcuts + waste


def test_sizes_are_not_torn_at_line_ends():
    assert bound("1 5/8 in (41.3 mm) and 3 parts") == "1\u00a05/8\u00a0in (41.3\u00a0mm) and 3 parts"


@pytest.mark.parametrize(
    ("minutes", "words"), [(25, "25 min"), (200, "3 h 20 min"), (120, "2 h"), (3 * 1440 + 120, "3 days 2 h")]
)
def test_duration_in_plain_words(minutes, words):
    assert duration(minutes) == words  # source: by hand


def test_float_noise_does_not_show():
    sizes = Sizes(Style(LengthUnit.MM))
    assert sizes.plain(1.75 * INCH - INCH) == sizes.plain(19.05) == "19.1"


@pytest.mark.parametrize(
    ("numbers", "words"), [((), ""), ((3,), "3"), ((1, 2, 3, 4), "1 to 4"), ((2, 4, 5, 9), "2, 4, 5, 9")]
)
def test_steps_that_come_before_are_said_in_ranges(numbers, words):
    assert number_ranges(numbers) == words  # source: by hand


def test_a_picture_shows_what_a_step_adds():
    # source: by hand; a frame is started whole, then goes on with the lid; a single part is no assembly
    before = [frozenset({"lid"}), frozenset({"leg", "rail"})]
    assert added(("leg", "rail", "lid"), before) == {"lid"}
    assert added(("leg", "rail"), [frozenset({"leg"})]) == {"leg", "rail"}


def test_many_equal_spaces_are_one_run():
    assert is_even_run([10, 20, 30, 40, 50])
    assert not is_even_run([10, 20, 30, 40])  # four are quicker read one by one
    assert not is_even_run([10, 20, 30, 40, 51])


@pytest.mark.parametrize(
    ("minutes", "words"), [(25, "25 min"), (200, "3 h 20 min"), (104 * 60 + 20, "104 h")]
)
def test_work_is_told_in_hours(minutes, words):
    assert work_time(minutes) == words  # source: by hand
