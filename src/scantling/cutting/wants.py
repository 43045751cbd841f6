"""From needs and the ways chosen for them to the solver's items and panels, and which stock fits each.

Short blanks are ganged: cut as one piece, planed together, and crosscut afterwards.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Blank, Need, Role, Way
from scantling.cutting.milling import Means, flat_thickness, widest_flat
from scantling.cutting.placing import runs_on, staves_on
from scantling.cutting.solver.problem import SCALE, Item, Panel, Places, Problem, Runs, down, up
from scantling.cutting.supply import Source
from scantling.piece.model import MaterialKind
from scantling.shop.model import Sheet

_SLACK = 0.05  # mm: sizes this close are the same
_HAIR = 1e-6
_GANG_MOST = 900.0  # mm: longer gangs lose more to bow than they save; common practice, no source


@dataclass(frozen=True)
class Want:
    """An item of the solver: one blank, or a gang of short ones (`waste` at each end, `kerf` between)."""

    blanks: tuple[Blank, ...]
    length: float
    width: float
    waste: float = 0.0
    kerf: float = 0.0
    gang: bool = False


@dataclass(frozen=True)
class Group:
    """Needs that compete for the same stock, with the solver's view of them.

    `wants`: item id → blanks; `panels`: panel id → need and way.
    """

    sources: tuple[Source, ...]
    wants: Mapping[int, Want]
    panels: Mapping[int, tuple[Need, Way]]
    problem: Problem


def group_of(chosen: Sequence[tuple[Need, Way]], sources: tuple[Source, ...], means: Means) -> Group:
    """The solver's problem for parts made in these ways from these sources."""
    blanks = [b for need, way in chosen if way.role is not Role.STAVE for b in blanks_of(need, way)]
    panels = [(need, way) for need, way in chosen if way.role is Role.STAVE]
    kerf = max((s.final.kerf for s in sources), default=allow.KERF_UNKNOWN)
    only = {need.part: need.only for need, _ in chosen}
    open_to = {need.part: _open_to(need, way, sources) for need, way in chosen}
    apart = {need.part: need.definition for need, _ in chosen if len(need.ways) > 1}
    wants = dict(enumerate(_ganged(blanks, only, apart, means, kerf)))
    numbered = dict(enumerate(panels, start=len(wants)))
    stocks = tuple(s.bin for s in sources)
    givers = _Givers(sources, means)
    items = tuple(
        _item(number, want, *givers.of(want, open_to), tied=bool(only[want.blanks[0].part]))
        for number, want in wants.items()
    )
    made = tuple(_panel(number, *pair, sources, means) for number, pair in numbered.items())
    return Group(sources, wants, numbered, Problem(stocks, items, made))


def blanks_of(need: Need, way: Way) -> list[Blank]:
    """The blanks of a part made in a way whose widths are settled."""
    count = way.count + len(way.made)
    return [
        blank_of(need, way, index, count, way.width, way.role.value) for index in _numbers(way, way.count)
    ]


def _numbers(way: Way, count: int) -> list[int]:
    """Numbers for so many blanks more, those cut already left out."""
    return [n for n in range(1, count + max(way.made, default=0) + 1) if n not in way.made][:count]


def _open_to(need: Need, way: Way, sources: tuple[Source, ...]) -> frozenset[int]:
    """Stocks a part made this way may come from, its size left out."""
    low, high = way.boards
    return frozenset(i for i, s in enumerate(sources) if low <= s.thickness <= high and s.is_among(need.only))


def blank_of(need: Need, way: Way, index: int, count: int, width: float, word: str) -> Blank:
    """One blank of a part; `word` names it where there are several (stave, layer, segment)."""
    over_length, over_width = way.rough_over
    return Blank(
        id=need.blank_name if count == 1 else f"{need.blank_name} {word} {index}",
        part=need.part,
        role=way.role,
        index=index,
        count=count,
        kind=need.kind,
        species=need.species,
        thickness=way.thickness,
        width=width,
        length=way.length,
        rough_width=width + over_width,
        rough_length=way.length + over_length,
        grain_fixed=need.grain_fixed,
        clear_faces=need.clear_faces,
        label=need.label,
        nominal=need.material if need.kind is MaterialKind.LUMBER else "",
    )


def fits(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> set[int]:
    """Stocks that can give some blank of a part made this way; none where a blank of it has no stock."""
    problem = group_of([(need, way)], sources, means).problem
    of_items = [set(item.fits) for item in problem.items]
    of_panels = [{s for s, widest in enumerate(p.widest) if widest} for p in problem.panels]
    each = [*of_items, *of_panels]
    return set.union(*each) if all(each) else set()


def can_give(source: Source, blank: Blank, means: Means, length: float | None = None) -> bool:
    """Whether a stock can give a blank somewhere, its defects left out."""
    long = blank.rough_length if length is None else length
    # What is left on a piece because it is less than a kerf makes it that much longer and wider.
    size = (long + source.across.kerf, blank.rough_width + source.along.kerf)
    if not _lies_in(source, long, blank):
        return False
    runs = runs_on(source, long, blank.rough_width, blank.thickness, means)
    return bool(runs) if runs is not None else reach(source, *size, means) >= blank.thickness - _HAIR


def _lies_in(source: Source, length: float, blank: Blank) -> bool:
    room = (source.length - sum(source.bin.ends) / SCALE, source.width - sum(source.bin.edges) / SCALE)
    if length <= room[0] + _SLACK and blank.rough_width <= room[1] + _SLACK:
        return True
    return not blank.grain_fixed and blank.rough_width <= room[0] + _SLACK and length <= room[1] + _SLACK


def reach(source: Source, length: float, width: float, means: Means, at: float | None = None) -> float:
    """Thickness a blank of these rough sizes can reach from a stock, `at` so far along or at best. [mm]"""
    if isinstance(source.item, Sheet):
        return math.inf  # a sheet is matched by its marking, and is as thick as it is
    if source.timber is None:
        return source.thickness
    return flat_thickness(source.timber, length, width, means, at)


def _ganged(
    blanks: list[Blank],
    only: Mapping[str, tuple[str, ...]],
    apart: Mapping[str, str],
    means: Means,
    kerf: float,
) -> list[Want]:
    """`apart`: parts that may be made otherwise; each kind of them is ganged by itself, so that its ways
    can be chosen without a thought for other gangs.
    """
    short: dict[tuple[float, float, int, tuple[str, ...], str], list[Blank]] = {}
    wants = []
    for blank in blanks:
        if blank.kind is MaterialKind.SOLID and blank.rough_length < means.least_length:
            size = (round(blank.thickness, 2), round(blank.rough_width, 2))
            key = (*size, blank.clear_faces, only[blank.part], apart.get(blank.part, ""))
            short.setdefault(key, []).append(blank)
        else:
            wants.append(Want((blank,), blank.rough_length, blank.rough_width))
    for key in sorted(short):
        wants += _gangs(short[key], means, kerf)
    return wants


def _gangs(blanks: list[Blank], means: Means, kerf: float) -> list[Want]:
    waste = max(means.snipe, allow.GANG_WASTE / 2)
    gangs: list[list[Blank]] = [[]]
    for blank in sorted(blanks, key=lambda b: (-b.rough_length, b.id)):
        long = _gang_length([*gangs[-1], blank], waste, kerf)
        if gangs[-1] and (long > _GANG_MOST or _gang_length(gangs[-1], waste, kerf) >= means.least_length):
            gangs.append([])
        gangs[-1].append(blank)
    return [
        Want(
            tuple(gang),
            max(_gang_length(gang, waste, kerf), means.least_length),
            gang[0].rough_width,
            waste,
            kerf,
            gang=True,
        )
        for gang in gangs
    ]


def _gang_length(gang: Sequence[Blank], waste: float, kerf: float) -> float:
    return sum(b.rough_length + kerf for b in gang) - kerf + 2 * (waste + kerf)


@dataclass
class _Givers:
    """Which stocks can give a want, and where, worked out once for wants of one size."""

    sources: tuple[Source, ...]
    means: Means
    _known: dict[tuple[object, ...], tuple[frozenset[int], Places]] = field(default_factory=dict)

    def of(self, want: Want, open_to: Mapping[str, frozenset[int]]) -> tuple[frozenset[int], Places]:
        first = want.blanks[0]
        among = open_to[first.part]
        key = (first.thickness, first.rough_width, first.grain_fixed, want.length, among)
        if key not in self._known:
            able = frozenset(i for i in among if can_give(self.sources[i], first, self.means, want.length))
            size = (want.length, first.rough_width, first.thickness, self.means)
            runs = ((i, runs_on(self.sources[i], *size)) for i in sorted(able))
            self._known[key] = able, tuple((i, where) for i, where in runs if where is not None)
        return self._known[key]


def _item(number: int, want: Want, fits: frozenset[int], places: Places, *, tied: bool) -> Item:
    first = want.blanks[0]
    size = (up(want.length), up(want.width))
    return Item(number, *size, first.clear_faces, fits, not first.grain_fixed, tied, places)


def _panel(number: int, need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> Panel:
    extra = way.rough_over[1] + way.lap
    length = way.length + way.rough_over[0]
    staves = [
        _staves(source, way, length, extra, means) if source.is_among(need.only) else _Staves(0)
        for source in sources
    ]
    told = [(stock, each) for stock, each in enumerate(staves) if each.runs is not None]
    return Panel(
        id=number,
        length=up(length),
        need=up(way.width),
        extra=up(extra),
        least=up(way.stave[0]),
        most=down(way.stave[1]),
        counts=way.counts,
        care=need.clear_faces,
        widest=tuple(each.widest for each in staves),
        tied=bool(need.only),
        places=tuple((stock, each.runs or ()) for stock, each in told),
        held=tuple((stock, each.held) for stock, each in told),
    )


class _Staves(NamedTuple):
    """What staves a stock can give: see `Panel`."""

    widest: int
    held: int = 0
    runs: Runs | None = None


def _staves(source: Source, way: Way, length: float, extra: float, means: Means) -> _Staves:
    if source.timber is not None and source.timber.stations:
        widest, held, runs = staves_on(source, way, length, extra, means)
        return _Staves(down(widest), down(held), runs)
    return _Staves(_widest(source, way, length, extra, means))


def _widest(source: Source, way: Way, length: float, extra: float, means: Means) -> int:
    """Greatest useful stave width a stock can give, in whole units; 0 if it cannot give the least."""
    if source.timber is None or length > source.length:
        return 0
    size = (length + source.across.kerf, way.thickness - _HAIR)
    spare = source.along.kerf
    flat = widest_flat(source.timber, *size, means, way.stave[1] + extra + spare) - spare
    return down(flat - extra) if flat - extra >= way.stave[0] else 0


def with_widths(group: Group, number: int, widths: Sequence[float]) -> list[Blank]:
    """A panel's staves as blanks, with the widths the layout gave them (useful width, joint's lap added)."""
    need, way = group.panels[number]
    count = len(widths) + len(way.made)
    return [
        replace(
            blank_of(need, way, index, count, width + way.lap, "stave"), id=f"{need.blank_name} stave {index}"
        )
        for index, width in zip(_numbers(way, len(widths)), widths, strict=True)
    ]
