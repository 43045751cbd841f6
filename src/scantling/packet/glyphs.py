"""Which characters the shipped print face has, and what is printed for those it lacks.

A character without a glyph would stop the setting of a tagged PDF, so it is replaced by a box that
everybody sees, control characters are dropped, and the texts concerned are named in the packet.
"""

from __future__ import annotations

import re
import struct
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from unicodedata import category, normalize

MISSING = "□"
BREAK = "\u200b"  # where a word too long for any column may be broken
_LONG_WORD = re.compile(r"\S{30,}")
# Spaces and format characters that need no glyph of their own in print.
_AS_SPACE = {"\t", "\n", "\r", "\u2028", "\u2029"}


class Legible:
    """Makes texts printable and remembers which ones had to change."""

    def __init__(self) -> None:
        self.changed: list[str] = []

    def text(self, words: str) -> str:
        """`words` with every unprintable character replaced; remembered when any was."""
        composed = normalize("NFC", words)
        shown = "".join(_printable(letter) for letter in composed)
        if MISSING in shown and MISSING not in composed and shown not in self.changed:
            self.changed.append(shown)
        return shown if shown.startswith("<svg") else _LONG_WORD.sub(_breakable, shown)

    def data(self, value: object) -> object:
        """The same for every string inside lists and dicts."""
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, list):
            return [self.data(item) for item in value]
        if isinstance(value, dict):
            return {key: self.data(item) for key, item in value.items()}
        return value


def _breakable(word: re.Match[str]) -> str:
    letters = word.group()
    return BREAK.join(letters[start : start + 8] for start in range(0, len(letters), 8))


def _printable(letter: str) -> str:
    if letter in _AS_SPACE:
        return " "
    if category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn"):
        return ""
    return letter if ord(letter) in known_characters() else MISSING


@cache
def known_characters() -> frozenset[int]:
    """Code points every one of the four shipped faces has."""
    folder = files("scantling.packet").joinpath("fonts")
    faces = [item for item in folder.iterdir() if item.name.endswith(".ttf")]
    return frozenset.intersection(*(frozenset(_code_points(face.read_bytes())) for face in faces))


def _code_points(font: bytes) -> Iterator[int]:
    """Code points with a glyph, from the `cmap` table (OpenType specification, formats 4 and 12)."""
    cmap = _table(font, b"cmap")
    count = struct.unpack_from(">H", font, cmap + 2)[0]
    for index in range(count):
        offset = cmap + struct.unpack_from(">I", font, cmap + 8 + 8 * index)[0]
        kind = struct.unpack_from(">H", font, offset)[0]
        if kind == 12:
            yield from _format_12(font, offset)
        elif kind == 4:
            yield from _format_4(font, offset)


def _table(font: bytes, tag: bytes) -> int:
    count = struct.unpack_from(">H", font, 4)[0]
    for index in range(count):
        name, _, offset, _ = struct.unpack_from(">4sIII", font, 12 + 16 * index)
        if name == tag:
            return int(offset)
    raise ValueError(f"the font has no {tag.decode()} table")


def _format_12(font: bytes, offset: int) -> Iterator[int]:
    groups = struct.unpack_from(">I", font, offset + 12)[0]
    for index in range(groups):
        first, last, _ = struct.unpack_from(">III", font, offset + 16 + 12 * index)
        yield from range(first, last + 1)


def _format_4(font: bytes, offset: int) -> Iterator[int]:
    double = struct.unpack_from(">H", font, offset + 6)[0]
    ends = struct.unpack_from(f">{double // 2}H", font, offset + 14)
    starts = struct.unpack_from(f">{double // 2}H", font, offset + 16 + double)
    for first, last in zip(starts, ends, strict=True):
        if first != 0xFFFF:
            yield from range(first, last + 1)
