"""What a file is and calls itself, at a glance: its head is looked for, the rest is not read as language."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from enum import StrEnum

from scantling.desk.keeping.names import RECORD_ENDING, SHOP_FILE


class Kind(StrEnum):
    """What a file is for, by the word it begins with."""

    PIECE = "piece"
    STYLE = "style"
    BUILD = "build"
    SHOP = "shop"


@dataclass(frozen=True, slots=True)
class Head:
    """`title`: as the file says it, "" where it says none; `follows`: the file it follows, or ""."""

    kind: Kind
    title: str = ""
    follows: str = ""


_SAYS = re.compile(r"""^\{?[ ]?(["']?)(piece|style|build|shop)\1[ ]*:(.*)$""", re.MULTILINE | re.IGNORECASE)
_FOLLOWS = re.compile(r"^follows[ ]*:(.*)$", re.MULTILINE | re.IGNORECASE)
_SINGLE = re.compile(r"'((?:[^']|'')*)'")
_DOUBLE = re.compile(r'"(?:[^"\\]|\\.)*"')


def head_of(file: str, text: str) -> Head:
    """The head of a file; one that says nothing counts as a piece that is yet to be mended."""
    said = _SAYS.search(text)
    follows = _FOLLOWS.search(text)
    title = _words(re.split("[,}]", said[3])[0] if said[0].startswith("{") else said[3]) if said else ""
    return Head(_kind(file, said[2] if said else ""), title, _words(follows[1]) if follows else "")


def _kind(file: str, word: str) -> Kind:
    if file.endswith(RECORD_ENDING):
        return Kind.BUILD
    if file == SHOP_FILE:
        return Kind.SHOP
    return Kind(word.lower()) if word else Kind.PIECE


def _words(written: str) -> str:
    """A scalar as a person reads it: without quotes and without the comment after it."""
    written = written.strip()
    if quoted := _DOUBLE.match(written):
        try:
            return str(json.loads(quoted[0]))
        except ValueError:
            return quoted[0][1:-1]
    if quoted := _SINGLE.match(written):
        return quoted[1].replace("''", "'")
    plain = re.split(r"(?:^|\s)#", written)[0].strip()
    return "" if plain in ("|", ">", "|-", ">-") else plain
