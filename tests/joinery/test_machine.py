"""The stage as a whole: what is refused, what every method gives, mirrored copies."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import ResolveError
from scantling.joinery import machine_piece


def test_a_method_without_rules_is_refused_with_those_that_have(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700))
    rail = bench_of.part("rail", (40, 10, 300), (440, 30, 380))
    joint = replace(bench_of.joint(rail, leg, "tenon"), method="string")
    with pytest.raises(ResolveError) as refused:
        bench_of.machined([leg, rail], [joint])
    assert "string" in str(refused.value)
    assert "dowels" in str(refused.value)
    assert refused.value.place == joint.place


def test_same_piece_same_result(bench_of):
    leg = bench_of.part("leg", (0, 0, 0), (40, 40, 700))
    rail = bench_of.part("rail", (40, 10, 300), (440, 30, 380))
    piece = bench_of.piece([leg, rail], [bench_of.joint(rail, leg, "dowels")])
    from scantling.quantity import LengthUnit
    from scantling.shop.model import Shop

    shop = Shop("shed", LengthUnit.MM)
    first, second = machine_piece(piece, shop), machine_piece(piece, shop)
    assert first.parts == second.parts
    assert first.layouts == second.layouts
