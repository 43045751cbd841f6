"""The lines at the top of a shop file: its name, its air, hours, fraction, money."""

from __future__ import annotations

import re
from collections.abc import Mapping

from scantling.errors import Conflict, ReadError
from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode
from scantling.piece.language.edits import end_of, ways_to_write
from scantling.shop.editing.entries import (
    entry_at,
    put,
    put_after,
    say,
    sayings,
    take_out,
    tree_of,
)
from scantling.shop.editing.tables import verified

LINES = ("shop", "units", "hours a week", "fraction", "currency", "hour rate", "likes", "note")
AIR = ("dry", "damp", "at")
HEAD_KEYS = tuple(key for key in LINES if key != "units")


def head_of(text: str) -> dict[str, str]:
    """Every line a head may have, as written; "" for those not said. Raises ReadError."""
    root = tree_of(text)
    return {key: _words(root.get(key)) for key in HEAD_KEYS}


def air_of(text: str) -> dict[str, str]:
    """The air of the shop: `dry`, `damp` and `at`, as written; "" for those not said. Raises ReadError."""
    air = tree_of(text).get("air")
    return {key: _words(air.get(key)) if isinstance(air, MappingNode) else "" for key in AIR}


def set_head(text: str, key: str, words: str, was: str) -> str:
    """`text` with that line said anew; "" takes it out. Likes are written with commas between.

    Raises Conflict if the line no longer says `was`, ReadError if the words will not do.
    """
    now, plain = head_of(text)[key], " ".join(words.split())
    if now != was:
        raise Conflict(now, was, words)
    return text if plain == now else verified(text, _said(text, key, plain), ((key,),))


def set_air(text: str, air: Mapping[str, str], was: Mapping[str, str]) -> str:
    """`text` with all three of the air said anew; all "" takes the line out.

    Raises Conflict and ReadError.
    """
    now = air_of(text)
    plain = {key: " ".join(air[key].split()) for key in AIR}
    if now != {key: was[key] for key in AIR}:
        raise Conflict(_told(now), _told(was), _told(plain))
    return text if plain == now else verified(text, _with_air(text, plain, now), (("air",),))


def _with_air(text: str, air: Mapping[str, str], now: Mapping[str, str]) -> str:
    if not any(air.values()):
        return take_out(text, ("air",))
    if not any(now.values()):
        return _with_line(text, "air", f"{{{_told(air)}}}")
    for key in AIR:
        if air[key] != now[key]:
            text = _with_entry(text, ("air", key), air[key], was=now[key])
    return text


def _with_entry(text: str, path: tuple[str, ...], words: str, *, was: str) -> str:
    if not words:
        return take_out(text, path)
    return say(text, path, words) if was else put(text, path, words)


def _told(air: Mapping[str, str]) -> str:
    return ", ".join(f"{key}: {air[key]}" for key in AIR if air[key])


def _said(text: str, key: str, words: str) -> str:
    there = key in tree_of(text)
    if not words:
        return take_out(text, (key,))
    if key == "likes":
        return _with_likes(text, words, there=there)
    if there:
        return say(text, (key,), words)
    return _first_that_says(text, key, words)


def _first_that_says(text: str, key: str, words: str) -> str:
    wanted = sayings(text)
    wanted[(key,), key] += 1
    wanted[(key,), words] += 1
    for way in ways_to_write(words, ""):
        try:
            changed = _with_line(text, key, way)
            if sayings(changed) == wanted:
                return changed
        except ReadError:
            continue
    raise ReadError(f'"{words}" cannot stand there', tree_of(text).place, "choose other words")


def _with_line(text: str, key: str, raw: str) -> str:
    """A new line after the last line of the head."""
    there = [entry.name for entry in tree_of(text) if entry.name in (*LINES, "air")]
    return put_after(text, there[-1], f"{key}: {raw}")


def _with_likes(text: str, words: str, *, there: bool) -> str:
    raw = f"[{', '.join(re.split(r' *, *', words))}]"
    if not there:
        return _with_line(text, "likes", raw)
    value = entry_at(tree_of(text), ("likes",)).value
    return f"{text[: value.raw[0]]}{raw}{text[end_of(value) :]}"


def _words(node: Node | None) -> str:
    if isinstance(node, Scalar):
        return " ".join(node.text.split())
    items = node.items if isinstance(node, SequenceNode) else ()
    return ", ".join(item.text for item in items if isinstance(item, Scalar))
