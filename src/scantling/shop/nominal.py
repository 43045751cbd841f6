"""Trade sizes: what a nominal thickness, a dressed stick or a labelled sheet usually measures. mm."""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache
from importlib.resources import files

from scantling.quantity.kinds import MM_PER_INCH
from scantling.shop.model import Surface


def dressed(nominal: str) -> tuple[float, float] | None:
    """Thickness and width of dry dressed lumber: `2x4` -> 38.1 x 88.9.

    Source: PS 20, minimum dressed sizes, dry (`dressed.csv` says which are from memory).
    """
    thickness, _, width = nominal.partition("x")
    sizes = _dressed_sizes()
    thick, broad = sizes.get(("thickness", thickness.strip())), sizes.get(("width", width.strip()))
    return None if thick is None or broad is None else (thick, broad)


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
def _dressed_sizes() -> dict[tuple[str, str], float]:
    return {(r["kind"], r["nominal"]): float(r["dry_in"]) * MM_PER_INCH for r in _table("dressed.csv")}


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
