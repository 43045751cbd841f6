"""Files written whole: to a name beside the old one first, then put in its place."""

from __future__ import annotations

import os
import stat
import tempfile
import time
from pathlib import Path

HALF_WRITTEN = (".scantling-", ".part")
_USUAL_MODE = 0o644
_TRIES = 6


def write_whole(path: Path, content: bytes) -> Path:
    """Write `content` to `path`; whatever was there stays untouched until all bytes are on disk."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=HALF_WRITTEN[0], suffix=HALF_WRITTEN[1])
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, _mode_of(path))
        _put_in_place(name, path)
    except BaseException:
        os.unlink(name)
        raise
    return path


def _mode_of(path: Path) -> int:
    try:
        return stat.S_IMODE(path.stat().st_mode)
    except OSError:
        return _USUAL_MODE


def _put_in_place(name: str, path: Path) -> None:
    """Windows refuses while another program looks at the file, mostly for a moment only."""
    for tried in range(1, _TRIES + 1):
        try:
            os.replace(name, path)
            return
        except PermissionError:
            if os.name != "nt" or tried == _TRIES:
                raise
            time.sleep(0.05 * tried)
