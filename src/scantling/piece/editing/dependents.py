"""What depends on a part, a size, a choice or a material: all that refers to it, and what refers to that."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.editing.naming import Words, words_of
from scantling.piece.editing.referring import AXES, Reference, part_path, references_of
from scantling.piece.editing.writes import Question, Steps

_SIZED = ("sizes", "overall", "spaces", "parts", "holds", "hardware")  # what others may refer to in turn
_LAST = ("work", "built", "grain", "rings", "show", "of", "note")  # of a part: nothing is measured from these
_FIRST = {"holds": AXES, "hardware": ("kind", "length", "width", "thick")}  # of these: what alone is measured


@dataclass(frozen=True, slots=True)
class Dependent:
    """A phrase that follows what was asked for: `path` in the whole piece, `words` as written and where.

    `words` is None for a part that is of the first material unsaid. `through`: the keys that led to it, that
    nearest to what was asked for first; () where it refers to that itself.
    """

    path: Steps
    words: Words | None
    through: tuple[Steps, ...] = ()

    @property
    def section(self) -> str:
        """`parts`, `sizes`, `spaces`, `joints`, `hardware`, `movements`, `holds`, ..."""
        return self.path[0]


def dependents(question: Question, target: Steps) -> tuple[Dependent, ...]:
    """All that follows a key of the piece, nearest first.

    `target` is a size, a choice, a material, a part or one of its spans: `("sizes", "leg size")`,
    `("overall", "wide")`, `("parts", "leg")`, `("parts", "leg", "wide")`. What reads a face of a leaning or
    tapered part may follow more of its spans than is told.
    Raises ResolveError where the piece cannot be worked out.
    """
    references = references_of(question)
    found: dict[Steps, Dependent] = {}
    waiting: list[tuple[Steps, tuple[Steps, ...]]] = [(target, ())]
    asked = {target}
    while waiting:
        key, through = waiting.pop(0)
        for reference in references:
            path = reference.path
            if path in found or is_inside(path, target) or not _refers(reference, key):
                continue
            words = words_of(question.document, reference.scalar) if reference.scalar else None
            found[path] = Dependent(path, words, through)
            further = _changed_with(path) if reference.scalar else ()
            if further and further not in asked:
                asked.add(further)
                waiting.append((further, (*through, further)))
    return tuple(found.values())


def is_inside(path: Steps, target: Steps) -> bool:
    """Whether a path leads to a key, or to something in it."""
    return path[: len(target)] == target


def _refers(reference: Reference, key: Steps) -> bool:
    return any(is_inside(to, key) or is_inside(key, to) for to in reference.to)


def _changed_with(path: Steps) -> Steps:
    """The key that others may refer to, and that changes with a phrase; () where there is none."""
    if path[0] not in _SIZED:
        return ()
    if path[0] in _FIRST and path[2] not in _FIRST[path[0]]:
        return ()
    base = part_path(path)
    if not base:
        return path[:2]
    key = path[len(base) : len(base) + 1]
    if key and key[0] in AXES:
        return (*base, *key)
    return () if key and key[0] in _LAST else base
