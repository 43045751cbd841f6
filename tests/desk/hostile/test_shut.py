"""A full disk and a ledger that is shut: told on the page, files as they were, pages still shown."""

from __future__ import annotations

import contextlib
import errno
import os
import sqlite3
from collections.abc import Iterator
from typing import Any

import pytest
from tests.desk.hostile.bench import STOOL, Bench, bench, kept_wrong

from scantling.desk.keeping import disk, removing
from scantling.ledger import store

WRITES: dict[str, dict[str, str]] = {
    "/piece/stand/act": {"do": "words", "path": '["sizes", "inset"]', "was": "1", "words": "2", "field": "f"},
    "/piece/stand/text": {"was": STOOL, "text": f"{STOOL}# more\n"},
    "/piece/stand/wood/wish": {"act": "leave", "board": "W1"},
    "/rack/head": {"key": "shop", "was": "A shed", "words": "A barn"},
    "/rack/boards/photo": {
        "stack": "walnut, 4/4 rough, moisture 7 %",
        "length": "20",
        "width": "5",
        "thickness": "1",
        "board": "W9",
    },
    "/pieces": {"name": "New one", "start": "like:wall-shelf"},
    "/pieces/stand/away": {},
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("shut") / "pieces"
    folder.mkdir()
    with bench(folder) as opened:
        opened.desk.keeper.noticed()
        yield opened


def full_disk(patch: pytest.MonkeyPatch) -> None:
    def write_whole(path: Any, content: bytes) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    patch.setattr(disk, "write_whole", write_whole)
    patch.setattr(removing, "write_whole", write_whole)


def shut_ledger(patch: pytest.MonkeyPatch) -> None:
    @contextlib.contextmanager
    def writing(self: store.Store) -> Iterator[None]:
        with store.told_plainly():
            raise sqlite3.OperationalError("attempt to write a readonly database")
        yield

    patch.setattr(store.Store, "writing", writing)


@pytest.mark.parametrize("shut", [full_disk, shut_ledger])
@pytest.mark.parametrize("address", WRITES)
def test_what_cannot_be_written_is_told(
    desk: Bench, monkeypatch: pytest.MonkeyPatch, address: str, shut: Any
) -> None:
    with monkeypatch.context() as patch:
        shut(patch)
        answer = desk.client.post(address, data=WRITES[address])
        assert desk.client.get("/").status_code == desk.client.get("/piece/stand").status_code == 200
    assert answer.status_code == 422
    assert "No space left" in answer.text or "may only be read" in answer.text
    assert not [place for place in desk.secrets() if place in answer.text]
    assert desk.files == desk.originals
    assert kept_wrong(desk) == []
