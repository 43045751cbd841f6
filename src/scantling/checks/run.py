"""The checks in their order, and the one function that asks them all."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from scantling.checks.alike import gathered
from scantling.checks.bought import bought_things
from scantling.checks.contacts import contacts
from scantling.checks.examined import Examined
from scantling.checks.fasteners import fasteners
from scantling.checks.finding import Finding, Severity
from scantling.checks.fingers import finger_gaps
from scantling.checks.fit import groove_and_gap_fit
from scantling.checks.hanging import wall_fixings
from scantling.checks.hinges import hinges
from scantling.checks.holds import holds
from scantling.checks.machines import machines
from scantling.checks.motion import motion
from scantling.checks.notices import carried_notices
from scantling.checks.openings import head_openings
from scantling.checks.posture import posture
from scantling.checks.racking import racking
from scantling.checks.room import room
from scantling.checks.sag import sag
from scantling.checks.seasonal import seasonal_movement
from scantling.checks.slides import slides
from scantling.checks.sliding import sliding_fasteners
from scantling.checks.strength import strength
from scantling.checks.tipping import tipping
from scantling.geometry import Scene
from scantling.joinery.features import MachinedPiece
from scantling.shop.model import Shop

Check = Callable[[Examined], Iterable[Finding]]

CHECKS: tuple[Check, ...] = (
    carried_notices,
    contacts,
    holds,
    motion,
    seasonal_movement,
    sliding_fasteners,
    groove_and_gap_fit,
    sag,
    fasteners,
    strength,
    racking,
    tipping,
    slides,
    hinges,
    finger_gaps,
    head_openings,
    room,
    wall_fixings,
    bought_things,
    machines,
    posture,
)


@dataclass(frozen=True, eq=False)
class Checked:
    """An examined piece and what the checks have found against it so far, each check asked at most once."""

    examined: Examined
    asked: dict[Check, tuple[Finding, ...]] = field(default_factory=dict)

    def found(self, check: Check) -> tuple[Finding, ...]:
        """What one check finds."""
        if check not in self.asked:
            self.asked[check] = tuple(check(self.examined))
        return self.asked[check]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding of every check, must-fix first, else in the order of the checks."""
        found = gathered(self.examined, [finding for check in CHECKS for finding in self.found(check)])
        order = list(Severity)
        return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def check_piece(machined: MachinedPiece, scene: Scene, shop: Shop) -> tuple[Finding, ...]:
    """Every finding of every check, must-fix first, else in the order of the checks."""
    return Checked(Examined(machined, scene, shop)).findings
