"""Which method holds a joint: named, chosen, or ranked by what is wanted of it and what the shop can do."""

from __future__ import annotations

import csv
from functools import lru_cache
from importlib.resources import files

from scantling.piece.language.document import MappingNode, Scalar, as_name, items_of
from scantling.piece.language.parse import parse_name
from scantling.piece.methods import METHODS, Meeting
from scantling.piece.resolve import choices
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.tree import Scope

END, EDGE = "end", "edge"


def wants_of(scope: Scope, line: MappingNode) -> tuple[str, ...]:
    """The qualities a joint line asks for, checked against those known."""
    node = line.get("wants")
    if node is None:
        return ()
    wants = []
    for item in items_of(node):
        assert isinstance(item, Scalar)
        word = as_name(item.text)
        if word not in qualities():
            raise Asker(scope, item, what="joint, wants").error(
                f'"{item.text}" is no quality of a joint', None, nearest(word, qualities())
            )
        wants.append(word)
    return tuple(wants)


def method_named(scope: Scope, line: MappingNode) -> str | None:
    """The method a line names itself or through a choice; None where it says only what it wants."""
    node = line.get("with")
    if not isinstance(node, Scalar):
        if "wants" not in line:
            raise Asker(scope, Scalar("", line.place), what="joint").error(
                "nothing says how they are joined", None, "add `with: dowels`, or `wants: [strong, hidden]`"
            )
        return None
    name = parse_name(node).text
    if choices.is_choice(scope.home, name):
        name = choices.taken(scope.home, name)
    if name not in METHODS:
        known = [*METHODS, *choices.names(scope.home)]
        raise Asker(scope, node, what="joint").error(
            f'no joint is called "{name}"', None, nearest(name, known)
        )
    return name


def ranked(wants: tuple[str, ...], able: tuple[str, ...], meets: str) -> str:
    """The method that has most of what is wanted, of those the shop can make and that suit how they meet.

    Equal ones go by the shop's liking, then by the order of the table.
    """
    suited = [m for m, (_, where) in _table().items() if meets in where]
    makeable = [m for m in able if m in suited] or suited
    order = {m: i for i, m in enumerate(makeable)}
    return min(makeable, key=lambda m: (-len(_table()[m][0] & set(wants)), order[m]))


def runs_past(method: str) -> bool:
    """Whether the joint is drawn as an overlap."""
    return METHODS[method] is Meeting.RUNS_PAST


@lru_cache(maxsize=1)
def qualities() -> tuple[str, ...]:
    """The qualities a joint line may want."""
    return tuple(sorted({word for words, _ in _table().values() for word in words}))


@lru_cache(maxsize=1)
def _table() -> dict[str, tuple[frozenset[str], frozenset[str]]]:
    """Methods with their qualities and whether they suit an end or an edge, best first."""
    text = files("scantling.piece.resolve").joinpath("qualities.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {row["method"]: (_words(row["qualities"]), _words(row["where"])) for row in rows}


def _words(cell: str) -> frozenset[str]:
    return frozenset(word.strip() for word in cell.split(";") if word.strip())
