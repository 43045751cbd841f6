"""What may stand under a key: a phrase of some grammar, fixed words, a list, or a table of further keys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from scantling.piece.language import parse
from scantling.piece.language.document import Scalar


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words read by `parse` (None: any text). `example` goes to the reference page."""

    name: str
    parse: Callable[[Scalar], object] | None
    example: str


@dataclass(frozen=True, slots=True)
class Word:
    """One of a few fixed words."""

    name: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ListOf:
    item: Value


@dataclass(frozen=True, slots=True)
class OneOrMore:
    """A value alone, or a list of such values."""

    item: Value


@dataclass(frozen=True, slots=True)
class Entries:
    """The keys of the table of that name."""

    table: str


@dataclass(frozen=True, slots=True)
class Named:
    """Names of the maker's own, each with such a value."""

    value: Value
    of: str  # what the names are names of: "part", "size"


@dataclass(frozen=True, slots=True)
class Either:
    """Different values by shape: words, a list, or entries."""

    words: Phrase | Word | None = None
    list: ListOf | None = None
    entries: Entries | Named | None = None


Value = Phrase | Word | ListOf | OneOrMore | Entries | Named | Either


@dataclass(frozen=True, slots=True)
class Key:
    name: str
    value: Value
    help: str


@dataclass(frozen=True, slots=True)
class Table:
    """The keys allowed in one place, `needs` those that must be there.

    `rest`: what other keys may hold, None if there may be none.
    """

    name: str
    about: str
    keys: tuple[Key, ...]
    rest: Named | None = None
    needs: tuple[str, ...] = ()
    by_name: dict[str, Key] = field(default_factory=dict, compare=False, repr=False)

    def __post_init__(self) -> None:
        self.by_name.update({key.name: key for key in self.keys})


TEXT = Phrase("text", None, "any words")
NAME = Phrase("name", parse.parse_name, "side rail")
FILE = Phrase("file", None, "hall-pieces.yaml")
SPAN = Phrase("span", parse.parse_span, "between left leg and right leg")
SIZE = Phrase("size", parse.parse_size, "38 within 34 to 42")
FORMULA = Phrase("formula", parse.parse_expression, "leg size - 1/8")
CONDITION = Phrase("condition", parse.parse_condition, "panels is solid")
EDGE = Phrase("edge", parse.parse_edge, "top back of lid board")
FACE = Phrase("face", parse.parse_face, "front")
TURN = Phrase("turn", parse.parse_turn, "front toward top 100 deg")
MOVE = Phrase("move", parse.parse_move, "12 forward")
BY = Phrase("size by size", parse.parse_by, "3/8 x 2")
COUNTS = Phrase("count", parse.parse_counts, "3 to 6")
LIMIT = Phrase("limit", parse.parse_limit, "at most 2 1/2")
GLUE = Phrase("glue", parse.parse_glue, "front 3")
TARGET = Phrase("thing or its face", parse.parse_target, "top of head post")
OPTIONS = Phrase("options", parse.parse_options, "rabbet or dowels")
MATERIAL = Phrase("material", parse.parse_material, "walnut plywood 3/4 or walnut 3/4")
OF_MATERIAL = Phrase("material or its name", parse.parse_of, "pine 2x4")
FITTING = Phrase("fitting", parse.parse_fitting, "butt hinge 2 1/2")
COATS = Phrase("coats", parse.parse_coats, "3 coats")

AXIS = Word("axis", ("wide", "deep", "high"))
FACES = OneOrMore(FACE)
NAMES = OneOrMore(NAME)
