"""Which way each part is made: whole, of staves, of layers. Chosen together with the layout.

A walk over choices, one for each kind of part, each judged by a short search; the likeliest few are then
searched in earnest.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import Need, Role, Way
from scantling.cutting.liking import bother, is_narrowed, is_never_laminated, reluctance, variants_of
from scantling.cutting.milling import Means
from scantling.cutting.solver.problem import SCALE
from scantling.cutting.solver.search import Filling, Search
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, fits, group_of

Kind = tuple[str, int, tuple[str, ...], tuple[int, ...]]
Choice = tuple[int, ...]  # for each kind of part, the number of its way
_MOST_TRIALS = 24
_MANY = 5000  # parts times stocks from which fewer choices are tried
_LEVELS = 4  # of liking: staves few and equal, one more, any; layers of any boards
_EARNEST = 2  # choices searched in earnest


@dataclass(frozen=True)
class Answer:
    """One group of needs, solved."""

    group: Group
    filling: Filling
    chosen: tuple[tuple[Need, Way], ...]
    reluctance: float = 0.0  # money the ways chosen must save to be worth their glue-ups
    proven: float = 0.0  # money no plan does with less of, where more is known than areas tell
    least_weight: float = 0.0  # no plan weighs less for no more money; 0: not worked out

    @cached_property
    def aim(self) -> tuple[int, float, float, float]:
        """Least area missing, least money, least bother, then what is nearest to saving a board."""
        short, money, *_ = self.filling.cost
        return short, money + self.reluctance, bother(self.group, self.filling), self.filling.smooth

    @property
    def weight(self) -> float:
        """Value of the wood used up, and what the ways chosen must save [money]; of boards."""
        return self.filling.cost[3] / SCALE**2 + self.reluctance

    @property
    def parts_lacking(self) -> set[str]:
        """Parts some of which found no place."""
        group, lacking = self.group, set(self.filling.unmet)
        blanks = (blank for want in lacking & group.wants.keys() for blank in group.wants[want].blanks)
        panels = (group.panels[want][0].part for want in lacking & group.panels.keys())
        return {*(blank.part for blank in blanks), *panels}

    def is_all_for(self, money: float) -> bool:
        """Whether nothing is missing, and no more is spent than that."""
        short, spent, *_ = self.filling.cost
        return not short and spent <= money


@dataclass
class Chooser:
    """Needs that compete for the same stock; `effort`: places taken, in all."""

    needs: tuple[Need, ...]
    sources: tuple[Source, ...]
    means: Means
    seed: int
    effort: int
    until: float
    _known: dict[Choice, Answer] = field(default_factory=dict)
    _begun: dict[Choice, Answer] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.bound = least_money(self.needs, self.sources)
        self.kinds = _alike(self.needs)
        self._whole = {_kind_of(mine[0]): self._whole_from(mine[0]) for mine in self.kinds}
        self.ways = self._variants()
        self.open = [self._useful(mine[0]) for mine in self.kinds]
        many = len(self.needs) * len(self.sources) / _MANY
        self._is_usual = many <= 1
        different = 2 * sum(len(ways) for ways in self.open) - 2 * len(self.open) + 1
        self.trials = max(min(int(_MOST_TRIALS / max(many, 1.0)), different), 1)

    def answer(self) -> Answer:
        """The best choice found, with its filling."""
        levels = [self._level(level) for level in range(_LEVELS)]
        at_once = levels if self._is_usual else levels[:1]
        self._known |= {choice: a for choice in at_once if self._enough(a := self.started(choice))}
        if not self._known:
            self._made(levels[0])
        for choice in self._walk(levels):
            if self._tried_enough():
                break
            self._made(choice)
        likely = sorted(self._known.values(), key=lambda a: a.aim)[:_EARNEST]
        share = self.effort * 2 // 3 // len(likely)
        if self._enough(likely[0]):
            likely, share = likely[:1], self.effort // 4
        return min((self._improved(each, share) for each in likely), key=lambda a: a.aim[:3])

    def _tried_enough(self) -> bool:
        best = self._known[self._best]
        if self._enough(best) or len(self._known) >= _MOST_TRIALS:
            return True
        return len(self._known) >= self.trials and not best.filling.unmet

    def _level(self, level: int) -> Choice:
        return tuple(self._first_way(kind, level) for kind in range(len(self.kinds)))

    def _first_way(self, kind: int, level: int) -> int:
        """The first way of a kind: narrowed as is liked best, then staves less and less, at last layers."""
        ways = self.ways[self.kinds[kind][0].part]
        first = ways[self.open[kind][0]]
        same = [w for w in self.open[kind] if (ways[w].role, ways[w].count) == (first.role, first.count)]
        if first.role is Role.LAYER:
            return same[0 if level < _LEVELS - 1 else -1]
        return same[min(level, len(same) - 1)]

    def _walk(self, levels: list[Choice]) -> Iterator[Choice]:
        """First ways; all glued up; then the best so far with each kind changed; then with two changed."""
        yield from levels
        for roles in ((Role.LAYER,), (Role.LAYER, Role.STAVE)):
            yield tuple(self._glued_up(kind, roles) for kind in range(len(self.kinds)))
        turns = [(kind, way) for kind, ways in enumerate(self.open) for way in ways]
        for kind, way in turns:
            yield _changed(self._best, kind, way)
        draw = random.Random(self.seed)
        for _ in range(4 * self.trials):
            yield _changed(_changed(self._best, *draw.choice(turns)), *draw.choice(turns))

    @property
    def _best(self) -> Choice:
        return min(self._known, key=lambda choice: self._known[choice].aim)

    def _glued_up(self, kind: int, roles: tuple[Role, ...]) -> int:
        """Small pieces where that is a way of it: they may save a board that no single part would save."""
        ways = self.ways[self.kinds[kind][0].part]
        useful = self.open[kind]
        fewest = next((ways[way].count for way in useful if ways[way].role in roles), 0)
        return next(
            (w for w in reversed(useful) if ways[w].role in roles and ways[w].count == fewest), useful[0]
        )

    @property
    def _short(self) -> int:
        """Effort of one trial."""
        return self.effort // 2 // self.trials

    def _made(self, choice: Choice) -> Answer:
        if choice not in self._known:
            started = self.started(choice)
            self._known[choice] = started if self._enough(started) else self._improved(started, self._short)
        return self._known[choice]

    def started(self, choice: Choice) -> Answer:
        """A choice with its first filling."""
        if choice not in self._begun:
            self._begun[choice] = self._filled(choice)
        return self._begun[choice]

    def _filled(self, choice: Choice) -> Answer:
        numbers = {need.part: way for mine, way in zip(self.kinds, choice, strict=True) for need in mine}
        pairs = tuple((need, self.ways[need.part][numbers[need.part]]) for need in self.needs)
        group = group_of(pairs, self.sources, self.means)
        against = sum(self.against(kind, way) for kind, way in enumerate(choice))
        return Answer(group, Search(group.problem, self.seed).fill(), pairs, against)

    def against(self, kind: int, way: int) -> float:
        """Money it must save to make a kind of part in that way."""
        worth = min(source.bin.rate / source.thickness for source in self.sources)
        first, *others = self.kinds[kind]
        each = reluctance(first, self.ways[first.part][way], self._whole[_kind_of(first)], worth)
        return each * (1 + len(others))

    def _variants(self) -> dict[str, tuple[Way, ...]]:
        """Part → its ways; worked out once for parts that differ in nothing but their names."""
        known: dict[Need, tuple[Way, ...]] = {}
        for need in self.needs:
            plain = replace(need, part="", again=0, notes=())
            if plain not in known:
                whole = bool(self._whole[_kind_of(need)])
                known[plain] = variants_of(need, self.sources, self.means, whole)
        return {need.part: known[replace(need, part="", again=0, notes=())] for need in self.needs}

    def _whole_from(self, need: Need) -> tuple[Source, ...]:
        """The stocks that give a part whole."""
        if need.ways[0].role is not Role.WHOLE:
            return ()
        return tuple(self.sources[n] for n in sorted(fits(need, need.ways[0], self.sources, self.means)))

    def _useful(self, need: Need) -> list[int]:
        """Ways some stock allows, each once; layers only where they are worth a try; never none."""
        useful: list[int] = []
        opened: set[int] = set()
        never = is_never_laminated(need, self._whole[_kind_of(need)])
        ways = self.ways[need.part]
        for number, way in enumerate(ways):
            if way in ways[:number] or (never and way.role is Role.LAYER):
                continue
            stock = fits(need, way, self.sources, self.means)
            if way.role is Role.LAYER and stock <= opened:
                continue
            if stock:
                useful.append(number)
                opened |= set() if is_narrowed(way) else stock
        return useful or [0]

    def _improved(self, answer: Answer, effort: int) -> Answer:
        search = Search(answer.group.problem, self.seed)
        return replace(answer, filling=search.improve(answer.filling, effort, self.until))

    def _enough(self, answer: Answer) -> bool:
        short, money, *_ = answer.filling.cost
        return not short and money + answer.reluctance <= self.bound


def _alike(needs: Sequence[Need]) -> list[list[Need]]:
    """Copies of one part together: they are made in one way."""
    alike: dict[Kind, list[Need]] = {}
    for need in needs:
        alike.setdefault(_kind_of(need), []).append(need)
    return list(alike.values())


def _kind_of(need: Need) -> Kind:
    """Copies of a part that are alike to the wood: begun ones and those of a certain board stand apart."""
    return need.definition, len(need.ways), need.only, need.ways[0].made


def _changed(choice: Choice, kind: int, way: int) -> Choice:
    return (*choice[:kind], way, *choice[kind + 1 :])
