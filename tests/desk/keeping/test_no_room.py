"""A full disk, a ledger that is shut, links that lead astray: told, and nothing is lost or left half."""

from __future__ import annotations

import errno
import os

import pytest

from scantling.desk.keeping import disk
from scantling.desk.keeping.folder import Folder
from scantling.errors import ScantlingError
from scantling.ledger import Changes, LedgerTrouble

BOTH = {"bench.yaml": ("B", "b"), "stool.yaml": ("S", "s")}


@pytest.fixture
def writes(home):
    (home / "bench.yaml").write_text("B")
    (home / "stool.yaml").write_text("S")


def held(home):
    return {path.name: path.read_text() for path in sorted(home.glob("*.yaml"))}


def full_from(monkeypatch, first: int, until: int = 1000) -> None:
    """The disk takes no file from the given one on."""
    tried = []

    def write_whole(path, content):
        tried.append(path)
        if first <= len(tried) < until:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        return whole(path, content)

    whole = disk.write_whole
    monkeypatch.setattr(disk, "write_whole", write_whole)


@pytest.mark.parametrize(("first", "until"), [(1, 1000), (1, 2), (2, 3)])
def test_a_full_disk_is_told_and_nothing_is_changed(
    writes, keeper, home, open_desk, monkeypatch, first, until
):
    before = held(home)
    with monkeypatch.context() as patched:
        full_from(patched, first, until)
        with pytest.raises(
            ScantlingError, match=r'"(bench|stool)\.yaml" could not be written: No space'
        ) as told:
            keeper.write("bench", "both", BOTH)
    assert str(home) not in str(told.value)
    assert held(home) == before
    assert keeper.history("bench").done == ()
    again = open_desk()
    assert (held(home), again.notices, again.noticed()) == (before, (), ())
    assert again.write("bench", "both", BOTH) is not None


def test_what_could_not_be_taken_back_then_is_settled_at_the_next_start(
    writes, keeper, home, open_desk, monkeypatch
):
    with monkeypatch.context() as patched:
        full_from(patched, 2)
        with pytest.raises(ScantlingError, match="No space"):
            keeper.write("bench", "both", BOTH)
    assert sorted(held(home).values()) in (["S", "b"], ["B", "s"])
    again = open_desk()
    assert held(home) == {"bench.yaml": "b", "stool.yaml": "s"}
    again.undo("bench")
    assert held(home) == {"bench.yaml": "B", "stool.yaml": "S"}


@pytest.mark.parametrize("act", ["undo", "redo"])
def test_a_step_on_a_full_disk_can_be_taken_later(writes, keeper, home, monkeypatch, act):
    keeper.write("bench", "both", BOTH)
    if act == "redo":
        keeper.undo("bench")
    before = held(home)
    with monkeypatch.context() as patched:
        full_from(patched, 1)
        with pytest.raises(ScantlingError, match="No space"):
            getattr(keeper, act)("bench")
    assert held(home) == before
    assert getattr(keeper, act)("bench") is not None
    assert held(home) != before


@pytest.mark.parametrize("shut", ["begin", "finish"])
def test_a_ledger_that_is_shut_writes_no_file(writes, keeper, home, open_desk, monkeypatch, shut):
    def no(*_):
        raise LedgerTrouble("the desk's ledger could not be used: the disk is full")

    before = held(home)
    with monkeypatch.context() as patched:
        patched.setattr(Changes, shut, no)
        patched.setattr(Changes, "give_up", no)
        with pytest.raises(LedgerTrouble):
            keeper.write("bench", "both", BOTH)
    assert held(home) == before
    again = open_desk()
    assert (held(home), again.noticed(), again.history("bench").done) == (before, (), ())


def test_an_inner_folder_nobody_may_look_into_hides_nothing_else(home, monkeypatch):
    (home / "lost+found").mkdir()
    listdir = os.listdir

    def shut(path):
        if str(path).endswith("lost+found"):
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return listdir(path)

    monkeypatch.setattr(os, "listdir", shut)
    folder = Folder(home)
    first = folder.stamp()
    (home / "stool.yaml").write_text("piece: Other\n")
    assert folder.stamp() != first


def test_links_lead_nowhere_hidden_or_outside(keeper, home, tmp_path):
    (tmp_path / "secret.yaml").write_text("piece: Secret\n")
    (home / ".secret.yaml").write_text("piece: Secret\n")
    (home / ".env").write_text("word: secret\n")
    for name, target in (("a", tmp_path / "secret.yaml"), ("b", home / ".secret.yaml"), ("c", home / ".env")):
        (home / f"{name}.yaml").symlink_to(target)
    (home / "d.yaml").symlink_to(home / "bench.yaml")
    assert [keeper.folder.has(f"{name}.yaml") for name in "abcd"] == [False, False, False, True]
    with pytest.raises(ScantlingError):
        keeper.write("a", "x", {"a.yaml": (None, "mine")})
    assert (tmp_path / "secret.yaml").read_text() == "piece: Secret\n"
