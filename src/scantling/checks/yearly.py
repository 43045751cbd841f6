"""How a size of a part changes over the year, from its moisture at the bench. Wood Handbook ch. 13."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.examined import Examined, frame_axis, grain_axis, panel_of, wood_of
from scantling.piece.model import Axis, BuildKind, Part
from scantling.wood import change_across


@dataclass(frozen=True, slots=True)
class YearlyChange:
    """From the bench to the driest and to the dampest air; both count positive. [mm]"""

    shrinks: float
    swells: float

    @property
    def whole(self) -> float:
        """From driest to dampest."""
        return self.shrinks + self.swells

    def beyond(self, other: YearlyChange) -> float:
        """By how much this moves more, or less, than another, either way from the bench."""
        return max(abs(self.shrinks - other.shrinks), abs(self.swells - other.swells))


STILL = YearlyChange(0.0, 0.0)


def yearly_change(examined: Examined, part: Part, axis: Axis, size: float) -> YearlyChange:
    """How `size` of a part along an axis of the piece changes; nothing along the grain."""
    moistures = examined.moistures
    panel, wood = panel_of(part), wood_of(part)
    if panel is not None:
        to_dry, to_damp = (
            panel.expansion * size * (end - moistures.bench) for end in (moistures.dry, moistures.damp)
        )
    elif wood is None or grain_axis(part) == axis:
        return STILL
    else:
        thin = frame_axis(part, part.thickness_axis) == axis
        to_dry, to_damp = (
            change_across(wood, size, moistures.bench, end, part.rings.value, thickness=thin)
            for end in (moistures.dry, moistures.damp)
        )
    return YearlyChange(max(0.0, -to_dry), max(0.0, to_damp))


def board_width(part: Part) -> float:
    """Width that moves as one: boards laid side by side without glue move each by itself. [mm]"""
    built = part.built
    apart = built is not None and built.kind is BuildKind.STAVES and built.glue == "none"
    return part.width / max(built.least, 1) if built is not None and apart else part.width
