"""What must be bought and how it goes together, counted by hand before the tool was run."""

from __future__ import annotations

import re

import pytest


class TestStickBench:
    """Four 46, four 16, two 15 1/2 and a 38 out of 96 in sticks at $4.50."""

    def test_every_size(self, look):
        bench = look("stick-bench", shop="sticks")
        # source: by hand. PS 20 2x4 = 1 1/2 x 3 1/2; leg 17 1/2 - 1 1/2 = 16; rail across 15 1/2;
        # long rail 46 - 2 x 4 = 38 between the inner faces of the cross rails (at 4 in from the ends)
        assert bench.inches("slat 1") == pytest.approx((46, 3.5, 1.5))
        assert bench.inches("left front leg") == pytest.approx((3.5, 1.5, 16))
        assert bench.inches("left cross rail") == pytest.approx((1.5, 15.5, 3.5))
        assert bench.inches("long rail") == pytest.approx((38, 1.5, 3.5))
        # slats closed in 15 1/2: (15 1/2 - 4 x 3 1/2) / 3 = 1/2 apart
        assert bench.piece.part("slat 2").box.low[1] == pytest.approx(4 * 25.4)

    def test_four_sticks(self, planned):
        plan = planned("stick-bench", "sticks")
        # source: by hand. 4 x 46 + 4 x 16 + 2 x 15 1/2 + 38 = 317 in; three sticks hold at most 288.
        # Four do: 46+46, 46+46, 38+16+16+16, 16+15 1/2+15 1/2.
        assert len(plan.cut_plan.layouts) == 4
        assert plan.cut_plan.money == pytest.approx(4 * 4.50)
        assert not plan.must_fix

    def test_screws_that_are_sold(self, look):
        # source: Wood Handbook Table 8-8: wood screws up to about 3 in (76 mm)
        uses = look("stick-bench", shop="sticks").machined.hardware
        assert max(dict(use.sizes)["length"] for use in uses if use.kind == "wood screw") <= 77


class TestDovetailsClose:
    """A dovetail closes along the thickness of its tail board, never along its length."""

    def test_drawer_sides_go_in_sideways(self, planned):
        steps = [s for s in planned("night-table").build_plan.steps if "half-blind" in str(s.settings)]
        # source: geometry: tails at the ends of the sides lock front to back; the sides come sideways
        glued = [s for s in steps if "glue" in s.title.lower()]
        assert glued
        assert all("from left and right" in s.text for s in glued)


class TestDefaultShop:
    def test_has_every_wood_to_buy(self, planned):
        # source: docs/shop-file.md, last line: the usual sizes, all of it to buy
        assert not [f for f in planned("pine-bookshelf").findings if "no stock" in f.code]


class TestOwnDefaultsClash:
    def test_way_out_of_a_clash_of_one_screw(self, look):
        # source: common practice, no source: a runner's end is tenoned, dowelled or only rests on the rail
        clash = look("night-table-screwed-runner").finding("joints clash")
        assert any(word in clash.mend.text for word in ("rests", "tenon", "another method"))


class TestStepsInTheFilesUnit:
    def test_settings_of_a_piece_in_mm(self, planned):
        # source: scantling plan --help: inches or mm; without it, the file's own
        steps = planned("slide-cabinet").build_plan.steps
        grooves = [line for s in steps if "groove" in s.title for line in s.settings]
        assert grooves
        assert not [line for line in grooves if re.search(r"\d/\d+ x \d", line)]
