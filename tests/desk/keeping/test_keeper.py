"""Writing, and every step back: nothing is overwritten unseen, and nothing half written."""

from __future__ import annotations

import os
from threading import Thread

import pytest

from scantling.desk.keeping import FileConflict, Overtaken, disk
from scantling.errors import Conflict, ReadError, ScantlingError

BENCH = "piece: Bench\nunits: inches\nsizes: {leg: 1 5/8}\n"
WIDER = BENCH.replace("1 5/8", "2")
WIDEST = BENCH.replace("1 5/8", "2 1/2")


def bench(home):
    return (home / "bench.yaml").read_text(encoding="utf-8")


def widen(keeper, before=BENCH, after=WIDER, what="leg 1 5/8 → 2"):
    return keeper.write("bench", what, {"bench.yaml": (before, after)})


def test_a_change_is_written_and_named_on_the_button(keeper, home):
    change = widen(keeper)
    assert bench(home) == WIDER
    assert (change.scope, change.files, change.outside) == ("bench", ("bench.yaml",), False)
    history = keeper.history("bench")
    assert (history.undo_words, history.redo_words) == ("Undo: leg 1 5/8 → 2", "")
    assert keeper.history("stool").undo_words == ""


def test_undo_and_redo_go_to_the_ends_and_stay_there(keeper, home):
    widen(keeper)
    widen(keeper, WIDER, WIDEST, "leg 2 → 2 1/2")
    assert [keeper.undo("bench").what, keeper.undo("bench").what] == ["leg 2 → 2 1/2", "leg 1 5/8 → 2"]
    assert (keeper.undo("bench"), bench(home)) == (None, BENCH)
    assert keeper.history("bench").redo_words == "Redo: leg 1 5/8 → 2"
    assert [keeper.redo("bench").what, keeper.redo("bench").what] == ["leg 1 5/8 → 2", "leg 2 → 2 1/2"]
    assert (keeper.redo("bench"), bench(home)) == (None, WIDEST)


def test_steps_outlast_a_restart(keeper, home, open_desk):
    widen(keeper)
    widen(keeper, WIDER, WIDEST, "leg 2 → 2 1/2")
    keeper.undo("bench")
    again = open_desk()
    assert again.noticed() == ()
    assert again.history("bench").redo_words == "Redo: leg 2 → 2 1/2"
    again.undo("bench")
    assert bench(home) == BENCH


def test_a_new_change_puts_the_old_branch_out_of_reach(keeper, home):
    widen(keeper)
    keeper.undo("bench")
    widen(keeper, BENCH, WIDEST, "leg 1 5/8 → 2 1/2")
    assert keeper.redo("bench") is None
    keeper.undo("bench")
    assert bench(home) == BENCH


def test_a_file_that_says_something_else_is_not_overwritten(keeper, home):
    (home / "bench.yaml").write_text(WIDEST, encoding="utf-8")
    with pytest.raises(FileConflict) as caught:
        widen(keeper)
    assert isinstance(caught.value, Conflict)
    conflict = caught.value
    assert (conflict.now, conflict.was, conflict.wanted) == (WIDEST, BENCH, WIDER)
    assert conflict.file == "bench.yaml"
    assert bench(home) == WIDEST
    assert "leg 1 5/8 → 2" not in [change.what for change in keeper.history("bench").done]


def test_of_several_files_none_is_written_if_one_says_something_else(keeper, home):
    with pytest.raises(FileConflict, match=r"stool\.yaml"):
        keeper.write("bench", "both", {"bench.yaml": (BENCH, WIDER), "stool.yaml": ("old", "new")})
    assert bench(home) == BENCH


@pytest.mark.parametrize(("before", "gone"), [(None, False), ("was here", True)])
def test_there_or_not_there_counts(keeper, home, before, gone):
    name = "new.yaml" if gone else "bench.yaml"
    with pytest.raises(FileConflict) as caught:
        keeper.write("bench", "new", {name: (before, "piece: New\n")})
    assert caught.value.gone is gone
    assert (bench(home), (home / "new.yaml").exists()) == (BENCH, False)


def test_the_same_change_sent_twice_is_one_step(keeper):
    assert widen(keeper) is not None
    assert widen(keeper) is None
    assert widen(keeper, WIDER, WIDER) is None
    assert len(keeper.history("bench").done) == 1


def test_files_made_and_taken_out_come_and_go(keeper, home):
    texts = {"new.yaml": (None, "piece: New\n"), "bench.yaml": (BENCH, None)}
    keeper.write("bench", "moved", texts)
    assert ((home / "new.yaml").exists(), (home / "bench.yaml").exists()) == (True, False)
    keeper.undo("bench")
    assert ((home / "new.yaml").exists(), bench(home)) == (False, BENCH)
    keeper.redo("bench")
    assert ((home / "new.yaml").exists(), (home / "bench.yaml").exists()) == (True, False)


def test_every_byte_that_was_not_changed_stays(keeper, home):
    (home / "bench.yaml").write_bytes(b"\xef\xbb\xbfpiece: Bench\r\nunits: mm\r\n")
    text = keeper.folder.text("bench.yaml").text
    keeper.write("bench", "in inches", {"bench.yaml": (text, text.replace("mm", "inches"))})
    assert (home / "bench.yaml").read_bytes() == b"\xef\xbb\xbfpiece: Bench\r\nunits: inches\r\n"
    keeper.undo("bench")
    assert (home / "bench.yaml").read_bytes() == b"\xef\xbb\xbfpiece: Bench\r\nunits: mm\r\n"


@pytest.mark.skipif(os.name == "nt", reason="modes are of another kind there")
def test_a_file_keeps_its_mode(keeper, home):
    (home / "bench.yaml").chmod(0o600)
    widen(keeper)
    assert (home / "bench.yaml").stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    "name", ["../out.yaml", "/out.yaml", ".hidden.yaml", "con.yaml", "a\nb.yaml", "x.txt", ""]
)
def test_no_name_leads_out_of_the_folder(keeper, home, name):
    before = sorted(home.parent.rglob("*.yaml"))
    with pytest.raises(ReadError, match="cannot be called"):
        keeper.write("bench", "out", {name: (None, "piece: Out\n")})
    assert sorted(home.parent.rglob("*.yaml")) == before


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_that_leads_out_is_not_written_through(keeper, home):
    outside = home.parent / "outside.yaml"
    outside.write_text("piece: Outside\n")
    (home / "link.yaml").symlink_to(outside)
    for before in (None, "piece: Outside\n"):
        with pytest.raises(ReadError, match="no file the desk may write"):
            keeper.write("bench", "out", {"link.yaml": (before, "piece: Mine\n")})
    assert outside.read_text() == "piece: Outside\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (BENCH + "# \ud800\n", r"bench\.yaml:4:3: half a character"),
        ("\ufeff" + BENCH, r"bench\.yaml:1:1: a character that cannot be seen"),
        ("#" * 4_000_001, "too long"),
    ],
)
def test_a_text_that_would_not_be_read_again_is_refused(keeper, home, text, said):
    with pytest.raises(ReadError, match=said):
        widen(keeper, BENCH, text)
    assert (bench(home), keeper.history("bench").done) == (BENCH, ())


@pytest.mark.parametrize("at", [1, 2])
def test_a_full_disk_leaves_every_file_as_it_was(keeper, home, monkeypatch, at):
    writes = []

    def fails(path, content):
        writes.append(path)
        if len(writes) == at:
            raise OSError(28, "No space left on device")
        return whole(path, content)

    whole = disk.write_whole
    monkeypatch.setattr(disk, "write_whole", fails)
    texts = {"bench.yaml": (BENCH, WIDER), "new.yaml": (None, "piece: New\n")}
    with pytest.raises(ScantlingError, match="No space left"):
        keeper.write("bench", "both", texts)
    assert (bench(home), (home / "new.yaml").exists()) == (BENCH, False)
    assert (keeper.history("bench").done, keeper.noticed()) == ((), ())
    monkeypatch.setattr(disk, "write_whole", whole)
    keeper.write("bench", "both", texts)
    assert bench(home) == WIDER


def test_undo_stops_at_a_file_that_was_changed_outside(keeper, home):
    widen(keeper)
    (home / "bench.yaml").write_text(WIDEST, encoding="utf-8")
    with pytest.raises(FileConflict) as caught:
        keeper.undo("bench")
    assert (caught.value.now, caught.value.was, caught.value.wanted) == (WIDEST, WIDER, BENCH)
    assert bench(home) == WIDEST


def test_undo_steps_back_over_an_outside_change_it_names(keeper, home):
    widen(keeper)
    (home / "bench.yaml").write_text(WIDEST, encoding="utf-8")
    assert keeper.noticed() == ("bench.yaml",)
    assert keeper.history("bench").undo_words == "Undo: bench.yaml changed outside the desk"
    keeper.undo("bench")
    assert bench(home) == WIDER
    keeper.undo("bench")
    assert bench(home) == BENCH
    keeper.redo("bench")
    keeper.redo("bench")
    assert bench(home) == WIDEST


def test_old_words_can_be_put_back_over_a_later_change(keeper, home):
    widen(keeper)
    (home / "bench.yaml").write_text(WIDEST, encoding="utf-8")
    keeper.undo("bench", anyway=True)
    assert bench(home) == BENCH
    keeper.undo("bench")
    assert bench(home) == WIDEST
    keeper.undo("bench")
    assert (bench(home), keeper.undo("bench")) == (WIDER, None)


def test_a_step_in_the_way_can_be_passed_over(keeper, home):
    keeper.write("stool", "note", {"stool.yaml": ("piece: Stool\nunits: mm\n", "piece: Stool\n")})
    keeper.write("stool", "leg", {"bench.yaml": (BENCH, WIDER)})
    widen(keeper, WIDER, WIDEST, "leg 2 → 2 1/2")
    with pytest.raises(FileConflict) as caught:
        keeper.undo("stool")
    assert caught.value.now == WIDEST
    keeper.pass_over("stool", keeper.history("stool").done[0].number)
    assert keeper.undo("stool").what == "note"
    assert bench(home) == WIDEST


def test_a_step_is_only_passed_over_in_its_own_scope(keeper):
    change = widen(keeper)
    keeper.pass_over("stool", change.number)
    assert keeper.history("bench").done == (change,)


def test_a_button_shown_before_another_change_undoes_nothing(keeper, home):
    shown = widen(keeper).number
    widen(keeper, WIDER, WIDEST, "leg 2 → 2 1/2")
    with pytest.raises(Overtaken):
        keeper.undo("bench", shown)
    with pytest.raises(Overtaken):
        keeper.redo("bench", shown)
    assert bench(home) == WIDEST


def test_two_tabs_at_once_write_one_after_the_other(keeper, home):
    """Each adds lines to what it just read; those refused read again. No line is lost, none twice."""

    def add(name):
        for number in range(12):
            while True:
                text = keeper.folder.text("bench.yaml").text
                try:
                    keeper.write("bench", name, {"bench.yaml": (text, f"{text}# {name} {number}\n")})
                    break
                except FileConflict:
                    continue

    threads = [Thread(target=add, args=(name,)) for name in ("left", "right")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    added = bench(home).removeprefix(BENCH).splitlines()
    assert sorted(added) == sorted(f"# {name} {n}" for name in ("left", "right") for n in range(12))
    while keeper.undo("bench"):
        pass
    assert bench(home) == BENCH


def test_history_is_cut_but_undo_is_not(keeper, home):
    text = BENCH
    for number in range(12):
        keeper.write("bench", str(number), {"bench.yaml": (text, f"{text}#\n")})
        text += "#\n"
    assert [c.what for c in keeper.history("bench", 3).done] == ["11", "10", "9"]
    for _ in range(12):
        keeper.undo("bench")
    assert bench(home) == BENCH
