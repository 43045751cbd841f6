"""Numbers as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.quantity import (
    Kind,
    LengthUnit,
    Quantity,
    QuantityError,
    Style,
    format_length,
    parse_kind,
    parse_length,
    parse_quantity,
)

INCHES, MM = LengthUnit.INCHES, LengthUnit.MM


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        # source: by hand
        ("38", Fraction(38)),
        ("08", Fraction(8)),
        ("1 1/2", Fraction(3, 2)),
        ("1  1/2", Fraction(3, 2)),
        ("1-1/2", Fraction(3, 2)),
        ('1-1/2"', Fraction(3, 2)),
        ('8-1/2"', Fraction(17, 2)),
        ("3/4", Fraction(3, 4)),
        ("3⁄4", Fraction(3, 4)),
        ("5/4", Fraction(5, 4)),
        ("1½", Fraction(3, 2)),
        ("1 ½ in", Fraction(3, 2)),
        ("½", Fraction(1, 2)),
        ("2⅞”", Fraction(23, 8)),
        ("2 inches", Fraction(2)),
        ("2 IN", Fraction(2)),
        ("1\u00a01/2\u202fin", Fraction(3, 2)),
        ("1 inch", Fraction(1)),
        ("2″", Fraction(2)),
        ("2''", Fraction(2)),
        ("3' 2 1/4\"", Fraction(153, 4)),
        ("3' 2 1/4", Fraction(153, 4)),
        ("3'-2 1/4\"", Fraction(153, 4)),
        ("3′2″", Fraction(38)),
        ("3’ 2”", Fraction(38)),
        ("3 ft 2 in", Fraction(38)),
        ("3 feet", Fraction(36)),
        ("1/2'", Fraction(6)),
        ("-1/16", Fraction(-1, 16)),
        ("− 1/16", Fraction(-1, 16)),
        (" .5 ", Fraction(1, 2)),
        ("2.25", Fraction(9, 4)),
    ],
)
def test_inches(text: str, inches: Fraction) -> None:
    # source: exact; 1 in = 25.4 mm (international yard and pound agreement, 1959)
    assert parse_length(text, INCHES) == float(inches * Fraction(254, 10))


@pytest.mark.parametrize(
    ("text", "mm"),
    [("38", 38.0), ("38 mm", 38.0), ("3.8 cm", 38.0), ("1 m", 1000.0), ("1 1/2 in", 38.1), ('1/2"', 12.7)],
)
def test_a_bare_number_is_of_the_file_s_unit_and_units_mix(text: str, mm: float) -> None:
    # source: exact
    assert parse_length(text, MM) == mm


@pytest.mark.parametrize(
    ("text", "value", "kind"),
    [
        ("8 deg", 8, Kind.ANGLE),
        ("8°", 8, Kind.ANGLE),
        ("9 1/2 degrees", 9.5, Kind.ANGLE),
        ("4 pcs", 4, Kind.COUNT),
        ("60 %", 0.6, Kind.RATIO),
        ("60%", 0.6, Kind.RATIO),
        # source: published; NIST SP 811 (2008), B.8: 1 lb = 0.453 592 37 kg
        ("18 lb", 8.16466266, Kind.MASS),
        ("8 oz", 0.226796185, Kind.MASS),
        ("8 kg", 8, Kind.MASS),
        ("250 g", 0.25, Kind.MASS),
        # source: exact; t/°C = (t/°F - 32) / 1.8
        ("68 F", 20, Kind.TEMPERATURE),
        ("68 °F", 20, Kind.TEMPERATURE),
        ("32 f", 0, Kind.TEMPERATURE),
        ("21 C", 21, Kind.TEMPERATURE),
    ],
)
def test_other_kinds(text: str, value: float, kind: Kind) -> None:
    found = parse_quantity(text, INCHES)
    assert found.kind is kind
    assert found.value == pytest.approx(value, rel=1e-12)


def test_a_bare_number_is_a_length() -> None:
    assert parse_quantity("2", MM) == Quantity(2.0, Kind.LENGTH)


def test_bare_counts_and_money_but_not_bare_masses() -> None:
    assert parse_kind("4", Kind.COUNT) == 4
    assert parse_kind("12.50", Kind.MONEY) == 12.5
    assert parse_kind("$12.50", Kind.MONEY) == 12.5
    assert parse_kind("8 deg", Kind.ANGLE) == 8
    with pytest.raises(QuantityError, match="is not a mass"):
        parse_kind("18", Kind.MASS)


@pytest.mark.parametrize(
    ("text", "at", "words"),
    [
        ("", 0, "not a number"),
        ("wide", 0, "not a number"),
        ("2 wide", 2, "not expected"),
        ("3,5", 1, r"3\.5"),
        ("1/0", 2, "divided by 0"),
        ("1 9/8", 2, "not less than one"),
        ("8-9/8", 2, "subtracts"),
        ("1234567890", 0, "too long"),
        ("3' 2 mm", 5, "followed by inches"),
        ("2 ins", 2, "not expected"),
        ("1 1/2/3", 2, "not expected"),
        ("1 2", 2, "not expected"),
    ],
)
def test_what_cannot_be_read_says_where(text: str, at: int, words: str) -> None:
    with pytest.raises(QuantityError, match=words) as caught:
        parse_quantity(text, INCHES)
    assert caught.value.at == at


def test_a_kind_that_is_not_wanted_is_refused() -> None:
    with pytest.raises(QuantityError, match="is not a length"):
        parse_length("8 deg", INCHES)
    with pytest.raises(QuantityError, match="not a whole number"):
        parse_kind("2.5", Kind.COUNT)


@given(st.integers(-10_000, 10_000), st.sampled_from([2, 4, 8, 16, 32, 64]))
@settings(max_examples=300, deadline=None)
def test_reading_undoes_showing_on_the_fraction_grid(parts: int, fraction: int) -> None:
    """parse(format(x)) = x for every multiple of the fraction, to the last bit, and no error is told."""
    mm = (
        parse_length(f"{parts}/{fraction}", INCHES)
        if parts >= 0
        else -parse_length(f"{-parts}/{fraction}", INCHES)
    )
    shown = format_length(mm, Style(INCHES, fraction))
    assert parse_length(shown.text, MM) == mm == shown.shown_mm
    assert shown.error_mm == 0


@given(st.integers(-100_000, 100_000))
@settings(max_examples=200, deadline=None)
def test_reading_undoes_showing_on_tenths_of_a_millimetre(tenths: int) -> None:
    shown = format_length(tenths / 10, Style(MM))
    assert parse_length(shown.text, INCHES) == tenths / 10


@given(st.text(max_size=12, alphabet="0123456789 -/.'\"½⅛inmftcdeg%°FC,+x"))
@settings(max_examples=500, deadline=None)
def test_any_text_is_a_quantity_or_a_quantity_error(text: str) -> None:
    at = 0
    try:
        parse_quantity(text, INCHES)
    except QuantityError as error:
        at = error.at
    assert 0 <= at <= len(text)


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        # source: by hand; the unit each word stands for
        ("40 pounds", "write `lb`"),
        ("3 centimetres", "write `cm`"),
        ("7 kilograms", "write `kg`"),
        ("2 furlongs", "known units: in, ft, mm, cm, m; deg; pcs; %; lb, oz, kg, g; F, C"),
    ],
)
def test_another_unit_is_answered_with_those_known(text, remedy):
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, LengthUnit.INCHES)
    assert caught.value.remedy == remedy
