"""Which things a maker's words mean: keys first, longest first; place words, numbers and inner names after.

A key never matches part of another key. From a group one looks outward; a closed scope ends the search.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from scantling.errors import Place, ResolveError
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.tree import (
    GROUP,
    KIT,
    PART,
    SIDES,
    SPACE,
    Copy,
    Family,
    Scope,
    Seen,
    Token,
    seen_in_scope,
    tokens_of,
)

Tokens = tuple[Token, ...]


class Absent(ResolveError):
    """The thing named is left out by a choice."""


@dataclass(frozen=True, slots=True)
class Found:
    """The copies some words mean; `families`: the keys they stand under."""

    seen: tuple[Seen, ...]
    families: tuple[Family, ...]

    @property
    def is_absent(self) -> bool:
        return not self.seen


NOTHING = Found((), ())


def find(scope: Scope, words: tuple[str, ...], place: Place | None) -> Found:
    """Every copy that `words` may mean, seen from `scope`.

    Raises
    ------
    ResolveError
        Nothing goes by these words (with the nearest name), or two groups both hold it.
    Absent
        The words name something that a choice leaves out.
    """
    found = look_up(scope, words, place)
    if found is NOTHING:
        text = " ".join(words)
        raise ResolveError(f'no part is called "{text}"', place, unknown_name(scope, text))
    if found.is_absent:
        raise _absent(found.families[0], " ".join(words), place)
    return found


def look_up(scope: Scope, words: tuple[str, ...], place: Place | None) -> Found:
    """As `find`, but gives NOTHING for unknown words and no copies for what a choice leaves out."""
    key = ("find", id(scope), words)
    return scope.common.once(key, " ".join(words), None, lambda: _search(scope, words, place))


def look_up_key(scope: Scope, words: tuple[str, ...], place: Place | None) -> Found:
    """As `look_up`, but only among the keys of this scope and those round it, never inside a group.

    So a group may stand in a space that is named outside of what holds it, without being opened for the name.
    """
    level: Scope | None = scope
    while level is not None:
        found = _by_key(level, tokens_of(words), place)
        if found is not NOTHING:
            return found
        level = None if level.closed else level.parent
    return NOTHING


def _search(scope: Scope, words: tuple[str, ...], place: Place | None) -> Found:
    if words[0] == "every" and len(words) > 1:
        return _every(scope, words[1:])
    tokens = tokens_of(words)
    level: Scope | None = scope
    while level is not None:
        found = _in_scope(level, tokens, place)
        if found is not NOTHING:
            return found
        level = None if level.closed else level.parent
    return NOTHING


def _every(scope: Scope, words: tuple[str, ...]) -> Found:
    """Every key of this file that ends in these words."""
    found = [
        (family, steps_seen)
        for family, steps_seen in _keys_of_file(scope.home)
        if tuple(family.name.split())[-len(words) :] == words
    ]
    if not found:
        return NOTHING
    return Found(tuple(s for _, seen in found for s in seen), tuple(family for family, _ in found))


def _keys_of_file(scope: Scope) -> Iterator[tuple[Family, tuple[Seen, ...]]]:
    """The part, group and kit keys of one file, those inside open groups too, as seen from its top."""
    for family in scope.families.values():
        if family.kind == SPACE:
            continue
        yield family, tuple(seen_in_scope(copy) for copy in family.copies())
        if family.kind == GROUP:
            yield from _keys_inside(family)


def _keys_inside(group: Family) -> Iterator[tuple[Family, tuple[Seen, ...]]]:
    by_family: dict[int, tuple[Family, list[Seen]]] = {}
    for copy in group.copies():
        contents = copy.thing.contents
        if contents is None or contents.closed:
            continue
        for family, seen in _keys_of_file(contents):
            outward = [s.inside(copy, contents.steps) for s in seen]
            by_family.setdefault(id(family.key), (family, []))[1].extend(outward)
    for family, found in by_family.values():
        yield family, tuple(found)


def _in_scope(scope: Scope, tokens: Tokens, place: Place | None) -> Found:
    found = _by_key(scope, tokens, place)
    return found if found is not NOTHING else _in_open_groups(scope, tokens, place)


def _by_key(scope: Scope, tokens: Tokens, place: Place | None) -> Found:
    said = {word for word, _ in tokens}
    called = [family for family in scope.families.values() if family.tokens[0][0] in said]
    for family in sorted(called, key=lambda family: -len(family.tokens)):
        for start in _positions(family.tokens, tokens):
            found = _match(family, tokens, start, place)
            if found is not NOTHING:
                return found
    return NOTHING


def _positions(key: Tokens, tokens: Tokens) -> Iterator[int]:
    """Where the key's words stand together in the reference."""
    size = len(key)
    for start in range(len(tokens) - size + 1):
        run = tokens[start : start + size]
        if all(a[0] == b[0] for a, b in zip(key, run, strict=True)) and all(
            a[1] == b[1] for a, b in zip(key[:-1], run[:-1], strict=True)
        ):
            yield start


def _match(family: Family, tokens: Tokens, start: int, place: Place | None) -> Found:
    """What the words mean if this family is the one named."""
    end = start + len(family.tokens)
    number = tokens[end - 1][1]
    own_number = family.tokens[-1][1]
    if own_number is not None:
        if number != own_number:
            return NOTHING
        number = None
    before, after = tokens[:start], tokens[end:]
    copies = family.copies()
    if not copies:
        return Found((), (family,))
    found: list[Seen] = []
    families: list[Family] = []
    for copy in copies:
        inner = _of_copy(copy, before, after, number, place)
        found.extend(inner.seen)
        families.extend(f for f in inner.families if f not in families)
    return Found(tuple(found), tuple(families)) if families else NOTHING


def _of_copy(copy: Copy, before: Tokens, after: Tokens, number: int | None, place: Place | None) -> Found:
    """The copy itself, or what it holds, if the words left over are used up."""
    if number is not None and copy.number != number:
        return NOTHING
    left = _used(copy, before)
    if left is None:
        return NOTHING
    rest = left + after
    if not rest:
        return Found((seen_in_scope(copy),), (copy.thing.family,))
    found = _in_contents(copy, rest, place)
    if found is not NOTHING:
        return found
    fewer = _used(copy, rest)
    if fewer is None or fewer == rest:
        return NOTHING
    if not fewer:
        return Found((seen_in_scope(copy),), (copy.thing.family,))
    return _in_contents(copy, fewer, place)


def _in_contents(copy: Copy, tokens: Tokens, place: Place | None) -> Found:
    contents = copy.thing.contents
    if contents is None:
        return NOTHING
    found = _in_scope(contents, tokens, place)
    if found is NOTHING:
        return NOTHING
    return Found(tuple(s.inside(copy, contents.steps) for s in found.seen), found.families)


def _used(copy: Copy, tokens: Tokens) -> Tokens | None:
    """The words this copy leaves over after its own place words and the space it stands in.

    None when a word speaks of another copy: `right` for a left one.
    """
    mine = copy.side_words
    axes = {SIDES[word][0] for word in mine if word in SIDES}
    left: list[Token] = []
    for word, number in tokens:
        if word in mine and number is None:
            continue
        if word in SIDES and SIDES[word][0] in axes and copy.thing.family.kind in (PART, SPACE):
            return None
        left.append((word, number))
    return _without_space(copy, tuple(left))


def _without_space(copy: Copy, tokens: Tokens) -> Tokens | None:
    standing = copy.thing.standing
    if standing is None:
        return tokens
    key = standing.thing.family.tokens
    for start in _positions(key, tokens):
        number = tokens[start + len(key) - 1][1]
        if number not in (None, standing.copy.number):
            return None
        tokens = tokens[:start] + tokens[start + len(key) :]
        return _used(standing.copy, tokens)
    return tokens


def _in_open_groups(scope: Scope, tokens: Tokens, place: Place | None) -> Found:
    """Inner parts of groups written in the same file, when only one group holds such a name."""
    found: list[tuple[Family, Found]] = []
    for family in scope.families.values():
        if family.kind != GROUP:
            continue
        inner = _inside_group(family, tokens, place)
        if inner is not NOTHING:
            found.append((family, inner))
    if len(found) > 1:
        text = " ".join(_words(tokens))
        groups = " and ".join(f'"{family.name}"' for family, _ in found)
        raise ResolveError(
            f'{groups} both hold "{text}"', place, f'write "{found[0][0].name} {text}" for the first'
        )
    return found[0][1] if found else NOTHING


def _inside_group(family: Family, tokens: Tokens, place: Place | None) -> Found:
    seen: list[Seen] = []
    families: list[Family] = []
    for copy in family.copies():
        inner = _in_contents(copy, tokens, place)
        seen.extend(inner.seen)
        families.extend(f for f in inner.families if f not in families)
    return Found(tuple(seen), tuple(families)) if families else NOTHING


def _words(tokens: Tokens) -> list[str]:
    return [word if number is None else f"{word} {number}" for word, number in tokens]


def unknown_name(scope: Scope, text: str, also: Iterable[str] = ()) -> str:
    """What to say of a name nobody bears: the nearest, also among single copies, else the names known."""
    known = [*callable_names(scope), *also]
    return nearest(text, known, _copy_names(scope))


def callable_names(scope: Scope) -> list[str]:
    """The keys one may name from this scope."""
    names: list[str] = []
    for family in _families_seen(scope):
        names.append(family.name)
        names.extend(_names_below(family))
    return names


def _families_seen(scope: Scope) -> Iterator[Family]:
    level: Scope | None = scope
    while level is not None:
        yield from level.families.values()
        level = None if level.closed else level.parent


def _names_below(family: Family) -> Iterable[str]:
    if family.kind not in (GROUP, KIT):
        return
    for copy in family.copies()[:1]:
        contents = copy.thing.contents
        for inner in contents.families.values() if contents else ():
            yield f"{family.name} {inner.name}"


def _copy_names(scope: Scope) -> Iterator[str]:
    """Single copies by their full names: `right side`, `drawer 3`."""
    for family in _families_seen(scope):
        for copy in family.copies()[:_MOST_COPIES]:
            yield copy.called


_MOST_COPIES = 20  # of one key, to compare a slip with


def _absent(family: Family, text: str, place: Place | None) -> Absent:
    when = family.node.get("when")
    reason = f' ("{when.text}", line {when.place.line})' if when is not None and hasattr(when, "text") else ""
    return Absent(
        f'"{text}" is left out here{reason}',
        place,
        "say what stands when it is absent: `A when C otherwise B`",
    )
