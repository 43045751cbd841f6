"""The whole build of one piece in one shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from scantling.building.assembling import assembling, dry_fit
from scantling.building.bench import Bench
from scantling.building.build_plan import BuildPlan, Step
from scantling.building.cost import cost_of
from scantling.building.draft import Draft, precedence
from scantling.building.finishing import final_sanding, finishing, sanding_parts
from scantling.building.fitting import fitting, hardware, pin_holes, placing
from scantling.building.gluing import gluing
from scantling.building.jointing import jointing
from scantling.building.milling import choosing, milling
from scantling.building.naming import numbered
from scantling.building.sawing import cuts_after_planing, rough_cuts
from scantling.building.schedule import USUAL_HOURS, schedule, weeks
from scantling.building.shaping import early_shaping, shaping
from scantling.building.shopping import shopping
from scantling.building.sizing import sizing
from scantling.cutting.cut_plan import CutPlan
from scantling.joinery.features import MachinedPiece
from scantling.shop.model import Shop

FIRST_BUILD = (1.5, 2.0)  # times longer than a maker who has built it before; common practice, no source


def build_plan(machined: MachinedPiece, cut_plan: CutPlan, shop: Shop) -> BuildPlan:
    """Steps in the order they are done, what to buy, what it costs, how long it takes.

    Minutes are the middle of the trade's usual ranges (`times.csv`) for somebody who has built such a piece
    before. A part that nothing on the rack can give still appears in its joints and assembly.
    """
    bench = Bench(machined, cut_plan, shop)
    steps = _in_order(_numbered(tuple(_drafts(bench))), shop.hours_a_week)
    slots = schedule(steps, shop.hours_a_week)
    lines = shopping(bench)
    return BuildPlan(
        steps=steps,
        shopping=lines,
        cost=cost_of(bench, lines, steps),
        active_minutes=sum(step.active for step in steps),
        waiting_minutes=sum(step.wait for step in steps),
        schedule=slots,
        notes=tuple(_notes(bench, steps, weeks(slots, steps, shop.hours_a_week))),
    )


def _drafts(bench: Bench) -> Iterator[Draft]:
    """Every stage, in the usual order of work."""
    yield from choosing(bench)
    yield from rough_cuts(bench)
    yield from milling(bench)
    yield from cuts_after_planing(bench)
    yield from gluing(bench)
    yield from sizing(bench)
    yield from early_shaping(bench)
    yield from jointing(bench)
    yield from shaping(bench)
    yield from pin_holes(bench)
    yield from dry_fit(bench)
    yield from sanding_parts(bench)
    yield from assembling(bench)
    yield from fitting(bench)
    yield from final_sanding(bench)
    yield from finishing(bench)
    yield from hardware(bench)
    yield from placing(bench)


def _numbered(drafts: Sequence[Draft]) -> tuple[Step, ...]:
    before = precedence(drafts)
    return tuple(
        Step(
            number=at + 1,
            stage=draft.stage,
            title=draft.title,
            text=draft.text,
            parts=draft.parts,
            machine=draft.machine,
            settings=draft.settings,
            active=draft.active,
            wait=draft.wait,
            wait_for=draft.wait_for,
            after=tuple(number + 1 for number in before[at]),
            check=draft.check,
            cautions=draft.cautions,
            joined=draft.joined,
            joints=draft.joints,
            stock=draft.stock,
        )
        for at, draft in enumerate(drafts)
    )


def _in_order(steps: tuple[Step, ...], hours_a_week: float | None) -> tuple[Step, ...]:
    """The steps in the order they are done, numbered so that no wait is stood through."""
    by_number = {step.number: step for step in steps}
    order = [slot.step for slot in schedule(steps, hours_a_week)]
    new = {old: at + 1 for at, old in enumerate(order)}
    return tuple(
        replace(by_number[old], number=new[old], after=tuple(sorted(new[n] for n in by_number[old].after)))
        for old in order
    )


def _notes(bench: Bench, steps: Sequence[Step], long: float) -> Iterator[str]:
    hours = sum(step.active for step in steps) / 60
    said = bench.shop.hours_a_week
    week = f"{said:g} hours a week" if said else f"{USUAL_HOURS:g} hours a week (the shop file does not say)"
    weeks_long = numbered(max(1, round(long)), "week")
    yield f"About {hours:.0f} hours of work; at {week} some {weeks_long}, drying and settling included."
    yield (
        f"The hours are those of somebody who has built such a piece before: a first build takes "
        f"{FIRST_BUILD[0]:g} to {FIRST_BUILD[1]:g} times as long. They are rough: common practice, no source."
    )
    yield (
        "Read the manual of each machine and the label of each can: they overrule this plan. Local codes and "
        "licensed trades rule where people could be hurt."
    )
    if bench.cuts.unmet:
        missing = bench.names.counted(u.blank.part for u in bench.cuts.unmet)
        yield f"Nothing on the rack or for sale gives {missing}; no step mills them yet."
