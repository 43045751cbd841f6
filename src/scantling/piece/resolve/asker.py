"""Who asks: the scope a phrase is understood in, the box its bare faces mean, and the side it stands on."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Place, ResolveError
from scantling.piece.language.document import Scalar
from scantling.piece.language.expressions import Expression, Words
from scantling.piece.model import Axis, Face
from scantling.piece.resolve.steps import Mirror, axis_inside
from scantling.piece.resolve.tree import SIDES, Reach, Scope, Seen, Thing
from scantling.piece.resolve.values import Value


@dataclass(frozen=True, eq=False, slots=True)
class Asker:
    """`thing` None: the piece or a group at large (sizes, joints). `own`: bare faces are the part's own.

    `axis`: along which a place is wanted; None when a size is. `mirrors`: the phrase is read as in a
    looking-glass, for the other hand of a pair; `words` are then that copy's own.
    """

    scope: Scope
    scalar: Scalar
    thing: Thing | None = None
    axis: Axis | None = None
    own: bool = False
    what: str = ""
    mirrors: tuple[Mirror, ...] = ()
    words: tuple[str, ...] | None = None
    end: int = 0  # -1, +1: which end of a span this formula gives
    seen_from: Face | None = None  # an outline: width and height are across and up as seen

    def error(self, message: str, words: Words | None = None, remedy: str = "") -> ResolveError:
        place = self.scalar.place_of(words) if words else self.scalar.place
        used_at = self.scope.used_at
        if used_at is not None:
            return ResolveError(f"{message}, in {place}", used_at, remedy, self.chain)
        return ResolveError(message, place, remedy, self.chain)

    def at_end(self, end: int) -> Asker:
        """The same asker, for the low (-1) or the high (1) end of a span."""
        return Asker(
            self.scope,
            self.scalar,
            self.thing,
            self.axis,
            self.own,
            self.what,
            self.mirrors,
            self.words,
            end,
            self.seen_from,
        )

    def value(self, formula: Expression) -> Value:
        return self.scope.common.workings.value(self, formula)

    @property
    def chain(self) -> tuple[str, ...]:
        name = self.thing.label if self.thing else self.scope.label
        what = self.what or (self.axis.word if self.axis is not None else "")
        return tuple(part for part in (name, what) if part)

    def place(self, words: Words) -> Place:
        return self.scalar.place_of(words)

    def box(self, axis: Axis) -> Reach:
        """The box that bare faces mean: mine, the space I stand in, or that of my scope."""
        if self.thing is None:
            return box_of(self.scope, axis)
        return self.thing.reach(axis) if self.own else place_for(self.thing, axis)

    @property
    def written_sides(self) -> dict[Axis, str]:
        """The side along each axis of the copy that is written: what `inward` goes by."""
        return self._sides(None)

    @property
    def sides(self) -> dict[Axis, str]:
        """My own side along each axis, as far as words settle it."""
        return self._sides(self.words)

    def _sides(self, words: tuple[str, ...] | None) -> dict[Axis, str]:
        if self.thing is None:
            return {}
        own = words if words is not None else first_words(self.thing)
        return {SIDES[w][0]: w for w in (*outer_words(self.thing), *own) if w in SIDES}

    def is_mirrored(self, axis: Axis) -> bool:
        return any(mirror.axis is axis for mirror in self.mirrors)

    @property
    def stands(self) -> dict[int, int]:
        """Which copy of which space I stand in, and so do my containers."""
        return standings(self.thing) if self.thing else {}


def first_words(thing: Thing) -> tuple[str, ...]:
    """The place words of the copy that is written."""
    return thing.copies[0].words if thing.copies else ()


def outer_words(thing: Thing) -> tuple[str, ...]:
    """The place words of what a thing stands in: the group that is written, and the space."""
    words: tuple[str, ...] = ()
    owner = thing.scope.owner
    if owner is not None:
        words = (*outer_words(owner), *first_words(owner))
    if thing.standing:
        words = (*words, *thing.standing.side_words)
    return words


def standings(thing: Thing) -> dict[int, int]:
    """Which copy of which space a thing stands in, and so do its containers: space key -> copy."""
    found = standings(thing.scope.owner) if thing.scope.owner else {}
    standing = thing.standing
    while standing is not None:
        found[id(standing.thing.family.key)] = id(standing.copy)
        standing = standing.thing.standing
    return found


def place_for(thing: Thing, axis: Axis) -> Reach:
    """The box a thing stands in: its space, else its scope's box."""
    if thing.standing is not None:
        return span_seen(thing.standing, axis)
    return box_of(thing.scope, axis)


def box_of(scope: Scope, axis: Axis) -> Reach:
    """The box of a scope in its own frame."""
    if scope.owner is None:
        return scope.common.workings.overall(scope, axis)
    if scope.facing is None:
        return scope.owner.reach(axis)
    inner_axis = next(a for a in Axis if scope.facing.axes[a] is axis)
    outer = scope.owner.reach(inner_axis)
    sign = scope.facing.signs[inner_axis]
    if sign > 0:
        return Reach(outer.low, outer.high, outer.low_faces, outer.high_faces)
    return Reach(-outer.high, -outer.low, outer.high_faces, outer.low_faces)


def span_seen(seen: Seen, axis: Axis) -> Reach:
    """The box of one copy of a part or a space, along an axis of the frame that looks."""
    inside, _ = axis_inside(seen.steps, axis)
    return copy_reach(seen, inside).through(seen.steps, axis)


def copy_reach(seen: Seen, inside: Axis) -> Reach:
    """The span of one copy in its definition's frame."""
    common = seen.thing.common
    return seen.thing.reach(inside) if common.built is None else common.workings.copy_reach(seen.copy, inside)
