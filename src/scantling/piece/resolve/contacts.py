"""Contacts meant by the spans, contacts found between boxes, and where the two differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from scantling.errors import Place
from scantling.piece.language.document import Scalar
from scantling.piece.model import TOUCH, Axis, Box, Contact, Face, Hardware, Joint, Notice, face_of
from scantling.piece.resolve import methods
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, Standing, apart, near_boxes
from scantling.piece.resolve.steps import axis_inside
from scantling.piece.resolve.touching import LEAST_AREA, outer_box, overlap, side_area, touch
from scantling.quantity.kinds import LengthUnit

MOST_ALIKE = 24
Pairs = Sequence[tuple[Standing, Standing]]


def intended(crowd: Crowd) -> tuple[Contact, ...]:
    """Every span end that names a face of another part with nothing added, copy by copy."""
    return tuple(contact for one in crowd.all for contact in _of_part(one, crowd))


def _of_part(one: Standing, crowd: Crowd) -> Iterator[Contact]:
    for axis in Axis:
        inside, sense = axis_inside(one.seen.steps, axis)
        reach = one.seen.thing.reach(inside)
        for sign in (-1, 1):
            faces = reach.low_faces if sign * sense < 0 else reach.high_faces
            face = face_of(axis, sign)
            for thing in sorted(faces, key=lambda t: t.label) if len(faces) > 1 else faces:
                for other in crowd.copies_of(thing):
                    if other is not one and _meet(one, other, face):
                        yield Contact(one.name, face, other.name, face.opposite, _place(one, inside))


def _meet(one: Standing, other: Standing, face: Face) -> bool:
    a, b = near_boxes(one, other)
    if abs(a.face(face) - b.face(face.opposite)) > TOUCH or one.part.placement != other.part.placement:
        return False
    common = a.intersection(b)
    return common is not None and side_area(common, face.axis) > LEAST_AREA


def _place(one: Standing, inside: Axis) -> Place:
    node = one.seen.thing.family.node.get(inside.word)
    place = node.place if isinstance(node, Scalar) else one.part.place
    return one.seen.thing.scope.shown_place(place)


def unexplained_overlaps(pairs: Pairs, joints: tuple[Joint, ...], unit: LengthUnit) -> Iterator[Notice]:
    """Parts that run into each other with no cross lap or notch to say so: always an error.

    Of copies of the same two parts the first `MOST_ALIKE` pairs are told: the rest go wrong alike.
    """
    said = {frozenset((j.first, j.second)) for j in joints if methods.runs_past(j.method)}
    told = Counter[frozenset[int]]()
    for a, b in pairs:
        if not (a.is_plain and b.is_plain) or frozenset((a.name, b.name)) in said:
            continue
        alike = frozenset((id(a.seen.thing), id(b.seen.thing)))
        common = overlap(a, b) if told[alike] < MOST_ALIKE else None
        if common is not None:
            told[alike] += 1
            deep = min(common.sizes)
            yield Notice(
                "unexplained overlap",
                f"{a.name} and {b.name} are in each other by {shown(deep, unit)}",
                b.part.place,
                (a.name, b.name),
                deep,
                "end one of them on the face of the other, or say `with: notch` or `with: cross lap`",
                must=True,
            )


def near_pairs(crowd: Crowd) -> Iterator[tuple[Standing, Standing]]:
    """Pairs of parts whose outer boxes touch, in the order of the parts; swept along the longest way."""
    boxes = [outer_box(one.part.box, one.part.placement) for one in crowd.all]
    axis = _longest(boxes)
    order = sorted(range(len(boxes)), key=lambda i: (boxes[i].low[axis], i))
    open_ones: list[int] = []
    found: list[tuple[int, int]] = []
    for i in order:
        box = boxes[i]
        open_ones = [j for j in open_ones if boxes[j].high[axis] >= box.low[axis] - TOUCH]
        found.extend((min(i, j), max(i, j)) for j in open_ones if not apart(boxes[j], box))
        open_ones.append(i)
    for i, j in sorted(found):
        yield crowd.all[i], crowd.all[j]


def _longest(boxes: list[Box]) -> Axis:
    """The axis along which the parts are spread widest."""
    return max(Axis, key=lambda a: max((b.high[a] for b in boxes), default=0.0) - _lowest(boxes, a))


def _lowest(boxes: list[Box], axis: Axis) -> float:
    return min((box.low[axis] for box in boxes), default=0.0)


class Ties:
    """Which parts hold together, through joints and fittings."""

    def __init__(self, crowd: Crowd, joints: tuple[Joint, ...], fittings: tuple[Hardware, ...]) -> None:
        self._head = {one.name: one.name for one in crowd.all}
        for joint in joints:
            self.tie(joint.first, joint.second)
        for fitting in fittings:
            if fitting.joins is not None:
                self.tie(*fitting.joins)

    def head(self, name: str) -> str:
        while self._head.get(name, name) != name:
            name = self._head[name]
        return name

    def tie(self, a: str, b: str) -> None:
        a, b = self.head(a), self.head(b)
        if a != b:
            self._head[max(a, b)] = min(a, b)
            self._head.setdefault(min(a, b), min(a, b))


def loose_touches(
    crowd: Crowd, pairs: Pairs, joints: tuple[Joint, ...], fittings: tuple[Hardware, ...]
) -> Iterator[Notice]:
    """Parts that touch with no joint, where nothing else ties them together: once for copies of one pair."""
    ties = Ties(crowd, joints, fittings)
    told: set[frozenset[str]] = set()
    for a, b in pairs:
        if ties.head(a.name) == ties.head(b.name) or not (a.is_plain and b.is_plain):
            continue
        if a.part.placement != b.part.placement or touch(a, b) is None:
            continue
        ties.tie(a.name, b.name)
        first, second = a.seen.thing.label, b.seen.thing.label
        if frozenset((first, second)) not in told:
            told.add(frozenset((first, second)))
            yield Notice(
                "touch without joint",
                f"{a.name} touches {b.name}, and nothing ties them together",
                b.part.place,
                (a.name, b.name),
                remedy=f"add `{{join: {second}, to: {first}, with: ...}}`, or `with: rests`",
            )
