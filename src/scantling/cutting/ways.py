"""Which way each part is made: whole, of staves, of layers. Chosen together with the layout.

A walk over choices, one for each kind of part, each judged by a short search; the likeliest few are then
searched in earnest.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from scantling.cutting.bound import least_money
from scantling.cutting.cut_plan import Need, Role, Way
from scantling.cutting.milling import Means
from scantling.cutting.solver.search import Filling, Search
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, group_of

Choice = tuple[int, ...]  # for each kind of part, the number of its way
_MOST_TRIALS = 24
_EARNEST = 2  # choices searched in earnest


@dataclass(frozen=True)
class Answer:
    """One group of needs, solved."""

    group: Group
    filling: Filling
    chosen: tuple[tuple[Need, Way], ...]

    @property
    def aim(self) -> tuple[int, float, float]:
        """Least area missing, least money, then what is nearest to saving a board."""
        short, money, _ = self.filling.cost
        return short, money, self.filling.smooth


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

    def __post_init__(self) -> None:
        self.bound = least_money(self.needs, self.sources)
        self.kinds = _alike(self.needs)
        self.open = [_useful(mine, self.sources, self.means) for mine in self.kinds]
        self.trials = min(_MOST_TRIALS, 2 * sum(len(ways) for ways in self.open) - 2 * len(self.open) + 1)

    def answer(self) -> Answer:
        """The best choice found, with its filling."""
        for choice in self._walk():
            if self._enough(self._made(choice)):
                break
        likely = sorted(self._known.values(), key=lambda a: a.aim)[:_EARNEST]
        share = self.effort * 2 // 3 // len(likely)
        if self._enough(likely[0]):
            likely, share = likely[:1], self.effort // 2
        return min((self._improved(each, share) for each in likely), key=lambda a: a.aim[:2])

    def _walk(self) -> Iterator[Choice]:
        """Choices worth trying: first ways, all laminated, then the best so far with one or two changed."""
        first = tuple(ways[0] for ways in self.open)
        yield first
        yield tuple(self._laminated(kind) for kind in range(len(self.kinds)))
        turns = [(kind, way) for kind, ways in enumerate(self.open) for way in ways]
        for kind, way in turns:
            if len(self._known) >= self.trials:
                return
            yield _changed(self._best, kind, way)
        draw = random.Random(self.seed)
        for _ in range(4 * self.trials):
            if len(self._known) >= self.trials:
                return
            yield _changed(_changed(self._best, *draw.choice(turns)), *draw.choice(turns))

    @property
    def _best(self) -> Choice:
        return min(self._known, key=lambda choice: self._known[choice].aim)

    def _laminated(self, kind: int) -> int:
        """Layers where that is a way of it: it may save a thick board that no single part would save."""
        ways = self.kinds[kind][0].ways
        return next((way for way in self.open[kind] if ways[way].role is Role.LAYER), self.open[kind][0])

    def _made(self, choice: Choice) -> Answer:
        if choice not in self._known:
            started = self._started(choice)
            short = self.effort // 2 // self.trials
            self._known[choice] = started if self._enough(started) else self._improved(started, short)
        return self._known[choice]

    def _started(self, choice: Choice) -> Answer:
        numbers = {need.part: way for mine, way in zip(self.kinds, choice, strict=True) for need in mine}
        pairs = tuple((need, need.ways[numbers[need.part]]) for need in self.needs)
        group = group_of(pairs, self.sources, self.means)
        return Answer(group, Search(group.problem, self.seed).fill(), pairs)

    def _improved(self, answer: Answer, effort: int) -> Answer:
        search = Search(answer.group.problem, self.seed)
        return replace(answer, filling=search.improve(answer.filling, effort, self.until))

    def _enough(self, answer: Answer) -> bool:
        short, money, _ = answer.filling.cost
        return not short and money <= self.bound


def fits(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> set[int]:
    """Stocks that can give some blank of a part made this way; none where a blank of it has no stock."""
    problem = group_of([(need, way)], sources, means).problem
    of_items = [set(item.fits) for item in problem.items]
    of_panels = [{s for s, widest in enumerate(p.widest) if widest} for p in problem.panels]
    each = [*of_items, *of_panels]
    return set.union(*each) if all(each) else set()


def _alike(needs: Sequence[Need]) -> list[list[Need]]:
    """Copies of one part together: they are made in one way."""
    alike: dict[tuple[str, int], list[Need]] = {}
    for need in needs:
        alike.setdefault((need.definition, len(need.ways)), []).append(need)
    return list(alike.values())


def _useful(mine: list[Need], sources: tuple[Source, ...], means: Means) -> list[int]:
    """Ways some stock allows, layers only where they open stock that fewer do not; never none."""
    useful: list[int] = []
    opened: set[int] = set()
    for number, way in enumerate(mine[0].ways):
        stock = fits(mine[0], way, sources, means)
        if stock and (way.role is not Role.LAYER or not stock <= opened):
            useful.append(number)
            opened |= stock
    return useful or [0]


def _changed(choice: Choice, kind: int, way: int) -> Choice:
    return (*choice[:kind], way, *choice[kind + 1 :])
