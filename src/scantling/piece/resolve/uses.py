"""Every file at work in a piece: itself, and each kit once for each use; names as seen from the piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, items_of
from scantling.piece.language.parse import parse_condition, parse_name
from scantling.piece.model import FLOOR, WALL, Vec3
from scantling.piece.resolve import names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.conditions import holds
from scantling.piece.resolve.images import Image, moved
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.steps import Steps
from scantling.piece.resolve.tree import KIT, Copy, Scope, Seen, leaves, members

OUTSIDE = (WALL, FLOOR)


@dataclass(frozen=True, eq=False)
class Use:
    """A file in one use: its scope, and the way from inside it to the piece (innermost copy first)."""

    scope: Scope
    way: tuple[tuple[Copy, Scope], ...]

    @property
    def is_piece(self) -> bool:
        return not self.way

    @property
    def name(self) -> str:
        """How the use is called from the piece: `drawer 3`."""
        return " ".join(copy.called for copy, _ in reversed(self.way))

    @property
    def steps(self) -> Steps:
        steps: Steps = ()
        for copy, scope in self.way:
            steps = steps + scope.steps + copy.steps
        return steps

    def lifted(self, seen: Seen) -> Seen:
        """What the file sees, as seen from the piece."""
        for copy, scope in self.way:
            seen = seen.inside(copy, scope.steps)
        return seen

    def named(self, name: str) -> str:
        """A thing of this file, as the piece calls it."""
        return name if self.is_piece else f"{self.name} {name}"

    def point(self, point: Vec3) -> Vec3:
        for step in self.steps:
            point = moved(step, point)
        return point

    def image(self) -> Image:
        return Image(self.steps)

    def entries(self, key: str) -> tuple[Entry, ...]:
        node = self.scope.node.get(key)
        return node.entries if isinstance(node, MappingNode) else ()

    def stands(self, entry: MappingNode, what: str) -> bool:
        """Whether its `when` holds; True where it says none."""
        node = entry.get("when")
        if not isinstance(node, Scalar):
            return True
        return holds(Asker(self.scope, node, what=f"{what}, when"), parse_condition(node))

    def standing(self, scalar: Scalar, crowd: Crowd, what: str, also: tuple[str, ...] = ()) -> list[Standing]:
        """The parts a name stands for; none where a choice leaves them out. Raises on unknown names."""
        name = parse_name(scalar)
        meant = names.look_up(self.scope, name.words, scalar.place_of(name))
        if meant is names.NOTHING:
            told = names.unknown_name(self.scope, name.text, also)
            raise Asker(self.scope, scalar, what=what).error(f'no part is called "{name.text}"', name, told)
        return [crowd.by_name[leaf.name] for seen in meant.seen for leaf in leaves(self.lifted(seen))]

    def outside(self, scalar: Scalar) -> str | None:
        """`wall` or `floor`, where no part of this file goes by that name."""
        name = parse_name(scalar)
        if name.text not in OUTSIDE:
            return None
        found = names.look_up(self.scope, name.words, scalar.place_of(name))
        return name.text if found is names.NOTHING else None

    def parts(self) -> list[Seen]:
        """Every part of this file, as seen from the piece."""
        inside = [seen for seen in members(self.scope) if seen.thing.family.kind != "space"]
        return [self.lifted(leaf) for seen in inside for leaf in leaves(seen)]


def uses_of(root: Scope) -> list[Use]:
    """Kits first, deepest first, then the file that uses them."""
    return list(_uses(root, ()))


def _uses(scope: Scope, way: tuple[tuple[Copy, Scope], ...]) -> Iterator[Use]:
    for seen in members(scope):
        contents = seen.thing.contents
        if contents is not None:
            yield from _uses(contents, ((seen.copy, contents), *way))
    if scope.owner is None or scope.owner.family.kind == KIT:
        yield Use(scope, way)


def scalars_of(node: Node | None) -> list[Scalar]:
    """A name, or a list of names."""
    if node is None:
        return []
    return [item for item in items_of(node) if isinstance(item, Scalar)]
