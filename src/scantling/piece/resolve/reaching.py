"""The span of a thing along an axis, worked out once: as written, as its space gives it, or from a split."""

from __future__ import annotations

from scantling.errors import ResolveError
from scantling.piece.language.document import Scalar, as_scalar
from scantling.piece.language.parse import parse_span
from scantling.piece.model import Axis
from scantling.piece.resolve import spaces
from scantling.piece.resolve.asker import Asker, place_for
from scantling.piece.resolve.spans import read_span
from scantling.piece.resolve.tree import PART, SPACE, Reach, Thing


def reach_of(thing: Thing, axis: Axis) -> Reach:
    """The span of a thing along an axis of its scope's frame, worked out once.

    Raises ResolveError: unknown names, wrong kinds, a circle, an end before its beginning.
    """
    scalar = thing.family.node.get(axis.word)
    words = scalar if isinstance(scalar, Scalar) else thing.family.key
    label = f"{thing.label} {axis.word}"
    reach = thing.common.once(("reach", id(thing), axis), label, words, lambda: _worked_out(thing, axis))
    thing.reaches[axis] = reach
    return reach


def _worked_out(thing: Thing, axis: Axis) -> Reach:
    if thing.family.kind == SPACE and spaces.splits_along(thing, axis):
        return spaces.split_reach(thing, axis, reach_as_written)
    return reach_as_written(thing, axis)


def reach_as_written(thing: Thing, axis: Axis) -> Reach:
    """The span its own words give, before any split."""
    source = thing.family.split_from or thing.family
    node = source.node.get(axis.word)
    if node is None:
        return _unsaid(thing, axis)
    scalar = as_scalar(node, f"{axis.word} of {source.name}")
    asker = Asker(thing.scope, scalar, thing, axis)
    return read_span(asker, parse_span(scalar))


def _unsaid(thing: Thing, axis: Axis) -> Reach:
    """What is not said: the space it stands in; a group shares its parent's box."""
    if thing.standing is not None or thing.family.kind not in (PART, SPACE):
        return place_for(thing, axis)
    raise ResolveError(
        f"nothing says where it stands {axis.word}",
        thing.family.key.place,
        f"add `{axis.word}: ...`, or stand it `in` a space",
        (thing.label,),
    )
