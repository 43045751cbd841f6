"""Which layout rule answers for which kind of fitting."""

from __future__ import annotations

from scantling.joinery.bench import Bench
from scantling.joinery.fittings import Fitted, FittingRule, plain_kind
from scantling.joinery.hinges import butt_hinge, continuous_hinge, lid_stay
from scantling.joinery.pins import as_its_sheet_says, caster, knob, shelf_pins, wall_strap
from scantling.joinery.slides import side_slide
from scantling.piece.model import Hardware

_RULES: tuple[tuple[str, FittingRule], ...] = (
    ("continuous hinge", continuous_hinge),
    ("hinge", butt_hinge),
    ("slide", side_slide),
    ("stay", lid_stay),
    ("shelf pin", shelf_pins),
    ("pull", knob),
    ("knob", knob),
    ("wall strap", wall_strap),
    ("caster", caster),
)


def fit(fitting: Hardware, bench: Bench) -> Fitted:
    """The rule whose words the kind ends in; other fittings are counted and left to their own sheet."""
    kind = plain_kind(fitting).lower()
    return next((rule for words, rule in _RULES if kind.endswith(words)), as_its_sheet_says)(fitting, bench)
