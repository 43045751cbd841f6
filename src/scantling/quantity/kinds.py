"""The kinds of quantity a maker writes, and the units of length a file may be in.

Inside, a length is in mm, an angle in degrees, a mass in kg, a ratio a plain number
(60 % is 0.6), a count a plain number.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    LENGTH = "length"
    ANGLE = "angle"
    COUNT = "count"
    RATIO = "ratio"
    MASS = "mass"
    TEMPERATURE = "temperature"
    MONEY = "money"


class LengthUnit(Enum):
    """The unit of bare numbers in one file."""

    INCHES = "inches"
    MM = "mm"


MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Quantity:
    """`value` in the inside unit of its kind."""

    value: float
    kind: Kind
