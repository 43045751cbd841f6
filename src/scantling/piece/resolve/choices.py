"""Named choices: the first option unless a use, a setting or a maker's file says another."""

from __future__ import annotations

from scantling.errors import Place, ResolveError
from scantling.piece.language.document import Entry, MappingNode, Scalar, as_name
from scantling.piece.language.parse import parse_options
from scantling.piece.model import NamedChoice
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.tree import Scope


def names(home: Scope) -> list[str]:
    """The choices of a file, in the order of writing."""
    return [entry.name for entry in _entries(home)]


def is_choice(home: Scope, name: str) -> bool:
    """Whether a file has a choice of that name."""
    return _entry(home, name) is not None


def options_of(home: Scope, name: str) -> tuple[str, ...]:
    """What a choice offers."""
    return tuple(option.text for option in parse_options(_scalar(home, name)).options)


def taken(home: Scope, name: str) -> str:
    """The option that holds. Raises ResolveError if a use or a setting names one that is not offered."""
    return home.common.once(("choice", id(home), name), name, _scalar(home, name), lambda: _taken(home, name))


def resolved(home: Scope) -> tuple[NamedChoice, ...]:
    """All choices of the piece as taken, in the order of writing."""
    found = []
    for name in names(home):
        scalar = _scalar(home, name)
        free = parse_options(scalar).any_of
        found.append(NamedChoice(name, taken(home, name), options_of(home, name), scalar.place, free))
    return tuple(found)


def _taken(home: Scope, name: str) -> str:
    options = options_of(home, name)
    if home.owner is None:
        wish = home.common.settings.get(name)
        return options[0] if wish is None else _offered(wish, options, name, _scalar(home, name).place)
    given = home.given.get(name)
    if given is None:
        return options[0]
    scalar = given.node
    assert isinstance(scalar, Scalar)
    wish = as_name(scalar.text)
    user = given.user.scope.home
    if is_choice(user, wish):
        wish = taken(user, wish)
    return _offered(wish, options, name, scalar.place)


def _offered(wish: str, options: tuple[str, ...], name: str, place: Place) -> str:
    wish = as_name(wish)
    if wish not in options:
        raise ResolveError(f'"{name}" does not offer "{wish}"', place, nearest(wish, options))
    return wish


def _entries(home: Scope) -> tuple[Entry, ...]:
    node = home.node.get("choices")
    return node.entries if isinstance(node, MappingNode) else ()


def _entry(home: Scope, name: str) -> Entry | None:
    node = home.node.get("choices")
    return node.entry(name) if isinstance(node, MappingNode) else None


def _scalar(home: Scope, name: str) -> Scalar:
    entry = _entry(home, name)
    assert entry is not None
    assert isinstance(entry.value, Scalar)
    return entry.value
