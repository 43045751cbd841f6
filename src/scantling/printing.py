"""What the verbs print: tables for a person, data for other programs."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import TYPE_CHECKING, cast

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from scantling.packet.context import Context, context_of
from scantling.packet.lists import costs, parts_rows, shopping_groups

if TYPE_CHECKING:
    from scantling.checks.finding import Finding
    from scantling.cutting.cut_plan import StockLayout
    from scantling.plan import Plan

Row = dict[str, object]


def show(plan: Plan, what: str) -> None:
    """Print "findings", "parts", "cuts" or "summary" of a plan."""
    context = context_of(plan, None)
    shown: dict[str, Callable[[Context, Console], None]] = {
        "findings": _findings,
        "parts": _parts,
        "cuts": _cuts,
        "summary": _summary,
    }
    shown[what](context, Console(highlight=False, soft_wrap=False))


def as_json(plan: Plan, what: str) -> str:
    """The same as data: mm, kg, minutes, money."""
    context = context_of(plan, None)
    data: dict[str, Callable[[], object]] = {
        "findings": lambda: {"piece": plan.piece.name, "findings": plan.findings, "settled": plan.settled},
        "parts": lambda: {"piece": plan.piece.name, "parts": _part_data(context)},
        "cuts": lambda: {"piece": plan.piece.name, "cut_plan": plan.cut_plan},
        "summary": lambda: _summary_data(plan),
    }
    return json.dumps(_plain(data[what]()), indent=2, ensure_ascii=False)


def _summary_data(plan: Plan) -> Row:
    return {
        "piece": plan.piece.name,
        "overall": plan.piece.overall.sizes,
        "parts": len(plan.piece.parts),
        "mass": plan.mass.total,
        "settled": plan.settled,
        "findings": plan.findings,
        "cost": plan.build_plan.cost,
        "active_minutes": plan.build_plan.active_minutes,
        "waiting_minutes": plan.build_plan.waiting_minutes,
        "shopping": plan.build_plan.shopping,
    }


def _part_data(context: Context) -> list[Row]:
    return [
        {
            "number": item.number,
            "name": item.name,
            "quantity": item.quantity,
            "parts": [machined.name for machined in item.parts],
            "material": item.first.part.material.text,
            "thickness": item.first.part.thickness,
            "width": item.first.part.width,
            "length": item.first.part.length,
            "overall_length": item.first.overall_length,
        }
        for item in context.items.items
    ]


def _findings(context: Context, console: Console) -> None:
    for finding in context.plan.findings:
        _finding(finding, console)
    count = len(context.plan.must_fix)
    console.print(f"{len(context.plan.findings)} findings, {count or 'none'} must be fixed")


def _finding(finding: Finding, console: Console) -> None:
    console.print(f"[bold]{finding.severity.value}[/bold]: {escape(finding.message)}")
    if finding.mend:
        console.print(f"    mend: {escape(finding.mend.text)}")
    if finding.source:
        console.print(f"    [dim]{escape(finding.check)}; {escape(finding.source)}[/dim]")


def _parts(context: Context, console: Console) -> None:
    columns = ("number", "name", "quantity", "hands", "thick", "wide", "long", "material", "joints")
    console.print(_table(columns, parts_rows(context)))


def _cuts(context: Context, console: Console) -> None:
    plan = context.plan.cut_plan
    for layout in plan.layouts:
        _layout(layout, context, console)
    for unmet in plan.unmet:
        console.print(f"[bold]no stock[/bold]: {escape(unmet.reason)} {escape(unmet.best)}")
    _shopping(context, console)


def _layout(layout: StockLayout, context: Context, console: Console) -> None:
    length = context.sizes.plain
    bought = "to buy" if layout.bought else "on hand"
    size = " × ".join(length(mm) for mm in (layout.thickness, layout.width, layout.length))
    console.print(f"[bold]{escape(layout.stock)}[/bold] {escape(layout.species)}, {size}, {bought}")
    for cut in layout.cuts:
        way = "crosscut" if cut.across else "rip"
        gives = ", ".join(name for name in map(_named(layout), cut.gives) if name)
        console.print(
            f"  {cut.number:3} {way} at {length(cut.at)} on the {escape(cut.machine)} → {escape(gives)}"
        )
    for note in layout.notes:
        console.print(f"      {escape(note)}")


def _named(layout: StockLayout) -> Callable[[str], str]:
    """Words for what a cut gives: the blank's name, or what the piece is for."""
    known = {piece.id: piece.blank or piece.use for piece in layout.pieces}
    return lambda node: known.get(node, "")


def _shopping(context: Context, console: Console) -> None:
    for group in shopping_groups(context):
        table = _table(("item", "need", "on_hand", "buy", "unit", "cost"), cast("list[Row]", group["lines"]))
        table.title = f"{group['group']}, {group['sum']}"
        console.print(table)


def _summary(context: Context, console: Console) -> None:
    plan = context.plan
    size = " × ".join(context.sizes.plain(mm) for mm in plan.piece.overall.sizes)
    console.print(
        f"[bold]{escape(plan.piece.name)}[/bold]: {size} (wide × deep × high), {plan.mass.total:.1f} kg"
    )
    for settled in plan.settled:
        shown = settled.text if settled.value is None else context.sizes.both(settled.value)
        console.print(f"settled {escape(settled.name)}: {escape(shown)}; {escape(settled.why)}")
    for row in costs(context):
        console.print(f"{row['label']}: {row['words']}")
    hours = plan.build_plan.active_minutes / 60
    console.print(f"{len(plan.build_plan.steps)} steps, {hours:.1f} hours at the bench")
    _findings(context, console)


def _table(columns: tuple[str, ...], rows: list[Row]) -> Table:
    table = Table(box=None, pad_edge=False)
    for column in columns:
        table.add_column(column.replace("_", " "))
    for row in rows:
        table.add_row(*(escape(str(row[column])) for column in columns))
    return table


def _plain(value: object) -> object:
    """Dataclasses, enums and tuples as plain data."""
    if is_dataclass(value):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    return value
