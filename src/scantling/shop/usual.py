"""A shop for makers who have not written theirs: the trade's usual sizes, nothing owned."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import TypeVar

from scantling.errors import Place
from scantling.quantity import MM_PER_INCH, LengthUnit, parse_length
from scantling.shop.model import BoardForSale, Lumber, Sheet, Shop, Surface
from scantling.shop.nominal import board_thickness, usual_sheet
from scantling.shop.read import read_shop_text
from scantling.shop.sheets import SHEETS_A_YARD_HAS
from scantling.wood import all_species, dressed_section, species_named

Sold = TypeVar("Sold", Lumber, Sheet)

_PLACE = Place("usual_stock.csv", 1, 1)
_QUARTERS = ("4/4", "5/4", "6/4", "8/4")
_LONG, _BROAD = 96.0 * MM_PER_INCH, 8.0 * MM_PER_INCH
_SHEET_LONG, _SHEET_BROAD = 96.0 * MM_PER_INCH, 48.0 * MM_PER_INCH
_SOFTWOOD_PRICE, _HARDWOOD_PRICE = 5.0, 10.0  # a board foot of 4/4; invented
_BOARD_FOOT = 144 * MM_PER_INCH**3
_PRICED_LABEL = 0.75 * MM_PER_INCH
_PER_QUARTER = 0.5  # a board foot dearer for each quarter of an inch thicker; invented


@cache
def default_shop() -> Shop:
    """The trade's usual stock, all of it to buy, and hand-held machines. Its prices are invented.

    Every wood of `wood/` is sold as boards; sheets and dressed lumber as `usual_stock.csv` lists them.
    """
    text = files("scantling.shop").joinpath("usual_shop.yaml").read_text(encoding="utf-8")
    shop = read_shop_text(text, "usual_shop.yaml")
    return replace(
        shop,
        for_sale=(*shop.for_sale, *_boards(shop)),
        lumber=(*shop.lumber, *_unlisted(_lumber(), shop.lumber)),
        sheets=(*shop.sheets, *_unlisted(_sheets(), shop.sheets)),
    )


def _boards(shop: Shop) -> Iterator[BoardForSale]:
    """Every wood and thickness that the file does not list."""
    listed = {(species_named(each.species).name, each.nominal) for each in shop.for_sale}
    for species in all_species():
        price = _SOFTWOOD_PRICE if species.is_softwood else _HARDWOOD_PRICE
        for i, nominal in enumerate(_QUARTERS):
            if (species.name, nominal) not in listed:
                yield _board(species.spoken, nominal, price + i * _PER_QUARTER)


def _board(name: str, nominal: str, price: float) -> BoardForSale:
    thick = board_thickness(nominal, Surface.ROUGH)
    assert thick is not None
    words = f"{name} {nominal} rough"
    return BoardForSale(words, name, nominal, thick, _BROAD, _LONG, Surface.ROUGH, price, _PLACE)


def _unlisted(usual: Iterable[Sold], listed: Iterable[Sold]) -> Iterator[Sold]:
    """What the file does not list under the same words."""
    words = {each.id.lower() for each in listed}
    return (each for each in usual if each.id.lower() not in words)


def _lumber() -> Iterator[Lumber]:
    """Sticks 8 ft long, priced by the board foot they hold as dressed."""
    for name, sizes, price in _rows("lumber"):
        for nominal in sizes:
            section = dressed_section(nominal)
            assert section is not None
            stick = round(price * section[0] * section[1] * _LONG / _BOARD_FOOT, 2)
            yield Lumber(f"{name} {nominal}", name, nominal, *section, _LONG, _PLACE, price=stick)


def _sheets() -> Iterator[Sheet]:
    """Sheets 8 x 4 ft, priced as a share of what 3/4 in costs."""
    for name, sizes, price in _rows("sheet"):
        for size in sizes:
            label = parse_length(size, LengthUnit.INCHES)
            yield Sheet(
                f"{name} {size}",
                name,
                label,
                usual_sheet(name, label),
                _SHEET_LONG,
                _SHEET_BROAD,
                _PLACE,
                SHEETS_A_YARD_HAS,
                owned=False,
                price=round(price * label / _PRICED_LABEL, 2),
            )


def _rows(kind: str) -> Iterator[tuple[str, list[str], float]]:
    text = files("scantling.shop").joinpath("usual_stock.csv").read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines()):
        if row["kind"] == kind:
            yield row["name"], row["sizes"].split("; "), float(row["price"])
