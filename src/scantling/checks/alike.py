"""One line for one cause: findings of like copies are told once, with the names of the others."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

from scantling.checks.examined import Examined, few_of
from scantling.checks.finding import Finding
from scantling.piece.model import PartName

Key = tuple[str, str, str | None, tuple[str, ...]]


def gathered(examined: Examined, findings: list[Finding]) -> list[Finding]:
    """Findings of one code about copies of the same parts, with one number, at one place and in one pose."""
    alike: list[list[Finding]] = []
    open_to: dict[Key, list[Finding]] = {}
    for finding in findings:
        group = open_to.get(_key(examined, finding)) if finding.where else None
        if group is None or not _joins(finding, group):
            group = []
            alike.append(group)
            open_to[_key(examined, finding)] = group
        group.append(finding)
    return [_as_one(each) for each in alike]


def _joins(finding: Finding, group: list[Finding]) -> bool:
    """Whether the same is said of other parts: where the numbers differ each keeps its own line."""
    elsewhere = all(finding.where != other.where for other in group)
    return elsewhere and same_number(finding.number, group[0].number)


def same_number(one: float | None, other: float | None) -> bool:
    """Whether two numbers are one to a maker: within 2 %, or half a millimetre."""
    if one is None or other is None:
        return one is other
    return isclose(one, other, rel_tol=0.02, abs_tol=0.5)


def so_too(names: list[PartName]) -> str:
    """Words that name the other copies of which the same holds."""
    return f" (the same: {few_of(names)})" if names else ""


def others_of(groups: list[tuple[PartName, ...]]) -> list[PartName]:
    """Of each further group the first name that is not in the first group."""
    first = set(groups[0])
    firsts = (next((name for name in group if name not in first), None) for group in groups[1:])
    return list(dict.fromkeys(name for name in firsts if name is not None))


def _key(examined: Examined, finding: Finding) -> Key:
    known = examined.piece.part_by_name
    likes = tuple(known[name].definition if name in known else name for name in finding.where)
    return (finding.code, str(finding.place), finding.pose, likes)


def _as_one(findings: list[Finding]) -> Finding:
    first = findings[0]
    if len(findings) == 1:
        return first
    others = others_of([finding.where for finding in findings])
    where = dict.fromkeys(name for finding in findings for name in finding.where)
    return replace(first, message=first.message + so_too(others), where=tuple(where))
