"""Sizes that follow: each worked by hand from the piece file before the tool was run."""

from __future__ import annotations

from math import atan, cos, degrees, radians, sqrt, tan

import pytest

from scantling.piece.model import Axis


class TestNightTable:
    """18 x 15 x 24 in, legs 1 1/2, overhang 3/4, rails 5 high set back 1/8, one drawer on runners."""

    @pytest.fixture
    def table(self, look):
        return look("night-table")

    def test_rails_and_their_tenons(self, table):
        # source: by hand. Side: 15 - 2 x 3/4 - 2 x 1 1/2 = 10 1/2 between shoulders, + 2 x 3/4 tenon = 12.
        assert table.inches("left side rail") == pytest.approx((0.75, 10.5, 5.0))
        assert table.overall("left side rail") == pytest.approx(12 * 25.4)
        # Back: 18 - 1 1/2 - 3 = 13 1/2, + 1 1/2 = 15.
        assert table.inches("back rail") == pytest.approx((13.5, 0.75, 5.0))
        assert table.overall("back rail") == pytest.approx(15 * 25.4)

    def test_drawer_follows_its_opening(self, table):
        # source: by hand. Opening: between legs 13 1/2; front of leg 3/4 to front of back rail
        # 15 - 3/4 - 1/8 - 3/4 = 13 3/8, so 12 5/8 deep; 5 - 2 x 3/4 = 3 1/2 high.
        # Front: 13 1/2 - 2 x 1/16 = 13 3/8 wide.
        assert table.inches("drawer front")[0] == pytest.approx(13.375)
        # It clears the rail above by 3/32 (the documented `above`).
        room = table.piece.part("upper rail").box.low[2] - table.piece.part("drawer front").box.high[2]
        assert room == pytest.approx(3 / 32 * 25.4)
        # Side: 12 5/8 - 3/4 face - 1/2 short = 11 3/8; tails 3/4 less a lap of a quarter (3/16) = 9/16.
        assert table.inches("drawer left side")[1] == pytest.approx(11.375)
        assert table.overall("drawer left side") == pytest.approx((11.375 + 9 / 16) * 25.4)
        # Back: 13 3/8 - 2 x 1/2 = 12 3/8; a third of 1/2 is 0.167, to 1/16: 3/16 dado each end = 12 3/4.
        assert table.inches("drawer back")[0] == pytest.approx(12.375)
        assert table.overall("drawer back") == pytest.approx(12.75 * 25.4)
        # Bottom: 12 3/8 + 2 x 1/4 = 12 7/8 by 11 3/8 + 1/4 = 11 5/8.
        assert table.cut("drawer bottom", Axis.WIDE) == pytest.approx(12.875 * 25.4)
        assert table.cut("drawer bottom", Axis.DEEP) == pytest.approx(11.625 * 25.4)

    def test_nothing_stops_the_build(self, table):
        assert table.musts == set()


class TestPlywoodThinnerThanMarked:
    """Sold as 18 and 6, measured 17.2 and 5.4: 700 x 350 x 800 mm, toe 70, back 12 in from the rear."""

    @pytest.fixture
    def cabinet(self, look):
        return look("plant-cabinet", shop="thin-sheet")

    def test_case(self, cabinet):
        # source: by hand. 700 - 2 x 17.2 = 665.6 between sides, + 2 x 6 dado = 677.6.
        assert cabinet.overall("top") == pytest.approx(677.6)
        assert cabinet.overall("bottom") == pytest.approx(677.6)
        # 350 - 12 - 5.4 = 332.6 to the front of the back.
        assert cabinet.piece.part("bottom").size(Axis.DEEP) == pytest.approx(332.6)

    def test_post_and_bays(self, cabinet):
        # source: by hand. 800 - 17.2 - 70 - 17.2 = 695.6, + 2 x 6 = 707.6.
        assert cabinet.overall("post") == pytest.approx(707.6)
        # (665.6 - 17.2) / 2 = 324.2 a bay; a shelf less 2 x 1/16 in clearance (2 x 1.5875) = 321.025.
        assert cabinet.piece.part("shelf 1 board").size(Axis.WIDE) == pytest.approx(321.025)
        # Second bay begins at 17.2 + 324.2 + 17.2 = 358.6; the shelf 1.5875 further.
        assert cabinet.piece.part("shelf 2 board").box.low[0] == pytest.approx(360.1875)

    def test_back(self, cabinet):
        # source: by hand. 677.6 wide; from 70 to 782.8 = 712.8, + 6 into the top's groove alone.
        assert cabinet.cut("back", Axis.WIDE) == pytest.approx(677.6)
        assert cabinet.cut("back", Axis.HIGH) == pytest.approx(718.8)

    def test_grooves_are_as_wide_as_the_sheet_measures(self, cabinet):
        # source: docs/joints.md: as wide as the part measures + 0.15 mm; cutters to 0.1 mm here
        widths = {
            cut.kind: min(cut.box.sizes[0:2] if cut.kind == "groove" else cut.box.sizes)
            for cut in cabinet.machined.by_name["left side"].cuts
        }
        dado = next(c for c in cabinet.machined.by_name["left side"].cuts if c.kind == "dado")
        groove = next(c for c in cabinet.machined.by_name["left side"].cuts if c.kind == "groove")
        assert dado.box.size(Axis.HIGH) == pytest.approx(17.35, abs=0.06), widths
        assert groove.box.size(Axis.DEEP) == pytest.approx(5.55, abs=0.06), widths

    def test_nothing_stops_the_build(self, cabinet):
        assert cabinet.musts == set()

    def test_pins_without_holes_are_told(self, cabinet):
        # source: docs/joints.md, shelf pin: rows of holes come `with holes`; none is written here
        assert any("hole" in f.message and "pin" in f.message for f in cabinet.findings)


class TestSplayedBench:
    """Legs 16 1/2 high under a 1 1/2 seat, 10 deg sideways and 5 deg fore and aft."""

    @pytest.fixture
    def bench(self, look):
        return look("splayed-bench")

    def test_foot_stands_out(self, bench):
        # source: by hand. 16.5 tan 10 deg = 2.909 in to the left, 16.5 tan 5 deg = 1.444 to the front.
        lean = bench.piece.part("left front leg").shape.lean
        assert [round(-s / 25.4, 3) for s in lean.shift] == [2.909, 1.444]

    def test_rail_between_leaning_legs(self, bench):
        # source: by hand. At the top the legs' inner faces stand 14 - 2 x 3 1/2 = 7 in apart; at 8 in
        # above the floor each has moved 8.5 tan 5 deg = 0.7437 in outward: 8.487. A stick 1 1/2 square
        # leaning 5 deg is 1.5 / cos 5 deg = 1.5057 where cut level: 0.0057 less, 8.4817.
        expected = 7 + 2 * 8.5 * tan(radians(5)) - 1.5 * (1 / cos(radians(5)) - 1)
        assert expected == pytest.approx(8.4817, abs=1e-3)
        assert bench.inches("left end rail")[1] == pytest.approx(expected, abs=0.004)
        assert bench.overall("left end rail") / 25.4 == pytest.approx(expected + 1.5, abs=0.004)
        # Its middle: leg middle 6 3/4 less 8.5 tan 10 deg = 1.4988 -> 5.2512.
        assert bench.piece.part("left end rail").box.centre[0] / 25.4 == pytest.approx(5.2512, abs=2e-3)

    def test_true_length_and_compound_angle(self, bench, capsys, pieces):
        # source: by hand. sqrt(1 + tan² 10 + tan² 5) = 1.019189; 16.5 in -> 16.817 = 16 13/16.
        stretch = sqrt(1 + tan(radians(10)) ** 2 + tan(radians(5)) ** 2)
        assert 16.5 * stretch == pytest.approx(16.8166, abs=1e-3)
        # 11.1 deg in all, along a sight line atan(tan 5 / tan 10) = 26.4 deg from sideways.
        assert degrees(atan(sqrt(stretch**2 - 1))) == pytest.approx(11.14, abs=0.01)
        hole = next(h for h in bench.machined.by_name["seat"].holes if h.owner.startswith("left front"))
        off = degrees(atan(sqrt(hole.direction[0] ** 2 + hole.direction[1] ** 2) / abs(hole.direction[2])))
        assert off == pytest.approx(11.14, abs=0.02)
        sight = degrees(atan(abs(hole.direction[1] / hole.direction[0])))
        assert sight == pytest.approx(26.39, abs=0.05)
