"""One desk a folder: a lock that the system itself lets go when the process ends, however it ends."""

from __future__ import annotations

import errno
import os
import sys
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from scantling.desk.keeping.conflicts import FolderInUse
from scantling.errors import ScantlingError

LOCK_FILE = Path(".scantling", "desk.lock")
_FAR = 1 << 30  # Windows keeps others from reading what is locked, so a byte past all words is
_BUSY = {errno.EACCES, errno.EAGAIN, errno.EDEADLK}


@dataclass
class FolderLock:
    """The folder is this process's until `release`, or until the process ends."""

    handle: int

    @staticmethod
    def on(folder: Path) -> FolderLock:
        """Take the folder. Raises FolderInUse where another desk has it, ScantlingError where it may
        not be written in.
        """
        handle = _opened(folder / LOCK_FILE)
        if not _taken(handle):
            since = os.read(handle, 100).decode("utf-8", "replace").strip()
            os.close(handle)
            raise FolderInUse(
                f"another desk is open on this folder{f', {since}' if since else ''}; use that one, or end it"
            )
        os.ftruncate(handle, 0)
        os.write(handle, f"since {datetime.now():%d %B, %H:%M} (process {os.getpid()})\n".encode())
        return FolderLock(handle)

    def release(self) -> None:
        """Leave the folder to others."""
        if self.handle >= 0:
            os.close(self.handle)
            self.handle = -1


def _opened(path: Path) -> int:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        return os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    except OSError as error:
        reason = error.strerror or error
        raise ScantlingError(f"the desk cannot keep its own files in this folder: {reason}") from None


def _taken(handle: int) -> bool:
    """Lock, or say that another has. A shared drive that knows no locks is used without."""
    try:
        _lock(handle)
    except OSError as error:
        return error.errno not in _BUSY
    return True


if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        os.lseek(handle, 0, os.SEEK_SET)
else:
    import fcntl

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
