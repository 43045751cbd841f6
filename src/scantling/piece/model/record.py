"""The build record: what was measured and done while building one piece."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Place
from scantling.piece.model.boxes import Axis
from scantling.piece.model.parts import PartName


@dataclass(frozen=True, slots=True)
class Measured:
    """One part as built. `sizes` in mm by axis, between shoulders; `cut`: it can no longer change.

    `bare`: axes whose number says no unit in a record that says none; its size here is as of inches, and in a
    piece in mm `resolve` takes it in mm.
    """

    part: PartName
    sizes: tuple[tuple[Axis, float], ...]
    cut: bool
    place: Place
    bare: frozenset[Axis] = frozenset()


@dataclass(frozen=True, slots=True)
class BuildRecord:
    name: str = ""
    measured: tuple[Measured, ...] = ()


NO_RECORD = BuildRecord()
