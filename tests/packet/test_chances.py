"""The sentences on how likely the wood comes out."""

from __future__ import annotations

from typing import Any

from scantling.cutting.chances import BlankChance, BoardChance, RobustYield
from scantling.packet.chances import lines_of
from scantling.packet.context import context_of


def _lines(plan: Any, found: RobustYield) -> list[str]:
    return list(lines_of(found, context_of(plan)))


def _found(chance: float, boards: int, *, bought: bool = False) -> RobustYield:
    each = tuple(BoardChance(f"B1#{n + 1}", bought, chance, f"rail {n}") for n in range(boards))
    blanks = tuple(
        BlankChance(f"rail {n}", f"B1#{n + 1}", chance, "thickness", 1.5, n) for n in range(boards)
    )
    return RobustYield(2000, chance**boards, each, blanks)


def test_each_doubtful_board_says_what_to_cut_first_and_who_could_stand_in(bench: Any) -> None:
    whole, first, second, third, then = _lines(bench, _found(0.5, 3, bought=True))
    assert "in 12 of 100 tries (2000 boards drawn of each, give or take 1)" in whole
    assert first.startswith("B1, no. 1, not seen yet: all of it in 50 of 100 tries. First cut rail 0")
    assert "lacks thickness where it fails, 1/16 in (1.5 mm) on average" in first
    assert "no other board here or for sale would give it" in first
    assert "1 other board would give it" in second
    assert "2 other boards would give it" in third
    assert "Cut those first" in then


def test_sure_boards_are_not_told_of(bench: Any) -> None:
    assert len(_lines(bench, _found(0.999, 1))) == 1


def test_nearly_sure_is_not_said_to_be_sure(bench: Any) -> None:
    assert "more than 99 of 100 tries" in _lines(bench, _found(0.9995, 1))[0]
    assert "100 of 100 tries" in _lines(bench, _found(1.0, 1))[0]
    assert "fewer than 1 of 100 tries" in _lines(bench, _found(0.004, 1))[0]


def test_the_rest_of_many_boards_is_counted(bench: Any) -> None:
    assert "2 boards more are in doubt." in _lines(bench, _found(0.5, 8))


def test_without_boards_there_is_nothing_to_say(bench: Any) -> None:
    assert _lines(bench, RobustYield(2000, 1.0, (), ())) == []
