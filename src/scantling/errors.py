"""Errors for makers: what is wrong, where, and what to write instead.

ScantlingError
├─ ReadError        a file cannot be understood: file, line, character, remedy
│  └─ ResolveError  the words are understood but cannot be worked out; carries the chain of names
├─ OutOfRange       also a ValueError: quantity, value, limits, unit, source
├─ Conflict         a file changed under an edit: the words now, those shown, those wanted
└─ MissingTool      what to install, and what still works without it
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where words stand in a maker's file; line and character count from 1."""

    file: str
    line: int
    character: int
    length: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.character}"

    def moved(self, by: int, length: int = 1) -> Place:
        """The place `by` characters further along the same line."""
        return Place(self.file, self.line, self.character + by, length)


class ScantlingError(Exception):
    """Anything Scantling says to a maker instead of an answer."""


@dataclass(eq=False)
class ReadError(ScantlingError):
    """A maker's file cannot be understood as written.

    `message` says what is wrong, `remedy` what to write instead (may be empty),
    `chain` the names that led here, outermost first.
    """

    message: str
    place: Place | None = None
    remedy: str = ""
    chain: tuple[str, ...] = field(default=())

    def __str__(self) -> str:
        where = f"{self.place}: " if self.place else ""
        chain = f"{', '.join(self.chain)}: " if self.chain else ""
        remedy = f" ({self.remedy})" if self.remedy else ""
        return f"{where}{chain}{self.message}{remedy}"


@dataclass(eq=False)
class Conflict(ScantlingError):
    """The file no longer says what the page showed, so nothing was written.

    `now`: the words there now, `was`: those the page showed, `wanted`: those asked for; "" where none stand.
    """

    now: str
    was: str
    wanted: str

    def __str__(self) -> str:
        return f'the file says "{self.now}" here by now, not "{self.was}"; "{self.wanted}" was not written'


class ResolveError(ReadError):
    """The words are understood, but a size or a place cannot be worked out from them."""


@dataclass(eq=False)
class OutOfRange(ScantlingError, ValueError):
    """A value outside the range in which a formula or a rule holds."""

    quantity: str
    value: float
    low: float | None
    high: float | None
    unit: str = ""
    source: str = ""

    def __str__(self) -> str:
        limits = f"{_shown(self.low, 'any')} to {_shown(self.high, 'any')}"
        source = f" [{self.source}]" if self.source else ""
        return f"{self.quantity} is {self.value:g} {self.unit}; it must be {limits} {self.unit}{source}"


class MissingTool(ScantlingError):
    """An optional extra is not installed; the message says how to get it and what works without."""


def _shown(limit: float | None, otherwise: str) -> str:
    return otherwise if limit is None else f"{limit:g}"
