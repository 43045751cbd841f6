"""What stands round the piece: things it must hold, loads, the room, the finish, and its spaces."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ResolveError
from scantling.piece.language.document import Entry, MappingNode, Scalar, as_mapping, as_name, items_of
from scantling.piece.language.parse import (
    parse_by,
    parse_coats,
    parse_expression,
    parse_name,
    parse_span,
    parse_target,
)
from scantling.piece.language.phrases import Centred, Expression, Measured, SizeAlone
from scantling.piece.model import FLOOR, Air, Axis, Box, Coats, Face, Hold, Load, Pose, Room, Space
from scantling.piece.resolve import names
from scantling.piece.resolve.asker import Asker, span_seen
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.faces import FACE_OF_WORD, face_said
from scantling.piece.resolve.spans import read_span
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.steps import along, axis_inside
from scantling.piece.resolve.tree import SPACE, Scope, Seen, members
from scantling.piece.resolve.uses import Use, scalars_of
from scantling.piece.resolve.wanting import size_in
from scantling.quantity.kinds import Kind
from scantling.wood import COLDEST, DAMPEST, WARMEST

GRAVITY = 9.80665  # m/s², standard gravity: ISO 80000-3, conventional value
_AXIS_OF_SIZE = {"width": Axis.WIDE, "depth": Axis.DEEP, "height": Axis.HIGH}
_LOADS = ("fill", "rest", "sit", "stand", "push")


def hold_size(home: Scope, name: str, size: str) -> float | None:
    """`height of machine`: None if nothing held goes by that name. [mm]"""
    holds = home.node.get("holds")
    entry = holds.get(name) if isinstance(holds, MappingNode) else None
    if not isinstance(entry, MappingNode):
        return None
    axis = _AXIS_OF_SIZE.get(size)
    scalar = entry.get(axis.word) if axis is not None else None
    if axis is None or not isinstance(scalar, Scalar):
        place = Scalar(name, entry.place)
        known = [word for word, a in _AXIS_OF_SIZE.items() if a.word in entry]
        raise Asker(home, place, what=name).error(f'"{name}" has no {size}', None, nearest(size, known))
    return _held(home, name, axis, scalar)


def _held(home: Scope, name: str, axis: Axis, scalar: Scalar) -> float:
    asker = Asker(home, scalar, what=f"{name}, {axis.word}")
    key = ("hold", id(home), name, axis)
    return home.common.once(key, f"{name} {axis.word}", scalar, lambda: size_in(asker, _size_said(asker)))


def _size_said(asker: Asker) -> Expression:
    """How big a held thing is along an axis; where it stands is left aside, so that sizes may follow it."""
    span = parse_span(asker.scalar)
    if isinstance(span, SizeAlone | Measured | Centred):
        return span.size
    raise asker.error(
        "a held thing has a size of its own",
        span,
        "write `7`, or `7 back from front of tray + 3` for its place",
    )


def holds_of(uses: list[Use], crowd: Crowd) -> tuple[Hold, ...]:
    """Things to be held, standing in the middle of what carries them."""
    found = []
    for use in uses:
        for entry in use.entries("holds"):
            node = as_mapping(entry.value, entry.name)
            if use.stands(node, entry.name):
                found.append(_hold(use, entry, node, crowd))
    return tuple(found)


def _hold(use: Use, entry: Entry, node: MappingNode, crowd: Crowd) -> Hold:
    sizes = [_hold_side(use, entry, node, axis) for axis in Axis]
    carriers = _carriers(use, entry, node, crowd)
    box = _on_top(sizes, [one.part.box for one in carriers] or [_floor_box(use)], bool(carriers))
    for axis in (Axis.WIDE, Axis.DEEP):
        box = _placed(use, entry, node, axis, box)
    on = tuple(one.name for one in carriers) or (FLOOR,)
    mass = _amount(use, entry.name, node, "mass", Kind.MASS) or 0.0
    clear = _amount(use, entry.name, node, "clear", Kind.LENGTH) or 0.0
    return Hold(use.named(entry.name), box, mass, on, clear, entry.key.place)


def _placed(use: Use, entry: Entry, node: MappingNode, axis: Axis, box: Box) -> Box:
    """The box where the span says it stands; as it is where only a size is said."""
    scalar = node.by_name[axis.word].value
    assert isinstance(scalar, Scalar)
    span = parse_span(scalar)
    if isinstance(span, SizeAlone):
        return box
    reach = read_span(Asker(use.scope, scalar, axis=axis, what=f"{entry.name}, {axis.word}"), span)
    outer = next(a for a in Axis if axis_inside(use.steps, a)[0] is axis)
    return box.with_span(outer, *along(use.steps, outer).span(reach.low, reach.high))


def _hold_side(use: Use, entry: Entry, node: MappingNode, axis: Axis) -> float:
    scalar = node.get(axis.word)
    if not isinstance(scalar, Scalar):
        raise ResolveError(
            f'"{entry.name}" does not say how {axis.word} it is', entry.key.place, f"add `{axis.word}: ...`"
        )
    return _held(use.scope, entry.name, axis, scalar)


def _carriers(use: Use, entry: Entry, node: MappingNode, crowd: Crowd) -> list[Standing]:
    said = [scalar for scalar in scalars_of(node.get("on")) if use.outside(scalar) != FLOOR]
    return [one for scalar in said for one in use.standing(scalar, crowd, f"{entry.name}, on", (FLOOR,))]


def _floor_box(use: Use) -> Box:
    asker = Asker(use.scope, Scalar("", use.scope.node.place))
    wide, deep, low = asker.box(Axis.WIDE), asker.box(Axis.DEEP), asker.box(Axis.HIGH).low
    return Box((wide.low, deep.low, low), (wide.high, deep.high, low))


def _on_top(sizes: list[float], carriers: list[Box], on_part: bool) -> Box:
    """A box of these sizes over the middle of its carriers, on the highest of them."""
    wide = (min(b.low[0] for b in carriers) + max(b.high[0] for b in carriers)) / 2
    deep = (min(b.low[1] for b in carriers) + max(b.high[1] for b in carriers)) / 2
    floor = max(b.high[2] for b in carriers) if on_part else carriers[0].low[2]
    return Box(
        (wide - sizes[0] / 2, deep - sizes[1] / 2, floor),
        (wide + sizes[0] / 2, deep + sizes[1] / 2, floor + sizes[2]),
    )


def _amount(use: Use, what: str, node: MappingNode, key: str, kind: Kind) -> float | None:
    scalar = node.get(key)
    if not isinstance(scalar, Scalar):
        return None
    asker = Asker(use.scope, scalar, what=f"{what}, {key}" if what else key)
    amount = size_in(asker, parse_expression(scalar), kind, f"`{key}`")
    if amount < 0:
        raise asker.error(f"`{key}` may not be below zero")
    return amount


def loads_of(uses: list[Use], crowd: Crowd, poses: tuple[Pose, ...]) -> tuple[Load, ...]:
    """What the piece must bear. A push said in lb or kg is that weight as a force."""
    found = []
    for use in uses:
        node = use.scope.node.get("loads")
        for item in items_of(node) if node is not None else ():
            entries = as_mapping(item, "a load")
            if use.stands(entries, "load"):
                found.append(_load(use, entries, crowd, poses))
    return tuple(found)


def _load(use: Use, node: MappingNode, crowd: Crowd, poses: tuple[Pose, ...]) -> Load:
    said = [key for key in _LOADS if key in node]
    if len(said) != 1:
        raise ResolveError(
            "a load is one of `fill`, `rest`, `sit`, `stand`, `push`",
            node.place,
            "write `{rest: 40 lb, on: top}`",
        )
    kind = said[0]
    amount = None if kind == "fill" else _amount(use, "load", node, kind, Kind.MASS)
    if kind == "push" and amount is not None:
        amount *= GRAVITY
    on, spaces, face, edge = _borne(use, node, kind, crowd)
    return Load(
        kind,
        on,
        node.place,
        amount,
        _text(node, "with"),
        spaces,
        face,
        edge,
        _toward(node),
        _pose(use, node, poses),
    )


def _borne(
    use: Use, node: MappingNode, kind: str, crowd: Crowd
) -> tuple[tuple[str, ...], tuple[str, ...], Face | None, bool]:
    """Parts, spaces, the face named, and whether an edge is."""
    key = "fill" if kind == "fill" else "on"
    scalars = scalars_of(node.get(key))
    if not scalars:
        raise ResolveError("a load without `on`", node.place, "say which part bears it: `on: top`")
    parts: dict[str, None] = {}
    spaces: dict[str, None] = {}
    face: Face | None = None
    edge = False
    for scalar in scalars:
        target = parse_target(scalar)
        named = Scalar(target.of.text, scalar.place_of(target.of), scalar.unit)
        parts.update(dict.fromkeys(one.name for one in use.standing(named, crowd, "load")))
        spaces.update(dict.fromkeys(seen.name for seen in _spaces_named(use, named)))
        face = FACE_OF_WORD.get(target.word or "", face)
        edge = edge or target.word == "edge"
    return tuple(parts), tuple(spaces), face, edge


def _spaces_named(use: Use, scalar: Scalar) -> Iterator[Seen]:
    found = names.look_up(use.scope, parse_name(scalar).words, scalar.place)
    for seen in found.seen:
        if seen.thing.family.kind == SPACE:
            yield use.lifted(seen)


def _toward(node: MappingNode) -> Face | None:
    scalar = node.get("toward")
    return face_said(scalar, "toward") if isinstance(scalar, Scalar) else None


def _pose(use: Use, node: MappingNode, poses: tuple[Pose, ...]) -> str | None:
    scalar = node.get("in")
    if not isinstance(scalar, Scalar):
        return None
    name = use.named(parse_name(scalar).text)
    known = [pose.name for pose in poses]
    if name not in known:
        raise Asker(use.scope, scalar, what="load, in").error(
            f'no pose is called "{name}"', None, nearest(name, known)
        )
    return name


def _text(node: MappingNode, key: str) -> str | None:
    scalar = node.get(key)
    return " ".join(scalar.text.split()) if isinstance(scalar, Scalar) else None


def room_of(root: Scope) -> Room:
    """The room the piece will stand in."""
    node = root.node.get("room")
    if not isinstance(node, MappingNode):
        return Room()
    use = Use(root, ())
    return Room(
        tuple(face_said(scalar, "against") for scalar in scalars_of(node.get("against"))),
        _amount(use, "room", node, "wide", Kind.LENGTH),
        _amount(use, "room", node, "deep", Kind.LENGTH),
        _amount(use, "room", node, "ceiling", Kind.LENGTH),
        _by(use, node, "passes"),
        _by(use, node, "skirting"),
        _amount(use, "room", node, "studs", Kind.LENGTH),
        _amount(use, "room", node, "first stud", Kind.LENGTH),
        _air(use, node),
        node.place,
    )


def _by(use: Use, node: MappingNode, key: str) -> tuple[float, float] | None:
    scalar = node.get(key)
    if not isinstance(scalar, Scalar):
        return None
    asker = Asker(use.scope, scalar, what=f"room, {key}")
    sizes = [size_in(asker, formula) for formula in parse_by(scalar).sizes]
    if len(sizes) != 2:
        raise asker.error(f"`{key}` wants two sizes", None, "write `29 x 78`")
    return sizes[0], sizes[1]


def _air(use: Use, room: MappingNode) -> Air | None:
    node = room.get("air")
    if not isinstance(node, MappingNode):
        return None
    dry = _amount(use, "room, air", node, "dry", Kind.RATIO)
    damp = _amount(use, "room, air", node, "damp", Kind.RATIO)
    scalar = node.get("at")
    if dry is None or damp is None or not isinstance(scalar, Scalar):
        raise ResolveError(
            "the air wants `dry`, `damp` and `at`", node.place, "write `{dry: 25 %, damp: 60 %, at: 70 F}`"
        )
    if not 0 < dry < damp < 1:
        raise ResolveError("dry air is damper than damp air, or not between 0 and 100 %", node.place)
    asker = Asker(use.scope, scalar, what="room, air, at")
    warmth = size_in(asker, parse_expression(scalar), Kind.TEMPERATURE, "`at`")
    if damp > DAMPEST or not COLDEST <= warmth <= WARMEST:
        raise asker.error(
            f"wood is reckoned in air of 0 to {DAMPEST:.0%} and {COLDEST:g} to {WARMEST:g} °C",
            None,
            "write `{dry: 25 %, damp: 60 %, at: 70 F}`",
        )
    return Air(dry, damp, warmth)


def finish_of(uses: list[Use], crowd: Crowd) -> tuple[Coats, ...]:
    """Each finish with its coats and what it goes over."""
    found = []
    for use in uses:
        node = use.scope.node.get("finish")
        if not isinstance(node, MappingNode):
            continue
        over = _over(use, node, crowd)
        for entry in node:
            if entry.name not in ("over", "note"):
                assert isinstance(entry.value, Scalar)
                found.append(Coats(entry.name, parse_coats(entry.value), over, entry.key.place))
    return tuple(found)


def _over(use: Use, node: MappingNode, crowd: Crowd) -> tuple[str, ...]:
    scalars = scalars_of(node.get("over"))
    over: dict[str, None] = {}
    for scalar in scalars:
        word = as_name(scalar.text)
        if word in ("all", "outside"):
            over[word] = None
        else:
            parts = use.standing(scalar, crowd, "finish, over", ("all", "outside"))
            over.update(dict.fromkeys(one.name for one in parts))
    return tuple(over) or ("all",)


def spaces_of(root: Scope) -> tuple[Space, ...]:
    """The named spaces of the piece's own file."""
    found = []
    for seen in members(root):
        if seen.thing.family.kind == SPACE:
            reaches = [span_seen(seen, axis) for axis in Axis]
            low, high = [r.low for r in reaches], [r.high for r in reaches]
            note = seen.thing.family.node.get("note")
            text = note.text if isinstance(note, Scalar) else ""
            found.append(Space(seen.name, Box((low[0], low[1], low[2]), (high[0], high[1], high[2])), text))
    return tuple(found)
