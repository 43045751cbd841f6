"""Which layout rule answers for which joint method, and in what order they are laid out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scantling.joinery.bench import Bench
from scantling.joinery.bolts import bed_bolts, cross_dowel_bolts, hanger_bolts
from scantling.joinery.dovetails import dovetails, finger_joint, half_blind_dovetails, sliding_dovetail
from scantling.joinery.dowels import dowels
from scantling.joinery.housings import housing
from scantling.joinery.laps import cross_lap, notch
from scantling.joinery.made import Made
from scantling.joinery.meeting import Meeting
from scantling.joinery.mitres import mitre, splined_mitre
from scantling.joinery.plain import brackets, glue, glue_blocks, rests
from scantling.joinery.pockets import nails, pocket_screws
from scantling.joinery.round_tenons import round_tenon, round_through_tenon
from scantling.joinery.screws import screws
from scantling.joinery.slips import biscuits, loose_tenon
from scantling.joinery.slotted import slotted_screws
from scantling.joinery.tenons import bridle, tenon, through_tenon
from scantling.joinery.tops import buttons, clips, figure_eights
from scantling.piece.model import Section

Rule = Callable[[Meeting, Bench], Made]

_FIXED, _TENONS, _PINS, _SCREWS = 0, 1, 2, 3


@dataclass(frozen=True, slots=True)
class MethodRule:
    """`rank`: what cannot be moved out of the way is laid out first."""

    rule: Rule
    rank: int


def _any_through_tenon(m: Meeting, bench: Bench) -> Made:
    """Round where the stick is round (or is said to be by a single size on a leaning one)."""
    is_round = m.first.shape.section is Section.ROUND or m.first.shape.lean is not None
    return round_through_tenon(m, bench) if is_round else through_tenon(m, bench)


METHOD_RULES: dict[str, MethodRule] = {
    "tenon": MethodRule(tenon, _TENONS),
    "through tenon": MethodRule(_any_through_tenon, _TENONS),
    "round tenon": MethodRule(round_tenon, _TENONS),
    "loose tenon": MethodRule(loose_tenon, _PINS),
    "bridle": MethodRule(bridle, _TENONS),
    "dado": MethodRule(housing, _FIXED),
    "groove": MethodRule(housing, _FIXED),
    "rabbet": MethodRule(housing, _FIXED),
    "tongue": MethodRule(housing, _FIXED),
    "sliding dovetail": MethodRule(sliding_dovetail, _FIXED),
    "dovetails": MethodRule(dovetails, _FIXED),
    "half-blind dovetails": MethodRule(half_blind_dovetails, _FIXED),
    "finger joint": MethodRule(finger_joint, _FIXED),
    "mitre": MethodRule(mitre, _FIXED),
    "splined mitre": MethodRule(splined_mitre, _FIXED),
    "cross lap": MethodRule(cross_lap, _FIXED),
    "notch": MethodRule(notch, _FIXED),
    "figure eights": MethodRule(figure_eights, _SCREWS),
    "buttons": MethodRule(buttons, _SCREWS),
    "clips": MethodRule(clips, _SCREWS),
    "slotted screws": MethodRule(slotted_screws, _SCREWS),
    "bed bolts": MethodRule(bed_bolts, _PINS),
    "cross-dowel bolts": MethodRule(cross_dowel_bolts, _PINS),
    "hanger bolts": MethodRule(hanger_bolts, _PINS),
    "glue": MethodRule(glue, _FIXED),
    "dowels": MethodRule(dowels, _PINS),
    "biscuits": MethodRule(biscuits, _PINS),
    "screws": MethodRule(screws, _SCREWS),
    "pocket screws": MethodRule(pocket_screws, _SCREWS),
    "nails": MethodRule(nails, _SCREWS),
    "brackets": MethodRule(brackets, _SCREWS),
    "glue blocks": MethodRule(glue_blocks, _FIXED),
    "rests": MethodRule(rests, _FIXED),
}


def methods_with_rules() -> tuple[str, ...]:
    """Joint methods this folder can lay out, in alphabetical order."""
    return tuple(sorted(METHOD_RULES))
