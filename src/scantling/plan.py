"""The whole program: from a piece file, a shop and a build record to a plan."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from scantling.building import build_plan
from scantling.building.build_plan import BuildPlan
from scantling.checks.examined import few_of
from scantling.checks.finding import Finding, Mend, Severity
from scantling.checks.notices import finding_of
from scantling.checks.rules import rule
from scantling.cutting import cut_plan, rack_left, sequence_complaints, sequence_of, verify
from scantling.cutting.cut_plan import CutPlan, Unmet
from scantling.errors import ScantlingError
from scantling.geometry import Mass, Scene, mass_of
from scantling.joinery.features import MachinedPiece
from scantling.piece import Document, range_notices
from scantling.piece.model import NO_RECORD, BuildRecord, Piece
from scantling.settle import Settled, settle
from scantling.shop import facts_of
from scantling.shop.model import Shop

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Plan:
    """Everything computed for one piece in one shop."""

    document: Document
    shop: Shop
    piece: Piece
    machined: MachinedPiece
    scene: Scene
    mass: Mass
    findings: tuple[Finding, ...]
    cut_plan: CutPlan
    build_plan: BuildPlan
    settled: tuple[Settled, ...]

    @cached_property
    def shop_as_left(self) -> Shop:
        """The shop with its rack as the build record leaves it: what is gone is gone, offcuts stand there."""
        return rack_left(self.shop, self.piece.record, self.piece.unit).shop

    @property
    def must_fix(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.must_fix)


def make_plan(
    document: Document,
    shop: Shop,
    record: BuildRecord = NO_RECORD,
    tell: Tell | None = None,
    before: CutPlan | None = None,
    seconds: float = 1.0,
) -> Plan:
    """Work out the whole plan. `tell` hears what is being done, in a few words.

    `seconds`: how long to look for a better way to cut the boards; see `cut_plan`.
    `before`: a cut plan that is marked out already, from which as little is to be moved as can be; without
    it, the one that was made before anything stood on record.

    Raises
    ------
    ReadError, ResolveError
        The words cannot be worked out. What can be worked out and is wrong comes back as findings.
    """
    tell = tell or _unheard
    tell("working out sizes and joints")
    tried, settled = settle(document, shop, record)
    machined, scene = tried.machined, tried.scene
    tell("checking")
    ends = range_notices(document, facts_of(shop))
    findings = tried.checked.findings + tuple(finding_of([notice]) for notice in ends)
    tell("laying out boards")
    marked = before or _before_building(document, shop, record)
    cuts = cut_plan(machined, shop, seconds=seconds, before=marked)
    tell("ordering the work")
    return Plan(
        document=document,
        shop=shop,
        piece=tried.piece,
        machined=machined,
        scene=scene,
        mass=mass_of(scene),
        findings=_musts_first(
            findings
            + _stock_findings(cuts)
            + _wish_findings(cuts)
            + _verdict(cuts, machined, shop)
            + _unsettled(settled)
        ),
        cut_plan=cuts,
        build_plan=build_plan(machined, cuts, rack_left(shop, tried.piece.record, tried.piece.unit).shop),
        settled=settled,
    )


def _before_building(document: Document, shop: Shop, record: BuildRecord) -> CutPlan | None:
    """As it was laid out while nothing stood on record; None where that is now, or cannot be."""
    if not (record.measured or record.stock):
        return None
    try:
        return cut_plan(settle(document, shop, NO_RECORD)[0].machined, shop)
    except ScantlingError:
        return None


def _unheard(_: str) -> None:
    """Nobody is listening."""


def _musts_first(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    order = list(Severity)
    return tuple(sorted(findings, key=lambda finding: order.index(finding.severity)))


def _stock_findings(cuts: CutPlan) -> tuple[Finding, ...]:
    """One finding a reason, however many parts it stops."""
    by_reason: dict[tuple[str, str], list[Unmet]] = {}
    for unmet in cuts.unmet:
        by_reason.setdefault((unmet.reason, unmet.best), []).append(unmet)
    return tuple(_unmet_finding(alike) for alike in by_reason.values())


def _unmet_finding(alike: list[Unmet]) -> Finding:
    first = alike[0]
    parts = tuple(dict.fromkeys(unmet.blank.part for unmet in alike))
    best = f"the best that can be had is {first.best}" if first.best else None
    return rule("no stock for a part").found(
        f"{few_of(parts)}: {first.reason}", parts, mend=Mend(best) if best else None
    )


def _wish_findings(cuts: CutPlan) -> tuple[Finding, ...]:
    """What the build record says and the plan cannot follow."""
    return tuple(
        rule("build record not followed").found(
            each.reason,
            (each.part,) if each.part else (),
            mend=Mend(each.best) if each.best else None,
            place=each.place,
        )
        for each in cuts.unheeded
    )


def _verdict(cuts: CutPlan, machined: MachinedPiece, shop: Shop) -> tuple[Finding, ...]:
    """The independent verifier judges every plan before a maker sees it."""
    rack = rack_left(shop, machined.piece.record, machined.piece.unit).shop
    faults = verify(cuts, machined, shop) or sequence_complaints(sequence_of(cuts, rack), cuts, rack)
    return tuple(
        rule("cut plan is unsound").found(
            f"Do not cut from this plan: {fault}. This is a fault of Scantling's, please report it."
        )
        for fault in faults
    )


def _unsettled(settled: tuple[Settled, ...]) -> tuple[Finding, ...]:
    """Free sizes whose range holds no value that passes, by name."""
    return tuple(
        rule("nothing in its range passes").found(
            f"{size.name}: {size.why}",
            mend=Mend(f"widen the range of {size.name}, or change what stands in its way"),
        )
        for size in settled
        if not size.ok and size.value is not None
    )
