"""Slips that the punctuation of a file invites, said the way a maker can mend them."""

from __future__ import annotations

import re
from typing import Any

import yaml

from scantling.errors import Place, ReadError

_LOST = re.compile(r"[ ]+#[ ]?(?P<lost>\d[^\n\r,}\]]*)")
CLOSE_UP = "close up the minus, as in `-1/2`, or start with a face, as in `top - 1/2`"


def place_of_mark(mark: Any, file: str) -> Place:
    """A library's mark, which counts from 0, as a place."""
    return Place(file, mark.line + 1, mark.column + 1)


def index_of(mark: Any) -> int:
    """The character of the whole text where a mark stands."""
    return int(mark.index)


def empty_value(
    text: str, event: yaml.ScalarEvent, file: str, key: yaml.ScalarEvent | None = None
) -> ReadError:
    """The error for a value that is not there: lost after ` #`, split off by a comma, or forgotten."""
    at = index_of(event.start_mark)
    place = place_of_mark(event.start_mark, file)
    if lost := _LOST.match(text, at):
        kept = lost["lost"].strip()
        return ReadError(
            "nothing is said here: a space and `#` begin a comment, and the rest is lost",
            place,
            f"write {kept}",
        )
    if key is None:
        return ReadError("an item of this list says nothing", place, "write it, or take out its `-` or comma")
    if comma := _split_by_comma(text, key):
        return ReadError(comma[0], place_of_mark(key.start_mark, file), comma[1])
    return ReadError(
        f"`{key.value.strip()}` says nothing", place_of_mark(key.start_mark, file), "write its value"
    )


def _split_by_comma(text: str, key: yaml.ScalarEvent) -> tuple[str, str] | None:
    """What to say when the comma before `key` seems to belong to a number or to `min( , )`."""
    before = text[: index_of(key.start_mark)].rstrip()
    if not before.endswith(","):
        return None
    phrase = re.split(r"[{\[:]", before[-80:-1])[-1].strip()
    if "(" in phrase and ")" not in phrase:
        return (
            f"the comma ends the entry, so `{key.value.strip()}` stands alone",
            "the language has no commas: write `A at most B`, `A at least B`",
        )
    if phrase[-1:].isdigit() and key.value[:1].isdigit():
        whole = re.split(r"[ ,]", phrase)[-1]
        part = key.value.split()[0].rstrip("\"'")
        return (f"unknown key `{key.value.strip()}`: a decimal comma?", f"write {whole}.{part}")
    return None


def said_plainly(error: yaml.YAMLError, text: str, file: str) -> ReadError:
    """A reader's error in a maker's words, at the most helpful place."""
    if isinstance(error, yaml.reader.ReaderError):
        return _unreadable_character(error, text, file)
    if not isinstance(error, yaml.MarkedYAMLError) or error.problem_mark is None:
        return ReadError("the file cannot be read", Place(file, 1, 1))
    problem, mark = error.problem or "", error.problem_mark
    seen = text[mark.index : mark.index + 1]
    opened = place_of_mark(error.context_mark, file) if error.context_mark else place_of_mark(mark, file)
    for words, needs, message, remedy, at_opening in _SLIPS:
        if words in problem + " " + (error.context or "") and (not needs or seen in needs):
            stopped = place_of_mark(mark, file)
            place = opened if at_opening and (opened.line != stopped.line or not seen) else stopped
            return ReadError(message.format(seen=seen), place, remedy)
    what = f'"{seen}"' if seen.strip() else "the end of the line" if seen else "the end of the file"
    return ReadError(
        f"{what} was not expected here",
        place_of_mark(mark, file),
        "check the indentation, commas and brackets around it",
    )


def _unreadable_character(error: yaml.reader.ReaderError, text: str, file: str) -> ReadError:
    at = min(error.position, len(text))
    line = text.count("\n", 0, at) + 1
    place = Place(file, line, at - (text.rfind("\n", 0, at) + 1) + 1)
    return ReadError("a character that cannot be shown stands here", place, "take it out")


# words of the reader's problem, characters it may have stopped at, message, remedy, whether the place is
# where the thing was opened
_SLIPS: tuple[tuple[str, str, str, str, bool], ...] = (
    ("sequence entries are not allowed", "", "a minus and a space begin a list", CLOSE_UP, False),
    ("node content", "-", "a minus and a space begin a list", CLOSE_UP, False),
    (
        "mapping values are not allowed",
        "",
        "a second colon in one entry",
        "one `key: phrase` a line; check that the line is indented like its neighbours",
        False,
    ),
    (
        "expected ',' or '}'",
        "",
        "a brace is not closed, or a comma is missing",
        "each `{` wants its `}`",
        True,
    ),
    (
        "expected ',' or ']'",
        "",
        "a bracket is not closed, or a comma is missing",
        "each `[` wants its `]`",
        True,
    ),
    (
        "cannot start any token",
        "",
        '"{seen}" cannot begin a phrase',
        "begin with a word or a number, or put the words in quotes",
        False,
    ),
    ("unexpected end of stream", "", "a quote is opened and not closed", "inches are written `1 1/2`", True),
    ("unexpected document indicator", "", "a quote is opened and not closed", "", True),
    ("could not find expected ':'", "", "this line has no colon", "each entry is `key: phrase`", True),
    ("unknown escape", "", "`\\` has no meaning here", "take it out", False),
    ("escape", "", "`\\` has no meaning here", "take it out", False),
    ("expected node content", "}]", '"{seen}" closes what was not opened', "take it out", False),
    (
        "expected key",
        "}],",
        '"{seen}" closes what was not opened',
        "take it out, or check the brackets before it",
        False,
    ),
    ("expected", ":", "a key is wanted before the colon", "write `key: phrase`", False),
    ("document start", "", "this does not belong to what stands before it", "check the indentation", False),
)
