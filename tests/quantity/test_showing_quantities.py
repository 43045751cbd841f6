"""Quantities as people read them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import OutOfRange
from scantling.quantity import (
    LengthUnit,
    Style,
    dual,
    format_angle,
    format_length,
    format_mass,
    format_money,
    format_ratio,
    format_temperature,
)

IN32 = Style(LengthUnit.INCHES)
MM = Style(LengthUnit.MM)


@pytest.mark.parametrize(
    ("mm", "fraction", "text"),
    [
        # source: by hand; 25.4 mm to the inch
        (41.275, 32, "1 5/8 in"),
        (25.4, 32, "1 in"),
        (0.0, 32, "0 in"),
        (-0.2, 32, "0 in"),
        (-30.1625, 16, "-1 3/16 in"),
        (12.7, 64, "1/2 in"),
        (0.79375, 32, "1/32 in"),
        (0.396875, 32, "1/32 in"),  # half a step goes up
        (25.4 - 0.3, 32, "1 in"),
        (2540.0, 16, "100 in"),
    ],
)
def test_inches_in_lowest_terms(mm: float, fraction: int, text: str) -> None:
    assert format_length(mm, Style(LengthUnit.INCHES, fraction)).text == text


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (41.275, "41.3 mm"),
        (800.0, "800 mm"),
        (764.8, "764.8 mm"),
        (-0.04, "0 mm"),
        (123456.78, "123456.8 mm"),
    ],
)
def test_millimetres_to_a_tenth(mm: float, text: str) -> None:
    # source: by hand
    assert format_length(mm, MM).text == text


def test_the_number_alone_and_both_units() -> None:
    # source: by hand; 1 5/8 in = 41.275 mm
    assert format_length(41.275, IN32).number == "1 5/8"
    assert dual(41.275, IN32) == "1 5/8 in (41.3 mm)"
    assert dual(41.275, MM) == "41.3 mm (1 5/8 in)"


@given(st.floats(-5000, 5000), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
@settings(max_examples=300, deadline=None)
def test_the_error_is_told_and_is_at_most_half_a_step(mm: float, fraction: int) -> None:
    shown = format_length(mm, Style(LengthUnit.INCHES, fraction))
    assert shown.shown_mm - mm == shown.error_mm
    assert abs(shown.error_mm) <= 25.4 / fraction / 2 + 1e-9


def test_other_kinds() -> None:
    # source: by hand; 8.164 66 kg = 18 lb; 21.11 °C = 70 °F
    assert format_mass(8.16466, IN32) == "18 lb (8.2 kg)"
    assert format_mass(8.16466, MM) == "8.2 kg (18 lb)"
    assert format_angle(12.63) == "12.6°"
    assert format_temperature(21.11, IN32) == "70 °F (21 °C)"
    assert format_temperature(21.11, MM) == "21 °C (70 °F)"
    assert format_ratio(0.25) == "25 %"
    assert format_money(12.5) == "12.50"


@pytest.mark.parametrize("fraction", [0, 3, 10, 128])
def test_only_the_fractions_of_a_rule(fraction: int) -> None:
    with pytest.raises(OutOfRange, match="power of two"):
        Style(LengthUnit.INCHES, fraction)
