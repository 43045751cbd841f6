"""Equal wants as one: what the linear program counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from scantling.cutting.solver.bin import Bin
from scantling.cutting.solver.problem import Item, Panel, Problem

Asked = Mapping[tuple[str, int], float]
"""("item", class) → how many; ("width", class) → useful width of strips; ("fewest", class) and ("strips",
class) → how many strips at least and at most."""


@dataclass(frozen=True)
class Way:
    """One way of one choice: what it asks for, and what it weighs [money]."""

    asks: Asked
    against: float


@dataclass(frozen=True)
class Merged:
    """`problem`: one want a class, with the id of its first member, and no choices: those are `ways`.

    `members`: class → wants, in order; `named`: a want without its name → class; `always`: what is asked for
    in any case.
    """

    problem: Problem
    members: Mapping[int, tuple[int, ...]]
    named: Mapping[Item | Panel, int]
    always: Asked
    ways: tuple[tuple[Way, ...], ...]

    @property
    def most(self) -> dict[int, int]:
        """Class → how many of its items, or strips, are asked for at most."""
        items = {i.id: self._greatest("item", i.id) for i in self.problem.items}
        wide = {p.id for p in self.problem.panels if self._greatest("width", p.id)}
        return items | {p.id: p.counts[1] * (p.id in wide) for p in self.problem.panels}

    def _greatest(self, word: str, kind: int) -> int:
        name = (word, kind)
        chosen = sum(max(way.asks.get(name, 0) for way in ways) for ways in self.ways)
        return max(round(self.always.get(name, 0) + chosen), 0)

    def with_panels(self) -> Merged:
        """With every class of panels as one panel that asks for as much as they all do."""
        panels = tuple(
            replace(
                p,
                need=max(self._greatest("width", p.id), 1),
                counts=(self._greatest("fewest", p.id), self._greatest("strips", p.id)),
            )
            for p in self.problem.panels
        )
        return replace(self, problem=replace(self.problem, panels=panels))

    def gives(self, bin_: Bin) -> Asked:
        """What a bin gives of what is asked for."""
        extra = {p.id: p.extra for p in self.problem.panels}
        given: dict[tuple[str, int], float] = {}
        for kind, (width, count) in bin_.strip_widths.items():
            if kind not in extra:
                given["item", kind] = count
            else:
                given["width", kind] = width - count * extra[kind]
                given["fewest", kind] = given["strips", kind] = count
        return given

    def after(self, bins: Iterable[Bin], chosen: Mapping[int, int]) -> Merged:
        """What is left once these bins are cut and these choices (number → way) are made."""
        left = Counter(self.always)
        for number, way in chosen.items():
            left.update(self.ways[number][way].asks)
        taken: Counter[int] = Counter()
        for bin_ in bins:
            left.subtract(self.gives(bin_))
            taken[self.problem.stocks[bin_.stock].pool] += 1
        stocks = tuple(
            s if s.count is None else replace(s, count=max(s.count - taken[s.pool], 0))
            for s in self.problem.stocks
        )
        ways = tuple(each for number, each in enumerate(self.ways) if number not in chosen)
        problem = replace(self.problem, stocks=stocks)
        return Merged(problem, self.members, self.named, left, ways).with_panels()

    def class_of(self, want: Item | Panel) -> int:
        """The class of a want, of this problem or of another with the same stocks."""
        return self.named[nameless(want)]


def merged(problem: Problem) -> Merged:
    """The problem with wants that differ in nothing but their name taken together."""
    classes: dict[Item | Panel, list[int]] = {}
    for want in problem.wants:
        classes.setdefault(nameless(want), []).append(want.id)
    members = {ids[0]: tuple(ids) for ids in classes.values()}
    named = {want: ids[0] for want, ids in classes.items()}
    class_of = {want: ids[0] for ids in members.values() for want in ids}
    panels = {p.id: p for p in problem.panels}

    def asked(wants: Iterable[int]) -> Asked:
        found: Counter[tuple[str, int]] = Counter()
        for want in wants:
            found.update(_asks(class_of[want], panels.get(want)))
        return found

    chosen = {want for choice in problem.choices for way in choice.ways for want in way}
    ways = tuple(
        tuple(Way(asked(way), against) for way, against in zip(c.ways, c.against, strict=True))
        for c in problem.choices
    )
    one_each = replace(
        problem,
        items=tuple(i for i in problem.items if i.id in members),
        panels=tuple(p for p in problem.panels if p.id in members),
        choices=(),
    )
    return Merged(one_each, members, named, asked(class_of.keys() - chosen), ways).with_panels()


def nameless(want: Item | Panel) -> Item | Panel:
    """All of a want but which one it is."""
    return replace(want, id=0, tied=False)


def _asks(kind: int, panel: Panel | None) -> dict[tuple[str, int], int]:
    if panel is None:
        return {("item", kind): 1}
    low, high = panel.counts
    return {("width", kind): panel.need, ("fewest", kind): low, ("strips", kind): high}
