"""Parts as they are after copying: one object, one piece of wood."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ResolveError
from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode
from scantling.piece.language.parse import parse_counts, parse_expression, parse_face, parse_glue, parse_name
from scantling.piece.model import Axis, Box, BuildKind, Built, Face, Part, Rings, Shape
from scantling.piece.resolve.asker import Asker, copy_reach
from scantling.piece.resolve.common import MOST_PARTS
from scantling.piece.resolve.images import Image
from scantling.piece.resolve.shapes import paired_faces, shape_of
from scantling.piece.resolve.tree import SPACE, Scope, Seen, Thing, leaves, members
from scantling.piece.resolve.wanting import size_in
from scantling.piece.resolve.work import work_of


def part_leaves(root: Scope) -> tuple[Seen, ...]:
    """Every part of the piece as seen from its frame, in the order of writing."""
    found: list[Seen] = []
    for seen in members(root):
        if seen.thing.family.kind != SPACE:
            found.extend(leaves(seen))
        if len(found) > MOST_PARTS:
            raise ResolveError(f"more than {MOST_PARTS} parts", seen.thing.family.key.place)
    return tuple(found)


def own_box(seen: Seen) -> Box:
    """The box of one copy in its definition's frame."""
    reaches = [copy_reach(seen, axis) for axis in Axis]
    return Box(
        (reaches[0].low, reaches[1].low, reaches[2].low), (reaches[0].high, reaches[1].high, reaches[2].high)
    )


def part_of(seen: Seen) -> Part:
    """One copy as a part of the piece."""
    thing = seen.thing
    workings = thing.common.workings
    image = Image(seen.steps)
    box = own_box(seen)
    note = thing.family.node.get("note")
    return Part(
        name=seen.name,
        definition="/".join(copy.thing.family.name for copy in seen.path),
        box=image.box(box),
        material=workings.material(thing),
        grain=image.axis(workings.grain(thing)),
        place=thing.scope.shown_place(thing.family.key.place),
        placement=image.placement(),
        rings=_rings(thing),
        shape=_shape(seen, image, box),
        work=tuple(image.work(work) for work in work_of(thing, seen.side_words)),
        built=_built(thing, image),
        show=_show(thing, image),
        mirrored=seen.mirrored,
        copy_words=_copy_words(seen),
        fixed=thing.common.built is not None and seen.name in thing.common.built.fixed,
        groups=tuple(copy.called for copy in seen.path[:-1]),
        note=note.text if isinstance(note, Scalar) else "",
    )


def _shape(seen: Seen, image: Image, box: Box) -> Shape:
    shape = shape_of(seen.thing)
    if shape.lean is not None and image.axis(Axis.HIGH) is not Axis.HIGH:
        raise ResolveError(
            "a leaning part cannot be laid on its side",
            seen.thing.family.key.place,
            "turn it with `tilt`, or face what holds it another way",
            (seen.name,),
        )
    return image.shape(shape, box)


def _copy_words(seen: Seen) -> tuple[str, ...]:
    copy = seen.copy
    number = (str(copy.number),) if copy.number is not None else ()
    return (*copy.side_words, *number)


def _rings(thing: Thing) -> Rings:
    node = thing.family.node.get("rings")
    return Rings(node.text.strip().lower()) if isinstance(node, Scalar) else Rings.FLAT


def _show(thing: Thing, image: Image) -> frozenset[Face] | None:
    node = thing.family.node.get("show")
    if node is None:
        return None
    faces: set[Face] = set()
    for scalar in _scalars(node):
        asker = Asker(thing.scope, scalar, thing, own=True, what="show")
        faces.update(paired_faces(asker, parse_face(scalar)))
    return frozenset(image.face(face) for face in faces)


def _scalars(node: Node) -> Iterator[Scalar]:
    for item in node.items if isinstance(node, SequenceNode) else (node,):
        assert isinstance(item, Scalar)
        yield item


FEWEST_COOPERED = 3
_KINDS = ("layers", "staves", "coopered", "bricks", "bent")


def _built(thing: Thing, image: Image) -> Built | None:
    node = thing.family.node.get("built")
    if node is None:
        return None
    if isinstance(node, Scalar):
        return Built(BuildKind.ONE_PIECE, 1, 1)
    assert isinstance(node, MappingNode)
    said = [key for key in _KINDS if key in node]
    if len(said) > 1:
        raise ResolveError(
            f"a part is built of {said[0]} or of {said[1]}, not both", node.place, "", (thing.label, "built")
        )
    kind = BuildKind(said[0]) if said else BuildKind.STAVES
    counts = node.get(said[0]) if said else None
    least, most = 1, None
    if isinstance(counts, Scalar):
        limits = parse_counts(counts)
        least, most = limits.least, limits.most
        if kind is BuildKind.COOPERED and least < FEWEST_COOPERED:
            raise ResolveError(
                f"{FEWEST_COOPERED} staves are the fewest that close a ring",
                counts.place,
                "write `coopered: 8`",
                (thing.label, "built"),
            )
    return Built(kind, least, most, _stacked(node, image), *_edges(node), _wall(thing, node), _courses(node))


def _stacked(node: MappingNode, image: Image) -> Axis | None:
    said = node.get("stacked")
    return image.axis(Axis[said.text.strip().upper()]) if isinstance(said, Scalar) else None


def _edges(node: MappingNode) -> tuple[str, str]:
    edges, glue = node.get("edges"), node.get("glue")
    return (
        parse_name(edges).text if isinstance(edges, Scalar) else "glue",
        parse_glue(glue).where if isinstance(glue, Scalar) else "all",
    )


def _wall(thing: Thing, node: MappingNode) -> float | None:
    wall = node.get("wall")
    if not isinstance(wall, Scalar):
        return None
    return size_in(Asker(thing.scope, wall, thing, own=True, what="built, wall"), parse_expression(wall))


def _courses(node: MappingNode) -> int | None:
    courses = node.get("courses")
    return parse_counts(courses).most if isinstance(courses, Scalar) else None
