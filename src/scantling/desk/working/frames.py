"""Frames between two processes: the length in four bytes, then a pickle."""

from __future__ import annotations

import pickle
import struct
from typing import IO, Any

LENGTH = struct.Struct("<I")


def put(stream: IO[bytes], what: Any) -> None:
    """Write one frame."""
    frame = pickle.dumps(what, pickle.HIGHEST_PROTOCOL)
    stream.write(LENGTH.pack(len(frame)) + frame)
    stream.flush()


def taken(stream: IO[bytes]) -> Any:
    """Read one frame; raises EOFError when the other side is gone, or goes in the middle of it."""
    (length,) = LENGTH.unpack(_whole(stream, LENGTH.size))
    return pickle.loads(_whole(stream, length))


def _whole(stream: IO[bytes], count: int) -> bytes:
    found = stream.read(count)
    if len(found) < count:
        raise EOFError
    return found
