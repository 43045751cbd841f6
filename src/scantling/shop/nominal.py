"""Trade sizes: what a nominal thickness or a labelled sheet usually measures. mm."""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache
from importlib.resources import files

from scantling.quantity.kinds import MM_PER_INCH
from scantling.shop.model import Surface


def board_thickness(nominal: str, surface: Surface) -> float | None:
    """Thickness of a hardwood board sold as `nominal` (`4/4`), rough or surfaced.

    One face surfaced lies half way. Source: `quarters.csv`.
    """
    found = _quarters().get(nominal)
    if found is None:
        return None
    rough, both = found
    surfaced = {Surface.ROUGH: rough, Surface.ONE_FACE: (rough + both) / 2}
    return surfaced.get(surface, both)


def usual_sheet(name: str, label: float) -> float:
    """What a sheet marked `label` usually measures; boards of fibre and metric sheets are true to label.

    Source: `sheet_usual.csv` (common practice, no source).
    """
    usual = _usual_plywood().get(round(label, 2)) if "plywood" in name else None
    return label if usual is None else usual


@cache
def _quarters() -> dict[str, tuple[float, float]]:
    return {
        r["nominal"]: (float(r["rough_in"]) * MM_PER_INCH, float(r["two_faces_in"]) * MM_PER_INCH)
        for r in _table("quarters.csv")
    }


@cache
def _usual_plywood() -> dict[float, float]:
    return {
        round(float(Fraction(r["label"])) * MM_PER_INCH, 2): float(r["usual_mm"])
        for r in _table("sheet_usual.csv")
    }


def _table(name: str) -> list[dict[str, str]]:
    text = files("scantling.shop").joinpath(name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
