"""What the longer phrases say: spans, ranges, edges, turns, moves, materials and the short settings."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.language.expressions import Expression, Name, Words


@dataclass(frozen=True, slots=True)
class FromTo(Words):
    """`front + overhang to back`: low side first."""

    low: Expression
    high: Expression


@dataclass(frozen=True, slots=True)
class Between(Words):
    """`between front leg and back leg`: from near face to near face."""

    first: Name
    second: Name


@dataclass(frozen=True, slots=True)
class Measured(Words):
    """`thick inward from outside of leg`; `direction` is one of DIRECTIONS."""

    size: Expression
    direction: str
    start: Expression


@dataclass(frozen=True, slots=True)
class Centred(Words):
    """`3 centred on middle`: half of `size` each side of `middle`."""

    size: Expression
    middle: Expression


@dataclass(frozen=True, slots=True)
class SameAs(Words):
    """`same as side rail`: the span of another part along the same axis."""

    part: Name


@dataclass(frozen=True, slots=True)
class SizeAlone(Words):
    """`broad`: a row or `on` gives the place."""

    size: Expression


Span = FromTo | Between | Measured | Centred | SameAs | SizeAlone


@dataclass(frozen=True, slots=True)
class Within(Words):
    """`38 within 34 to 42 by 1/2`; `wish` is "least", "most" or "free" and then `value` is None."""

    value: Expression | None
    wish: str | None
    low: Expression
    high: Expression
    step: Expression | None


Size = Expression | Within


@dataclass(frozen=True, slots=True)
class EdgeOf(Words):
    """`top back of lid board`; one or two place words, or ("every",) for `every edge`."""

    faces: tuple[str, ...]
    of: Name | None = None


@dataclass(frozen=True, slots=True)
class Turn(Words):
    """`front toward top 100 deg`, `top toward back 15 deg about bottom back`."""

    face: str
    toward: str
    angle: Expression
    about: EdgeOf | None = None


@dataclass(frozen=True, slots=True)
class Move(Words):
    """`12 forward`, `length of slide forward`."""

    size: Expression
    direction: str


@dataclass(frozen=True, slots=True)
class By(Words):
    """`3/8 x 2`, `29 x 78`, or a single size."""

    sizes: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Counts(Words):
    """`4`, `3 to 6`: whole numbers."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Limit(Words):
    """`at most 2 1/2`, `at least 1`, or an exact size; `bound` is "most", "least" or "exact"."""

    bound: str
    size: Expression


@dataclass(frozen=True, slots=True)
class GlueOn(Words):
    """`none`, `all`, or `front 3`: `where` is "none", "all" or a place word."""

    where: str
    length_glued: Expression | None = None


@dataclass(frozen=True, slots=True)
class MaterialOption(Words):
    """`walnut plywood 3/4`, `pine 2x4`, `cherry`, `given`: `words` without the size.

    `thick` the size as marked; `nominal` a lumber size such as "2x4".
    """

    words: tuple[str, ...]
    thick: Expression | None = None
    nominal: str | None = None


@dataclass(frozen=True, slots=True)
class MaterialWords(Words):
    """Alternatives, the first taken; `any_of`: the tool may take the best."""

    options: tuple[MaterialOption, ...]
    any_of: bool = False


@dataclass(frozen=True, slots=True)
class Options(Words):
    """`rabbet or dowels`: the first is taken; `any_of`: the tool may take the best."""

    options: tuple[Name, ...]
    any_of: bool = False


@dataclass(frozen=True, slots=True)
class Fitting(Words):
    """`butt hinge 2 1/2`, `shelf pin 5`: kind in words and the size it is sold by."""

    words: tuple[str, ...]
    size: Expression | None = None


@dataclass(frozen=True, slots=True)
class Target(Words):
    """`lid board`, `top of head post`, `edge of top`: a thing, with a place word or "edge" of it."""

    of: Name
    word: str | None = None
