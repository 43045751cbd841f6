"""Slips that the punctuation of a file invites, said the way a maker can mend them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import yaml

from scantling.errors import Place, ReadError

_LOST = re.compile(r"[ ]+#[ ]?(?P<lost>\d[^\n\r,}\]]*)")
_GAUGE = re.compile(r"[ ]+#(?P<lost>\d[^\n\r,}\]]*)")
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


def lost_gauge(text: str, at: int, place: Place) -> ReadError | None:
    """The error for words followed by ` #8`, which begins a comment; None where they are not.

    `at` is the character after the words, `place` where that is.
    """
    lost = _GAUGE.match(text, at)
    if lost is None:
        return None
    return ReadError(
        f"a space and `#` begin a comment: #{lost['lost'].strip()} is lost",
        place.moved(lost.start("lost") - 1 - at),
        f"write {lost['lost'].strip()} without `#`; a comment has a space after its `#`",
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
    at = index_of(error.problem_mark)
    seen = text[at : at + 1]
    lost = _gauge_in_brackets(error, text, file)
    if lost is not None:
        return lost
    problem = f"{error.problem or ''} {error.context or ''}"
    slip = next(
        s for s in _SLIPS if s.words in problem and (not s.stopped_at or (seen and seen in s.stopped_at))
    )
    what = f'"{seen}"' if seen.strip() else "the end of the line" if seen else "the end of the file"
    place = _place_of_slip(error, slip, text, file)
    return ReadError(slip.message.format(seen=what), place, slip.remedy)


def _gauge_in_brackets(error: yaml.MarkedYAMLError, text: str, file: str) -> ReadError | None:
    """A `#8` inside braces takes their closing with it: the comment is the slip, not the brace."""
    problem = error.problem_mark
    opened = error.context_mark or problem
    start = text.rfind("\n", 0, index_of(problem)) + 1 if opened is problem else index_of(opened)
    lines = text[start : index_of(problem) + 1]
    found = _GAUGE.search(lines)
    if found is None:
        found = _GAUGE.search(text, max(0, text.rfind("{", 0, index_of(problem))), index_of(problem))
        start = 0
    if found is None:
        return None
    at = start + found.start("lost") - 1
    line = text.count("\n", 0, at) + 1
    place = Place(file, line, at - text.rfind("\n", 0, at))
    return ReadError(
        "a space and `#` begin a comment: what follows it in this line is lost",
        place,
        "write the number without `#`, as in `8 x 1 1/4`",
    )


def _place_of_slip(error: yaml.MarkedYAMLError, slip: _Slip, text: str, file: str) -> Place:
    """Where the reader stopped; or where the thing was opened, if that is on another line or never closed."""
    stopped = place_of_mark(error.problem_mark, file)
    at = index_of(error.problem_mark)
    if slip.at_backslash and text[at : at + 1] != "\\":
        return stopped.moved(text.rfind("\\", 0, at) - at)
    if not (slip.at_opening or slip.at_mark) or error.context_mark is None:
        return stopped
    opened = place_of_mark(error.context_mark, file)
    return opened if slip.at_mark or opened.line != stopped.line or at >= len(text) else stopped


def _unreadable_character(error: yaml.reader.ReaderError, text: str, file: str) -> ReadError:
    at = min(error.position, len(text))
    line = text.count("\n", 0, at) + 1
    place = Place(file, line, at - (text.rfind("\n", 0, at) + 1) + 1)
    return ReadError("a character that cannot be shown stands here", place, "take it out")


@dataclass(frozen=True, slots=True)
class _Slip:
    """`words` of the reader's problem, the characters it may have stopped at, and what to say then."""

    words: str
    message: str
    remedy: str = ""
    stopped_at: str = ""
    at_opening: bool = False
    at_mark: bool = False
    at_backslash: bool = False

    def fits(self, problem: str, seen: str) -> bool:
        return self.words in problem and (not self.stopped_at or (seen != "" and seen in self.stopped_at))


_QUOTE = "a quote is opened and not closed"
_INCHES = "inches are written `1 1/2`"
_ONE_A_LINE = "one `key: phrase` a line; check that the line is indented like its neighbours"
_QUOTED = "begin with a word or a number, or put the words in quotes"
_AROUND = "check the indentation, commas and brackets around it"

_SLIPS = (
    _Slip("sequence entries are not allowed", "a minus and a space begin a list", CLOSE_UP),
    _Slip("node content", "a minus and a space begin a list", CLOSE_UP, stopped_at="-"),
    _Slip("mapping values are not allowed", "a second colon in one entry", _ONE_A_LINE),
    _Slip(
        "expected ',' or '}'",
        "a brace is not closed, or a comma is missing",
        "each `{` wants its `}`",
        at_opening=True,
    ),
    _Slip(
        "expected ',' or ']'",
        "a bracket is not closed, or a comma is missing",
        "each `[` wants its `]`",
        at_opening=True,
    ),
    _Slip("cannot start any token", "{seen} cannot begin a phrase", _QUOTED),
    _Slip("unexpected end of stream", _QUOTE, _INCHES, at_opening=True),
    _Slip("unexpected document", _QUOTE, _INCHES, at_opening=True),
    _Slip(
        "could not find expected ':'",
        "this line has no colon",
        "each entry is `key: phrase`",
        at_opening=True,
    ),
    _Slip(" a tag", "`!` begins a hidden type", "write plain words", at_mark=True),
    _Slip(" an anchor", "`&` begins a hidden mark", "write the words out", at_mark=True),
    _Slip(" an alias", "`*` begins a hidden repeat", "write a formula as `2 * size`", at_mark=True),
    _Slip("escape", "`\\` has no meaning here", "take it out", at_backslash=True),
    _Slip("expected", "{seen} closes what was not opened", "take it out", stopped_at="}]"),
    _Slip("expected", "a key is wanted before the colon", "write `key: phrase`", stopped_at=":"),
    _Slip("document start", "{seen} does not belong to what stands before it", "check the indentation"),
    _Slip("", "{seen} was not expected here", _AROUND),
)
