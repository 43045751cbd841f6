"""Rows for shelf pins are bored before anything is glued; a knob is placed as measured on its door."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.building import Stage, build_plan
from scantling.cutting.cut_plan import Areas, CutPlan
from scantling.joinery.features import Hole
from scantling.piece.model import Hardware
from scantling.shop import default_shop

NO_CUTS = CutPlan((), (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0)


@pytest.fixture
def steps(make_part, make_piece, machined):
    sides = [
        make_part(f"{x} side", (at, 0, 0), (at + 20, 300, 800), definition="side")
        for x, at in (("left", 0), ("right", 580))
    ]
    door = make_part("door", (20, 0, 120), (580, 20, 780))
    knob = Hardware("knob", "knob", 1, sides[0].place, to="door", at=(("high", 360.0),))
    made = machined(make_piece([*sides, door], [], hardware=(knob,)))
    rows = tuple(
        Hole((20.0, 40.0, z), (-1.0, 0.0, 0.0), 5.0, 10.0, "pin", "pins") for z in (300.0, 332.0, 364.0)
    )
    bored = tuple(replace(part, holes=rows) if "side" in part.name else part for part in made.parts)
    return build_plan(replace(made, parts=bored), NO_CUTS, default_shop()).steps


def test_pin_holes_are_bored_in_time(steps):
    bored = next(step for step in steps if "shelf pin holes" in step.title)
    # source: by hand: three holes in each of two sides
    assert bored.title == "Drill 6 shelf pin holes"
    assert "2 sides: 3 holes 5 mm (3/16 in), 10 mm deep in each" in bored.settings
    later = (Stage.DRY_FIT, Stage.SAND, Stage.ASSEMBLE, Stage.FINISH)
    assert all(bored.number < step.number for step in steps if step.stage in later)


def test_a_knob_is_placed_on_its_door(steps):
    fitted = next(step for step in steps if "knob" in step.title)
    # source: by hand: 360 above the floor is 360 - 120 above the door's lower edge
    assert fitted.settings == ("knob: 240 mm from the bottom of door",)
