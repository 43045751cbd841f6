"""In which order the glued joints of a few clusters can close.

Joints that can close along one axis close together (see `directions`), squeezed by clamps along it; then
those of the next. An order can be built if nothing is shut in: no joint still open between parts that are
already held, and no cluster that would have to enter from two opposite sides at once. Among those, flat
frames come first. A panel that sits in grooves all round needs no squeeze of its own: it goes in as its frame
closes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from scantling.building.clusters import Cluster, by_part, merged
from scantling.building.directions import LAP, meeting_axis, side_entered, ways_in
from scantling.piece.model import Axis, Box, Joint, PartName, Piece

PANEL_WAYS = frozenset({"groove", "notch"})


@dataclass(frozen=True, slots=True)
class Closing:
    """One squeeze: these clusters become one, these joints close."""

    before: tuple[Cluster, ...]
    after: Cluster
    joints: tuple[Joint, ...]
    axis: int


def closings(clusters: Sequence[Cluster], joints: Sequence[Joint], piece: Piece) -> tuple[Closing, ...]:
    """The squeezes, in order, that close every one of `joints`."""
    laps = [joint for joint in joints if joint.method == LAP]  # before anything is put on their ends
    if laps and len(laps) < len(joints):
        crossed = merged(clusters, ((joint.first, joint.second) for joint in laps))
        rest = [joint for joint in joints if joint.method != LAP]
        return closings(clusters, laps, piece) + closings(crossed, rest, piece)
    panels = _captives(clusters, joints, piece)
    held = [joint for joint in joints if not any(joint.first in panel for panel in panels)]
    found = _best_order(clusters, held, piece)
    for panel in panels:
        found = _with_panel(found, panel, [joint for joint in joints if joint.first in panel])
    closed = [joint for closing in found for joint in closing.joints]
    now = merged(clusters, ((joint.first, joint.second) for joint in closed))
    return found + _best_order(now, [joint for joint in joints if joint not in closed], piece)


def _best_order(clusters: Sequence[Cluster], joints: Sequence[Joint], piece: Piece) -> tuple[Closing, ...]:
    axes = sorted({axis for joint in joints for axis in ways_in(joint, piece)})
    orders = [_run(clusters, joints, order, piece) for order in permutations(axes)]
    return min(orders, key=lambda found: _rank(found, piece))


def _captives(clusters: Sequence[Cluster], joints: Sequence[Joint], piece: Piece) -> tuple[Cluster, ...]:
    """Clusters held by grooves along two axes or more, whose frame holds together without them."""
    home = by_part(clusters)
    found = []
    for cluster in clusters:
        own = [joint for joint in joints if home[joint.first] == cluster]
        others = [joint for joint in joints if joint not in own]
        axes = {meeting_axis(joint, piece) for joint in own}
        if (
            len(axes) < 2
            or any(j.method not in PANEL_WAYS for j in own)
            or _is_entered(cluster, others, home)
        ):
            continue
        frame = by_part(merged(clusters, ((j.first, j.second) for j in others)))
        if len({frame[joint.second] for joint in own}) < len({home[joint.second] for joint in own}):
            found.append(cluster)
    return tuple(found)


def _is_entered(cluster: Cluster, joints: Iterable[Joint], home: Mapping[PartName, Cluster]) -> bool:
    return any(home[joint.second] == cluster for joint in joints)


def _with_panel(found: Sequence[Closing], panel: Cluster, joints: Sequence[Joint]) -> tuple[Closing, ...]:
    """The panel laid into the first squeeze that brings two of its grooves together."""
    grooved = {joint.second for joint in joints if joint.method == "groove"}
    left = list(joints)
    done: list[Closing] = []
    core: Cluster | None = None
    for closing in found:
        if core is None and len(grooved & closing.after) > 1:
            core, before = closing.after, (*closing.before, panel)
        elif core is not None and core <= closing.after:
            before = tuple(c | panel if core <= c else c for c in closing.before)
        else:
            done.append(closing)
            continue
        after = closing.after | panel
        here = tuple(joint for joint in left if joint.second in after)
        left = [joint for joint in left if joint not in here]
        done.append(Closing(before, after, closing.joints + here, closing.axis))
    return tuple(done)


def _run(
    clusters: Sequence[Cluster], joints: Sequence[Joint], order: Sequence[int], piece: Piece
) -> tuple[Closing, ...]:
    """Close axis after axis; a joint shut in by an earlier squeeze is counted with that squeeze."""
    now = tuple(clusters)
    left = list(joints)
    done: list[Closing] = []
    for axis in order:
        ties = [joint for joint in left if axis in ways_in(joint, piece)]
        grown = merged(now, ((j.first, j.second) for j in ties))
        done.extend(_squeezes(now, grown, left, axis))
        home = by_part(grown)
        left = [joint for joint in left if home[joint.first] != home[joint.second]]
        now = grown
    return tuple(done)


def _squeezes(
    before: tuple[Cluster, ...], after: tuple[Cluster, ...], joints: Iterable[Joint], axis: int
) -> Iterable[Closing]:
    open_joints = list(joints)
    for cluster in after:
        inside = tuple(j for j in open_joints if j.first in cluster and j.second in cluster)
        if inside:
            yield Closing(tuple(c for c in before if c <= cluster), cluster, inside, axis)


def _rank(found: tuple[Closing, ...], piece: Piece) -> tuple[float, ...]:
    """Least is best: what is shut in, then bulk of the sub-assemblies, then joints left for later.

    At last joints that close, but not the way they like best.
    """
    shut_in = sum(_shut_in(closing, piece) for closing in found)
    bulk = sum(_thinnest(closing.after, piece) for closing in found[:-1])
    late = -sum(len(closing.joints) / (at + 1) for at, closing in enumerate(found))
    other = sum(ways_in(j, piece)[0] != closing.axis for closing in found for j in closing.joints)
    return (shut_in, round(bulk, 3), round(late, 6), other)


def _shut_in(closing: Closing, piece: Piece) -> int:
    """Joints across the squeeze, and pairs of clusters that meet from both sides."""
    across = sum(closing.axis not in ways_in(joint, piece) for joint in closing.joints)
    return across + len(pinched(closing.before, closing.joints, closing.axis, piece))


def pinched(
    before: Sequence[Cluster], joints: Iterable[Joint], axis: int, piece: Piece
) -> tuple[tuple[Joint, ...], ...]:
    """Joints of a pair of clusters that would have to enter each other from both sides at once."""
    home = by_part(before)
    sides: dict[frozenset[Cluster], list[tuple[int, Joint]]] = {}
    for joint in joints:
        first, second = home[joint.first], home[joint.second]
        side = side_entered(joint, piece, axis)
        if first != second and side:
            turn = 1 if before.index(first) < before.index(second) else -1
            sides.setdefault(frozenset({first, second}), []).append((side * turn, joint))
    return tuple(
        tuple(joint for _, joint in found) for found in sides.values() if len({side for side, _ in found}) > 1
    )


def _thinnest(cluster: Cluster, piece: Piece) -> float:
    """The least of the three outer sizes of a cluster. [mm]"""
    boxes = [piece.part_by_name[name].box for name in cluster]
    return min(_extent(boxes, axis) for axis in Axis)


def _extent(boxes: Sequence[Box], axis: Axis) -> float:
    return max(box.high[axis] for box in boxes) - min(box.low[axis] for box in boxes)
