"""The way the grain runs: as said, else along the longest span, else it must be said."""

from __future__ import annotations

from scantling.errors import ResolveError
from scantling.piece.language.document import MappingNode, Scalar
from scantling.piece.model import Axis
from scantling.piece.resolve.measures import says_both_own_sizes
from scantling.piece.resolve.tree import Thing

CLEARLY_LONGER = 1.5


def grain_of(thing: Thing) -> Axis:
    """The grain axis of a part in its own frame. Raises ResolveError where it must be said."""
    key = ("grain", id(thing))
    return thing.common.once(key, f"{thing.label} grain", thing.family.key, lambda: _grain(thing))


def _grain(thing: Thing) -> Axis:
    said = thing.family.node.get("grain")
    if isinstance(said, Scalar):
        return Axis[said.text.strip().upper()]
    left = says_both_own_sizes(thing)
    if left is not None:
        return left
    first, second, _ = sorted(Axis, key=lambda a: -thing.reach(a).size)
    if thing.reach(first).size >= CLEARLY_LONGER * thing.reach(second).size - 1e-6:
        return first
    if _goes_round(thing):
        return first
    raise ResolveError(
        f"{first.word} and {second.word} are too alike to tell which way the grain runs",
        thing.family.key.place,
        f"add `grain: {first.word}` or `grain: {second.word}`",
        (thing.label,),
    )


def _goes_round(thing: Thing) -> bool:
    """A ring's grain follows its bricks or bends, so no one way is right."""
    outline = thing.family.node.get("outline")
    return isinstance(outline, MappingNode) and "ring" in outline
