"""What is cut from which stick, and what that comes to: worked out afresh from the problem."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from scantling.cutting.solver.sticks.problem import StickProblem

Fill = tuple[
    tuple[int, ...], ...
]  # for each clear stretch of a stick, the numbers of the lengths cut from it


@dataclass(frozen=True, slots=True)
class Cut:
    """`times` sticks of kind `stick`, each cut alike."""

    stick: int
    fill: Fill
    times: int = 1


@dataclass(frozen=True)
class StickAnswer:
    """`bound`: no way of cutting all that is wanted costs less; 0 where something is unmet.

    `unmet`: (number of the length, how many). `steps`: how much was tried.
    """

    problem: StickProblem
    cuts: tuple[Cut, ...]
    bound: int
    unmet: tuple[tuple[int, int], ...] = ()
    steps: int = 0

    @cached_property
    def value(self) -> int:
        """What the sticks cost."""
        return sum(cut.times * self.problem.sticks[cut.stick].cost for cut in self.cuts)

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper can be found."""
        return not self.unmet and self.value <= self.bound

    @cached_property
    def made(self) -> Counter[int]:
        """How many are cut of each length."""
        made: Counter[int] = Counter()
        for cut in self.cuts:
            for number in (n for stretch in cut.fill for n in stretch):
                made[number] += cut.times
        return made

    def laid(self, cut: Cut) -> Iterator[tuple[int, int]]:
        """Where each length of a stick begins: (number of the length, start)."""
        kerf = self.problem.kerf
        rooms = self.problem.sticks[cut.stick].rooms(kerf)
        for (start, _), stretch in zip(rooms, cut.fill, strict=True):
            at = start
            for number in stretch:
                yield number, at
                at += self.problem.wanted[number].length + kerf
