"""Killed between files: the next start finishes what was set out on, or takes it back; never half."""

from __future__ import annotations

import random
import subprocess
import sys

import pytest

from scantling.desk.keeping import Folder
from scantling.desk.keeping import keeper as keeping
from scantling.ledger import Changes

BENCH = "piece: Bench\nunits: inches\nsizes: {leg: 1 5/8}\n"
WIDER = BENCH.replace("1 5/8", "2")
STOOL = "piece: Stool\nunits: mm\n"
TEXTS = {"bench.yaml": (BENCH, WIDER), "new.yaml": (None, "piece: New\n"), "stool.yaml": (STOOL, None)}
OLD = {"bench.yaml": BENCH, "stool.yaml": STOOL}
NEW = {"bench.yaml": WIDER, "new.yaml": "piece: New\n"}


class Killed(BaseException):
    """The process is gone here."""


def held(home):
    return {path.name: path.read_text() for path in sorted(home.glob("*.yaml"))}


def kill_at(monkeypatch, moment: int) -> None:
    """Nothing runs from the given step on: 0 sets out, 1 to 3 write a file each, 4 finishes."""
    passed = []

    def until_then(act):
        def acts(*given, **named):
            passed.append(act)
            if len(passed) > moment:
                raise Killed
            return act(*given, **named)

        return acts

    monkeypatch.setattr(keeping, "put", until_then(keeping.put))
    for name in ("begin", "set_out", "finish"):
        monkeypatch.setattr(Changes, name, until_then(getattr(Changes, name)))


@pytest.mark.parametrize("moment", range(6))
def test_a_change_is_made_whole_or_not_at_all(keeper, home, open_desk, monkeypatch, moment):
    with monkeypatch.context() as patched:
        kill_at(patched, moment)
        if moment < 5:
            with pytest.raises(Killed):
                keeper.write("bench", "all three", TEXTS)
        else:
            keeper.write("bench", "all three", TEXTS)
    again = open_desk()
    begun = moment > 1  # a file was written
    assert held(home) == (NEW if begun else OLD)
    assert again.history("bench").undo_words == ("Undo: all three" if begun else "")
    assert (again.notices, again.noticed(), again.noticed()) == ((), (), ())
    if begun:
        again.undo("bench")
    assert held(home) == OLD


@pytest.mark.parametrize("moment", range(6))
def test_a_step_back_is_made_whole_or_not_at_all(keeper, home, open_desk, monkeypatch, moment):
    keeper.write("bench", "all three", TEXTS)
    with monkeypatch.context() as patched:
        kill_at(patched, moment)
        if moment < 5:
            with pytest.raises(Killed):
                keeper.undo("bench")
        else:
            keeper.undo("bench")
    again = open_desk()
    begun = moment > 1
    assert held(home) == (OLD if begun else NEW)
    assert again.noticed() == ()
    again.redo("bench") if begun else again.undo("bench")
    assert held(home) == (NEW if begun else OLD)


def test_what_was_changed_meanwhile_is_left_and_the_rest_taken_back(keeper, home, open_desk, monkeypatch):
    with monkeypatch.context() as patched:
        kill_at(patched, 2)
        with pytest.raises(Killed):
            keeper.write("bench", "all three", TEXTS)
    (home / "stool.yaml").write_text("piece: Changed\n")
    again = open_desk()
    assert held(home) == {"bench.yaml": BENCH, "stool.yaml": "piece: Changed\n"}
    assert again.history("bench").done == ()
    assert "all three" in again.notices[0]
    assert again.noticed() == ("stool.yaml",)


def test_a_half_written_file_is_cleared_away(keeper, home, open_desk):
    (home / ".scantling-abc.part").write_text("piece: Ha")
    (home / ".bench.yaml.swp").write_text("an editor's own")
    open_desk()
    assert not (home / ".scantling-abc.part").exists()
    assert (home / ".bench.yaml.swp").exists()


WRITES = """
import sys
from itertools import count
from pathlib import Path
from scantling.desk.keeping import Folder, Keeper
from scantling.ledger import open_ledger

home = Path(sys.argv[1])
keeper = Keeper(Folder(home), open_ledger(home / ".scantling" / "ledger.sqlite3"))
keeper.noticed()
print("open", flush=True)
for number in count(int(sys.argv[2])):
    texts = {}
    for file in ("left.yaml", "right.yaml"):
        now = keeper.folder.text(file).text if keeper.folder.has(file) else None
        texts[file] = (now, f"piece: Number {number}\\n")
    keeper.write("left", f"change {number}", texts)
    print(number, flush=True)
"""


def killed_after(home, start: int, lines: int) -> int:
    words = [sys.executable, "-c", WRITES, str(home), str(start)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout.readline() == "open\n"
        said = [int(writer.stdout.readline()) for _ in range(lines)]
        writer.kill()
        said += [int(line) for line in writer.stdout.read().split("\n") if line]
    return said[-1]


def test_a_killed_desk_has_lost_nothing_and_leaves_both_files_alike(home, open_desk):
    chance, start = random.Random(11), 0
    for _ in range(3):
        last = killed_after(home, start, chance.randint(1, 8))
        keeper = open_desk()
        left, right = (Folder(home).text(file).text for file in ("left.yaml", "right.yaml"))
        assert left == right
        number = int(left.removeprefix("piece: Number "))
        assert number in (last, last + 1)
        words = [change.what for change in keeper.history("left").done]
        assert words == [f"change {n}" for n in range(number, -1, -1)]
        assert keeper.noticed() == ()
        keeper.close()
        start = number + 1
    keeper = open_desk()
    while keeper.undo("left"):
        pass
    assert not (home / "left.yaml").exists()
