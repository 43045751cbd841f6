"""The small table of facts a piece wants from a shop: measured sizes, fittings, what tools can join."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from scantling.piece.facts import HardwareFact, LumberFact, SheetFact, ShopFacts
from scantling.shop.model import Machine, Shop


def facts_of(shop: Shop) -> ShopFacts:
    """What `resolve` may know of the shop.

    Owned stock speaks before stock for sale: a sheet on hand is the one whose thickness is used.
    """
    return ShopFacts(
        sheets=_sheets(shop),
        lumber=_lumber(shop),
        hardware=tuple(HardwareFact(i.id, i.kind, dict(i.sizes)) for i in shop.hardware),
        methods=methods_of(shop.machines, shop.likes),
        woods=_woods(shop),
    )


def _sheets(shop: Shop) -> tuple[SheetFact, ...]:
    ordered = sorted(shop.sheets, key=lambda sheet: not sheet.owned)
    facts = {(s.name, round(s.label, 3)): SheetFact(s.name, s.label, s.thickness) for s in reversed(ordered)}
    return tuple(facts[key] for key in sorted(facts))


def _lumber(shop: Shop) -> tuple[LumberFact, ...]:
    ordered = sorted(shop.lumber, key=lambda stick: not stick.owned)
    facts = {
        (s.name, s.nominal): LumberFact(s.name, s.nominal, s.thickness, s.width) for s in reversed(ordered)
    }
    return tuple(facts[key] for key in sorted(facts))


def _woods(shop: Shop) -> tuple[str, ...]:
    named = [board.species for board in shop.boards] + [timber.species for timber in shop.for_sale]
    return tuple(dict.fromkeys(named + [stick.name for stick in shop.lumber]))


def methods_of(machines: tuple[Machine, ...], likes: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The joint methods these machines can make: those the maker likes first, then the usual order.

    Source: `methods.csv` (common practice, no source).
    """
    kinds = {machine.kind.value for machine in machines}
    able = [method for method, ways in _method_needs() if not ways or any(way <= kinds for way in ways)]
    liked = [method for method in likes if method in able]
    return tuple(dict.fromkeys(liked + able))


@cache
def _method_needs() -> tuple[tuple[str, tuple[frozenset[str], ...]], ...]:
    """Each method with the sets of machines, any one of which can make it, in order of liking."""
    text = files("scantling.shop").joinpath("methods.csv").read_text(encoding="utf-8")
    return tuple((row["method"], _ways(row["needs"])) for row in csv.DictReader(text.splitlines()))


def _ways(needs: str) -> tuple[frozenset[str], ...]:
    return tuple(
        frozenset(kind.strip() for kind in way.split("+")) for way in needs.split("|") if way.strip()
    )
