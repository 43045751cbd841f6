"""Changes made outside: seen, told once, put in the journal; looking costs next to nothing."""

from __future__ import annotations

import os
import time

import pytest

from scantling.ledger import Changes, LedgerTrouble

BENCH = "piece: Bench\nunits: inches\nsizes: {leg: 1 5/8}\n"


def test_the_first_look_tells_all_and_journals_nothing(open_desk):
    keeper = open_desk()
    assert set(keeper.noticed()) == {"bench.yaml", "stool.yaml"}
    assert keeper.noticed() == ()
    assert keeper.history("bench").done == ()


def test_a_change_is_told_once(keeper, home):
    (home / "bench.yaml").write_text("piece: Other\n")
    assert keeper.noticed() == ("bench.yaml",)
    assert keeper.noticed() == ()
    (change,) = keeper.history("bench").done
    assert change.outside


def test_touching_a_file_is_no_change(keeper, home):
    os.utime(home / "bench.yaml", (1e9, 1e9))
    assert keeper.noticed() == ()
    (home / "bench.yaml").write_text(BENCH)
    assert keeper.noticed() == ()


def test_a_change_that_keeps_size_and_time_is_seen_while_the_file_is_young(keeper, home):
    """Two writings within one tick of the disk's clock leave the same time and size."""
    path = home / "bench.yaml"
    path.write_text(BENCH.replace("5/8", "3/8"))
    keeper.noticed()
    told = path.stat()
    path.write_text(BENCH.replace("5/8", "7/8"))
    os.utime(path, ns=(told.st_atime_ns, told.st_mtime_ns))
    assert keeper.noticed() == ("bench.yaml",)


def test_old_files_are_not_read_again(keeper, home, monkeypatch):
    for name in ("bench.yaml", "stool.yaml"):
        os.utime(home / name, (1e9, 1e9))
    keeper.noticed()
    reads = []
    monkeypatch.setattr(type(keeper.folder), "text", lambda _, file: reads.append(file))
    assert (keeper.noticed(), reads) == ((), [])


def test_what_changed_while_the_desk_was_closed_is_told_and_can_be_undone(keeper, home, open_desk):
    keeper.close()
    (home / "bench.yaml").write_text("piece: Other\n")
    again = open_desk()
    assert again.noticed() == ("bench.yaml",)
    again.undo("bench")
    assert (home / "bench.yaml").read_text() == BENCH


def test_a_new_file_is_told_and_no_step_would_take_it_out(keeper, home):
    (home / "new.yaml").write_text("piece: New\n")
    assert keeper.noticed() == ("new.yaml",)
    assert keeper.undo("new") is None
    assert (home / "new.yaml").exists()


def test_a_file_taken_out_is_told_at_the_second_miss_and_can_come_back(keeper, home):
    (home / "bench.yaml").unlink()
    assert keeper.noticed() == ()
    assert keeper.noticed() == ("bench.yaml",)
    assert keeper.noticed() == ()
    assert keeper.history("bench").undo_words == "Undo: bench.yaml taken out of the folder outside the desk"
    keeper.undo("bench")
    assert (home / "bench.yaml").read_text() == BENCH


def test_an_editor_that_takes_a_file_away_as_it_saves_is_forgiven(keeper, home):
    (home / "bench.yaml").unlink()
    keeper.noticed()
    (home / "bench.yaml").write_text("piece: Saved\n")
    assert keeper.noticed() == ("bench.yaml",)
    assert [change.what for change in keeper.history("bench").done] == ["bench.yaml changed outside the desk"]
    (home / "bench.yaml").unlink()
    assert keeper.noticed() == ()


def test_a_file_that_became_no_text_is_told_once_and_its_last_text_is_kept(keeper, home):
    (home / "bench.yaml").write_bytes(b"\xff\xff")
    assert keeper.noticed() == ("bench.yaml",)
    assert keeper.noticed() == ()
    (home / "bench.yaml").write_text("piece: Mended\n")
    assert keeper.noticed() == ("bench.yaml",)
    keeper.undo("bench")
    assert (home / "bench.yaml").read_text() == BENCH


def test_an_outside_change_seen_in_the_act_of_writing_is_told_too(keeper, home):
    (home / "bench.yaml").write_text("piece: Other\n")
    keeper.write("bench", "mine", {"bench.yaml": ("piece: Other\n", "piece: Mine\n")})
    assert keeper.noticed() == ("bench.yaml",)
    keeper.undo("bench")
    keeper.undo("bench")
    assert (home / "bench.yaml").read_text() == BENCH


def test_a_change_the_ledger_could_not_take_is_told_the_next_time(keeper, home, monkeypatch):
    (home / "bench.yaml").write_text("piece: Other\n")
    os.utime(home / "bench.yaml", (1e9, 1e9))

    def full(*_):
        raise LedgerTrouble("the disk is full")

    with monkeypatch.context() as patched:
        patched.setattr(Changes, "noted", full)
        with pytest.raises(LedgerTrouble):
            keeper.noticed()
    assert keeper.noticed() == ("bench.yaml",)


def test_a_record_changed_outside_is_a_step_of_its_piece(keeper, home):
    (home / "bench.build.yaml").write_text("build: Bench\n")
    keeper.noticed()
    (home / "bench.build.yaml").write_text("build: Bench\nleft leg: {wide: 2}\n")
    keeper.noticed()
    assert keeper.undo("bench").files == ("bench.build.yaml",)
    assert (home / "bench.build.yaml").read_text() == "build: Bench\n"


def test_own_changes_are_not_told(keeper):
    keeper.write("bench", "mine", {"bench.yaml": (BENCH, "piece: Mine\n")})
    keeper.undo("bench")
    assert keeper.noticed() == ()


def test_looking_at_a_hundred_files_is_cheap(keeper, home):
    """Under 2 ms; the best of many, for other work shares the machine."""
    for number in range(100):
        path = home / f"piece-{number}.yaml"
        path.write_text(f"piece: Piece {number}\n" * 20)
        os.utime(path, (1e9, 1e9))
    keeper.noticed()
    times = []
    for _ in range(30):
        start = time.perf_counter()
        assert keeper.noticed() == ()
        times.append(time.perf_counter() - start)
    assert min(times) < 0.002
