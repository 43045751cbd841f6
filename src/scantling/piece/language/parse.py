"""The phrases of scalars: each `parse_*` takes a scalar and gives its tree, or a ReadError with its place.

The same words in the same unit give the same tree, worked out once.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import TypeVar

from scantling.errors import ReadError
from scantling.piece.language import formulas, placing, settings
from scantling.piece.language import spans as s
from scantling.piece.language.cursor import Cursor
from scantling.piece.language.document import Scalar
from scantling.piece.language.expressions import Condition, Expression, Name
from scantling.piece.language.names import take_name
from scantling.piece.language.tokens import PhraseError
from scantling.quantity import LengthUnit

T = TypeVar("T")
Rule = Callable[[Cursor], T]


@lru_cache(maxsize=20_000)
def _parsed(rule: Rule[T], text: str, unit: LengthUnit) -> T | PhraseError:
    try:
        cursor = Cursor.of(text, unit)
        tree = rule(cursor)
        cursor.expect_end()
    except PhraseError as error:
        return error.with_traceback(None)
    return tree


def parse_with(rule: Rule[T], scalar: Scalar) -> T:
    """The whole of a scalar by one rule of grammar. Raises ReadError."""
    found: T | PhraseError = _parsed(rule, scalar.text, scalar.unit)
    if isinstance(found, PhraseError):
        raise ReadError(found.message, scalar.place_at(found.offset, found.length), found.remedy)
    return found


def parse_expression(scalar: Scalar) -> Expression:
    """A formula: a place, a size, a number. Raises ReadError."""
    return parse_with(formulas.expression, scalar)


def parse_condition(scalar: Scalar) -> Condition:
    """What stands under `when`. Raises ReadError."""
    return parse_with(formulas.conditions, scalar)


def parse_span(scalar: Scalar) -> s.Span:
    """What stands under `wide`, `deep`, `high` of a part or a space. Raises ReadError."""
    return parse_with(placing.span, scalar)


def parse_size(scalar: Scalar) -> s.Size:
    """What stands in `sizes` and `overall`: a formula, or one `within` a range. Raises ReadError."""
    return parse_with(placing.size, scalar)


def parse_edge(scalar: Scalar) -> s.EdgeOf:
    """`top back of lid board`, `bottom`, `every edge`. Raises ReadError."""
    return parse_with(placing.edge, scalar)


def parse_face(scalar: Scalar) -> str:
    """One place word. Raises ReadError."""
    return parse_with(placing.face, scalar)


def parse_turn(scalar: Scalar) -> s.Turn:
    """`front toward top 100 deg`. Raises ReadError."""
    return parse_with(placing.turn, scalar)


def parse_move(scalar: Scalar) -> s.Move:
    """`12 forward`. Raises ReadError."""
    return parse_with(placing.move, scalar)


def parse_by(scalar: Scalar) -> s.By:
    """`3/8 x 2`, `29 x 78`, `1`. Raises ReadError."""
    return parse_with(settings.by, scalar)


def parse_counts(scalar: Scalar) -> s.Counts:
    """`4`, `3 to 6`. Raises ReadError."""
    return parse_with(settings.counts, scalar)


def parse_limit(scalar: Scalar) -> s.Limit:
    """`at most 2 1/2`. Raises ReadError."""
    return parse_with(settings.limit, scalar)


def parse_glue(scalar: Scalar) -> s.GlueOn:
    """`none`, `all`, `front 3`. Raises ReadError."""
    return parse_with(settings.glue, scalar)


def parse_target(scalar: Scalar) -> s.Target:
    """`lid board`, `edge of top`. Raises ReadError."""
    return parse_with(settings.target, scalar)


def parse_options(scalar: Scalar) -> s.Options:
    """`rabbet or dowels`. Raises ReadError."""
    return parse_with(settings.options, scalar)


def parse_material(scalar: Scalar) -> s.MaterialWords:
    """`walnut plywood 3/4 or walnut 3/4`. Raises ReadError."""
    return parse_with(settings.material, scalar)


def parse_of(scalar: Scalar) -> Name | s.MaterialWords:
    """What stands under `of`: the name of a material, or a wood or sheet itself. Raises ReadError."""
    try:
        return parse_name(scalar)
    except ReadError:
        return parse_material(scalar)


def parse_fitting(scalar: Scalar) -> s.Fitting:
    """`butt hinge 2 1/2`. Raises ReadError."""
    return parse_with(settings.fitting, scalar)


def parse_coats(scalar: Scalar) -> int:
    """`3 coats`. Raises ReadError."""
    return parse_with(settings.coats, scalar)


def parse_name(scalar: Scalar) -> Name:
    """A name of plain words. Raises ReadError."""
    return parse_with(_name, scalar)


def _name(cursor: Cursor) -> Name:
    return take_name(cursor, "a name")
