"""Sticks cut to proven optima: against a constraint solver, a checker of its own, and printed examples."""

from __future__ import annotations

import itertools
import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from scantling.cutting.solver.sticks import Length, Stick, StickAnswer, StickProblem, solve


def faults(answer: StickAnswer) -> list[str]:
    """Everything wrong with the cuts, worked out from where each length lies."""
    problem, found, made, used = answer.problem, [], Counter[int](), Counter[int]()
    for cut in answer.cuts:
        stick = problem.sticks[cut.stick]
        used[cut.stick] += cut.times
        spans = sorted((at, at + problem.wanted[n].length) for n, at in answer.laid(cut))
        made.update({n: times * cut.times for n, times in Counter(n for n, _ in answer.laid(cut)).items()})
        low, high = stick.trim[0], stick.length - stick.trim[1]
        if any(a < low or b > high for a, b in spans):
            found.append(f"{spans} runs over the ends of {stick}")
        if any(a < f1 and b > f0 for a, b in spans for f0, f1 in stick.flaws):
            found.append(f"{spans} lies on a flaw of {stick}")
        if any(later[0] - before[1] < problem.kerf for before, later in itertools.pairwise(spans)):
            found.append(f"{spans} leaves no room for the kerf")
    unmet = dict(answer.unmet)
    for number, want in enumerate(problem.wanted):
        if made[number] + unmet.get(number, 0) != want.demand:
            found.append(f"{made[number]} of {want.demand} made of length {want.length}")
    found += [
        f"{used[number]} of {stick} used"
        for number, stick in enumerate(problem.sticks)
        if stick.supply is not None and used[number] > stick.supply
    ]
    return found


def least_cost(problem: StickProblem) -> int | None:
    """The optimum by a constraint solver that places every piece on a stick; None where there is none."""
    model = cp_model.CpModel()
    pieces = [want.length for want in problem.wanted for _ in range(want.demand)]
    rooms, opened, costs = [], [], []
    for stick in problem.sticks:
        for _ in range(len(pieces) if stick.supply is None else min(stick.supply, len(pieces))):
            is_open = model.new_bool_var("")
            opened.append(is_open)
            costs.append(stick.cost)
            rooms += [(is_open, room) for _, room in stick.rooms(problem.kerf)]
    lies = [[model.new_bool_var("") for _ in rooms] for _ in pieces]
    for mine in lies:
        model.add_exactly_one(mine)
    for number, (is_open, room) in enumerate(rooms):
        load = sum((p + problem.kerf) * lies[i][number] for i, p in enumerate(pieces))
        model.add(load <= room * is_open)
    model.minimize(sum(c * o for c, o in zip(costs, opened, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    return round(solver.objective_value) if status == cp_model.OPTIMAL else None


@st.composite
def problems(draw: st.DrawFn) -> StickProblem:
    sticks = []
    for _ in range(draw(st.integers(1, 3))):
        length = draw(st.integers(20, 60))
        flaw = draw(st.integers(4, length - 6))
        sticks.append(
            Stick(
                length,
                draw(st.integers(1, 9)),
                draw(st.sampled_from((None, 0, 1, 2, 3))),
                draw(st.sampled_from(((0, 0), (1, 3)))),
                draw(st.sampled_from(((), ((flaw, flaw + 2),)))),
            )
        )
    wanted = [
        Length(draw(st.integers(3, 30)), draw(st.integers(1, 2))) for _ in range(draw(st.integers(1, 4)))
    ]
    return StickProblem(tuple(sticks), tuple(wanted), draw(st.sampled_from((0, 1, 2))))


def test_a_stick_that_gives_more_than_is_wanted_stays_in_the_proof() -> None:
    """Its two clear stretches both hold the shortest length; all three lengths lie in the longer one."""
    sticks = (Stick(38, 3, None, flaws=((4, 6),)), Stick(20, 1, None), Stick(20, 1, None))
    answer = solve(StickProblem(sticks, (Length(21, 1), Length(3, 1), Length(8, 1)), 0), seconds=5)
    assert (answer.value, answer.bound) == (3, 3)


@given(problems())
@settings(max_examples=60, deadline=None)
def test_as_cheap_as_can_be(problem: StickProblem) -> None:
    answer = solve(problem, seconds=5)
    assert faults(answer) == []
    best = least_cost(problem)
    if best is None:
        assert answer.unmet
        assert answer.bound == 0
    else:
        assert answer.unmet == ()
        assert answer.bound <= best <= answer.value
        assert answer.proven
        assert answer.value == best


def bins(capacity: int, sizes: list[int]) -> StickProblem:
    return StickProblem((Stick(capacity),), tuple(Length(s, n) for s, n in Counter(sizes).items()))


def test_bins_of_the_recipe_of_falkenauer() -> None:
    """Falkenauer 1996: sizes 20 to 100 in bins of 150; triplets of 250 to 500 that fill bins of 1000 exactly.

    Recipe from memory; the numbers drawn are ours.
    """
    draw = random.Random(7)
    uniform = bins(150, [draw.randint(20, 100) for _ in range(250)])
    answer = solve(uniform, seconds=20)
    assert faults(answer) == []
    assert answer.proven
    sizes = []
    for _ in range(40):
        first = draw.randint(380, 490)
        second = draw.randint(250, (1000 - first) // 2)
        sizes += [first, second, 1000 - first - second]
    triplets = solve(bins(1000, sizes), seconds=20)
    assert faults(triplets) == []
    assert (triplets.value, triplets.bound) == (40, 40)


def test_rolls_of_the_first_worked_example() -> None:
    """Chvátal 1983, chapter 13: rolls 100 wide; 97 of 45, 610 of 36, 395 of 31, 211 of 14 (from memory).

    The linear program there comes to 452.25, so 453 rolls at least, and 453 are enough.
    """
    wanted = (Length(90, 97), Length(72, 610), Length(62, 395), Length(28, 211))
    answer = solve(StickProblem((Stick(200),), wanted), seconds=5)
    assert faults(answer) == []
    assert (answer.value, answer.bound) == (453, 453)


def test_a_bound_beyond_rounding_the_linear_program() -> None:
    """A limited cheap stick and an endless dear one: the cheap are used up first, and that is proven."""
    problem = StickProblem((Stick(100, 3, 2), Stick(100, 5)), (Length(50, 8),))
    answer = solve(problem, seconds=1)
    assert (answer.value, answer.bound, answer.proven) == (16, 16, True)


def test_same_seed_same_cuts() -> None:
    draw = random.Random(3)
    problem = bins(1000, [draw.randint(1, 800) for _ in range(80)])
    assert solve(problem, seconds=20, seed=4).cuts == solve(problem, seconds=20, seed=4).cuts


def test_what_fits_nowhere_is_said_and_the_rest_is_cut() -> None:
    answer = solve(StickProblem((Stick(100),), (Length(101, 2), Length(40, 3))), seconds=1)
    assert answer.unmet == ((0, 2),)
    assert faults(answer) == []
    assert answer.value == 2


def test_nothing_wanted_and_no_sticks() -> None:
    assert solve(StickProblem((Stick(100),), ()), seconds=1).cuts == ()
    assert solve(StickProblem((), (Length(5, 2),)), seconds=1).unmet == ((0, 2),)
    assert solve(StickProblem((Stick(9),), (Length(5, 0),)), seconds=1).value == 0


@pytest.mark.parametrize(
    "make",
    [
        lambda: Stick(0),
        lambda: Stick(10, -1),
        lambda: Stick(10, flaws=((4, 12),)),
        lambda: Stick(10, flaws=((5, 6), (1, 2))),
    ],
)
def test_sticks_that_make_no_sense(make: object) -> None:
    with pytest.raises(ValueError, match=r"."):
        StickProblem((make(),), ())  # type: ignore[operator]


def test_lengths_that_make_no_sense() -> None:
    for wanted in (Length(0), Length(-3), Length(4, -1)):
        with pytest.raises(ValueError, match="asked for"):
            StickProblem((Stick(10),), (wanted,))
    with pytest.raises(ValueError, match="kerf"):
        StickProblem((Stick(10),), (), -1)


def test_too_few_sticks_end_at_once() -> None:
    draw = random.Random(2)
    wanted = tuple(Length(draw.randint(200, 700), 3) for _ in range(20))
    answer = solve(StickProblem((Stick(1000, 1, 12), Stick(800, 1, 4)), wanted, 3), seconds=60)
    assert faults(answer) == []
    assert answer.unmet
    assert answer.steps < 500


def test_dear_sticks_of_many_units() -> None:
    """The same in units a million times as fine and coins a thousand million times as small."""
    fine, small = 10**6, 10**9
    for seed in range(12):
        draw = random.Random(seed)
        plain = StickProblem(
            (Stick(1000, 5), Stick(1700, 8)),
            tuple(Length(draw.randint(150, 700), draw.randint(1, 4)) for _ in range(8)),
            3,
        )
        dear = StickProblem(
            tuple(Stick(s.length * fine, s.cost * small) for s in plain.sticks),
            tuple(Length(w.length * fine, w.demand) for w in plain.wanted),
            plain.kerf * fine,
        )
        first, second = (solve(problem, seconds=20, steps=60) for problem in (plain, dear))
        assert faults(second) == []
        assert second.bound <= first.value * small
        assert first.bound * small <= second.value
        assert first.proven
        assert second.proven
