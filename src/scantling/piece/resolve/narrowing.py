"""Many meant, one wanted: narrow to my own side and my own space, then all must agree."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from scantling.errors import ResolveError
from scantling.piece.language.phrases import Name, Words
from scantling.piece.model import TOUCH, Axis
from scantling.piece.resolve import names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.tree import SIDES, SPACE, Seen

_OTHER_HAND = {"left": "right", "right": "left", "front": "back", "back": "front"}
MOST_NAMED = 6


def meant(asker: Asker, name: Name) -> tuple[Seen, ...]:
    """The copies a name means for this asker: on my own side and in my own space, where that matters."""
    words = mirrored_words(asker, name.words)
    try:
        seen = names.find(asker.scope, words, asker.place(name)).seen
    except ResolveError as error:
        error.chain = error.chain or asker.chain
        raise
    if asker.mirrors:
        seen = tuple(s.after(asker.mirrors) for s in seen)
    return narrowed(asker, seen)


def mirrored_words(asker: Asker, words: tuple[str, ...]) -> tuple[str, ...]:
    """A name as the other hand of a pair reads it."""
    return tuple(_OTHER_HAND[w] if w in _OTHER_HAND and asker.is_mirrored(SIDES[w][0]) else w for w in words)


def narrowed(asker: Asker, seen: tuple[Seen, ...]) -> tuple[Seen, ...]:
    """The copies on my own side and in my own space; all of them where there are none such."""
    if len(seen) < 2:
        return seen
    sides, stands = asker.sides, asker.stands
    mine = tuple(s for s in seen if _on_my_side(s, sides) and _in_my_space(s, stands))
    return mine or seen


def _on_my_side(seen: Seen, sides: dict[Axis, str]) -> bool:
    return all(sides.get(SIDES[word][0], word) == word for word in seen.side_words if word in SIDES)


def _in_my_space(seen: Seen, stands: dict[int, int]) -> bool:
    for copy in seen.path:
        standing = copy.thing.standing
        spaces: Iterable[tuple[int, int]] = ()
        if copy.thing.family.kind == "space":
            spaces = ((id(copy.thing.family.key), id(copy)),)
        if standing is not None:
            spaces = (*spaces, (id(standing.thing.family.key), id(standing.copy)))
        if any(stands.get(key, copy_id) != copy_id for key, copy_id in spaces):
            return False
    return True


def agreed(
    asker: Asker, name: Name, seen: tuple[Seen, ...], read: Callable[[Seen], float], words: Words
) -> float:
    """The one number all these copies give; the error names them when they differ.

    Copies that differ only because some were measured are read where none was: what is made for all of them
    is made as planned, and the gap it then has at a measured one is found as a contact that is lost.
    """
    numbers = _numbers(seen, read)
    if max(numbers) - min(numbers) <= TOUCH:
        return numbers[0]
    listed = ", ".join(s.name for s in seen[:MOST_NAMED]) + (", ..." if len(seen) > MOST_NAMED else "")
    raise asker.error(f"which {name.text}? there are {len(seen)}: {listed}", words, _which(name, seen))


def _numbers(seen: tuple[Seen, ...], read: Callable[[Seen], float]) -> list[float]:
    """What all of them give; where those differ, what the ones give that are not measured."""
    numbers = [read(s) for s in seen]
    if max(numbers) - min(numbers) <= TOUCH:
        return numbers
    built = seen[0].thing.common.built
    measured = [built is not None and built.is_measured(s.copy) for s in seen]
    planned = [number for number, known in zip(numbers, measured, strict=True) if not known]
    return planned if any(measured) and planned else numbers


def _which(name: Name, seen: tuple[Seen, ...]) -> str:
    family = seen[0].thing.family
    if family.kind == SPACE and "split" in family.node:
        whole = "or name a space for the whole and split another `in` it"
        return f"{name.text} is divided: say `{seen[0].name}`, {whole}"
    return "name the one that is meant"
