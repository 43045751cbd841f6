"""Tables: minutes an operation takes, glues, finishes, cautions. Each row has its source."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Finish:
    """`coverage` m² a litre and coat; hours between coats and until light use; days to full cure."""

    name: str
    coverage: float
    recoat_hours: float
    usable_hours: float
    cure_days: float
    last_grit: int
    oils_dry: bool  # rags wet with it can set themselves alight


@dataclass(frozen=True, slots=True)
class GlueKind:
    """Minutes in clamps at 20 °C, hours before load, minutes to get it together, kg a m²."""

    name: str
    clamp_minutes: float
    stressed_hours: float
    open_minutes: float
    spread: float
    kg_a_litre: float


def minutes(operation: str, times: float = 1.0) -> float:
    """Active minutes of an operation, the middle of its usual range. Source: `times.csv`."""
    return _minutes()[operation] * times


def finish_named(words: str) -> Finish:
    """The finish these words name; an unknown one is taken as a wiping varnish."""
    return _longest_match(words, _finishes(), "wiping varnish")


def glue_named(words: str) -> GlueKind:
    """The glue these words name; an unknown one is taken as the usual wood glue."""
    return _longest_match(words, _glues(), "wood glue")


def caution(about: str) -> str:
    """What is usually said about a machine or a hazard; empty if nothing is."""
    return _cautions().get(about, "")


def cautions_for(*about: str) -> tuple[str, ...]:
    """Each said once, in the order asked."""
    return tuple(dict.fromkeys(text for name in about if (text := caution(name))))


def _longest_match(words: str, table: Iterable[tuple[tuple[str, ...], T]], otherwise: str) -> T:
    low = words.lower()
    found = [(len(word), row) for known, row in table for word in known if word in low]
    if found:
        return max(found, key=lambda pair: pair[0])[1]
    return next(row for known, row in table if otherwise in known)


@cache
def _minutes() -> Mapping[str, float]:
    return {row["operation"]: (float(row["low"]) + float(row["high"])) / 2 for row in _rows("times.csv")}


@cache
def _finishes() -> tuple[tuple[tuple[str, ...], Finish], ...]:
    return tuple((_words(row), _finish(row)) for row in _rows("finishes.csv"))


def _finish(row: Mapping[str, str]) -> Finish:
    return Finish(
        name=row["name"],
        coverage=float(row["coverage"]),
        recoat_hours=float(row["recoat_hours"]),
        usable_hours=float(row["usable_hours"]),
        cure_days=float(row["cure_days"]),
        last_grit=int(row["last_grit"]),
        oils_dry=row["oils_dry"] == "yes",
    )


@cache
def _glues() -> tuple[tuple[tuple[str, ...], GlueKind], ...]:
    return tuple((_words(row), _glue(row)) for row in _rows("glues.csv"))


def _glue(row: Mapping[str, str]) -> GlueKind:
    return GlueKind(
        name=row["name"],
        clamp_minutes=float(row["clamp_minutes"]),
        stressed_hours=float(row["stressed_hours"]),
        open_minutes=float(row["open_minutes"]),
        spread=float(row["spread_kg_m2"]),
        kg_a_litre=float(row["kg_a_litre"]),
    )


@cache
def _cautions() -> Mapping[str, str]:
    return {row["about"]: row["text"] for row in _rows("cautions.csv")}


def _words(row: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(word.strip() for word in row["words"].split("|"))


@cache
def _rows(name: str) -> tuple[dict[str, str], ...]:
    text = files("scantling.building").joinpath(name).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))
