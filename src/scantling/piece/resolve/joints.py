"""Joint lines to pairs of parts: every touching pair a line names; the later line wins, outer over kit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.errors import Place
from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode, as_mapping, items_of
from scantling.piece.language.parse import parse_name
from scantling.piece.model import FLOOR, TOUCH, Box, Face, Joint, JointSettings, Notice
from scantling.piece.resolve import methods, names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.faces import face_said
from scantling.piece.resolve.joint_settings import settings_of
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.touching import Touch, overlap, touch
from scantling.piece.resolve.tree import SIDES, Scope, leaves
from scantling.piece.resolve.uses import OUTSIDE, Use


@dataclass(frozen=True, slots=True)
class Line:
    """One joint line in one use: who, how, and where it stands."""

    use: Use
    node: MappingNode
    number: int

    @property
    def scope(self) -> Scope:
        return self.use.scope


def joints_of(
    uses: list[Use],
    crowd: Crowd,
    walls: tuple[Face, ...],
    overall: Box,
    planned: tuple[Joint, ...] = (),
) -> tuple[Joint, ...]:
    """Every joint of the piece. Raises ResolveError on unknown names, methods and settings.

    `planned`: joints of the piece as planned, which stand where a measured part has lost its contact.
    """
    pairs: dict[frozenset[str], Joint] = {}
    before = {(joint.first, joint.second): joint for joint in planned}
    for line in _lines(uses):
        for joint in _of_line(line, crowd, walls, overall, before):
            key = frozenset((joint.first, joint.second))
            pairs.pop(key, None)
            pairs[key] = joint
    return tuple(pairs.values())


def _lines(uses: list[Use]) -> Iterator[Line]:
    numbers: dict[Place, int] = {}
    for use in uses:
        node = use.scope.node.get("joints")
        for item in node.items if isinstance(node, SequenceNode) else ():
            entries = as_mapping(item, "a joint")
            number = numbers.setdefault(entries.place, len(numbers) + 1)
            yield Line(use, entries, number)


def _of_line(
    line: Line,
    crowd: Crowd,
    walls: tuple[Face, ...],
    overall: Box,
    before: dict[tuple[str, str], Joint],
) -> Iterator[Joint]:
    if not line.use.stands(line.node, "joint"):
        return
    method = methods.method_named(line.scope, line.node)
    wants = methods.wants_of(line.scope, line.node)
    firsts, seconds = _named(line, "join", crowd), _named(line, "to", crowd)
    found: list[Joint] = []
    for first in _flat(firsts):
        for second in _flat(seconds):
            if first is not second:
                joint = _pair(line, first, second, method, wants)
                if joint is None:
                    joint = _as_planned(line, before.get((first.name, second.name)))
                found.extend([joint] if joint else [])
        for outside in _outside(line):
            joint = _to_outside(line, first, outside, method, walls, overall)
            found.extend([joint] if joint else [])
    yield from found
    _tell_lost(line, firsts, seconds, found, method)


def _named(line: Line, key: str, crowd: Crowd) -> list[tuple[Scalar, list[Standing]]]:
    """The parts each name in a line stands for; what a choice leaves out drops away."""
    found = []
    for scalar in _scalars(line.node.get(key), line, key):
        if key == "to" and line.use.outside(scalar):
            continue
        parts = line.use.standing(scalar, crowd, f"joint, {key}", OUTSIDE)
        found.append((scalar, parts))
    return found


def _scalars(node: Node | None, line: Line, key: str) -> Iterator[Scalar]:
    if node is None:
        raise Asker(line.scope, Scalar("", line.node.place), what="joint").error(
            f"a joint without `{key}`", None, "write `{join: rail, to: leg, with: tenon}`"
        )
    for item in items_of(node):
        assert isinstance(item, Scalar)
        yield item


def _flat(named: list[tuple[Scalar, list[Standing]]]) -> list[Standing]:
    unique = {id(one): one for _, parts in named for one in parts}
    return list(unique.values())


def _outside(line: Line) -> list[str]:
    found = [line.use.outside(scalar) for scalar in _scalars(line.node.get("to"), line, "to")]
    return [word for word in found if word]


def _pair(
    line: Line, first: Standing, second: Standing, method: str | None, wants: tuple[str, ...]
) -> Joint | None:
    if not _on_side(line, first, second):
        return None
    _refuse_outside_name(line, second)
    if method is not None and methods.runs_past(method):
        common = overlap(first, second)
        if common is None:
            return None
        met = Touch(None, None, common, 0.0)
    else:
        found = touch(first, second)
        if found is None:
            return None
        met = found
    if method is None:
        end = met.first_face is not None and met.first_face.axis is first.part.grain
        able = line.scope.common.facts.methods
        method = methods.ranked(wants, able, methods.END if end else methods.EDGE)
    return _joint(line, first, second.name, method, met, wants, _settings(line, method, first, second))


def _as_planned(line: Line, joint: Joint | None) -> Joint | None:
    return joint if joint is not None and joint.line == line.number else None


def _refuse_outside_name(line: Line, second: Standing) -> None:
    """In `to`, wall and floor are those of the room, so a part of that name could not be told apart."""
    if second.name in OUTSIDE:
        raise Asker(line.scope, Scalar("", line.node.place), what="joint, to").error(
            f'a part that others are joined to cannot be called "{second.name}": that is the room\'s',
            None,
            f'call it "{second.name} board", or join it to the other part instead',
        )


def _joint(
    line: Line,
    first: Standing,
    second: str,
    method: str,
    met: Touch,
    wants: tuple[str, ...],
    settings: JointSettings,
) -> Joint:
    return Joint(
        f"{first.name} to {second}",
        first.name,
        second,
        method,
        met.first_face,
        met.second_face,
        met.area,
        settings,
        line.number,
        line.scope.shown_place(line.node.place),
        wants,
    )


def _on_side(line: Line, first: Standing, second: Standing) -> bool:
    node = line.node.get("only")
    if not isinstance(node, Scalar):
        return True
    word = face_said(node, "only").word
    words = {*first.part.copy_words, *second.part.copy_words}
    others = {w for w in words if w in SIDES and w != word and SIDES[w][0] is SIDES[word][0]}
    return word in words and not others


def _settings(line: Line, method: str, first: Standing, second: Standing) -> JointSettings:
    key = ("joint settings", id(line.node), id(line.scope), method)
    settings = line.scope.common.once(
        key, "joint settings", None, lambda: settings_of(line.scope, line.node, method)
    )
    tails = line.node.get("tails on")
    if not isinstance(tails, Scalar):
        return settings
    name = parse_name(tails)
    meant = names.find(line.scope, name.words, tails.place_of(name))
    carriers = {leaf.name for seen in meant.seen for leaf in leaves(line.use.lifted(seen))}
    carrier = next((one.name for one in (first, second) if one.name in carriers), None)
    if carrier is None:
        raise Asker(line.scope, tails, what="joint, tails on").error(
            f'"{name.text}" is neither of the two that are joined', name
        )
    return replace(settings, tails_on=carrier)


def _to_outside(
    line: Line, first: Standing, outside: str, method: str | None, walls: tuple[Face, ...], overall: Box
) -> Joint | None:
    """A part fixed to a wall or the floor, where its face lies there."""
    faces = (Face.BOTTOM,) if outside == FLOOR else walls
    box = first.part.box
    for face in faces:
        if abs(box.face(face) - overall.face(face)) <= TOUCH:
            chosen = method or "screws"
            area = box.with_span(face.axis, box.face(face), box.face(face))
            settings = settings_of(line.scope, line.node, chosen)
            return _joint(line, first, outside, chosen, Touch(face, None, area, 0.0), (), settings)
    return None


def _tell_lost(
    line: Line,
    firsts: list[tuple[Scalar, list[Standing]]],
    seconds: list[tuple[Scalar, list[Standing]]],
    found: list[Joint],
    method: str | None,
) -> None:
    """A name in a line that ends up in no joint has lost its contact."""
    joined = {name for joint in found for name in (joint.first, joint.second)}
    verb, remedy = (
        "does not touch",
        "let a span end on the face of the other part, or take it out of the line",
    )
    if method is not None and methods.runs_past(method):
        verb, remedy = (
            "does not run into",
            f"a {method} is drawn as an overlap: let one part run through the other",
        )
    for scalar, parts in (*firsts, *seconds):
        if not parts or any(one.name in joined for one in parts) or scalar.text.strip().startswith("every "):
            continue
        others = seconds if any(scalar is s for s, _ in firsts) else firsts
        text = ", ".join(s.text.strip() for s, _ in others) or "the wall"
        if not _flat(others) and not _outside(line):
            continue
        line.scope.common.notice(
            Notice(
                "lost contact",
                f"{scalar.text.strip()} {verb} {text}, so this joint joins nothing",
                line.scope.shown_place(scalar.place),
                tuple(sorted(one.name for one in parts)),
                remedy=remedy,
                must=True,
            )
        )
