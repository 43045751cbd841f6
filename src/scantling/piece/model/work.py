"""Machining a maker asks for on a part (`work`), resolved. Part's own frame, mm, degrees."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.piece.model.boxes import Axis, Box, Face, Vec3


class EdgeKind(Enum):
    CHAMFER = "chamfer"
    ROUND_OVER = "round-over"
    BEVEL = "bevel"
    RABBET = "rabbet"


@dataclass(frozen=True, slots=True)
class Edge:
    """The edge in which two faces meet. `between` is unordered in meaning, ordered in writing."""

    first: Face
    second: Face


@dataclass(frozen=True, slots=True)
class EdgeWork:
    """A profile along edges: `size` across `face` by `drop` down the neighbouring face.

    A chamfer and a round-over have size == drop; a bevel has `angle`; a rabbet is size x drop.
    """

    kind: EdgeKind
    face: Face
    edges: tuple[Edge, ...]
    size: float
    drop: float
    angle: float = 45.0


@dataclass(frozen=True, slots=True)
class GrooveWork:
    """A groove in `face` running along `along`, from `low` to `high` across it, `deep` deep.

    `start`/`stop` limit it along its run; None runs out through the end.
    """

    face: Face
    along: Axis
    low: float
    high: float
    deep: float
    start: float | None = None
    stop: float | None = None


@dataclass(frozen=True, slots=True)
class HoleWork:
    """A round hole from `at` (on `face`) straight in; `deep` None goes through."""

    face: Face
    at: Vec3
    diameter: float
    deep: float | None = None


@dataclass(frozen=True, slots=True)
class SlotWork:
    """A round-ended slot in `face`, `long` along `along` by `wide`; `deep` None goes through."""

    face: Face
    at: Vec3
    along: Axis
    long: float
    wide: float
    deep: float | None = None


@dataclass(frozen=True, slots=True)
class NotchWork:
    """A block taken out."""

    box: Box


@dataclass(frozen=True, slots=True)
class ArchWork:
    """An arc cut into the edge `face` of a board, `rise` high over the middle, from `start` to `stop`
    along `along`.
    """

    face: Face
    along: Axis
    start: float
    stop: float
    rise: float


@dataclass(frozen=True, slots=True)
class DishWork:
    """A hollow in `face`, `deep` at the middle, leaving a flat `rim` wide."""

    face: Face
    deep: float
    rim: float


@dataclass(frozen=True, slots=True)
class BandWork:
    """A lipping of `thick` glued on `face`; the part's own core is cut smaller by it."""

    face: Face
    thick: float
    material: str


@dataclass(frozen=True, slots=True)
class PinRowsWork:
    """Rows of shelf-pin holes in `face`: `rows` are places along `across`; holes stand at `places`
    along `run`.
    """

    face: Face
    across: Axis
    rows: tuple[float, ...]
    run: Axis
    places: tuple[float, ...]
    diameter: float
    deep: float


Work = EdgeWork | GrooveWork | HoleWork | SlotWork | NotchWork | ArchWork | DishWork | BandWork | PinRowsWork
