"""Does the piece file say all it should? What was noticed while it was read and laid out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from scantling.checks.alike import others_of, same_number, so_too
from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.piece.model import Notice

_WORTH_A_LOOK = frozenset(
    {
        "touch without joint",
        "gap left by a fixed part",
        "sheet part of bare number",
        "hole breaks out",
        "joints clash",
        "screw pokes through",
        "short thread",
        "end grain glued",
        "dowel too thick",
    }
)
_SAID_BY_CHECKS = "movement unknown"  # seasonal movement says once which air it took instead

Key = tuple[str, str, bool, tuple[str, ...]]


def carried_notices(examined: Examined) -> Iterator[Finding]:
    """Every notice, those of like parts on one line together."""
    alike: dict[Key, list[list[Notice]]] = {}
    for notice in examined.piece.notices + examined.machined.notices:
        if notice.code != _SAID_BY_CHECKS:
            groups = alike.setdefault(_key(examined, notice), [])
            group = next((g for g in groups if same_number(g[0].number, notice.number)), None)
            if group is None:
                groups.append([notice])
            else:
                group.append(notice)
    for groups in alike.values():
        yield from (finding_of(group) for group in groups)


def _key(examined: Examined, notice: Notice) -> Key:
    known = examined.piece.part_by_name
    likes = tuple(known[name].definition if name in known else name for name in notice.parts)
    return (notice.code, str(notice.place), notice.must, likes or (notice.message,))


def finding_of(notices: Sequence[Notice]) -> Finding:
    """Like notices as one finding."""
    first = notices[0]
    others = others_of([notice.parts for notice in notices]) if first.parts else []
    carried = rule(_rule_code(first)).found(
        first.message + so_too(others),
        dict.fromkeys(name for notice in notices for name in notice.parts),
        first.number,
        mend=Mend(first.remedy) if first.remedy else None,
        place=first.place,
    )
    return replace(carried, code=first.code)


def _rule_code(notice: Notice) -> str:
    if notice.must:
        return "mend as read"
    return "look at as read" if notice.code in _WORTH_A_LOOK else "as read"
