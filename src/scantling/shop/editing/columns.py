"""The columns of each section's table, and the names people give them in spreadsheets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum


class Sort(Enum):
    """What a cell holds."""

    NAME = "the line's own name"
    GROUP = "the heading over it"
    SIZE = "one of the sizes"
    LENGTH = "a length"
    NUMBER = "a number"
    MONEY = "money"
    WORDS = "words"
    FLAG = "yes or nothing"
    HOW_MANY = "a number or any"
    DEFECTS = "defects"


@dataclass(frozen=True, slots=True)
class Column:
    """`word`: what the cell is called in a line. `part`: which of the sizes. `also`: other heads for it."""

    key: str
    head: str
    sort: Sort
    word: str = ""
    part: int = 0
    wanted: bool = False
    also: tuple[str, ...] = ()


def _size(key: str, part: int, *, wanted: bool) -> Column:
    also = {"length": ("long", "len", "l"), "width": ("wide", "w", "breadth")}
    return Column(
        key, key.capitalize(), Sort.SIZE, "size", part, wanted, also.get(key, ("thick", "t", "measured"))
    )


def _length(word: str, *also: str) -> Column:
    return Column(word, word.capitalize(), Sort.LENGTH, word, also=also)


def _words(word: str, *also: str) -> Column:
    return Column(word, word.capitalize(), Sort.WORDS, word, also=also)


def _number(word: str, *also: str) -> Column:
    return Column(word, word.capitalize(), Sort.NUMBER, word, also=also)


_NAMES = ("name", "mark", "label", "id", "no", "number")
_HAVE = ("have", "in stock", "stock", "owned", "quantity", "qty", "count", "pieces", "pcs")
_PRICE = Column("price", "Price", Sort.MONEY, "price", also=("cost", "each"))
_ON_HAND = _number("on hand", *_HAVE)
_FOR_SALE = Column("for sale", "For sale", Sort.HOW_MANY, "for sale", also=("to buy", "yard has"))
_DEFECTS = Column("defects", "Defects", Sort.DEFECTS, also=("defect", "faults", "knots"))
_SOLD_AS = ("wood", "species", "timber", "kind", "material", "type", "size", "nominal")

COLUMNS: Mapping[str, tuple[Column, ...]] = {
    "boards": (
        Column("board", "Board", Sort.NAME, also=_NAMES),
        Column("stack", "Wood and thickness", Sort.GROUP, wanted=True, also=("group", "stack", *_SOLD_AS)),
        _size("length", 0, wanted=True),
        _size("width", 1, wanted=True),
        _size("thickness", 2, wanted=True),
        _length("bow"),
        _length("crook"),
        _length("cup"),
        _length("twist", "wind"),
        _words("stations", "profile"),
        _number("moisture", "moisture %", "mc", "moisture content"),
        _words("rings", "cut", "sawn"),
        _words("figure", "grain"),
        _length("ends", "end waste", "end"),
        _PRICE,
        Column("for sale", "For sale", Sort.FLAG, "for sale", also=("to buy",)),
        _DEFECTS,
    ),
    "sheets": (
        Column("sheet", "Sheet", Sort.NAME, also=_NAMES),
        Column("sold as", "Sold as", Sort.GROUP, wanted=True, also=_SOLD_AS),
        _size("length", 0, wanted=True),
        _size("width", 1, wanted=True),
        _size("thickness", 2, wanted=False),
        _ON_HAND,
        _FOR_SALE,
        _PRICE,
        _DEFECTS,
    ),
    "lumber": (
        Column("stick", "Stick", Sort.NAME, also=_NAMES),
        Column("sold as", "Sold as", Sort.GROUP, wanted=True, also=_SOLD_AS),
        _size("length", 0, wanted=True),
        _size("width", 1, wanted=False),
        _size("thickness", 2, wanted=False),
        _ON_HAND,
        _FOR_SALE,
        _PRICE,
    ),
    "for sale": (
        Column("wood", "Wood, sold as", Sort.NAME, wanted=True, also=("sold as", *_NAMES, *_SOLD_AS)),
        _size("length", 0, wanted=True),
        _size("width", 1, wanted=True),
        _size("thickness", 2, wanted=False),
        Column(
            "price",
            "Price a board foot",
            Sort.MONEY,
            "price",
            wanted=True,
            also=("price", "cost", "a board foot"),
        ),
    ),
    "machines": (
        Column("machine", "Machine", Sort.NAME, wanted=True, also=_NAMES),
        _words("is a", "kind", "type"),
        _length("kerf", "cut", "blade"),
        _length("widest", "width", "max width"),
        _length("thickest", "max thickness"),
        _length("thinnest", "min thickness"),
        _length("shortest", "min length"),
        _length("longest", "max length"),
        _length("snipe"),
        _length("sled"),
        _length("good to", "accuracy"),
    ),
    "clamps": (
        Column("clamp", "Clamp", Sort.NAME, wanted=True, also=("kind", "type", *_NAMES)),
        Column("count", "How many", Sort.NUMBER, "count", wanted=True, also=("many", "number", *_HAVE)),
        Column(
            "opens", "Opens", Sort.LENGTH, "opens", wanted=True, also=("opening", "length", "size", "reach")
        ),
        _words("force", "press", "pressure"),
    ),
    "hardware": (
        Column("fitting", "Fitting", Sort.GROUP, wanted=True, also=("kind", "type", "hardware", "item")),
        Column("label", "Size or name", Sort.NAME, also=("size", *_NAMES)),
        Column("price", "Price", Sort.MONEY, "price", also=("cost", "price for")),
        _ON_HAND,
        _words("rating", "load", "carries"),
        _words("screws", "fixed with"),
        *(
            _length(word)
            for word in (
                *("length", "width", "height", "thick", "diameter", "clearance", "open width"),
                *("reach", "arm", "slot", "travel", "opens"),
            )
        ),
        _number("gauge"),
    ),
    "supplies": (
        Column("supply", "Supply", Sort.NAME, wanted=True, also=("item", "kind", *_NAMES)),
        Column("price", "Price", Sort.MONEY, "price", wanted=True, also=("cost", "price a")),
        _words("covers", "coverage"),
        _number("on hand", *_HAVE),
    ),
}

EXAMPLES: Mapping[str, Mapping[str, str]] = {
    "boards": {"stack": "walnut, 4/4 rough", "length": "50", "width": "40", "thickness": "20"},
    "sheets": {"sold as": "birch plywood 20", "length": "90", "width": "40"},
    "lumber": {"sold as": "pine 2x4", "length": "90"},
    "for sale": {"wood": "walnut 4/4 rough", "length": "90", "width": "40", "price": "10"},
    "machines": {"machine": "drill"},
    "clamps": {"clamp": "bar clamp", "count": "1", "opens": "20"},
    "hardware": {"fitting": "knob"},
    "supplies": {"supply": "wood glue", "price": "10 a litre"},
}


def columns_of(section: str) -> tuple[Column, ...]:
    """The columns of a section in order."""
    return COLUMNS[section]


def column_named(section: str, key: str) -> Column:
    """The column of that key."""
    return next(column for column in COLUMNS[section] if column.key == key)
