"""Ways to come by the wood, side by side, in words: money, wood, hours, flatness, and what cannot be made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.building import BuildPlan, Stage, build_plan
from scantling.cutting import Flatness, Route, routes, with_sheets
from scantling.packet.shown import amount, money, work_time
from scantling.quantity import listed

if TYPE_CHECKING:
    from scantling.cutting import Unmet
    from scantling.plan import Plan

_AT_MACHINES = (Stage.ROUGH_CUT, Stage.FLATTEN, Stage.THICKNESS, Stage.RIP, Stage.FINAL_SIZE)
WAY_HEADS = (
    ("way", "name"),
    ("to spend", "money"),
    ("own wood", "own"),
    ("board feet", "board_feet"),
    ("used", "used"),
    ("milling", "milling"),
    ("all work", "bench"),
    ("tight", "tight"),
)  # heading, and the field of a `WayShown` under it
WAY_NOTE = (
    "Used: share of the wood cut into that becomes parts. Milling: sawing and milling, up to parts of "
    "their final size. Tight: blanks with less than 1 mm to spare in thickness. Where a way cannot make "
    "all, its figures are for the rest."
)


@dataclass(frozen=True, slots=True)
class WayShown:
    """One way in words. `own`: worth of the stock on hand it uses up. `milling`: hours of sawing and milling;
    `bench`: all hours of work. `tight`: blanks with under a millimetre to spare, of all that are milled.
    `cannot`: parts it gives no wood for, and why, with the best that can be had.
    """

    name: str
    money: str
    own: str
    board_feet: str
    used: str
    milling: str
    bench: str
    tight: str
    flatness: str
    cannot: tuple[tuple[str, str], ...]

    @property
    def lacks(self) -> str:
        """What it cannot make, as one paragraph; empty where it makes all."""
        return ". ".join(f"{parts}: {why}" for parts, why in self.cannot)


def ways_of(plan: Plan) -> tuple[WayShown, ...]:
    """The plan as it is, then the other ways there are: takes a moment."""
    return tuple(_shown(route, plan) for route in routes_of(plan))


def routes_of(plan: Plan) -> tuple[Route, ...]:
    """The same as plans."""
    settled = {found.name: found.text for found in plan.settled}
    sheeted = with_sheets(plan.piece, plan.document, plan.shop, settled)
    return routes(plan.machined, plan.shop, sheeted, plan.cut_plan)


def _shown(route: Route, plan: Plan) -> WayShown:
    work = _work(route, plan)
    currency = plan.shop.currency
    return WayShown(
        name=route.name,
        money=money(route.plan.money, currency),
        own=money(work.cost.from_rack, currency),
        board_feet=amount(route.plan.board_feet),
        used=f"{route.used * 100:.0f} %",
        milling=work_time(milling_minutes(work)),
        bench=work_time(work.active_minutes),
        tight=_tight(route.flatness),
        flatness=route.flatness.words,
        cannot=tuple(lacking(route.cannot)),
    )


def _work(route: Route, plan: Plan) -> BuildPlan:
    if route.plan is plan.cut_plan:
        return plan.build_plan
    return build_plan(route.machined, route.plan, plan.shop_as_left)


def milling_minutes(work: BuildPlan) -> float:
    """Minutes of sawing and milling, from the rough board to parts at their final size."""
    return sum(step.active for step in work.steps if step.stage in _AT_MACHINES)


def lacking(unmet: Iterable[Unmet]) -> list[tuple[str, str]]:
    """Parts without wood, those alike together, and why, with the best there is."""
    by_reason: dict[tuple[str, str], list[str]] = {}
    for each in unmet:
        by_reason.setdefault((each.reason, each.best), []).append(each.blank.part)
    return [
        (listed(list(dict.fromkeys(parts))), f"{reason}{f'; best is {best}' if best else ''}")
        for (reason, best), parts in by_reason.items()
    ]


def _tight(found: Flatness) -> str:
    return f"{found.tight} of {found.milled}" if found.milled else "none milled"
