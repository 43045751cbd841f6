"""Which parts hang together: by joints, and by what they run or hang on."""

from __future__ import annotations

from collections import defaultdict
from functools import lru_cache
from itertools import pairwise

from scantling.checks.examined import Examined
from scantling.checks.holding import holding
from scantling.piece.model import FLOOR, WALL, Joint, PartName


@lru_cache(maxsize=2)
def groups_tied(examined: Examined) -> tuple[tuple[PartName, ...], ...]:
    """Parts joined into one body by anything firmer than resting; each group in the piece's order."""
    return _groups(examined, [(j.first, j.second) for j in _between_parts(examined) if _firm(j)])


def groups_rigid_when_taken_apart(examined: Examined) -> tuple[tuple[PartName, ...], ...]:
    """Parts that stay one body when every screw, bolt and fitting is undone."""
    kept = [j for j in _between_parts(examined) if not holding(j.method).takes_apart and is_glued(j)]
    return _groups(examined, [(j.first, j.second) for j in kept])


def groups_on_anything(examined: Examined) -> tuple[tuple[PartName, ...], ...]:
    """Parts that joints, rests, intended contacts or hardware bring together."""
    parts = examined.piece.part_by_name
    pairs = [(j.first, j.second) for j in _between_parts(examined)]
    pairs += [(c.part, c.other) for c in examined.piece.contacts]
    for hardware in examined.piece.hardware:
        joined = [*(hardware.joins or ()), hardware.to, hardware.under]
        names = [name for name in joined if name is not None]
        pairs += list(pairwise(names))
    return _groups(examined, [(a, b) for a, b in pairs if a in parts and b in parts])


def is_fixed_to_wall(examined: Examined) -> bool:
    """Whether any joint or fitting holds the piece to the wall."""
    joined = any(j.second == WALL for j in examined.piece.joints)
    return joined or any(h.joins is not None and WALL in h.joins for h in examined.piece.hardware)


def is_fixed_to_floor(examined: Examined) -> bool:
    """Whether a joint that holds, not one that only rests, keeps the piece on the floor."""
    return any(j.second == FLOOR and _firm(j) for j in examined.piece.joints)


def is_hung(examined: Examined) -> bool:
    """Whether joints hold it to the wall, so that it hangs there rather than stands."""
    seconds = {joint.second for joint in examined.piece.joints}
    return WALL in seconds and FLOOR not in seconds


def _between_parts(examined: Examined) -> list[Joint]:
    return [j for j in examined.piece.joints if j.second not in (WALL, FLOOR)]


def is_glued(joint: Joint) -> bool:
    """Whether the joint is glued anywhere: by its method's habit unless the maker says `glue: none`."""
    said = joint.settings.glue
    return holding(joint.method).glued and (said is None or said.extent != "none")


def _firm(joint: Joint) -> bool:
    return holding(joint.method).holds in ("rigid", "bolted", "slides", "floats")


def _groups(examined: Examined, pairs: list[tuple[PartName, PartName]]) -> tuple[tuple[PartName, ...], ...]:
    head = {part.name: part.name for part in examined.piece.parts}

    def top(name: PartName) -> PartName:
        while head[name] != name:
            head[name] = head[head[name]]
            name = head[name]
        return name

    for first, second in pairs:
        head[top(first)] = top(second)
    members: dict[PartName, list[PartName]] = defaultdict(list)
    for part in examined.piece.parts:
        members[top(part.name)].append(part.name)
    return tuple(tuple(group) for group in members.values())
