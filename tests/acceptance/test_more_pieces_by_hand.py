"""Mitres, rings, breadboard ends, bought slides, own kits, a half-built shelf: worked by hand first."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from scantling.piece import read_piece, read_record, resolve
from scantling.piece.model import Axis
from scantling.shop import default_shop, facts_of


class TestMitredFrame:
    def test_rails_run_to_the_outer_corners(self, look):
        frame = look("mitred-frame")
        # source: by hand. 500 - 2 x 45 = 410 inside; to the long points 500; stiles 700 all over
        assert frame.piece.part("top rail").length == pytest.approx(410)
        assert frame.overall("top rail") == pytest.approx(500)
        assert frame.overall("left stile") == pytest.approx(700)
        assert frame.musts == set()


class TestThreeLeggedStool:
    def test_legs_stand_in_a_ring(self, look):
        stool = look("three-legged-stool")
        # source: by hand. First leg 6 - 2 = 4 in before the middle (6, 6), then 120 deg on, anticlockwise
        # from above: (6 + 4 sin 120, 6 - 4 cos 120) = (9.464, 8), and its mirror image (2.536, 8)
        for number, turn in ((1, 0), (2, 120), (3, 240)):
            part = stool.piece.part(f"leg {number}")
            at = part.placement.point(part.box.centre)
            assert at[0] / 25.4 == pytest.approx(6 + 4 * sin(radians(turn)), abs=1e-3)
            assert at[1] / 25.4 == pytest.approx(6 - 4 * cos(radians(turn)), abs=1e-3)
        assert stool.musts == set()


class TestBreadboardEnd:
    def test_pegs_may_slide(self, look):
        board = look("breadboard-table-top")
        # source: by hand. 900 - 2 x 70 = 760, + 2 x 25 tongue = 810
        assert board.overall("field") == pytest.approx(810)
        slots = [c for c in board.machined.by_name["field"].cuts if c.kind == "slot"]
        assert len(slots) == 8
        for slot in slots:
            # source: sugar maple C_T 0.00353 (Table 13-5), 6.2 to 11.0 %: a peg d from the middle moves
            # d x 0.00353 x 4.79 (250 mm: 4.23 mm); the slot is the peg, 6.35, and at least that
            away = abs(slot.box.centre[1] - 300)
            moves = away * 0.00353 * 4.79
            assert 6.35 + moves <= slot.box.size(Axis.DEEP) <= 6.35 + moves + 1.0
        assert board.musts == set()


class TestOwnKit:
    def test_setting_given_by_the_user_of_the_kit(self, look):
        # source: by hand. Rails 40 high from 30 above the bay's bottom (20): 50, then each 120 further
        cupboard = look("rack-cupboard")
        lows = [cupboard.piece.part(f"rack rail {n}").box.low[2] for n in (1, 2, 3)]
        assert lows == pytest.approx([50, 170, 290])
        assert cupboard.piece.part("rack rail 1").length == pytest.approx(460)
        assert cupboard.musts == set()


class TestSlideCabinet:
    @pytest.fixture
    def cabinet(self, look):
        return look("slide-cabinet")

    def test_drawers_leave_13_mm_a_side(self, cabinet):
        # source: by hand. 450 - 2 x 18 = 414 between sides (18 as sold in the default shop); 13 a side: 388
        left, right = cabinet.piece.part("drawer 1 left side"), cabinet.piece.part("drawer 1 right side")
        assert right.box.high[0] - left.box.low[0] == pytest.approx(414 - 26)
        # front: 414 less 2 x 1/16 in
        assert cabinet.piece.part("drawer 1 front").size(Axis.WIDE) == pytest.approx(414 - 3.175)

    def test_a_slide_nobody_has_is_told(self, cabinet):
        assert any("no side slide (length 450 mm" in f.message for f in cabinet.findings)

    def test_sheet_fronts_are_as_thick_as_the_sheet(self, cabinet):
        # source: docs/piece-language.md: a sheet part with a bare number for its thickness is reported
        part = cabinet.piece.part("drawer 1 front")
        told = any("drawer 1 front" in f.where and "thick" in f.message for f in cabinet.findings)
        assert part.thickness == pytest.approx(18.0) or told


class TestHalfBuilt:
    """24 wide; left side measured 11/16, bottom cut 22 3/8: 23 1/4 - 11/16 - 22 3/8 = 3/16 is open."""

    def built(self, pieces, **settings: str):
        record = read_record(pieces / "hall-shelf-first.build.yaml")
        facts = facts_of(default_shop())
        return resolve(read_piece(pieces / "hall-shelf.yaml"), facts, record, dict(settings))

    def test_what_is_not_cut_follows(self, pieces):
        # source: by hand. Shelves: 24 - 3/4 - 11/16 = 22 9/16 between shoulders
        assert self.built(pieces).part("shelf 1").length / 25.4 == pytest.approx(22 + 9 / 16)

    def test_gap_is_told(self, pieces):
        (gap,) = [notice for notice in self.built(pieces).notices if notice.must]
        assert "3/16 in" in gap.message
        assert "recut it" in gap.remedy

    def test_size_that_closes_it(self, pieces):
        # source: by hand. 24 - 3/16 = 23 13/16
        settings = {"overall wide": "23 13/16"}
        record = read_record(pieces / "hall-shelf-first.build.yaml")
        shelf = read_piece(pieces / "hall-shelf.yaml")
        mended = resolve(shelf, facts_of(default_shop()), record, settings)
        assert not [notice for notice in mended.notices if notice.must]
        (gap,) = [notice for notice in self.built(pieces).notices if notice.must]
        assert "overall wide 23 13/16" in gap.remedy


class TestThroughTheFloor:
    def test_below_the_floor_is_a_must(self, look):
        # source: by hand. The front lower edge stands at 2 - 14 sin 20 deg = -2.79 in
        piece = look("through-the-floor")
        part = piece.piece.part("board")
        corner = part.placement.point(part.box.low)
        assert corner[2] / 25.4 == pytest.approx(2 - 14 * sin(radians(20)), abs=1e-3)
        assert any(f.must_fix and "floor" in f.message for f in piece.findings)


class TestKeyCupboard:
    """Two panel doors in 600 x 500 mm, sides 18; the kit's own sizes are in inches."""

    @pytest.fixture
    def cupboard(self, look):
        return look("key-cupboard")

    def test_doors_fill_half_each(self, cupboard):
        # source: by hand. (600 - 36) / 2 = 282 a doorway; rails 282 - 2 x 1.5875 - 2 x 50.8 = 177.225,
        # tenons 25 each: 227.225; stiles 500 - 36 - 2 x 1.5875 = 460.825
        for door in ("left door", "right door"):
            assert cupboard.piece.part(f"{door} top rail").length == pytest.approx(177.225)
            assert cupboard.overall(f"{door} top rail") == pytest.approx(227.225)
            assert cupboard.piece.part(f"{door} left stile").length == pytest.approx(460.825)

    def test_doors_swing_clear(self, cupboard):
        assert not cupboard.codes & {"movement blocked", "movement starts blocked", "swings into the room"}

    def test_panel_is_as_thick_as_its_wood(self, cupboard):
        # source: docs/piece-language.md: `cherry 9` is solid wood, planed to 9
        told = any("left door panel" in f.where and "thick" in f.message for f in cupboard.findings)
        assert cupboard.piece.part("left door panel").thickness == pytest.approx(9) or told

    def test_own_defaults_do_not_clash(self, cupboard):
        # source: docs/joints.md: a row that would run into another's hole is shifted along its run
        assert "joints clash" not in cupboard.musts


class TestBedHead:
    """Posts 90, 1500 over all; slats 60 wide no more than 65 apart, a gap at each end."""

    def test_slats_counted(self, look):
        head = look("bed-head")
        # source: by hand. 1500 - 180 = 1320; 60 n + 65 (n + 1) >= 1320 first at n = 11;
        # gaps (1320 - 660) / 12 = 55
        slats = [part for part in head.piece.parts if part.definition == "slat"]
        assert len(slats) == 11
        assert slats[0].box.low[0] == pytest.approx(90 + 55)
        assert slats[1].box.low[0] - slats[0].box.high[0] == pytest.approx(55)
        # between rails: 1100 - 20 - 120 - (250 + 150) = 560
        assert slats[0].length == pytest.approx(560)

    def test_wide_rail_is_told(self, look):
        # source: by hand. 150 > 125; white oak 150 x 0.00365 x 4.79 = 2.6 mm a year
        found = look("bed-head").finding("wide rail glued whole")
        assert found.number == pytest.approx(150)
        assert "2.6 mm" in found.message
