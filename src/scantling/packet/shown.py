"""How the packet says sizes, times, masses and money. The only user of `quantity` here."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from scantling.quantity import Style, dual, format_length, format_mass, format_money
from scantling.quantity.kinds import MM_PER_INCH, LengthUnit

_BOUND = re.compile(r"(?<=\d) (?=\d+/\d)|(?<=\d) (?=(?:in|mm|kg|lb|min|h)\b)")


@dataclass(frozen=True, slots=True)
class Sizes:
    """Writes lengths [mm] in one style."""

    style: Style

    @property
    def inches(self) -> bool:
        return self.style.unit is LengthUnit.INCHES

    @property
    def unit_word(self) -> str:
        return "inches" if self.inches else "millimetres"

    def plain(self, mm: float) -> str:
        """Without a unit, for drawings that name it once: "37 1/2"."""
        return format_length(_settled(mm), self.style).number

    def one(self, mm: float) -> str:
        """In the first unit: "37 1/2 in"."""
        return format_length(_settled(mm), self.style).text

    def both(self, mm: float) -> str:
        """In both units: "37 1/2 in (952.5 mm)"."""
        return dual(_settled(mm), self.style)

    def pair(self, mm: float) -> str:
        """Both units under a head that names them: "37 1/2 (952.5)"."""
        return f"{self.plain(mm)} ({format_length(_settled(mm), self._other).number})"

    @property
    def pair_head(self) -> str:
        """That head: "in (mm)"."""
        return "in (mm)" if self.inches else "mm (in)"

    @property
    def _other(self) -> Style:
        other = LengthUnit.MM if self.inches else LengthUnit.INCHES
        return replace(self.style, unit=other)

    def rounded(self, mm: float) -> float:
        """What one who works to the printed number makes. [mm]"""
        return format_length(_settled(mm), self.style).shown_mm

    def three(self, sizes: tuple[float, float, float]) -> str:
        return " × ".join(self.plain(size) for size in sizes)

    def mass(self, kg: float) -> str:
        return format_mass(kg, self.style)

    def area(self, square_mm: float) -> str:
        square_feet = f"{square_mm / (12 * MM_PER_INCH) ** 2:.1f} ft²"
        square_metres = f"{square_mm / 1e6:.2f} m²"
        return f"{square_feet} ({square_metres})" if self.inches else f"{square_metres} ({square_feet})"


def _settled(mm: float) -> float:
    """Without the float noise that would show 19.05 as 19.0 here and 19.1 there."""
    return round(mm, 6)


def bound(words: str) -> str:
    """With no-break spaces inside "37 1/2 in" and "(9.5 mm)", so that no size is torn at a line's end."""
    return _BOUND.sub("\u00a0", words)


def duration(minutes: float) -> str:
    """Waiting in plain words: "25 min", "3 h 20 min", "2 days 4 h"."""
    days, rest = divmod(round(minutes), 24 * 60)
    if days < 2:
        return work_time(minutes)
    hours = round(rest / 60)
    return f"{days} days {hours} h" if hours else f"{days} days"


def work_time(minutes: float) -> str:
    """Work in hours, never in days, for nobody works round the clock: "104 h", "3 h 20 min"."""
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest and hours < 20 else f"{round(minutes / 60)} h"


def money(sum_of: float, currency: str) -> str:
    """A price with its currency: "12.50 USD", "$12.50"."""
    if currency and not currency[0].isalpha():
        return f"{currency}{format_money(sum_of)}"
    return f"{format_money(sum_of)} {currency}".rstrip()


def amount(value: float) -> str:
    """A count or an amount without needless zeros: 3, 2.5, 0.25."""
    text = f"{value:.2f}" if abs(value) < 100 else f"{value:.0f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
