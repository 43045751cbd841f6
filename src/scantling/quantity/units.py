"""The units one may write, told to somebody who wrote another."""

from __future__ import annotations

from difflib import get_close_matches

KNOWN_UNITS = "known units: in, ft, mm, cm, m; deg; pcs; %; lb, oz, kg, g; F, C"
_SHORT = {
    "mm": ("mms", "millimeter", "millimeters", "millimetre", "millimetres"),
    "cm": ("cms", "centimeter", "centimeters", "centimetre", "centimetres"),
    "m": ("meter", "meters", "metre", "metres"),
    "in": ("ins", "inchs"),
    "ft": ("feets", "foots"),
    "deg": ("degree", "degs", "d"),
    "pcs": ("pieces", "piece", "times", "off"),
    "%": ("percent", "pct"),
    "lb": ("pound", "pounds", "pnd"),
    "oz": ("ounce", "ounces"),
    "kg": ("kilo", "kilos", "kilogram", "kilograms", "kgs"),
    "g": ("gram", "grams"),
    "F": ("fahrenheit",),
    "C": ("celsius",),
}
_WRITTEN = {word: short for short, words in _SHORT.items() for word in words}


def unit_meant(word: str) -> str:
    """What to write in place of a word after a number: the unit it stands for, else all that are known.

    >>> unit_meant("pounds")
    'write `lb`'
    """
    near = get_close_matches(word.lower(), _WRITTEN, 1, 0.75)
    return f"write `{_WRITTEN[near[0]]}`" if near else KNOWN_UNITS
