"""Colours for pictures: what each wood looks like from across the room, and the words for emphasis."""

from __future__ import annotations

from scantling.geometry.drawing import Colour
from scantling.piece.model import Part

# Chosen by eye for print; common practice, no source.
TONES: dict[str, Colour] = {
    "walnut": (120, 84, 60),
    "cherry": (190, 122, 84),
    "mahogany": (160, 92, 66),
    "red oak": (204, 164, 124),
    "oak": (206, 176, 132),
    "ash": (222, 204, 170),
    "maple": (230, 208, 172),
    "birch": (228, 202, 160),
    "beech": (216, 178, 144),
    "poplar": (206, 208, 164),
    "pine": (234, 206, 150),
    "spruce": (238, 218, 172),
    "fir": (222, 180, 126),
    "cedar": (192, 126, 92),
    "plywood": (222, 196, 152),
    "fibreboard": (186, 158, 128),
    "plain": (214, 190, 156),
    "faded": (236, 233, 227),
    "new": (226, 164, 92),
    "marked": (212, 104, 72),
}


def tone_named(tone: Colour | str) -> Colour:
    """A colour by its word (`walnut`, `faded`, `new`, `marked` ...) or as given."""
    if not isinstance(tone, str):
        return tone
    if tone not in TONES:
        raise ValueError(f"there is no tone called {tone!r}; there are {', '.join(TONES)}")
    return TONES[tone]


def wood_tone(part: Part) -> Colour:
    """The colour of what a part is made of, by the first wood its material's words name."""
    words = f"{part.material.text} {part.material.species}".lower()
    return next((colour for name, colour in TONES.items() if name in words), TONES["plain"])


def shaded(colour: Colour, light: float) -> Colour:
    """A colour under `light`: 1 as it is, less is darker, more is brighter."""
    red, green, blue = (max(0, min(255, round(c * light))) for c in colour)
    return (red, green, blue)
