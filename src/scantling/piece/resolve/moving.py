"""Movements and poses: what swings, slides, turns and lifts, and all that is carried along."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ResolveError
from scantling.piece.language.document import Entry, MappingNode, Scalar, as_mapping, items_of
from scantling.piece.language.parse import parse_edge, parse_expression, parse_move, parse_name, parse_turn
from scantling.piece.language.phrases import Name
from scantling.piece.methods import METHODS, Meeting
from scantling.piece.model import (
    Axis,
    Hardware,
    Joint,
    Motion,
    Movement,
    Pose,
    PoseStep,
    Slide,
    Swing,
    Vec3,
)
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.directions import DIRECTIONS
from scantling.piece.resolve.standing import Crowd
from scantling.piece.resolve.turning import swivel_of, unit
from scantling.piece.resolve.uses import Use, scalars_of
from scantling.piece.resolve.wanting import size_in
from scantling.quantity.kinds import Kind

AT_REST = "at rest"
ALL = "all"
Neighbours = dict[str, list[str]]
_MOTIONS = ("swings", "slides", "lifts", "turns")


def movements_of(
    uses: list[Use], crowd: Crowd, joints: tuple[Joint, ...], fittings: tuple[Hardware, ...]
) -> tuple[Movement, ...]:
    """Every movement, named by the use; the piece's own wins over a kit's of the same name."""
    found: dict[str, Movement] = {}
    fastened = _fastened(joints)
    for use in uses:
        entries = [e for e in use.entries("movements") if use.stands(as_mapping(e.value, e.name), e.name)]
        for entry in entries:
            name = _name(use, entry, len(entries))
            found[name] = _movement(use, entry, name, crowd, fastened, fittings)
    movements = tuple(found.values())
    _check_order(movements)
    return movements


def _name(use: Use, entry: Entry, count: int) -> str:
    if use.is_piece:
        return entry.name
    return use.name if count == 1 else f"{use.name} {entry.name}"


def _movement(
    use: Use,
    entry: Entry,
    name: str,
    crowd: Crowd,
    fastened: Neighbours,
    fittings: tuple[Hardware, ...],
) -> Movement:
    node = as_mapping(entry.value, f"movement {entry.name}")
    moves = _moved_parts(use, entry, node, crowd)
    on = node.get("on")
    hardware = use.named(parse_name(on).text) if isinstance(on, Scalar) else None
    if hardware is not None and all(f.name != hardware for f in fittings):
        assert isinstance(on, Scalar)
        raise Asker(use.scope, on, what=f"{entry.name}, on").error(
            f'no hardware is called "{on.text}"', None, nearest(on.text, [f.name for f in fittings])
        )
    carried = _carried(moves, fastened)
    _refuse_left_behind(use, entry, moves, carried, hardware, fittings, crowd)
    return Movement(
        name,
        frozenset(carried),
        _motion(use, entry, node),
        use.scope.shown_place(entry.key.place),
        hardware,
        tuple(_other(use, scalar) for scalar in scalars_of(node.get("after"))),
        _rides(use, node),
        "" if use.is_piece else _setting(node),
    )


def _setting(node: MappingNode) -> str:
    """The size that alone says how far a kit's movement goes: a use may give it."""
    swings = node.get("swings")
    angle = parse_turn(swings).angle if isinstance(swings, Scalar) else None
    return angle.text if isinstance(angle, Name) else ""


def _rides(use: Use, node: MappingNode) -> str | None:
    rides = node.get("rides on")
    return _other(use, rides) if isinstance(rides, Scalar) else None


def _other(use: Use, scalar: Scalar) -> str:
    name = parse_name(scalar).text
    siblings = [e.name for e in use.entries("movements")]
    if use.is_piece or name not in siblings:
        return name
    return use.name if len(siblings) == 1 else f"{use.name} {name}"


def _moved_parts(use: Use, entry: Entry, node: MappingNode, crowd: Crowd) -> set[str]:
    said = scalars_of(node.get("moves"))
    if not said:
        raise ResolveError("nothing says what moves", entry.key.place, "add `moves: lid`", (entry.name,))
    moves: set[str] = set()
    for scalar in said:
        if scalar.text.strip().lower() == ALL:
            moves.update(seen.name for seen in use.parts())
        else:
            moves.update(one.name for one in use.standing(scalar, crowd, f"{entry.name}, moves"))
    return moves


def _fastened(joints: tuple[Joint, ...]) -> Neighbours:
    """What each part is glued or fastened to."""
    neighbours: Neighbours = {}
    for joint in joints:
        if METHODS[joint.method] is not Meeting.RESTS and joint.settings.runs is None:
            neighbours.setdefault(joint.first, []).append(joint.second)
            neighbours.setdefault(joint.second, []).append(joint.first)
    return neighbours


def _carried(moves: set[str], fastened: Neighbours) -> set[str]:
    """What is fastened to a moving part moves too, and what is fastened to that."""
    carried, waiting = set(moves), sorted(moves)
    while waiting:
        for other in fastened.get(waiting.pop(), ()):
            if other not in carried:
                carried.add(other)
                waiting.append(other)
    return carried


def _refuse_left_behind(
    use: Use,
    entry: Entry,
    moves: set[str],
    carried: set[str],
    hardware: str | None,
    fittings: tuple[Hardware, ...],
    crowd: Crowd,
) -> None:
    """A moving part may not be fastened to what stays: the carrying side of its hardware, or everything."""
    stays = {f.joins[1] for f in fittings if f.joins is not None and f.name == hardware} - moves
    held = sorted((stays & carried) | ({"wall", "floor"} & carried))
    everything = set(crowd.by_name) <= carried and not set(crowd.by_name) <= moves
    if not held and not everything:
        return
    other = held[0] if held else sorted(set(carried) - moves)[0]
    raise ResolveError(
        f'"{entry.name}" would leave behind {other}, which is fastened to what moves',
        use.scope.shown_place(entry.key.place),
        f"let {other} move too, or join it with `rests` or with `runs`",
        (use.name, entry.name) if use.name else (entry.name,),
    )


def _motion(use: Use, entry: Entry, node: MappingNode) -> Motion:
    said = [key for key in _MOTIONS if key in node]
    if len(said) != 1:
        raise ResolveError(
            "a movement is one of `swings`, `slides`, `lifts`, `turns`", entry.key.place, "", (entry.name,)
        )
    scalar = node.by_name[said[0]].value
    assert isinstance(scalar, Scalar)
    if said[0] == "swings":
        return _swing(use, entry, node, scalar)
    if said[0] == "turns":
        return _turns(use, entry, scalar)
    return _slide(use, entry, scalar)


def _slide(use: Use, entry: Entry, scalar: Scalar) -> Slide:
    move = parse_move(scalar)
    asker = Asker(use.scope, scalar, what=entry.name)
    axis, sign = DIRECTIONS[move.direction]
    distance = size_in(asker, move.size)
    if distance <= 0:
        raise asker.error("a slide must be longer than nothing", move)
    return Slide(_direction(use, unit(axis, sign)), distance)


def _swing(use: Use, entry: Entry, node: MappingNode, scalar: Scalar) -> Swing:
    asker = Asker(use.scope, scalar, what=entry.name)
    about = node.get("about")
    edge = parse_edge(about) if isinstance(about, Scalar) else None
    if isinstance(about, Scalar):
        asker = Asker(use.scope, about, what=f"{entry.name}, about")
    turn = parse_turn(scalar)
    swivel = swivel_of(asker, turn, "swing", edge)
    angle = size_in(Asker(use.scope, scalar, what=entry.name), turn.angle, Kind.ANGLE)
    sense = 1 if swivel.angle() >= 0 else -1
    return _placed_swing(use, swivel.about(), unit(swivel.axis, sense if angle >= 0 else -sense), angle)


def _turns(use: Use, entry: Entry, scalar: Scalar) -> Swing:
    """About the upright line through the middle of the box, anticlockwise seen from above."""
    asker = Asker(use.scope, scalar, what=entry.name)
    middle = (asker.box(Axis.WIDE).middle, asker.box(Axis.DEEP).middle, asker.box(Axis.HIGH).low)
    angle = size_in(asker, parse_expression(scalar), Kind.ANGLE)
    return _placed_swing(use, middle, unit(Axis.HIGH, 1), angle)


def _placed_swing(use: Use, about: Vec3, axis: Vec3, angle: float) -> Swing:
    """A swing of a kit, in the piece's frame; in a mirrored kit it goes the other way round."""
    handed = -1 if _mirrored(use) else 1
    turned = _direction(use, axis)
    return Swing(use.point(about), (handed * turned[0], handed * turned[1], handed * turned[2]), angle)


def _mirrored(use: Use) -> bool:
    return sum(copy.mirrored for copy, _ in use.way) % 2 == 1


def _direction(use: Use, direction: Vec3) -> Vec3:
    a, b = use.point((0.0, 0.0, 0.0)), use.point(direction)
    return tuple(round(q - p, 12) + 0.0 for p, q in zip(a, b, strict=True))  # type: ignore[return-value]


def _check_order(movements: tuple[Movement, ...]) -> None:
    names = [movement.name for movement in movements]
    for movement in movements:
        for other in (*movement.after, *((movement.rides_on,) if movement.rides_on else ())):
            if other not in names:
                raise ResolveError(
                    f'no movement is called "{other}"',
                    movement.place,
                    nearest(other, names),
                    (movement.name,),
                )


def poses_of(uses: list[Use], movements: tuple[Movement, ...]) -> tuple[Pose, ...]:
    """At rest, then the poses as named."""
    by_name = {movement.name: movement for movement in movements}
    poses = [Pose(AT_REST, ())]
    for use in uses:
        for entry in use.entries("poses"):
            steps = tuple(_steps(use, entry, by_name))
            poses.append(Pose(use.named(entry.name), steps, entry.key.place))
    return tuple(poses)


def _steps(use: Use, entry: Entry, by_name: dict[str, Movement]) -> Iterator[PoseStep]:
    if isinstance(entry.value, MappingNode):
        for step in entry.value:
            movement = _of_name(use, entry, step.key, by_name)
            yield PoseStep(movement.name, _fraction(use, entry, movement, step.value))
        return
    for item in items_of(entry.value):
        assert isinstance(item, Scalar)
        yield PoseStep(_of_name(use, entry, item, by_name).name, 1.0)


def _of_name(use: Use, entry: Entry, scalar: Scalar, by_name: dict[str, Movement]) -> Movement:
    name = _other(use, scalar)
    if name not in by_name:
        raise ResolveError(
            f'no movement is called "{name}"', scalar.place, nearest(name, by_name), (f"pose {entry.name}",)
        )
    return by_name[name]


def _fraction(use: Use, entry: Entry, movement: Movement, node: object) -> float:
    assert isinstance(node, Scalar)
    asker = Asker(use.scope, node, what=f"pose {entry.name}")
    value = asker.value(parse_expression(node))
    if value.kind is Kind.RATIO:
        return value.number
    if isinstance(movement.motion, Slide):
        return size_in(asker, parse_expression(node)) / movement.motion.distance
    return size_in(asker, parse_expression(node), Kind.ANGLE) / movement.motion.angle
