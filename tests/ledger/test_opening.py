"""Opening: new, again, from an older version; what is damaged or foreign is set aside, never lost."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from scantling.errors import ScantlingError
from scantling.ledger import LedgerTrouble, open_ledger, opening


def aside(path: Path) -> list[Path]:
    return sorted(path.parent.glob("*.aside"))


def test_a_new_ledger_makes_its_folder_and_is_found_again(path):
    ledger = open_ledger(path)
    ledger.builds.tick("bench", "mill legs")
    ledger.close()
    again = open_ledger(path)
    assert list(again.builds.ticks("bench")) == ["mill legs"]
    assert again.notice == ""
    again.close()


def test_what_is_acknowledged_is_on_disk(ledger):
    with ledger.store.reading() as connection:
        ask = connection.exec_driver_sql
        assert ask("PRAGMA journal_mode").scalar() == "wal"
        assert ask("PRAGMA synchronous").scalar() == 2  # source: exact; FULL in SQLite's list of pragmas
        assert ask("PRAGMA busy_timeout").scalar() == 5000


def test_an_empty_file_is_no_trouble(path):
    path.parent.mkdir()
    path.touch()
    ledger = open_ledger(path)
    assert (ledger.notice, aside(path)) == ("", [])
    ledger.close()


@pytest.mark.parametrize("content", [b"piece: Bench\n", b"SQLite format 3\0" + b"\xff" * 5000])
def test_what_is_no_database_is_set_aside_whole(path, content):
    path.parent.mkdir()
    path.write_bytes(content)
    ledger = open_ledger(path)
    (kept,) = aside(path)
    assert kept.read_bytes() == content
    assert kept.name in ledger.notice
    ledger.builds.tick("bench", "mill legs")
    ledger.close()


def test_a_database_of_another_program_is_set_aside(path):
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE songs (name TEXT)")
    ledger = open_ledger(path)
    (kept,) = aside(path)
    with closing(sqlite3.connect(kept)) as other:
        assert other.execute("SELECT count(*) FROM songs").fetchone() == (0,)
    assert "another program" in ledger.notice
    ledger.close()


def test_a_damaged_ledger_is_set_aside(path):
    ledger = open_ledger(path)
    for number in range(400):
        ledger.builds.note("bench", f"note {number} " * 20)
    ledger.close()
    content = bytearray(path.read_bytes())
    content[8192 : len(content) - 4096] = b"\x5a" * (len(content) - 4096 - 8192)
    path.write_bytes(content)
    again = open_ledger(path)
    (kept,) = aside(path)
    assert kept.read_bytes() == content
    assert "damaged" in again.notice
    assert again.builds.notes("bench") == {}
    again.close()


def test_a_newer_ledger_is_left_alone(path):
    ledger = open_ledger(path)
    with ledger.store.writing() as connection:
        connection.exec_driver_sql("UPDATE schema SET version = 99")
    ledger.close()
    with pytest.raises(ScantlingError, match="newer Scantling"):
        open_ledger(path)
    assert aside(path) == []


def test_an_older_ledger_takes_the_steps_it_lacks(path, monkeypatch):
    open_ledger(path).close()
    steps = (
        lambda connection: connection.exec_driver_sql("ALTER TABLE ticks ADD COLUMN who VARCHAR"),
        lambda connection: connection.exec_driver_sql("UPDATE ticks SET who = 'me'"),
    )
    monkeypatch.setattr(opening, "STEPS", steps)
    open_ledger(path).close()
    again = open_ledger(path)
    with again.store.reading() as connection:
        assert connection.exec_driver_sql("SELECT version FROM schema").scalar() == 3
        assert "who" in {row[1] for row in connection.exec_driver_sql("PRAGMA table_info(ticks)")}
    again.close()


def test_a_step_that_fails_changes_nothing(path, monkeypatch):
    open_ledger(path).close()

    def fails(connection):
        connection.exec_driver_sql("ALTER TABLE ticks ADD COLUMN who VARCHAR")
        connection.exec_driver_sql("UPDATE nowhere SET who = 'me'")

    with monkeypatch.context() as patched:
        patched.setattr(opening, "STEPS", (fails,))
        with pytest.raises(LedgerTrouble):
            open_ledger(path)
    again = open_ledger(path)
    with again.store.reading() as connection:
        assert "who" not in {row[1] for row in connection.exec_driver_sql("PRAGMA table_info(ticks)")}
    again.close()


def test_a_folder_that_cannot_be_made_is_told_plainly(tmp_path):
    (tmp_path / "file").touch()
    with pytest.raises(LedgerTrouble, match="cannot be opened"):
        open_ledger(tmp_path / "file" / "ledger.sqlite3")


def test_another_writer_is_waited_for_then_told(path, ledger, monkeypatch):
    ledger.close()
    monkeypatch.setattr("scantling.ledger.store.PATIENCE", 0.05)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(LedgerTrouble, match="another program is writing"):
            ledger.builds.tick("bench", "mill legs")
        other.execute("ROLLBACK")
    ledger.builds.tick("bench", "mill legs")
    assert list(ledger.builds.ticks("bench")) == ["mill legs"]
