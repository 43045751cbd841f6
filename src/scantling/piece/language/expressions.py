"""What a formula says, as a tree: numbers, names, places, sizes, arithmetic, limits, conditions.

Every node says where it stands: `offset` and `length` in characters within its scalar;
`scalar.place_of(node)` turns that into a place in the file. Nodes know no values of names.
"""

from __future__ import annotations

from dataclasses import dataclass

from scantling.quantity.kinds import Kind

PLACE_WORDS = frozenset(
    ["left", "right", "front", "back", "top", "bottom", "floor", "middle", "inside", "outside"]
)
SIZE_WORDS = frozenset(["width", "depth", "height", "length", "thickness"])
OWN_WORDS = frozenset(("thick", "broad"))
DIRECTIONS = frozenset(["right", "left", "back", "forward", "up", "down", "inward", "outward"])
RESERVED = frozenset(
    [
        "of",
        "to",
        "from",
        "at",
        "and",
        "or",
        "not",
        "is",
        "when",
        "otherwise",
        "by",
        "x",
        "within",
        "between",
        "same",
        "as",
        "centred",
        "rounded",
    ]
)


@dataclass(frozen=True, slots=True)
class Words:
    """Anything a maker wrote, at `offset` characters into its scalar, `length` characters long."""

    offset: int
    length: int


@dataclass(frozen=True, slots=True)
class Number(Words):
    """`1 1/2`, `38 mm`, `8 deg`, `60 %`.

    With a unit, `kind` is said and `plain` equals `value`, both in the inside unit
    (mm, degrees, kg, °C, pieces; 60 % is 0.6). A bare number has `kind` None: `plain` is the number as
    written, `value` the length in mm it means in its own file's unit; what it meets decides.
    """

    plain: float
    value: float
    kind: Kind | None


@dataclass(frozen=True, slots=True)
class Name(Words):
    """Plain lower-case words, numbers among them: ("drawer", "3", "left", "side")."""

    words: tuple[str, ...]

    @property
    def text(self) -> str:
        return " ".join(self.words)


@dataclass(frozen=True, slots=True)
class FaceOf(Words):
    """`top of leg`; `word` is one of PLACE_WORDS; `of` None means my own box.

    `at` is the height (or length) where a leaning, tapered or curved face is read.
    """

    word: str
    of: Name | None = None
    at: Expression | None = None


@dataclass(frozen=True, slots=True)
class SizeOf(Words):
    """`width of lid`, `rise of drawer`; with `of` None, `word` is one of SIZE_WORDS: my own box's.

    `word` is one of SIZE_WORDS or the words of a named size of a kit, hold or fitting.
    """

    word: str
    of: Name | None = None
    at: Expression | None = None


@dataclass(frozen=True, slots=True)
class OwnSize(Words):
    """`thick` or `broad`: this part's own material; with `of`, that of a named material."""

    word: str
    of: Name | None = None


@dataclass(frozen=True, slots=True)
class Negative(Words):
    value: Expression


@dataclass(frozen=True, slots=True)
class Arithmetic(Words):
    """`sign` is one of + - * /."""

    sign: str
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class FunctionOf(Words):
    """`name` is "tan" or "sqrt"."""

    name: str
    value: Expression


@dataclass(frozen=True, slots=True)
class AtLeast(Words):
    value: Expression
    limit: Expression


@dataclass(frozen=True, slots=True)
class AtMost(Words):
    value: Expression
    limit: Expression


@dataclass(frozen=True, slots=True)
class Rounded(Words):
    """To whole steps of `step`; `way` is "up", "down" or "near"."""

    value: Expression
    way: str
    step: Expression


@dataclass(frozen=True, slots=True)
class When(Words):
    """`value when condition otherwise other`."""

    value: Expression
    condition: Condition
    other: Expression


@dataclass(frozen=True, slots=True)
class Otherwise(Words):
    """`thick of box otherwise 1/2`: the material's own size, or `other` where it is sold by none."""

    value: OwnSize
    other: Expression


Expression = (
    Number
    | Name
    | FaceOf
    | SizeOf
    | OwnSize
    | Negative
    | Arithmetic
    | FunctionOf
    | AtLeast
    | AtMost
    | Rounded
    | When
    | Otherwise
)


@dataclass(frozen=True, slots=True)
class Compare(Words):
    """`sign` is one of > < >= <=."""

    sign: str
    left: Expression
    right: Expression


@dataclass(frozen=True, slots=True)
class Is(Words):
    """`panels is solid`, `hung on is not left`: a choice or a material against plain words."""

    name: Name
    option: Name
    negated: bool


@dataclass(frozen=True, slots=True)
class Both(Words):
    left: Condition
    right: Condition


@dataclass(frozen=True, slots=True)
class Either(Words):
    left: Condition
    right: Condition


@dataclass(frozen=True, slots=True)
class Not(Words):
    condition: Condition


Condition = Compare | Is | Both | Either | Not
