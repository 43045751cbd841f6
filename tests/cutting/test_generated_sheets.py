"""Sheets and sticks, whatever the sizes: sound plans, and few more sheets than their area asks for."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from scantling.cutting import cut_plan, verify
from scantling.piece.model import MaterialKind
from scantling.shop.model import Defect


def _sheet_part(make, name: str, draw: random.Random, panel: str):
    size = (draw.uniform(80, 1500), draw.uniform(80, 800))
    text = f"{panel} 18"
    return make.part(name, *size, 17.6, kind=MaterialKind.SHEET, text=text, species=panel, label=18.0)


@pytest.mark.parametrize("seed", range(6))
def test_sheets_are_cut_soundly(make, seed: int) -> None:
    draw = random.Random(seed)
    panel = draw.choice(("birch plywood", "mdf"))
    parts = [_sheet_part(make, f"panel {i}", draw, panel) for i in range(draw.randint(1, 20))]
    x, y = draw.uniform(0, 2200), draw.uniform(0, 1100)
    dent = Defect("dent", x, x + 60, y, y + 40)
    own = replace(make.sheet("own"), name=panel, defects=(dent,))
    yard = replace(make.sheet("yard"), name=panel, owned=False)
    machined, shop = make.piece(*parts), make.shop(own, yard)
    plan = cut_plan(machined, shop, seed=seed, seconds=0.15)
    assert verify(plan, machined, shop) == ()
    assert not plan.unmet
    assert plan.areas.blanks >= 0.55 * (plan.areas.stock - plan.areas.offcuts) or len(plan.layouts) == 1


@pytest.mark.parametrize("seed", range(4))
def test_sticks_are_cut_soundly(make, seed: int) -> None:
    draw = random.Random(seed)
    parts = [
        make.part(
            f"stud {i}",
            draw.uniform(100, 2400),
            draw.choice((88.9, 60.0)),
            38.1,
            kind=MaterialKind.LUMBER,
            text="pine 2x4",
            species="pine",
        )
        for i in range(draw.randint(1, 25))
    ]
    own = replace(make.stick("own", length=1800.0, count=3), owned=True)
    machined, shop = make.piece(*parts), make.shop(own, make.stick())
    plan = cut_plan(machined, shop, seed=seed, seconds=0.15)
    assert verify(plan, machined, shop) == ()
    assert not plan.unmet
