"""A ledger in a new folder."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from scantling.ledger import Ledger, open_ledger


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / ".scantling" / "ledger.sqlite3"


@pytest.fixture
def ledger(path: Path) -> Iterator[Ledger]:
    opened = open_ledger(path)
    yield opened
    opened.close()
