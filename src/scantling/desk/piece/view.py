"""In the worker: everything the page of a piece says and shows, as plain words and numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scantling.desk.piece.naming_view import Named, named_of
from scantling.desk.working.asked import Trouble
from scantling.desk.working.plans import document_of, plan_if_made, plan_of, record_of, shop_of, timed_plan_of
from scantling.errors import ReadError

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.plan import Plan

Rows = tuple[dict[str, Any], ...]


@dataclass(frozen=True, slots=True)
class Changes:
    """What is otherwise than on the page before: names of parts and sizes, and sentences."""

    parts: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PieceView:
    """The page. `digest`: of what was asked. `trouble`: why the rest is `old`, from the last plan that went.

    Rows are those of the packet, but for the names: those have what their fields need.
    """

    digest: str
    name: str
    size: str = ""
    counts: tuple[tuple[str, int], ...] = ()
    summary: Rows = ()
    wood: str = ""
    spend: str = ""
    named: Named = Named()
    findings: Rows = ()
    parts: Rows = ()
    changes: Changes = Changes()
    trouble: Trouble | None = None
    old: bool = False


@dataclass(frozen=True, slots=True)
class Shapes:
    """The picture as the viewer takes it (see `picture.Picture`), without the modules that made it."""

    digest: str
    glb: bytes
    description: str


@dataclass(frozen=True, slots=True)
class Page:
    """What one answer brings: the words, and the shapes, None where nothing could ever be planned.

    `seconds`: how long the plan alone took.
    """

    view: PieceView
    shapes: Shapes | None
    seconds: float = 0.0


def page_of(asked: Asked, before: Asked | None = None) -> Page:
    """The page of a piece; what changed since `before` is marked, if the plan of that is at hand."""
    try:
        plan, seconds = timed_plan_of(asked)
    except ReadError as error:
        return Page(PieceView(asked.digest, asked.file, trouble=Trouble.of(error)), None)
    return Page(_view(plan, asked.digest, _changes(plan, before)), _shapes(plan), seconds)


def trouble_of(asked: Asked, style: bool = False) -> Trouble | None:
    """Why the words cannot be read, or sizes not worked out from them; a `style` has no sizes of its own."""
    from scantling.piece.resolve import resolve
    from scantling.shop import facts_of

    try:
        document = document_of(asked)
        if not style:
            resolve(document, facts_of(shop_of(asked)), record_of(asked))
    except ReadError as error:
        return Trouble.of(error)
    return None


def drawing(asked: Asked, pose: str) -> str:
    """The flat drawing of a pose; of the piece at rest where it has no such pose."""
    from scantling.desk.piece.picture import drawing_of

    plan = plan_of(asked)
    known = any(one.name == pose for one in plan.piece.poses)
    return drawing_of(plan, pose) if known else drawing_of(plan)


def _shapes(plan: Plan) -> Shapes:
    from scantling.desk.piece.picture import picture_of

    made = picture_of(plan)
    return Shapes(made.digest, made.glb, made.description)


def _view(plan: Plan, digest: str, changes: Changes) -> PieceView:
    from scantling.packet.context import context_of
    from scantling.packet.front import COUNTED, findings, summary
    from scantling.packet.shown import money

    context = context_of(plan)
    cost = plan.build_plan.cost
    return PieceView(
        digest=digest,
        name=plan.piece.name,
        size=f"{context.sizes.three(plan.piece.overall.sizes)} {context.sizes.unit_word}",
        counts=tuple(
            (words, sum(f.severity is kind for f in plan.findings)) for kind, words in COUNTED.items()
        ),
        summary=tuple(summary(context)),
        wood=_wood(plan),
        spend=money(cost.total, cost.currency)
        + (", the missing wood left out" if plan.cut_plan.unmet else ""),
        named=named_of(plan, context.sizes),
        findings=tuple(_with_mends(row, plan) for row in findings(context)),
        parts=_parts(plan),
        changes=changes,
    )


def _wood(plan: Plan) -> str:
    """The boards in a sentence."""
    cuts = plan.cut_plan
    bought = sum(layout.bought for layout in cuts.layouts)
    stock = cuts.areas.stock
    share = (
        f"{cuts.areas.blanks / stock * 100:.0f} % of the wood becomes parts" if stock else "no wood is used"
    )
    lacking = f"; no wood yet for {len(cuts.unmet)} of the blanks" if cuts.unmet else ""
    return f"{len(cuts.layouts) - bought} from the rack, {bought} to buy; {share}{lacking}"


def _with_mends(row: dict[str, Any], plan: Plan) -> dict[str, Any]:
    """The row with the number of a finding whose change can be written, and where its words stand."""
    numbers = [line["at"] for line in row["lines"]]
    found = [plan.findings[number - 1] for number in numbers]
    able = [n for n, finding in zip(numbers, found, strict=True) if finding.mend and finding.mend.changes]
    place = next((finding.place for finding in found if finding.place), None)
    own = place is not None and place.file == plan.document.file
    return {**row, "mend": able[0] if able else 0, "line": place.line if place and own else 0}


def _parts(plan: Plan) -> Rows:
    """One row a different part, with the names of all its copies."""
    from scantling.packet.context import context_of
    from scantling.packet.lists import parts_rows

    context = context_of(plan)
    copies = {item.number: tuple(part.name for part in item.parts) for item in context.items.items}
    return tuple({**row, "copies": copies[int(str(row["number"]))]} for row in parts_rows(context))


def _changes(plan: Plan, before: Asked | None) -> Changes:
    was = plan_if_made(before) if before else None
    if was is None:
        return Changes()
    from scantling.desk.piece.changes_view import told
    from scantling.piece.editing.effects import effects

    found = effects(was.piece, plan.piece)
    parts = (*found.added, *(change.part for change in found.changed))
    return Changes(parts, tuple(size.name for size in found.sizes), told(found, was, plan))
