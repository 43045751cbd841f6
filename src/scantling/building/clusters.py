"""Which parts are together: sets that grow as joints close."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scantling.piece.model import PartName

Cluster = frozenset[PartName]


def merged(clusters: Iterable[Cluster], ties: Iterable[tuple[PartName, PartName]]) -> tuple[Cluster, ...]:
    """The clusters after every tie has drawn its two together, in their old order."""
    found = list(clusters)
    home = {part: at for at, cluster in enumerate(found) for part in cluster}
    leader = list(range(len(found)))
    for first, second in ties:
        a, b = sorted((_root(leader, home[first]), _root(leader, home[second])))
        leader[b] = a
    grown: dict[int, set[PartName]] = {}
    for at, cluster in enumerate(found):
        grown.setdefault(_root(leader, at), set()).update(cluster)
    return tuple(frozenset(grown[root]) for root in sorted(grown))


def _root(leader: list[int], at: int) -> int:
    while leader[at] != at:
        leader[at] = leader[leader[at]]
        at = leader[at]
    return at


def by_part(clusters: Iterable[Cluster]) -> Mapping[PartName, Cluster]:
    """The cluster each part is in."""
    return {part: cluster for cluster in clusters for part in cluster}
