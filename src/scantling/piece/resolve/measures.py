"""Sizes of things: width, depth, height, length, thickness, and the named sizes of kits, holds, fittings."""

from __future__ import annotations

from scantling.piece.language.document import MappingNode, Scalar
from scantling.piece.language.parse import parse_span
from scantling.piece.language.phrases import SIZE_WORDS, Name, Otherwise, OwnSize, SizeOf
from scantling.piece.model import TOUCH, Axis, Face
from scantling.piece.resolve import named, names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.faces import extent
from scantling.piece.resolve.narrowing import agreed, meant
from scantling.piece.resolve.tree import PART, Seen, Thing
from scantling.piece.resolve.values import Value, length
from scantling.piece.resolve.views import across_and_up

AXIS_OF = {"width": Axis.WIDE, "depth": Axis.DEEP, "height": Axis.HIGH}


def bare_size(asker: Asker, formula: SizeOf) -> Value:
    """`width` alone: of the box I am in; under `work`, of the part itself."""
    if named.has_size(asker.scope.home, formula.word):
        return named.value(asker.scope.home, formula.word)
    axis = AXIS_OF.get(formula.word)
    if axis is not None and asker.seen_from is not None:
        axis = _as_seen(axis, asker.seen_from)
    if axis is not None:
        return length(asker.box(axis).size)
    if asker.own and asker.thing is not None:
        return length(thing_size(asker.thing, formula.word))
    sizes = sorted(asker.box(a).size for a in Axis)
    return length(sizes[-1] if formula.word == "length" else sizes[0])


def _as_seen(axis: Axis, seen_from: Face) -> Axis:
    """Width runs across and height up for one who looks at the outline."""
    across, up = across_and_up(seen_from)
    return {Axis.WIDE: across, Axis.HIGH: up, Axis.DEEP: seen_from.axis}[axis]


def thing_size(thing: Thing, word: str) -> float:
    """Length along the grain, or thickness, of a part."""
    if word == "length":
        return thing.reach(thing.common.workings.grain(thing)).size
    axis = thick_axis(thing)
    return min(thing.reach(a).size for a in Axis) if axis is None else thing.reach(axis).size


def thick_axis(thing: Thing) -> Axis | None:
    """The axis whose span is written with `thick`, if just one is."""
    said = [axis for axis in Axis if "thick" in _own_words(thing, axis)]
    return said[0] if len(said) == 1 else None


def _own_words(thing: Thing, axis: Axis) -> set[str]:
    node = thing.family.node.get(axis.word)
    if not isinstance(node, Scalar):
        return set()
    size = getattr(parse_span(node), "size", None)
    own = size.value if isinstance(size, Otherwise) else size
    return {own.word} if isinstance(own, OwnSize) else set()


def says_both_own_sizes(thing: Thing) -> Axis | None:
    """The axis left over when `thick` and `broad` give the other two."""
    words = {axis: _own_words(thing, axis) for axis in Axis}
    if not all(any(word in said for said in words.values()) for word in ("thick", "broad")):
        return None
    left = [axis for axis in Axis if not words[axis]]
    return left[0] if len(left) == 1 else None


def size_of_named(asker: Asker, formula: SizeOf) -> Value:
    """`height of machine`, `thickness of side`, `rise of drawer`."""
    assert formula.of is not None
    name = formula.of
    fitting = asker.scope.common.workings.thing_size(asker.scope.home, name.text, formula.word)
    if fitting is not None:
        return length(fitting)
    if names.look_up(asker.scope, name.words, asker.place(name)) is names.NOTHING:
        told = names.unknown_name(asker.scope, name.text, _held_and_bought(asker))
        raise asker.error(f'nothing is called "{name.text}"', name, told)
    seen = meant(asker, name)
    if formula.word not in SIZE_WORDS or _is_kit_size(seen[0], formula.word):
        return _size_of_kit(asker, formula, name, seen)
    return length(agreed(asker, name, seen, lambda s: size_seen(s, formula.word), formula))


def _held_and_bought(asker: Asker) -> list[str]:
    """Names of what the piece holds and of its fittings: they have sizes too."""
    found = [asker.scope.home.node.get(key) for key in ("holds", "hardware")]
    return [entry.name for node in found if isinstance(node, MappingNode) for entry in node]


def _is_kit_size(seen: Seen, word: str) -> bool:
    contents = seen.thing.contents
    return contents is not None and contents.is_home and named.has_size(contents, word)


def size_seen(seen: Seen, word: str) -> float:
    """One size of a thing as seen: of its box, of its grain, or of all that a group holds."""
    axis = AXIS_OF.get(word)
    if axis is not None:
        return extent(seen, axis).size
    if seen.thing.family.kind == PART:
        return thing_size(seen.thing, word)
    sizes = sorted(extent(seen, a).size for a in Axis)
    return sizes[-1] if word == "length" else sizes[0]


def _size_of_kit(asker: Asker, formula: SizeOf, name: Name, seen: tuple[Seen, ...]) -> Value:
    homes = [s.thing.contents for s in seen]
    known: list[str] = [*sorted(SIZE_WORDS)]
    values: list[Value] = []
    for home in homes:
        if home is None or not home.is_home:
            continue
        known.extend(named.size_names(home))
        if named.has_size(home, formula.word):
            values.append(named.value(home, formula.word))
    if len(values) != len(homes):
        raise asker.error(
            f'"{name.text}" has no size called "{formula.word}"', formula, nearest(formula.word, known)
        )
    if any(v.kind is not values[0].kind or abs(v.number - values[0].number) > TOUCH for v in values):
        raise asker.error(f'the {formula.word} of "{name.text}" is not the same in all', formula)
    return values[0]
