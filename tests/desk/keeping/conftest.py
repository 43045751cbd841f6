"""A folder with two pieces, and desks opened on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from scantling.desk.keeping import Folder, Keeper
from scantling.ledger import open_ledger

BENCH = "piece: Bench\nunits: inches\nsizes: {leg: 1 5/8}\n"


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """The folder on disk."""
    folder = tmp_path / "pieces"
    folder.mkdir()
    (folder / "bench.yaml").write_text(BENCH, encoding="utf-8")
    (folder / "stool.yaml").write_text("piece: Stool\nunits: mm\n", encoding="utf-8")
    return folder


@pytest.fixture
def open_desk(home: Path) -> Iterator[Callable[[], Keeper]]:
    """Opens a keeper on the folder; the one before is closed, as by a restart."""
    opened = []

    def close() -> None:
        for keeper, ledger in opened:
            keeper.close()
            ledger.close()
        opened.clear()

    def open_again() -> Keeper:
        close()
        ledger = open_ledger(home / ".scantling" / "ledger.sqlite3")
        opened.append((Keeper(Folder(home), ledger), ledger))
        return opened[0][0]

    yield open_again
    close()


@pytest.fixture
def keeper(open_desk) -> Keeper:
    """A keeper that has looked at the folder once."""
    opened = open_desk()
    opened.noticed()
    return opened
