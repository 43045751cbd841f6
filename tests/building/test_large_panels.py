"""A panel too wide or too heavy for a table saw's sled is cut by a saw that runs along a clamped guide."""

from __future__ import annotations

import pytest

from scantling.building import build_plan
from scantling.cutting.cut_plan import Areas, Blank, CutPlan, Role
from scantling.piece.model import MaterialKind
from scantling.shop import default_shop


@pytest.fixture
def saws(make_part, make_piece, machined):
    """(saw, text, cautions) by part for boards of (length, width, thickness) of black cherry."""

    def cut(**sizes):
        parts = [make_part(name, (0, 0, at * 100), (a, b, at * 100 + c))
                 for at, (name, (a, b, c)) in enumerate(sizes.items())]  # fmt: skip
        blanks = tuple(
            Blank(name, name, Role.STAVE, 1, 1, MaterialKind.SOLID, "cherry, black", c, b, a, b + 6, a + 25)
            for name, (a, b, c) in sizes.items()
        )
        plan = CutPlan(blanks, (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0)
        steps = build_plan(machined(make_piece(parts, [])), plan, default_shop()).steps
        found = [step for step in steps if step.title.endswith("to length")]
        return {name: (step.machine, step.text, step.cautions) for step in found for name in step.parts}

    return cut


def test_a_wide_top_is_cut_along_a_guide_and_a_shelf_on_the_sled(saws):
    found = saws(top=(1000, 700, 19), shelf=(900, 250, 19))
    # source: by hand: 700 mm is over 24 in; common practice, no source
    assert found["top"][0] == "circular saw"
    assert "along a guide clamped square across it" in found["top"][1]
    assert "sled" not in found["top"][1]
    assert found["shelf"][0] == "table saw"
    warned = {
        name: any("two lift it" in line for line in cautions) for name, (_, _, cautions) in found.items()
    }
    assert warned == {"top": True, "shelf": False}


def test_a_heavy_plank_is_not_slid_over_a_saw(saws):
    # source: by hand: 2 x 0.5 x 0.05 m of cherry, about 560 kg/m3, weigh 28 kg; half as long 14 kg
    found = saws(plank=(2000, 500, 50), short=(1000, 500, 50))
    assert found["plank"][0] == "circular saw"
    assert found["short"][0] == "table saw"
