"""A first shop file: it reads at once, and says in its own lines what to put where."""

from __future__ import annotations

from scantling.errors import ReadError
from scantling.piece.language.edits import ways_to_write
from scantling.quantity import LengthUnit
from scantling.shop.editing.entries import FILE
from scantling.shop.model import MachineKind
from scantling.shop.read import read_shop_text

_USUAL = (MachineKind.DRILL, MachineKind.HAND_SAW, MachineKind.HAND_PLANE)


def new_shop_text(name: str, unit: LengthUnit) -> str:
    """A shop file with a drill, a hand saw and a hand plane in it, and an example of each line as a comment.

    Raises ReadError if `name` cannot stand in a file.
    """
    for way in ways_to_write(" ".join(name.split()), ""):
        text = _TEXT.format(name=way, unit=unit.value, **_examples(unit))
        if _reads_as(text, " ".join(name.split())):
            return text
    raise ReadError(f'"{name}" cannot be the name of a shop', None, "write a few plain words")


def _reads_as(text: str, name: str) -> bool:
    try:
        return read_shop_text(text, FILE).name == name
    except ReadError:
        return False


def _examples(unit: LengthUnit) -> dict[str, str]:
    def pick(inches: str, mm: str) -> str:
        return inches if unit is LengthUnit.INCHES else mm

    return {
        "board": pick("96 x 7 1/2 x 1 1/16, bow 3/8, cup 1/8", "2440 x 190 x 27, bow 9, cup 3"),
        "sheet": pick("birch plywood 3/4", "birch plywood 18"),
        "measured": pick("96 x 48 x 0.71, on hand 1", "2440 x 1220 x 17.6, on hand 1"),
        "kerf": pick("3/32", "2.4"),
        "opens": pick("36", "900"),
        "air": pick("at: 66 F", "at: 19 C"),
        "machines": "\n".join(f"  {kind.value}: yes" for kind in _USUAL),
    }


_TEXT = """\
# What is on your rack, what stands on your floor, what things cost.
# A line beginning with # is a note and counts for nothing.
shop: {name}
units: {unit}
# hours a week: 6
# air: {{dry: 38 %, damp: 45 %, {air}}}

# Each board: length x width x thickness as it lies there, then what string and straightedge say.
# boards:
#   walnut, 4/4 rough, moisture 7 %:
#     W1: {board}

# Each sheet: length along the grain x width x thickness with a caliper.
# sheets:
#   {sheet}:
#     P1: {measured}

# Only what is listed can be used.
machines:
{machines}
#   table saw: kerf {kerf}

# clamps:
#   bar clamp: 4, opens {opens}
"""
