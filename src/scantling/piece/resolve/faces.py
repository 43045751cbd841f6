"""Where faces lie: of the box one is in, and of named things, read where the asking part is."""

from __future__ import annotations

from collections.abc import Callable

from scantling.errors import ResolveError
from scantling.piece.language.document import Scalar
from scantling.piece.language.parse import parse_face
from scantling.piece.language.phrases import Expression, FaceOf, Words
from scantling.piece.model import Axis, Face, OutlineKind, face_of
from scantling.piece.resolve.asker import Asker, copy_reach, outer_words, span_seen
from scantling.piece.resolve.narrowing import agreed, meant
from scantling.piece.resolve.reading import face_at, inner_wall_at
from scantling.piece.resolve.steps import along, axis_inside, face_inside, swivel_in
from scantling.piece.resolve.tree import PART, SIDES, SPACE, Reach, Seen, Thing, leaves
from scantling.piece.resolve.values import Value, place
from scantling.piece.resolve.wanting import place_at

FACE_OF_WORD = {word: face_of(axis, sign) for word, (axis, sign) in SIDES.items()}
Where = Callable[[Axis], float]


def face_said(scalar: Scalar, what: str) -> Face:
    """One of the six faces, said by its own word."""
    word = parse_face(scalar)
    if word not in FACE_OF_WORD:
        raise ResolveError(
            f"`{word}` is no face for `{what}`", scalar.place, "write left, right, front, back, top or bottom"
        )
    return FACE_OF_WORD[word]


def bare_face(asker: Asker, formula: FaceOf) -> Value:
    """A face word standing alone: of the box I am in."""
    word = formula.word
    if word == "floor":
        return place(Axis.HIGH, _floor(asker))
    axis = FACE_OF_WORD[word].axis if word in FACE_OF_WORD else axis_wanted(asker, formula)
    box = _box(asker, axis)
    if word == "middle":
        return place(axis, box.middle)
    sign = FACE_OF_WORD[word].sign if word in FACE_OF_WORD else _paired_sign(asker, formula, axis)
    return place(axis, box.high, box.high_faces) if sign > 0 else place(axis, box.low, box.low_faces)


def _floor(asker: Asker) -> float:
    return asker.box(Axis.HIGH).low if asker.scope.home.owner else 0.0


def _box(asker: Asker, axis: Axis) -> Reach:
    box = asker.box(axis)
    return box.through(asker.mirrors, axis) if asker.is_mirrored(axis) else box


def _paired_sign(asker: Asker, formula: FaceOf, axis: Axis) -> int:
    side = asker.written_sides.get(axis)
    if side is None:
        raise asker.error(
            f"`{formula.word}` has no meaning along {axis.word} for a thing that is not one of a pair",
            formula,
            "name the face: left, right, front, back, top or bottom",
        )
    outward = SIDES[side][1]
    return outward if formula.word == "outside" else -outward


def axis_wanted(asker: Asker, words: FaceOf) -> Axis:
    """The axis a place is wanted along. Raises ResolveError where a size is wanted."""
    if asker.axis is None:
        raise asker.error(
            f"`{words.word}` along which way? A size is wanted here",
            words,
            "name a face: left, right, front, back, top or bottom",
        )
    return asker.axis


def face_of_named(asker: Asker, formula: FaceOf) -> Value:
    """`top of leg`, `middle of stile`, `inside of leg`."""
    assert formula.of is not None
    name = formula.of
    seen = meant(asker, name)
    word = formula.word
    axis = FACE_OF_WORD[word].axis if word in FACE_OF_WORD else axis_wanted(asker, formula)
    if word == "floor":
        raise asker.error("the floor belongs to no part", formula, "write `floor` alone")
    parts: set[Thing] = set()

    def read(one: Seen) -> float:
        reader = Reader(asker, formula, formula.at)
        if word == "middle":
            low, _ = reader.face(one, face_of(axis, -1))
            high, _ = reader.face(one, face_of(axis, 1))
            return (low + high) / 2
        number, faces = reader.named_face(one, word, axis)
        parts.update(faces)
        return number

    return place(axis, agreed(asker, name, seen, read, formula), frozenset(parts))


class Reader:
    """Reads faces of shaped things at the height (or length) where the asking part is."""

    def __init__(self, asker: Asker, words: Words, at: Expression | None = None) -> None:
        self.asker = asker
        self.words = words
        self.at = at

    def named_face(self, seen: Seen, word: str, axis: Axis) -> tuple[float, frozenset[Thing]]:
        if word in FACE_OF_WORD:
            return self.face(seen, FACE_OF_WORD[word])
        wall = self._ring_wall(seen, word, axis)
        if wall is not None:
            return wall
        sides = {SIDES[w][0]: SIDES[w][1] for w in side_words(seen) if w in SIDES}
        if axis not in sides:
            raise self.asker.error(
                f"`{word} of {seen.name}`: it is not one of a pair along {axis.word}",
                self.words,
                "name the face: left, right, front, back, top or bottom",
            )
        sign = sides[axis] if word == "outside" else -sides[axis]
        if self.asker.is_mirrored(axis):
            sign = -sign
        return self.face(seen, face_of(axis, sign))

    def _ring_wall(self, seen: Seen, word: str, axis: Axis) -> tuple[float, frozenset[Thing]] | None:
        """The inner wall of a ring, on the side of the end that asks."""
        thing = seen.thing
        if word != "inside" or thing.family.kind != PART or self.asker.end == 0:
            return None
        outline = thing.common.workings.outline(thing)
        if outline is None or outline.kind is not OutlineKind.RING:
            return None
        inner = face_inside(seen.steps, face_of(axis, self.asker.end))
        number = inner_wall_at(thing, inner, self.where(seen))
        return along(seen.steps, axis).out(number), frozenset((thing,))

    def face(self, seen: Seen, face: Face) -> tuple[float, frozenset[Thing]]:
        kind = seen.thing.family.kind
        if kind == SPACE:
            reach = span_seen(seen, face.axis)
            return (reach.low, reach.low_faces) if face.sign < 0 else (reach.high, reach.high_faces)
        if kind == PART:
            return self._part_face(seen, face), frozenset((seen.thing,))
        read = [(self._part_face(leaf, face), leaf.thing) for leaf in leaves(seen)]
        if not read:
            raise self.asker.error(f'"{seen.name}" holds no part', self.words)
        outmost = max(face.sign * number for number, _ in read) * face.sign
        return outmost, frozenset(t for number, t in read if abs(number - outmost) < 1e-6)

    def _part_face(self, seen: Seen, face: Face) -> float:
        swivel = swivel_in(seen.steps)
        if swivel is not None and swivel.axis is not face.axis:
            raise self._turned(seen, swivel.what)
        inner = face_inside(seen.steps, face)
        number = face_at(seen.thing, inner, self.where(seen))
        if seen.thing.common.built is not None:
            planned, built = seen.thing.reach(inner.axis), copy_reach(seen, inner.axis)
            number += built.low - planned.low if inner.sign < 0 else built.high - planned.high
        return along(seen.steps, face.axis).out(number)

    def _turned(self, seen: Seen, what: str) -> Exception:
        if what == "ring":
            return self.asker.error(
                f'"{seen.name}" stands at an angle in its ring, so this face has no one place',
                self.words,
                f'name a copy that stands square: "{seen.thing.family.name} 1"',
            )
        return self.asker.error(
            f'"{seen.name}" is tilted, so this face has no one place',
            self.words,
            "name a face of what carries it",
        )

    def where(self, seen: Seen) -> Where:
        """Where the asking part is, along an axis of the thing's own frame."""

        def position(inner: Axis) -> float:
            outer = next(a for a in Axis if axis_inside(seen.steps, a)[0] is inner)
            return along(seen.steps, outer).inside(self._asked_at(seen, outer))

        return position

    def _asked_at(self, seen: Seen, outer: Axis) -> float:
        if self.at is not None:
            return place_at(self.asker, self.at, outer).number
        thing = self.asker.thing
        if thing is None:
            raise self.asker.error(
                f'"{seen.name}" leans, tapers or curves: say where its face is read',
                self.words,
                "write `front of leg at 7`",
            )
        return thing.reach(outer).middle


def side_words(seen: Seen) -> tuple[str, ...]:
    """Place words in its key (`left post`), of the group both stand in, and the copy's own; the last wins."""
    key = tuple(word for word in seen.thing.family.name.split() if word in SIDES)
    return (*key, *outer_words(seen.path[0].thing), *seen.side_words)


def extent(seen: Seen, axis: Axis) -> Reach:
    """From the lowest to the highest face of a thing's box, or of all that a group holds."""
    if seen.thing.contents is None:
        return span_seen(seen, axis)
    reaches = [span_seen(leaf, axis) for leaf in leaves(seen)]
    if not reaches:
        return span_seen(seen, axis)
    return Reach(min(r.low for r in reaches), max(r.high for r in reaches))
