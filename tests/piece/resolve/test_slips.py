"""Whatever a maker mistypes, the answer is a piece or a message with its place; never anything else."""

import random
import re
from pathlib import Path

import pytest

from scantling.errors import ReadError
from scantling.piece import read_piece_text, resolve

FOLDER = Path(__file__).parents[3] / "src" / "scantling" / "examples"
TEXTS = {
    p.name: p.read_text(encoding="utf-8") for p in sorted(FOLDER.glob("*.yaml")) if "build" not in p.name
}
WORDS = (
    "left",
    "right",
    "front",
    "back",
    "top",
    "middle",
    "inside",
    "width",
    "0",
    "1/0",
    "-3",
    "1e9",
    "8 deg",
    "4 pcs",
    "60 %",
    "thick",
    "broad",
    "every rail",
    "leg",
    "side",
    "all",
    "left and right",
    "four corners",
    "{row: up, count: 2, every: 1}",
    "{ring: 7}",
    "round",
    "opening",
    "given",
    "high",
    "notch",
    "cross lap",
    "rests",
    "mitre",
    "length of slide",
    "height of machine",
    "between left and right",
    "same as leg",
    "[]",
    "{}",
    "free",
    "least within 3 to 1",
    "top of leg at 7",
    "1 at most 0",
    "12 lb",
    "70 F",
    "lid",
    "drawer 9",
    "bay 1 shelf 2",
    "3 x 4",
    "wall",
    "floor",
    "",
)
_VALUE = re.compile(r"(?<=: )[^,{}\[\]\n#]+|(?<=[\[,] )[^,{}\[\]\n#:]+(?=[,\]])")
_ENTRY = re.compile(r"\w[\w ]*: [^,{}\[\]\n#]+, ")


def slipped(text, chance):
    """The text with one value changed or one entry left out."""
    if chance.random() < 0.3:
        found = chance.choice(list(_ENTRY.finditer(text)))
        return text[: found.start()] + text[found.end() :]
    found = chance.choice(list(_VALUE.finditer(text)))
    return text[: found.start()] + chance.choice(WORDS) + text[found.end() :]


def answer(text, name):
    """The error a text is answered with; None for a piece."""
    try:
        resolve(read_piece_text(text, name, FOLDER))
    except ReadError as error:
        return error
    return None


@pytest.mark.parametrize("seed", range(12))
def test_a_slip_is_answered_in_words(seed):
    chance = random.Random(seed)
    for _ in range(20):
        name = chance.choice(sorted(TEXTS))
        error = answer(slipped(TEXTS[name], chance), name)
        assert error is None or (error.place is not None and error.message)
