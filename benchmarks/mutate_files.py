"""Spoil piece files in small ways and see that every one is answered: a document, or an error with its place.

    python benchmarks/mutate_files.py [how many] [seed]

Reads each (and resolves it), reports the answers by kind, the slowest, and every answer that should not be.
"""

from __future__ import annotations

import random
import re
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from scantling.errors import ReadError, ScantlingError

EXAMPLES = Path(__file__).parents[1] / "src" / "scantling" / "examples"
SLOWEST = 5.0  # seconds one file may take

SCRAPS = [
    *(" #8 x 1 1/4", "{", "}", "[", "]", ",", ": ", "- 1/2", "- ", "min(2, 3)", "max(", "=", "==", '"', "'"),
    *(
        "\t",
        "&a ",
        "*a",
        "!!int ",
        "<<: *a",
        "---\n",
        "...\n",
        "? ",
        "| ",
        "> ",
        "%",
        "@",
        "`",
        "\\",
        "é½",
        "\u2028",
    ),
    *(
        "1/0",
        "9" * 30,
        "3,5",
        "1.2.3",
        "8-9/4",
        "1 1/2 1/2",
        "3' 2' 1'",
        "((((",
        "))))",
        "( " * 60,
        "- " * 60,
    ),
    *(
        " of ",
        " to ",
        " from ",
        " at ",
        " when ",
        " otherwise ",
        " is not ",
        " x ",
        " within ",
        " centred on ",
        " least ",
    ),
    *("top of top of top", "tan(90 deg)", "sqrt(-1)", "width when width > 1 otherwise width", "rounded to 0"),
    *(
        "{row: up, count: 1000000000}",
        "{ring: 0}",
        "four corners",
        "~",
        "null",
        "no",
        "0",
        "-1",
        "1e9",
        "1e-9",
    ),
    *("[" * 40, "{a: " * 40, "a" * 6000, "\x00", "\x07", "\r", "\r\n", "\ufeff", "𝔘", "٣", "ﬁ", "x" * 300),
]

JOINTS = [" - ", " + ", " to ", " * ", " / ", " at least ", " at most ", " rounded to ", " or ", " from "]


@dataclass(frozen=True)
class Spoiled:
    """A file's text after some mutations."""

    name: str
    text: str
    number: int


def spoiled_files(count: int, seed: int) -> Iterator[Spoiled]:
    """`count` spoiled copies of the example pieces; the same for the same seed."""
    chance = random.Random(seed)
    paths = [path for path in sorted(EXAMPLES.glob("*.yaml")) if ".build" not in path.name]
    texts = {
        path.name: path.read_text(encoding="utf-8") for path in paths if "piece:" in path.read_text("utf-8")
    }
    for number in range(count):
        name = chance.choice(sorted(texts))
        text = texts[name]
        for _ in range(chance.choice((1, 1, 1, 2, 3, 8))):
            text = chance.choice(WAYS)(text, chance, texts)
        yield Spoiled(name, text, number)


Way = Callable[[str, random.Random, dict[str, str]], str]


def _cut(text: str, chance: random.Random, _: dict[str, str]) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + text[at + chance.choice((1, 1, 2, 5, 20)) :]


def _put(text: str, chance: random.Random, _: dict[str, str]) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(SCRAPS) + text[at:]


def _swap_words(text: str, chance: random.Random, _: dict[str, str]) -> str:
    words = text.split(" ")
    first, second = chance.randrange(len(words)), chance.randrange(len(words))
    words[first], words[second] = words[second], words[first]
    return " ".join(words)


def _borrow(text: str, chance: random.Random, texts: dict[str, str]) -> str:
    lender = chance.choice(sorted(texts.values())).split(" ")
    words = text.split(" ")
    words[chance.randrange(len(words))] = chance.choice(lender)
    return " ".join(words)


def _new_number(text: str, chance: random.Random, _: dict[str, str]) -> str:
    spots = [at for at, character in enumerate(text) if character.isdigit()]
    if not spots:
        return text
    at = chance.choice(spots)
    return (
        text[:at]
        + chance.choice(("0", "99", "7/8", "-3", "1 1/2", "8 deg", "60 %", "4 pcs", "1/64"))
        + text[at + 1 :]
    )


def _lose_line(text: str, chance: random.Random, _: dict[str, str]) -> str:
    lines = text.splitlines(keepends=True)
    if lines:
        lines.pop(chance.randrange(len(lines)))
    return "".join(lines)


def _repeat_line(text: str, chance: random.Random, _: dict[str, str]) -> str:
    lines = text.splitlines(keepends=True) or [""]
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    return "".join(lines)


def _shift_line(text: str, chance: random.Random, _: dict[str, str]) -> str:
    lines = text.splitlines(keepends=True) or [""]
    at = chance.randrange(len(lines))
    lines[at] = chance.choice((" " + lines[at], "  " + lines[at], lines[at].lstrip(" "), lines[at].strip()))
    return "".join(lines)


_PHRASE = re.compile(r"(?<=: )[^,{}\[\]#\n]+")
_WORD = re.compile(r"[a-z]+")


def _borrow_phrase(text: str, chance: random.Random, texts: dict[str, str]) -> str:
    """Another entry's phrase in the place of one: the file can still be read, its meaning is spoiled."""
    own, others = _PHRASE.findall(text), _PHRASE.findall(chance.choice(sorted(texts.values())))
    spots = list(_PHRASE.finditer(text))
    if not spots:
        return text
    spot = chance.choice(spots)
    return text[: spot.start()] + chance.choice(own + others) + text[spot.end() :]


def _borrow_term(text: str, chance: random.Random, _: dict[str, str]) -> str:
    """A phrase with another's words after it."""
    spots = list(_PHRASE.finditer(text))
    if not spots:
        return text
    spot, other = chance.choice(spots), chance.choice(spots)
    return text[: spot.end()] + chance.choice(JOINTS) + other[0] + text[spot.end() :]


def _rename(text: str, chance: random.Random, _: dict[str, str]) -> str:
    """One word for another, in every place or in one."""
    words = _WORD.findall(text)
    if not words:
        return text
    old, new = chance.choice(words), chance.choice(words)
    return re.sub(rf"\b{old}\b", new, text, count=chance.choice((0, 1)))


WAYS: list[Way] = [
    *(_borrow_phrase, _borrow_phrase, _borrow_phrase, _borrow_term, _borrow_term, _rename, _rename),
    *(_cut, _put, _put, _swap_words, _borrow, _new_number, _new_number),
    *(_lose_line, _repeat_line, _shift_line),
]


@dataclass(frozen=True)
class Answer:
    """What came of one spoiled file; `wrong` says what should not have been."""

    kind: str
    seconds: float
    wrong: str = ""


def answer_of(spoiled: Spoiled, *, resolving: bool) -> Answer:
    """Read (and resolve) one spoiled file."""
    start = time.perf_counter()
    try:
        kind, wrong = _worked_out(spoiled, resolving=resolving), ""
    except ReadError as error:
        kind = type(error).__name__
        wrong = "" if error.place and error.place.line > 0 < error.place.character else f"no place: {error}"
    except ScantlingError as error:
        kind, wrong = type(error).__name__, ""
    except Exception as error:
        kind, wrong = f"!{type(error).__name__}", "".join(traceback.format_exception(error)[-4:])
    seconds = time.perf_counter() - start
    return Answer(kind, seconds, wrong or ("" if seconds < SLOWEST else f"took {seconds:.1f} s"))


def _worked_out(spoiled: Spoiled, *, resolving: bool) -> str:
    from scantling.piece.language import read_piece_text

    document = read_piece_text(spoiled.text, spoiled.name, EXAMPLES)
    if resolving:
        from scantling.piece import resolve

        resolve(document)
        return "piece"
    return "document"


def _can_resolve() -> bool:
    try:
        from scantling.piece import resolve
    except ImportError:
        return False
    return callable(resolve)


def main() -> int:
    """Run, report, and return 1 if any answer was wrong."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    resolving = _can_resolve()
    kinds: Counter[str] = Counter()
    slowest, wrong = 0.0, 0
    for spoiled in spoiled_files(count, seed):
        answer = answer_of(spoiled, resolving=resolving)
        kinds[answer.kind] += 1
        slowest = max(slowest, answer.seconds)
        if answer.wrong:
            wrong += 1
            print(f"{spoiled.name}, number {spoiled.number}: {answer.wrong}")
    how = "read and resolved" if resolving else "read"
    print(f"{count} spoiled files {how} (seed {seed}): {dict(kinds.most_common())}")
    print(f"slowest {slowest:.3f} s; wrong answers {wrong}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
