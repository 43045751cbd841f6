"""How each joint method holds: rigidly, bolted with play, sliding, floating or resting."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class Holding:
    """`holds`: rigid, bolted, slides, floats or rests. `travel`: least either way where it slides. [mm]"""

    holds: str
    glued: bool
    takes_apart: bool
    travel: float | None


def holding(method: str) -> Holding:
    """How a method of the language holds; KeyError for a method the table lacks."""
    return _table()[method]


def is_rigid(method: str) -> bool:
    """Whether the joint lets neither part slide on the other."""
    return holding(method).holds == "rigid"


@lru_cache(maxsize=1)
def _table() -> dict[str, Holding]:
    text = files("scantling.checks").joinpath("data", "holding.csv").read_text(encoding="utf-8")
    return {
        row["method"]: Holding(
            row["holds"],
            row["glued"] == "yes",
            row["takes_apart"] == "yes",
            float(row["travel"]) if row["travel"] else None,
        )
        for row in csv.DictReader(text.splitlines())
    }
