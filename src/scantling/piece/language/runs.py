"""Where each run of a scalar's characters stands when its words are not one run in the file."""

from __future__ import annotations

import yaml

_HEX_ESCAPES = {"x": 2, "u": 4, "U": 8}


def runs_of(
    text: str, start: int, end: int, event: yaml.ScalarEvent, line: int, character: int
) -> tuple[tuple[int, int, int], ...]:
    """(offset in the scalar's text, line, character) of each run, first at offset 0.

    Walks the file's characters from `start` to `end` beside the scalar's own: quotes, escapes, line
    breaks and indentation stand in the file only.
    """
    runs: list[tuple[int, int, int]] = []
    at = start + (event.style in ("'", '"'))
    offset, expected = 0, -1
    while offset < len(event.value) and at < end:
        width = _width(text, at, event)
        if width == 0:
            at += 1
            continue
        if _stands_for(text[at], event.value[offset], escaped=width > 1):
            if at != expected:
                runs.append((offset, *_line_and_character(text, start, at, line, character)))
            offset, expected = offset + 1, at + 1
        at += width
    return tuple(runs) or ((0, line, character),)


def _width(text: str, at: int, event: yaml.ScalarEvent) -> int:
    """Characters in the file that make one of the scalar; 0 for the first half of a doubled quote."""
    if event.style == '"' and text[at] == "\\":
        return 2 + _HEX_ESCAPES.get(text[at + 1 : at + 2], 0)
    return 0 if event.style == "'" and text[at : at + 2] == "''" else 1


def _stands_for(written: str, read: str, *, escaped: bool) -> bool:
    return escaped or written == read or (written in "\r\n" and read in " \n")


def _line_and_character(text: str, start: int, at: int, line: int, character: int) -> tuple[int, int]:
    between = text[start:at]
    breaks = between.count("\n") + between.count("\r") - between.count("\r\n")
    if not breaks:
        return line, character + at - start
    last = max(between.rfind("\n"), between.rfind("\r"))
    return line + breaks, at - start - last
