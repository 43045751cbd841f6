"""One order for all boards: what is set up once is done for all, as far as each board's own order allows.

Greedy: the set-up in hand goes on while anything is ready for it; then comes one of which all that is left is
ready, on the same machine if there is one, from the largest setting down; or else the one for which most is.
No order has fewer set-ups than there are different ones.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby

from scantling.cutting.sequence.operations import Operation, Sequence

SAME = 0.2  # mm: settings this near are one; common practice, no source
SetUp = tuple[str, str, str, float | None]


def batched(boards: Iterable[Iterable[Operation]]) -> Sequence:
    """All operations of boards; each piece's own stay in their order."""
    given = _as_good_as_equal([list(operations) for operations in boards])
    everything = [op for operations in given for op in operations]
    after = list(_before(given))
    following: dict[int, list[int]] = defaultdict(list)
    for number, before in enumerate(after):
        following[before].append(number)
    ready: dict[SetUp, list[int]] = defaultdict(list)
    left = Counter(op.set_up for op in everything)
    order: list[int] = []

    def free(numbers: Iterable[int]) -> None:
        for number in numbers:
            ready[everything[number].set_up].append(number)

    free(following[-1])
    while any(ready.values()):
        now = everything[order[-1]].set_up if order else None
        chosen = now if now is not None and ready[now] else _next(ready, left, now)
        number = ready[chosen].pop(0)
        left[chosen] -= 1
        order.append(number)
        free(following[number])
    made = tuple(everything[number] for number in order)
    return Sequence(made, set_ups(made), set_ups(everything), len({op.set_up for op in everything}))


def _as_good_as_equal(boards: list[list[Operation]]) -> list[list[Operation]]:
    """With settings of one machine that differ by no more than `SAME` told apart no longer."""
    found: dict[tuple[str, str, str], set[float]] = defaultdict(set)
    for op in (op for operations in boards for op in operations):
        if op.setting is not None:
            found[op.set_up[:3]].add(op.setting)
    near = {key: _first_of_near(settings) for key, settings in found.items()}
    return [
        [op if op.setting is None else replace(op, near=near[op.set_up[:3]][op.setting]) for op in operations]
        for operations in boards
    ]


def _first_of_near(settings: Iterable[float]) -> dict[float, float]:
    """Each setting → the least of those it is as good as equal to."""
    first = -1.0
    found: dict[float, float] = {}
    for setting in sorted(settings):
        first = setting if not found or setting - first > SAME else first
        found[setting] = first
    return found


def _before(boards: list[list[Operation]]) -> Iterable[int]:
    """For every operation the number of the one that its workpiece comes from; -1 for none."""
    number = 0
    for operations in boards:
        last: dict[str, int] = {}
        for op in operations:
            yield last.get(op.takes, -1)
            last |= dict.fromkeys(op.gives, number)
            number += 1


def _next(ready: dict[SetUp, list[int]], left: Counter[SetUp], now: SetUp | None) -> SetUp:
    """The set-up to make next."""

    def order(set_up: SetUp) -> tuple[bool, bool, int, float, int]:
        machine, _, _, setting = set_up
        numbers = ready[set_up]
        partly = len(numbers) < left[set_up]
        elsewhere = now is not None and machine != now[0]
        return partly, elsewhere, -len(numbers) if partly else 0, -(setting or 0.0), numbers[0]

    return min((set_up for set_up, numbers in ready.items() if numbers), key=order)


def set_ups(operations: Iterable[Operation]) -> int:
    """How often something must be set anew when they are done one after another."""
    return sum(1 for _ in groupby(op.set_up for op in operations))
