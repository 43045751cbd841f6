"""Machining a maker asks for, worked out in the frame of the definition; details are opened by name."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from scantling.errors import ResolveError
from scantling.piece.language.document import MappingNode, Scalar, as_mapping, items_of
from scantling.piece.language.parse import (
    parse_by,
    parse_condition,
    parse_edge,
    parse_expression,
    parse_face,
    parse_name,
    parse_span,
)
from scantling.piece.model import (
    ArchWork,
    Axis,
    BandWork,
    Box,
    DishWork,
    EdgeKind,
    EdgeWork,
    Face,
    GrooveWork,
    HoleWork,
    NotchWork,
    PinRowsWork,
    SlotWork,
    Vec3,
    Work,
    face_of,
)
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.conditions import holds
from scantling.piece.resolve.edges import edges_named, edges_of_face, thick_of
from scantling.piece.resolve.faces import face_said
from scantling.piece.resolve.shapes import paired_faces
from scantling.piece.resolve.spans import read_span
from scantling.piece.resolve.tree import SIDES, Thing
from scantling.piece.resolve.uses import scalars_of
from scantling.piece.resolve.wanting import place_at, size_in
from scantling.quantity.kinds import Kind

_EDGE_KINDS = {"chamfer": EdgeKind.CHAMFER, "round-over": EdgeKind.ROUND_OVER, "bevel": EdgeKind.BEVEL}
MOST_PINS = 200
_USUAL_PIN, _USUAL_PIN_DEEP = 6.35, 10.0  # 1/4 in pins in 10 mm holes: common practice, no source


@dataclass(frozen=True, slots=True)
class Item:
    """One entry of `work` on one part."""

    thing: Thing
    node: MappingNode

    def asker(self, scalar: Scalar, key: str, axis: Axis | None = None) -> Asker:
        return Asker(self.thing.scope, scalar, self.thing, axis, own=True, what=f"work, {key}")

    def scalar(self, key: str) -> Scalar | None:
        node = self.node.get(key)
        return node if isinstance(node, Scalar) else None

    def size(self, key: str) -> float | None:
        """A size said under a key. [mm]"""
        scalar = self.scalar(key)
        if scalar is None:
            return None
        size = size_in(self.asker(scalar, key), parse_expression(scalar))
        if size < 0:
            raise self.asker(scalar, key).error(f"`{key}` may not be below zero")
        return size

    def needed(self, key: str, example: str) -> float:
        size = self.size(key)
        if size is None:
            raise self.error(f"this wants `{key}`", f"write `{key}: {example}`")
        return size

    def place(self, key: str, axis: Axis) -> float | None:
        scalar = self.scalar(key)
        if scalar is None:
            return None
        return place_at(self.asker(scalar, key, axis), parse_expression(scalar), axis).number

    def faces(self, key: str) -> list[Face]:
        node = self.node.get(key)
        found: dict[Face, None] = {}
        for scalar in items_of(node) if node is not None else ():
            assert isinstance(scalar, Scalar)
            found.update(dict.fromkeys(paired_faces(self.asker(scalar, key), parse_face(scalar))))
        return list(found)

    def face(self, key: str) -> Face:
        faces = self.faces(key)
        if len(faces) != 1:
            raise self.error(f"`{key}` wants one face", f"write `{key}: front`")
        return faces[0]

    def sizes(self) -> tuple[float, float]:
        """`size`: across, and down (the same if only one is said)."""
        scalar = self.scalar("size")
        if scalar is None:
            raise self.error("this wants `size`", "write `size: 1/8` or `size: 1/4 x 1/4`")
        found = [size_in(self.asker(scalar, "size"), formula) for formula in parse_by(scalar).sizes]
        return found[0], found[1] if len(found) > 1 else found[0]

    def error(self, message: str, remedy: str = "") -> ResolveError:
        return ResolveError(message, self.node.place, remedy, (self.thing.label, "work"))


def work_of(thing: Thing, words: tuple[str, ...]) -> tuple[Work, ...]:
    """All machining on the copy with these place words, in the definition's frame."""
    return tuple(work for item in _items(thing) if _on_copy(item, words) for work in worked(item))


def worked(item: Item) -> tuple[Work, ...]:
    """What one entry of `work` comes to, worked out once."""
    key = ("work", id(item.thing), id(item.node))
    return item.thing.common.once(key, f"{item.thing.label} work", None, lambda: tuple(_made(item)))


def _items(thing: Thing) -> Iterator[Item]:
    node = thing.family.node.get("work")
    for entry in items_of(node) if node is not None else ():
        yield from _opened(thing, as_mapping(entry, "`work`"))


def _opened(thing: Thing, node: MappingNode) -> Iterator[Item]:
    """A detail is the named work; what stands beside its name overrules it."""
    said = node.get("detail")
    if not isinstance(said, Scalar):
        yield Item(thing, node)
        return
    name = parse_name(said).text
    details = thing.scope.home.node.get("details")
    entry = details.get(name) if isinstance(details, MappingNode) else None
    if entry is None:
        known = [e.name for e in details] if isinstance(details, MappingNode) else []
        raise ResolveError(
            f'no detail is called "{name}"', said.place, nearest(name, known), (thing.label, "work")
        )
    base = as_mapping(entry, f"detail {name}")
    own = tuple(e for e in node if e.name != "detail")
    names = {e.name for e in own}
    key = ("detail", id(node), id(base))
    yield Item(
        thing,
        thing.common.once(
            key,
            name,
            None,
            lambda: MappingNode.of((*(e for e in base if e.name not in names), *own), node.place),
        ),
    )


def _on_copy(item: Item, words: tuple[str, ...]) -> bool:
    """`only: left`, and `when`."""
    when = item.scalar("when")
    if when is not None and not holds(item.asker(when, "when"), parse_condition(when)):
        return False
    only = item.scalar("only")
    if only is None:
        return True
    word = face_said(only, "only").word
    if not any(w in SIDES and SIDES[w][0] is SIDES[word][0] for w in words):
        raise item.error(f"`only: {word}` on a part that has no such copy", "take `only` out")
    return word in words


def _made(item: Item) -> Iterator[Work]:
    makers: dict[str, Callable[[Item], Iterator[Work]]] = {
        "rabbet": _rabbet,
        "groove": _groove,
        "chamfer": _edge_work,
        "round-over": _edge_work,
        "bevel": _edge_work,
        "notch": _notch,
        "hole": _hole,
        "slot": _slot,
        "arch": _arch,
        "dish": _dish,
        "band": _band,
        "shelf pins": _pins,
    }
    said = [key for key in makers if key in item.node]
    if len(said) != 1:
        raise item.error(
            "each entry of `work` is one kind of machining", f"known: {', '.join(sorted(makers))}, detail"
        )
    yield from makers[said[0]](item)


def _edge_work(item: Item) -> Iterator[Work]:
    key = next(key for key in _EDGE_KINDS if key in item.node)
    size, drop = item.sizes()
    leave = item.faces("leave")
    angle = item.scalar("angle")
    degrees = 45.0
    if angle is not None:
        degrees = size_in(item.asker(angle, "angle"), parse_expression(angle), Kind.ANGLE)
    node = item.node.by_name[key].value
    for scalar in items_of(node):
        assert isinstance(scalar, Scalar)
        face, edges = edges_named(item.asker(scalar, key), parse_edge(scalar))
        kept = tuple(e for e in edges if e.first not in leave and e.second not in leave)
        yield EdgeWork(_EDGE_KINDS[key], face, kept, size, drop, degrees)


def _rabbet(item: Item) -> Iterator[Work]:
    """Along every edge of a face, less those left."""
    across, down = item.sizes()
    leave = item.faces("leave")
    for face in item.faces("rabbet"):
        edges = tuple(e for e in edges_of_face(face) if e.first not in leave and e.second not in leave)
        yield EdgeWork(EdgeKind.RABBET, face, edges, across, down)


def _groove(item: Item) -> Iterator[Work]:
    face = item.face("groove")
    run = item.scalar("along")
    along = Axis[run.text.strip().upper()] if run else item.thing.common.workings.grain(item.thing)
    if along is face.axis:
        raise item.error("a groove runs along its face, not into it", "say `along: wide`, `deep` or `high`")
    across = next(a for a in Axis if a not in (along, face.axis))
    wide = item.needed("wide", "1/4")
    middle = _spot_on(item, across)
    deep = item.needed("deep", "1/4")
    low = (middle if middle is not None else item.thing.reach(across).middle) - wide / 2
    yield GrooveWork(
        face, along, low, low + wide, deep, item.place("start", along), item.place("stop", along)
    )


def _spot_on(item: Item, axis: Axis) -> float | None:
    """The place said under `at` along one axis."""
    at = item.node.get("at")
    if isinstance(at, Scalar):
        return place_at(item.asker(at, "at", axis), parse_expression(at), axis).number
    scalar = at.get(axis.word) if isinstance(at, MappingNode) else None
    if not isinstance(scalar, Scalar):
        return None
    return place_at(item.asker(scalar, "at", axis), parse_expression(scalar), axis).number


def _point(item: Item, face: Face) -> Vec3:
    """A point on a face: as said, and in the middle along what is not said."""
    point = [0.0, 0.0, 0.0]
    for axis in Axis:
        reach = item.thing.reach(axis)
        if axis is face.axis:
            point[axis] = reach.low if face.sign < 0 else reach.high
        else:
            said = _spot_on(item, axis)
            point[axis] = reach.middle if said is None else said
    return (point[0], point[1], point[2])


def _hole(item: Item) -> Iterator[Work]:
    diameter = item.needed("hole", "2")
    face = _through(item)
    yield HoleWork(face, _point(item, face), diameter, item.size("deep"))


def _through(item: Item) -> Face:
    """The face a hole goes in by; a broad side if not said."""
    if "through" in item.node:
        return item.face("through")
    thin = thick_of(item.thing)
    return face_of(thin, -1 if thin is Axis.DEEP else 1)


def _slot(item: Item) -> Iterator[Work]:
    scalar = item.scalar("slot")
    assert scalar is not None
    sizes = [size_in(item.asker(scalar, "slot"), formula) for formula in parse_by(scalar).sizes]
    if len(sizes) != 2:
        raise item.error("a slot wants its length and its width", "write `slot: 1 x 1/4`")
    face = _through(item)
    run = item.scalar("along")
    grain = item.thing.common.workings.grain(item.thing)
    usual = grain if grain is not face.axis else next(a for a in Axis if a is not face.axis)
    along = Axis[run.text.strip().upper()] if run else usual
    yield SlotWork(face, _point(item, face), along, sizes[0], sizes[1], item.size("deep"))


def _notch(item: Item) -> Iterator[Work]:
    node = item.node.by_name["notch"].value
    if not isinstance(node, MappingNode):
        raise item.error("a notch wants its three spans", "write `notch: {wide: ..., deep: ..., high: ...}`")
    lows, highs = [], []
    for axis in Axis:
        scalar = node.get(axis.word)
        reach = item.thing.reach(axis)
        if isinstance(scalar, Scalar):
            reach = read_span(item.asker(scalar, "notch", axis), parse_span(scalar))
        lows.append(reach.low)
        highs.append(reach.high)
    yield NotchWork(Box((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2])))


def _arch(item: Item) -> Iterator[Work]:
    face = item.face("arch")
    grain = item.thing.common.workings.grain(item.thing)
    thin = thick_of(item.thing)
    along = grain if grain is not face.axis else next(a for a in Axis if a not in (face.axis, thin))
    reach = item.thing.reach(along)
    start, stop = item.place("start", along), item.place("stop", along)
    begin, end = (reach.low if start is None else start), (reach.high if stop is None else stop)
    yield ArchWork(face, along, min(begin, end), max(begin, end), item.needed("rise", "1"))


def _dish(item: Item) -> Iterator[Work]:
    yield DishWork(item.face("dish"), item.needed("deep", "3/8"), item.size("rim") or 0.0)


def _band(item: Item) -> Iterator[Work]:
    scalar = item.scalar("of")
    material = " ".join(scalar.text.split()) if scalar else ""
    thick = item.needed("thick", "1")
    for face in item.faces("band"):
        yield BandWork(face, thick, material)


def _pins(item: Item) -> Iterator[Work]:
    face = item.face("shelf pins")
    run = Axis.HIGH if face.axis is not Axis.HIGH else item.thing.common.workings.grain(item.thing)
    across = next(a for a in Axis if a not in (run, face.axis))
    rows = []
    for scalar in scalars_of(item.node.get("rows")):
        asker = item.asker(scalar, "rows", across)
        rows.append(place_at(asker, parse_expression(scalar), across).number)
    if not rows:
        raise item.error("rows of pins want `rows`", "write `rows: [1 3/4, depth - 2 1/2]`")
    size = item.size("size") or _USUAL_PIN
    places = tuple(_pin_places(item, run, size))
    yield PinRowsWork(
        face, across, tuple(sorted(rows)), run, places, size, item.size("deep") or _USUAL_PIN_DEEP
    )


def _pin_places(item: Item, run: Axis, size: float) -> Iterator[float]:
    low, high = item.place("from", run), item.place("to", run)
    every = item.needed("every", "1 1/4")
    reach = item.thing.reach(run)
    low = reach.low if low is None else low
    high = reach.high if high is None else high
    if every <= 0 or high < low:
        raise item.error("these pins leave no row", "`from` is the lowest, `to` the highest")
    if every <= size:
        raise item.error("these pin holes run into each other", "write a wider `every`, such as 1 1/4")
    count = int((high - low) / every + 1e-6) + 1
    if count > MOST_PINS:
        raise item.error(f"{count} pin holes in a row; {MOST_PINS} is the most", "write a wider `every`")
    yield from (low + k * every for k in range(count))
