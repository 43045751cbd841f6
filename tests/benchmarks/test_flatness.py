"""The rules for what flattening takes, against the exact loss of a few whole surfaces of each shape."""

from __future__ import annotations

import pytest
from benchmarks.cutting.flatness import FAMILIES, measured


@pytest.mark.parametrize("family", FAMILIES)
def test_stations_with_half_the_second_difference_never_say_too_little(family: str) -> None:
    over = measured(family, 12, seed=5)
    assert min(over["300 mm + D/2"]) > -0.01
    assert min(over["300 mm + D/8"]) > -1.5


def test_three_readings_hold_for_even_bends_and_not_for_waves() -> None:
    assert min(measured("even bow, cup, twist", 12, seed=5)["three readings"]) > -0.01
    assert min(measured("S-bend", 12, seed=5)["three readings"]) < -3.0
