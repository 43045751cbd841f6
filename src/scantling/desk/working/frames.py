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
    """Read one frame; raises EOFError when the other side is gone."""
    head = stream.read(LENGTH.size)
    if len(head) < LENGTH.size:
        raise EOFError
    return pickle.loads(stream.read(LENGTH.unpack(head)[0]))
