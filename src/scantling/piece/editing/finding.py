"""Keys of a piece and the names that lead to them; parts of the piece and the keys they are copies of."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.editing.writes import Question, Steps
from scantling.piece.language.phrases import Name, SizeOf, Words
from scantling.piece.resolve import named
from scantling.piece.resolve.tree import KIT, SPACE, Family, Scope, Seen, Thing
from scantling.piece.resolve.whole import Worked, as_planned


def tree_of(question: Question) -> Worked:
    """The tree behind the piece as planned. Raises ResolveError."""
    return as_planned(question.document, question.facts, dict(question.settings))


def part_seen(worked: Worked, part: str) -> Seen:
    """A part of the piece by its full name, with the containers it stands in. Raises ReadError."""
    standing = worked.crowd.by_name.get(part)
    if standing is None:
        raise ReadError(f'the piece has no part called "{part}"')
    return standing.seen


def path_of(family: Family) -> Steps:
    """The names that lead to a key in its own file, or in the kit it is written in."""
    owner = family.scope.owner
    outer = () if owner is None or owner.family.kind == KIT else path_of(owner.family)
    section = "spaces" if family.kind == SPACE else "parts"
    return (*outer, section, (family.split_from or family).name)


@dataclass(frozen=True)
class Key:
    """A key of the piece's own file that a part stands under; `use` is the outermost kit it is inside of."""

    path: Steps
    use: Thing | None


def key_of(seen: Seen) -> Key:
    """The key of the piece's own file that holds a part: its own, or that of the kit it is inside of."""
    for copy in seen.path:
        if copy.thing.family.kind == KIT:
            return Key(path_of(copy.thing.family), copy.thing)
    return Key(path_of(seen.thing.family), None)


def size_meant(home: Scope, tree: Words) -> str:
    """The named size a formula alone is: its name, or a word like `thickness` that a file gives a size to."""
    word = tree.text if isinstance(tree, Name) else ""
    if isinstance(tree, SizeOf) and tree.of is None:
        word = tree.word
    return word if word and named.has_size(home, word) else ""


def kit_around(scope: Scope) -> Thing | None:
    """The use of a kit that a scope is inside of; None in the piece's own file."""
    return scope.home.owner
