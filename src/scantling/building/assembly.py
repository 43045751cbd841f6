"""In which order a piece goes together, found from its joints alone.

Units are what hangs together by joints: a base, each drawer, each door. Inside a unit every group or kit is
built first. Then come glued joints (see `closing`), then screws, then fasteners that let a top slide.
Bolts that are made to be undone wait for the room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from scantling.building.closing import closings
from scantling.building.clusters import Cluster, by_part, merged
from scantling.building.directions import ANY_WAY
from scantling.building.naming import Names
from scantling.piece.model import FLOOR, WALL, Joint, PartName, Piece

FASTENED = frozenset(
    {"screws", "pocket screws", "nails", "brackets", "glue blocks", "slotted screws", "buttons", "clips"}
    | {"figure eights"}
)
SLIDING = frozenset({"slotted screws", "buttons", "clips", "figure eights", "brackets"})
KNOCKED_DOWN = frozenset({"bed bolts", "cross-dowel bolts", "hanger bolts"})
LOOSE = frozenset({"rests"})


class Manner(Enum):
    GLUE = "glue"
    FASTEN = "fasten"
    SLIDE = "slide"  # fasteners that let the wood move
    BOLT = "bolt"  # in the room


@dataclass(frozen=True, slots=True)
class Assembly:
    """Clusters become one by these joints. `axis`: of the squeeze, for glue.

    `cures`: no glue follows in its unit. `last`: its unit is whole.
    """

    manner: Manner
    before: tuple[Cluster, ...]
    after: Cluster
    joints: tuple[Joint, ...]
    axis: int = ANY_WAY
    cures: bool = False
    last: bool = False


def is_between_parts(joint: Joint) -> bool:
    """Whether the joint ties two parts, not a part to the wall or the floor."""
    return joint.second not in (WALL, FLOOR)


def manner_of(joint: Joint) -> Manner | None:
    """How a joint is put together; None where parts only rest or slide."""
    if joint.method in LOOSE or joint.settings.runs is not None:
        return None
    if joint.method in KNOCKED_DOWN:
        return Manner.BOLT
    if joint.method in SLIDING:
        return Manner.SLIDE
    return Manner.FASTEN if joint.method in FASTENED else Manner.GLUE


def in_room(piece: Piece) -> tuple[Joint, ...]:
    """Joints made where the piece will stand: bolts that can be undone, and dry joints across them."""
    between = [joint for joint in piece.joints if is_between_parts(joint)]
    bolts = [joint for joint in between if manner_of(joint) is Manner.BOLT]
    if not bolts:
        return ()
    firm = [j for j in between if manner_of(j) not in (None, Manner.BOLT) and not _is_dry(j)]
    home = by_part(merged(_singles(piece), ((j.first, j.second) for j in firm)))
    dry = [j for j in between if manner_of(j) is Manner.GLUE and _is_dry(j)]
    return tuple(bolts + [joint for joint in dry if home[joint.first] != home[joint.second]])


def _is_dry(joint: Joint) -> bool:
    return joint.settings.glue is not None and joint.settings.glue.extent == "none"


def _singles(piece: Piece) -> tuple[Cluster, ...]:
    return tuple(frozenset({part.name}) for part in piece.parts)


def shop_joints(piece: Piece) -> tuple[Joint, ...]:
    """Joints put together in the shop, in the order they are written."""
    later = {joint.id for joint in in_room(piece)}
    return tuple(
        joint
        for joint in piece.joints
        if is_between_parts(joint) and manner_of(joint) is not None and joint.id not in later
    )


def units(piece: Piece) -> tuple[Cluster, ...]:
    """What hangs together before it comes into the room, single parts included, in the piece's order."""
    return merged(_singles(piece), ((joint.first, joint.second) for joint in shop_joints(piece)))


def assemblies(piece: Piece) -> tuple[Assembly, ...]:
    """Every squeeze and every screwing, unit by unit, in an order that can be built."""
    joints = shop_joints(piece)
    return tuple(step for unit in units(piece) for step in _marked(tuple(_built(piece, joints, unit, 0))))


def _marked(steps: tuple[Assembly, ...]) -> Iterator[Assembly]:
    glued = [at for at, step in enumerate(steps) if step.manner is Manner.GLUE]
    for at, step in enumerate(steps):
        yield replace(step, cures=at in glued[-1:], last=at == len(steps) - 1)


def _built(piece: Piece, joints: Sequence[Joint], unit: Cluster, depth: int) -> Iterator[Assembly]:
    """Groups first, each by itself; then what joins them."""
    groups = _groups(piece, unit, depth)
    if groups == (unit,) and len(unit) > 1:
        yield from _built(piece, joints, unit, depth + 1)
        return
    parts: list[Cluster] = []
    for group in groups:
        for cluster in _connected(piece, joints, group):
            if len(cluster) > 1:
                yield from _built(piece, joints, cluster, depth + 1)
            parts.append(cluster)
    yield from _joined(piece, joints, parts, unit)


def _groups(piece: Piece, unit: Cluster, depth: int) -> tuple[Cluster, ...]:
    """Parts of `unit` by the group they are in at this depth; a part in none that deep stands alone."""
    grouped: dict[tuple[str, ...], set[PartName]] = {}
    for part in piece.parts:
        if part.name in unit:
            key = part.groups[: depth + 1] if len(part.groups) > depth else ("", part.name)
            grouped.setdefault(key, set()).add(part.name)
    return tuple(frozenset(names) for names in grouped.values())


def _connected(piece: Piece, joints: Sequence[Joint], parts: Cluster) -> tuple[Cluster, ...]:
    singles = (cluster for cluster in _singles(piece) if cluster <= parts)
    return merged(singles, ((j.first, j.second) for j in _inner(joints, parts)))


def _inner(joints: Sequence[Joint], parts: Cluster) -> tuple[Joint, ...]:
    """Joints both of whose parts are among `parts`."""
    return tuple(joint for joint in joints if joint.first in parts and joint.second in parts)


def _joined(
    piece: Piece, joints: Sequence[Joint], clusters: Sequence[Cluster], unit: Cluster
) -> Iterator[Assembly]:
    """Join clusters into a unit: glue, then screws, then sliding fasteners."""
    home = by_part(clusters)
    open_joints = [j for j in _inner(joints, unit) if home[j.first] != home[j.second]]
    glued = [j for j in open_joints if manner_of(j) is Manner.GLUE]
    now = tuple(clusters)
    for closing in closings(now, glued, piece):
        yield Assembly(Manner.GLUE, closing.before, closing.after, closing.joints, closing.axis)
    now = merged(now, ((j.first, j.second) for j in glued))
    for manner in (Manner.FASTEN, Manner.SLIDE):
        for batch in _batches([j for j in open_joints if manner_of(j) is manner], piece):
            grown = merged(now, ((j.first, j.second) for j in batch))
            yield from _fastenings(manner, now, grown, batch)
            now = grown


def _fastenings(
    manner: Manner, before: tuple[Cluster, ...], after: tuple[Cluster, ...], batch: Sequence[Joint]
) -> Iterator[Assembly]:
    for cluster in after:
        inside = tuple(j for j in batch if j.first in cluster and j.second in cluster)
        if inside:
            yield Assembly(manner, tuple(c for c in before if c <= cluster), cluster, inside)


def _batches(joints: Iterable[Joint], piece: Piece) -> tuple[tuple[Joint, ...], ...]:
    """Joints of the same first part's definition are screwed together, in the order they are written."""
    names = Names(piece)
    grouped: dict[str, list[Joint]] = {}
    for joint in joints:
        grouped.setdefault(names.noun(joint.first), []).append(joint)
    return tuple(tuple(batch) for batch in grouped.values())
