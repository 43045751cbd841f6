"""Reading the tables of numbers that lie beside this folder's code."""

from __future__ import annotations

import csv
from importlib.resources import files

Row = dict[str, str]


def table(name: str) -> tuple[Row, ...]:
    """The rows of `data/<name>.csv`, every cell a string."""
    text = files("scantling.wood").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def number(row: Row, column: str) -> float | None:
    """The number in a cell; None where the table has none."""
    cell = row[column].strip()
    return float(cell) if cell else None


def required(row: Row, column: str, name: str) -> float:
    """The number in a cell that may not be empty."""
    value = number(row, column)
    if value is None:
        raise ValueError(f"{name}: {column} is missing from the table")
    return value
