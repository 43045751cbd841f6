"""Whether two resolved things are the same but for the last digits of their numbers."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum

_SAME = 1e-6  # mm, deg


def alike(one: object, other: object) -> bool:
    """Numbers nearer than a millionth are the same; all else has to be."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _SAME
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(alike, one, other))
    if is_dataclass(one) and type(one) is type(other) and not isinstance(one, Enum):
        return all(alike(getattr(one, f.name), getattr(other, f.name)) for f in fields(one))
    return one == other
