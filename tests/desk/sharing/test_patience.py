"""Waits that grow: times are given, nothing sleeps."""

from __future__ import annotations

from scantling.desk.sharing.patience import FORGOTTEN_AFTER, MOST_KEPT, Patience


def waits(patience: Patience, tries: int, who: str = "a") -> list[float]:
    """Each wrong try as soon as it is allowed."""
    now, found = 0.0, []
    for _ in range(tries):
        patience.wrong(who, now)
        found.append(patience.wait(who, now))
        now += found[-1]
    return found


def test_the_first_are_free_then_each_doubles_up_to_the_longest() -> None:
    # source: by hand; 2 s doubled, never over 20 s
    assert waits(Patience(free=3, longest=20), 9) == [0, 0, 0, 2, 4, 8, 16, 20, 20]


def test_a_wait_runs_out() -> None:
    patience = Patience(free=0, longest=300)
    patience.wrong("a", 100)
    assert [patience.wait("a", now) for now in (100, 101.5, 102, 500)] == [2, 0.5, 0, 0]


def test_one_who_waits_does_not_make_others_wait() -> None:
    patience = Patience(free=0, longest=300)
    patience.wrong("a", 0)
    assert patience.wait("b", 0) == 0


def test_being_right_or_an_hour_of_quiet_forgives() -> None:
    patience = Patience(free=1, longest=300)
    waits(patience, 5)
    patience.right("a")
    assert waits(patience, 2) == [0, 2]
    patience.wrong("a", 10 + FORGOTTEN_AFTER)
    assert patience.wait("a", 10 + FORGOTTEN_AFTER) == 0


def test_a_very_patient_one_never_breaks_the_sum() -> None:
    assert waits(Patience(free=0, longest=300), 3000)[-1] == 300


def test_what_is_kept_does_not_grow_without_end() -> None:
    patience = Patience(free=0, longest=300)
    for number in range(MOST_KEPT + 50):
        patience.wrong(str(number), 0)
    assert patience.wait("0", 0) == 0
    assert patience.wait(str(MOST_KEPT + 49), 0) > 0
    assert sum(patience.wait(str(number), 0) > 0 for number in range(MOST_KEPT + 50)) == MOST_KEPT
