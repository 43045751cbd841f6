"""One desk a folder, and no lock outlives its process."""

from __future__ import annotations

import subprocess
import sys

import pytest

from scantling.desk.keeping import Folder, FolderInUse, Keeper
from scantling.errors import ScantlingError
from scantling.ledger import open_ledger

HOLDS = """
import sys
from pathlib import Path
from scantling.desk.keeping.lock import FolderLock

lock = FolderLock.on(Path(sys.argv[1]))
print("held", flush=True)
sys.stdin.read()
"""


def test_a_second_desk_is_told_of_the_first(keeper, home):
    ledger = open_ledger(home / ".scantling" / "ledger.sqlite3")
    with pytest.raises(FolderInUse, match=r"another desk is open on this folder, since .*\d\d:\d\d"):
        Keeper(Folder(home), ledger)
    keeper.close()
    second = Keeper(Folder(home), ledger)
    second.close()
    second.close()
    ledger.close()


def test_the_lock_of_a_killed_desk_is_no_lock(home, open_desk):
    words = [sys.executable, "-c", HOLDS, str(home)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stdin=subprocess.PIPE, text=True) as holder:
        assert holder.stdout.readline() == "held\n"
        with pytest.raises(FolderInUse, match=f"process {holder.pid}"):
            open_desk()
        holder.kill()
        holder.wait()
        assert open_desk().noticed()


def test_a_folder_that_cannot_be_written_in_is_told(home):
    (home / ".scantling").write_text("in the way")
    ledger = open_ledger(home.parent / "ledger.sqlite3")
    with pytest.raises(ScantlingError, match="cannot keep its own files"):
        Keeper(Folder(home), ledger)
    ledger.close()
