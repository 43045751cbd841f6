"""What is said when a number cannot be read."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import ScantlingError


@dataclass(eq=False)
class QuantityError(ScantlingError, ValueError):
    """A number cannot be read; `at` is the character in the text (from 0) where it goes wrong."""

    message: str
    at: int
    remedy: str = ""

    def __str__(self) -> str:
        return f"{self.message} ({self.remedy})" if self.remedy else self.message
