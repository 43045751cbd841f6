"""What stands round the piece and what it must bear: holds, loads, room, finish, hardware."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Place
from scantling.piece.model.boxes import Box, Face, Vec3
from scantling.piece.model.parts import PartName


@dataclass(frozen=True, slots=True)
class Hardware:
    """A named fitting. One entry for each pair it joins (a pair of slides is two).

    `name` is the maker's name for it, `kind` the words written (`butt hinge 2 1/2`), `item` the
    shop's name for the one chosen (None: nothing in the shop matched).
    `joins`: (moving or first part, carrying or second part); `to` the single part it sits on.
    `count`: pieces for this entry. `sizes`: named sizes in mm (`length`, `thick`, `clearance`).
    `at`: places said by the maker, by axis word ("wide", "deep", "high"), piece's frame. [mm]
    `rows`/`every`: for pins, as written in `holes`.
    """

    name: str
    kind: str
    count: int
    place: Place
    item: str | None = None
    joins: tuple[PartName, PartName] | None = None
    to: PartName | None = None
    under: PartName | None = None
    sizes: tuple[tuple[str, float], ...] = ()
    at: tuple[tuple[str, float], ...] = ()
    rows: tuple[float, ...] = ()
    every: float | None = None


@dataclass(frozen=True, slots=True)
class Hold:
    """A thing the piece must hold. `box` is where it stands at rest; `on` what carries it.

    `clear`: space wanted round it on every side but below. [mm]
    """

    name: str
    box: Box
    mass: float
    on: tuple[PartName, ...]
    clear: float
    place: Place


@dataclass(frozen=True, slots=True)
class Load:
    """`kind`: fill, rest, sit, stand, push. `amount`: kg, for push N; None with `contents` (`books`).

    `on`: the parts (for fill: parts that bear it, or a space's name in `spaces`).
    `face`: the face named (`edge of top`, `top of head post`); `toward`: direction of a push.
    `pose`: the pose it acts in, None at rest.
    """

    kind: str
    on: tuple[PartName, ...]
    place: Place
    amount: float | None = None
    contents: str | None = None
    spaces: tuple[str, ...] = ()
    face: Face | None = None
    edge: bool = False
    toward: Face | None = None
    pose: str | None = None


@dataclass(frozen=True, slots=True)
class Air:
    """Driest and dampest air of the year: relative humidity 0..1, temperature °C."""

    dry: float
    damp: float
    temperature: float


@dataclass(frozen=True, slots=True)
class Room:
    against: tuple[Face, ...] = ()
    wide: float | None = None
    deep: float | None = None
    ceiling: float | None = None
    passes: tuple[float, float] | None = None  # doorway clear width x height
    skirting: tuple[float, float] | None = None  # thickness x height
    studs: float | None = None
    first_stud: float | None = None
    air: Air | None = None
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Coats:
    """`over`: "all", "outside", or part names."""

    finish: str
    coats: int
    over: tuple[str, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Space:
    """A named box with nothing in it; a `split` gives `opening 1`, `opening 2` ..."""

    name: str
    box: Box
    note: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """A point worth pointing at in a picture."""

    at: Vec3
    parts: tuple[PartName, ...] = ()
