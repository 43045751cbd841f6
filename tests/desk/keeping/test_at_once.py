"""Many hands at once on the same files: one comes first, the others are told, no words are mixed or lost."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

from scantling.desk.keeping import FileConflict, Overtaken

HANDS = 8


def at_once(act):
    """What `act(number)` gave for each hand, conflicts among it."""
    ready = Barrier(HANDS)

    def one(number: int):
        ready.wait()
        try:
            return act(number)
        except (FileConflict, Overtaken) as error:
            return error

    with ThreadPoolExecutor(HANDS) as hands:
        return list(hands.map(one, range(HANDS)))


def test_of_many_that_counted_on_the_same_words_one_writes(keeper, home):
    first = (home / "bench.yaml").read_text()
    told = at_once(
        lambda n: keeper.write(
            "bench", f"{n}", {"bench.yaml": (first, f"piece: {n}\n"), f"{n}.yaml": (None, "x")}
        )
    )
    written = [number for number, one in enumerate(told) if not isinstance(one, FileConflict)]
    assert len(written) == 1
    assert (home / "bench.yaml").read_text() == f"piece: {written[0]}\n"
    assert [path.name for path in home.glob("[0-9].yaml")] == [f"{written[0]}.yaml"]
    keeper.undo("bench")
    assert (home / "bench.yaml").read_text() == first


def test_of_many_that_undo_the_same_step_one_does(keeper, home):
    for n in range(3):
        now = (home / "bench.yaml").read_text()
        keeper.write("bench", f"{n}", {"bench.yaml": (now, f"piece: {n}\n")})
    number = keeper.history("bench").done[0].number
    told = at_once(lambda _: keeper.undo("bench", number))
    assert sum(isinstance(one, Overtaken) for one in told) == HANDS - 1
    assert (home / "bench.yaml").read_text() == "piece: 1\n"


def test_looking_and_writing_at_once_sees_no_change_from_outside(keeper, home):
    def act(number: int):
        if number % 2:
            return keeper.noticed()
        name = f"new-{number}.yaml"
        return keeper.write("all", name, {name: (None, f"piece: {number}\n")})

    told = at_once(act)
    assert [one for one in told if isinstance(one, tuple) and one] == []
    assert keeper.noticed() == ()
    assert len(keeper.history("all").done) == HANDS // 2
