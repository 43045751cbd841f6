"""Movements and poses: lids that swing, trays that slide. mm, degrees, piece's frame at rest."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Place
from scantling.piece.model.boxes import Vec3
from scantling.piece.model.parts import PartName


@dataclass(frozen=True, slots=True)
class Swing:
    """A turn about the line through `about` along unit vector `axis`, right-handed, by `angle`."""

    about: Vec3
    axis: Vec3
    angle: float


@dataclass(frozen=True, slots=True)
class Slide:
    """A straight move along unit vector `direction` by `distance`; `lifts` is one upward."""

    direction: Vec3
    distance: float


Motion = Swing | Slide


@dataclass(frozen=True, slots=True)
class Movement:
    """`moves` holds every part carried along (glued, screwed or hinged hardware side included).

    `hardware`: the name of what it runs on. `after`: movements that must be done first.
    `rides_on`: the movement that carries this one. `setting`: the setting of a kit that says how far it
    goes (`opens`), empty where none does; a use gives it on its own line, which is `place`.
    """

    name: str
    moves: frozenset[PartName]
    motion: Motion
    place: Place
    hardware: str | None = None
    after: tuple[str, ...] = ()
    rides_on: str | None = None
    setting: str = ""


@dataclass(frozen=True, slots=True)
class PoseStep:
    """How far one movement has gone: 1.0 is all the way."""

    movement: str
    fraction: float


@dataclass(frozen=True, slots=True)
class Pose:
    """A named state; movements not named are shut. `at rest` always exists with no steps."""

    name: str
    steps: tuple[PoseStep, ...]
    place: Place | None = None
