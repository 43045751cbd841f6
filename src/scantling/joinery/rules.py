"""The trade's numbers that layouts use, read once from `rules.json`. Lengths mm, ratios plain."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.resources import files
from typing import Any

Row = dict[str, float]


def number(name: str) -> float:
    """The value of one rule; KeyError for a name the table does not hold."""
    return float(_table()["rules"][name]["value"])


def source(name: str) -> str:
    """Where the rule (or the table of rows) comes from."""
    table = _table()
    return str((table["rules"].get(name) or table[name])["source"])


def rows(name: str) -> tuple[Row, ...]:
    """The rows of one table, in order."""
    return tuple(_table()[name]["rows"])


def row_for(name: str, key: str, value: float) -> Row:
    """The first row whose `key` reaches `value` (within 0.3 mm), else the last."""
    found = rows(name)
    return next((row for row in found if row[key] >= value - 0.3), found[-1])


def screw_row(gauge: float) -> Row:
    """Diameters for a gauge: the row of that gauge or the next above; the last for larger."""
    return row_for("screws", "gauge", gauge + 0.3)


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    text = files("scantling.joinery").joinpath("rules.json").read_text(encoding="utf-8")
    table: dict[str, Any] = json.loads(text)
    return table
