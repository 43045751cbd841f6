"""The order of sawing and milling, and a checker that finds every way of spoiling it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from benchmarks.cutting.racks import HERE, Case, case
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting import cut_plan
from scantling.cutting.cut_plan import CutPlan
from scantling.cutting.sequence import Doing, Hold, Operation, Sequence, Work, sequence_of, set_ups
from scantling.cutting.sequence.batching import batched
from scantling.cutting.verifying.sequence import sequence_complaints
from scantling.shop.model import Machine, MachineKind, Shop


@pytest.fixture(scope="module")
def made() -> Case:
    return case(1, 10, 30)


@pytest.fixture(scope="module")
def plan(made: Case) -> CutPlan:
    return cut_plan(made.machined, made.shop, seconds=0.3)


def complaints(sequence: Sequence, plan: CutPlan, shop: Shop) -> list[str]:
    return list(sequence_complaints(sequence, plan, shop))


KITS = {
    "planer and sled": (MachineKind.TABLE_SAW, MachineKind.CIRCULAR_SAW, MachineKind.PLANER),
    "table saw and hands": (MachineKind.TABLE_SAW, MachineKind.HAND_PLANE),
    "band saw and jointer": (MachineKind.BAND_SAW, MachineKind.JOINTER, MachineKind.PLANER),
    "mitre saw": (
        MachineKind.MITRE_SAW,
        MachineKind.TABLE_SAW,
        MachineKind.JOINTER,
        MachineKind.PLANER,
        MachineKind.HAND_PLANE,
    ),
    "hands alone": (MachineKind.HAND_SAW, MachineKind.HAND_PLANE),
}


def fitted(shop: Shop, kinds: tuple[MachineKind, ...]) -> Shop:
    machines = tuple(
        Machine(kind.value, kind, HERE, kerf=2.4, sled=kind is MachineKind.PLANER, sled_thickness=38.0)
        for kind in kinds
    )
    return replace(shop, machines=machines)


@pytest.mark.parametrize("kit", KITS)
@settings(max_examples=6, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_every_plan_has_an_order_that_the_checker_finds_nothing_in(kit: str, seed: int) -> None:
    made = case(seed, 5, 12)
    shop = fitted(made.shop, KITS[kit])
    plan = cut_plan(made.machined, shop, seconds=0.1)
    assert complaints(sequence_of(plan, shop), plan, shop) == []


def test_batches_lie_between_the_least_and_one_board_after_another(made: Case, plan: CutPlan) -> None:
    found = sequence_of(plan, made.shop)
    assert found.least <= found.set_ups <= found.one_by_one
    assert found.set_ups == set_ups(found.operations) < found.one_by_one / 2
    assert found.least == len({op.set_up for op in found.operations})
    assert len({(op.stock, op.number) for op in found.operations if op.number}) == sum(
        len(layout.cuts) for layout in plan.layouts
    )


def _op(board: str, machine: str, takes: str, gives: str) -> Operation:
    work = Work(500.0, 100.0, 25.0, 2, straight=True)
    return Operation(board, Doing.WIDTH, machine, Hold.FENCE, 50.0, takes, (gives,), work)


def test_a_set_up_waits_until_all_of_it_is_ready() -> None:
    """By hand: A is sawn then planed, B planed then sawn: three at least. Two alike take two, not four."""
    first = [_op("A", "saw", "a", "a"), _op("A", "plane", "a", "a")]
    second = [_op("B", "plane", "b", "b"), _op("B", "saw", "b", "b")]
    found = batched([first, second])
    assert (found.set_ups, found.one_by_one, found.least) == (3, 3, 2)
    third = [_op("C", "saw", "c", "c"), _op("C", "plane", "c", "c")]
    found = batched([first, third])
    assert (found.set_ups, found.one_by_one, found.least) == (2, 4, 2)


def test_settings_as_good_as_equal_are_one_set_up() -> None:
    ops = [replace(_op(b, "saw", b, b), setting=s) for b, s in (("A", 50.09), ("B", 50.11), ("C", 50.31))]
    found = batched([[op] for op in ops])
    assert (found.set_ups, found.least) == (2, 2)
    assert [op.setting for op in found.operations] == [
        50.31,
        50.09,
        50.11,
    ]  # from the largest down, each its own


Spoil = Callable[[list[Operation]], list[Operation]]


def _at(operations: list[Operation], doing: Doing, hold: Hold | None = None) -> int:
    return next(n for n, op in enumerate(operations) if op.doing is doing and hold in (None, op.hold))


def _without(doing: Doing) -> Spoil:
    def spoil(ops: list[Operation]) -> list[Operation]:
        number = _at(ops, doing)
        return ops[:number] + ops[number + 1 :]

    return spoil


def _with(doing: Doing, held: Hold | None = None, /, **changes: object) -> Spoil:
    def spoil(ops: list[Operation]) -> list[Operation]:
        number = _at(ops, doing, held)
        return [*ops[:number], replace(ops[number], **changes), *ops[number + 1 :]]  # type: ignore[arg-type]

    return spoil


def _twice(ops: list[Operation]) -> list[Operation]:
    number = _at(ops, Doing.CROSSCUT)
    return [*ops[: number + 1], *ops[number:]]


def _before_its_saw(ops: list[Operation]) -> list[Operation]:
    number = _at(ops, Doing.FLATTEN)
    return [ops[number], *ops[:number], *ops[number + 1 :]]


def _edge_first(ops: list[Operation]) -> list[Operation]:
    number = _at(ops, Doing.FLATTEN)
    edge = replace(ops[number], doing=Doing.EDGE, hold=Hold.FENCE)
    return [*ops[:number], edge, *ops[number:]]


def _foreign(ops: list[Operation]) -> list[Operation]:
    return [*ops, replace(ops[0], stock="a board of next door")]


SPOILT: dict[str, tuple[Spoil, str]] = {
    "a cut left out": (_without(Doing.CROSSCUT), "never made"),
    "a rip left out": (_without(Doing.RIP), "never made"),
    "a face not flattened": (_without(Doing.FLATTEN), "none is flat"),
    "not planed": (_without(Doing.THICKNESS), "never planed to"),
    "not ripped to width": (_without(Doing.WIDTH), "never ripped to"),
    "no straight edge": (_without(Doing.EDGE), "is not straight yet"),
    "ripped clamped on a table saw": (
        _with(Doing.RIP, machine="table saw", hold=Hold.CLAMPED),
        "without fence or carrier",
    ),
    "jointed on a rough face": (_edge_first, "without a flat face"),
    "made twice": (_twice, "is not there"),
    "before it is sawn": (_before_its_saw, "is not there"),
    "a board of others": (_foreign, "is not in the plan"),
    "rough against the fence": (
        _with(Doing.RIP, machine="table saw", hold=Hold.FENCE),
        "without a flat face",
    ),
    "no guide and no fence": (
        _with(Doing.RIP, machine="table saw", hold=Hold.LINE),
        "without fence or carrier",
    ),
    "rocking on the saw": (_with(Doing.CROSSCUT, machine="table saw", hold=Hold.MARK), "rocks"),
    "a saw nobody has": (_with(Doing.CROSSCUT, machine="sabre saw"), "has no sabre saw"),
    "another cut's number": (_with(Doing.RIP, number=999), "no cut of the plan"),
    "too thick a setting": (_with(Doing.THICKNESS, setting=900.0), "cannot come to that thickness"),
    "too wide a setting": (_with(Doing.WIDTH, setting=900.0), "cannot come to that width"),
    "flattened without a sled": (_with(Doing.FLATTEN, Hold.SLED, hold=Hold.BED), "without a sled"),
    "a wrong fence": (_with(Doing.CROSSCUT, setting=1.0), "not that of the plan"),
}


@pytest.mark.parametrize("way", SPOILT)
def test_every_way_of_spoiling_it_is_found(way: str, made: Case, plan: CutPlan) -> None:
    spoil, words = SPOILT[way]
    sound = sequence_of(plan, made.shop)
    assert complaints(sound, plan, made.shop) == []
    spoilt = replace(sound, operations=tuple(spoil(list(sound.operations))))
    assert any(words in each for each in complaints(spoilt, plan, made.shop))


def _only(op: Operation, plan: CutPlan, shop: Shop) -> list[str]:
    return [words for words in complaints(Sequence((op,), 1, 1, 1), plan, shop) if op.takes in words]


def test_pieces_too_small_for_a_machine_are_found(made: Case, plan: CutPlan) -> None:
    """A board a foot wide and less long is neither ripped on the fence nor planed nor held at a mitre saw."""
    layout = plan.layouts[0]
    small = replace(layout, length=150.0, width=160.0, placed=(), cuts=layout.cuts[:1])
    shop = fitted(replace(made.shop, boards=()), KITS["mitre saw"])
    shop = replace(shop, machines=tuple(replace(m, most_width=10.0) for m in shop.machines))
    tiny, root = replace(plan, layouts=(small,), blanks=()), layout.pieces[0].id
    work = Work(150.0, 160.0, 25.0, 2, straight=True)
    for doing, machine, hold, words in (
        (Doing.WIDTH, "table saw", Hold.FENCE, "too short for the fence"),
        (Doing.WIDTH, "table saw", Hold.FENCE, "wider than long"),
        (Doing.THICKNESS, "planer", Hold.BED, "shorter than the planer takes"),
        (Doing.CROSSCUT, "mitre saw", Hold.MARK, "too short to be held by hand"),
        (Doing.THICKNESS, "planer", Hold.BED, "wider than the planer takes"),
        (Doing.WIDTH, "table saw", Hold.FENCE, "beyond the fence"),
    ):
        op = Operation(small.stock, doing, machine, hold, 20.0, root, (root,), work, 1)
        assert any(words in each for each in _only(op, tiny, shop))
