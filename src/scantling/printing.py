"""What the verbs print: tables for a person, data for other programs."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from enum import Enum
from math import isfinite
from textwrap import wrap
from typing import TYPE_CHECKING, cast

from rich.console import Console
from rich.markup import escape
from rich.table import Table
from rich.text import Text

from scantling.packet.chances import chance_lines
from scantling.packet.context import Context, context_of
from scantling.packet.cut_sheets import cut_sheets, glue_ups, unmet
from scantling.packet.data import weight_words
from scantling.packet.lists import costs, parts_rows, shopping_groups
from scantling.packet.sequence_rows import sequence_data
from scantling.packet.shown import bound, money, work_time
from scantling.packet.ways import WAY_HEADS, WAY_NOTE

if TYPE_CHECKING:
    from scantling.checks.finding import Finding
    from scantling.plan import Plan
    from scantling.quantity.kinds import LengthUnit

Row = dict[str, object]

NO_BREAK = "\u00a0"
HEADINGS = {"number": "no.", "quantity": "qty", "on_hand": "on hand"}
INDENT = 4
MIN_WIDTH = 30  # characters of a paragraph, however narrow the screen


def show(plan: Plan, what: str, units: LengthUnit | None = None) -> None:
    """Print "findings", "parts", "cuts" or "summary" of a plan; `units` None: the file's own."""
    context = context_of(plan, units)
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
        "cuts": lambda: {"piece": plan.piece.name, "cut_plan": plan.cut_plan, "ways": context.ways},
        "summary": lambda: _summary_data(plan),
    }
    return json.dumps(_plain(data[what]()), indent=2, ensure_ascii=False, allow_nan=False)


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
            "overall_length": item.first.true_overall_length,
        }
        for item in context.items.items
    ]


def _findings(context: Context, console: Console) -> None:
    findings = context.plan.findings
    for finding in findings:
        _finding(finding, console)
    if not findings:
        console.print("nothing is found wrong")
        return
    musts = len(context.plan.must_fix)
    console.print(f"{_counted(len(findings), 'finding')}, {musts or 'none'} that must be fixed")


def _finding(finding: Finding, console: Console) -> None:
    where = f"{finding.place}: " if finding.place else ""
    _hung(console, where + finding.message, label=finding.severity.value)
    if finding.mend:
        _hung(console, finding.mend.text, INDENT, label="mend")
    if finding.source:
        _hung(console, f"{finding.check}; {finding.source}", INDENT, style="dim")


def _hung(console: Console, text: str, indent: int = 0, *, label: str = "", style: str = "") -> None:
    """A paragraph after its label; further lines stand in, so that each paragraph begins at a glance."""
    words = bound(f"{label}: {text}" if label else text)
    first, then = " " * indent, " " * (indent + INDENT)
    width = max(MIN_WIDTH, console.width)
    lines = wrap(words, width, initial_indent=first, subsequent_indent=then, break_on_hyphens=False)
    for number, line in enumerate(lines):
        shown = Text(line.replace(NO_BREAK, " "), style)
        if number == 0:
            shown.stylize("bold", indent, indent + len(label))
        console.print(shown, soft_wrap=True)


def _parts(context: Context, console: Console) -> None:
    columns = ("number", "name", "quantity", "hands", "thick", "wide", "long", "material")
    console.print(f"sizes in {context.sizes.unit_word}")
    console.print(_table(columns, parts_rows(context)))


def _cuts(context: Context, console: Console) -> None:
    console.print(f"sizes in {context.sizes.unit_word}; each cut leaves the width or length set")
    for sheet in cut_sheets(context):
        _sheet(sheet, console)
    for glued in glue_ups(context):
        _hung(console, f"{glued['part']}: {glued['what']}, blanks {glued['blanks']}", label="glue up")
    for gap in unmet(context):
        _hung(console, f"{gap['reason']} {gap['best']}", label="no stock")
    _set_ups(context, console)
    _shopping(context, console)
    _spent(context, console)
    for line in chance_lines(context):
        _hung(console, line)
    _ways(context, console)


def _ways(context: Context, console: Console) -> None:
    """Ways to come by the wood side by side, then what each cannot make."""
    table = Table(title="ways to come by the wood", box=None, pad_edge=False)
    for head, _ in WAY_HEADS:
        table.add_column(head, no_wrap=head == "way")
    for way in context.ways:
        table.add_row(*(escape(str(getattr(way, key))) for _, key in WAY_HEADS))
    console.print(table)
    _hung(console, WAY_NOTE)
    for way in context.ways:
        _hung(console, way.flatness, label=f"flatness, {way.name}")
        if way.lacks:
            _hung(console, way.lacks, INDENT, label="cannot be made")


def _spent(context: Context, console: Console) -> None:
    cuts, currency = context.plan.cut_plan, context.plan.shop.currency
    least = f"; no plan can spend less than {money(cuts.bound, currency)}" if cuts.bound else ""
    _hung(console, f"{money(cuts.money, currency)}{least}", label="to spend on stock")
    if weight_words(context):
        _hung(console, weight_words(context))


def _set_ups(context: Context, console: Console) -> None:
    sequence = sequence_data(context)
    rows = cast("list[Row]", sequence["rows"])
    if rows:
        table = _table(("number", "machine", "what", "setting", "pieces"), rows)
        table.title = "sawing and milling, set-up by set-up"
        console.print(table)
        _hung(console, str(sequence["words"]))


def _sheet(sheet: Row, console: Console) -> None:
    """One board, sheet or stick: its cuts in order, then what each blank is for."""
    console.print(f"\n[bold]{escape(str(sheet['title']))}[/bold], {escape(str(sheet['facts']))}")
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(justify="right")
    for cut in cast("list[Row]", sheet["cuts"]):
        words = (cut["kind"], cut["setting"], cut["machine"], cut["gives"])
        table.add_row(str(cut["number"]), *(escape(str(word)) for word in words))
    console.print(table)
    for blank in cast("list[Row]", sheet["blanks"]):
        _hung(console, f"blank {blank['label']}: {blank['part']}, {blank['rough']} rough", INDENT)
    for note in cast("list[str]", sheet["notes"]):
        _hung(console, note, INDENT)


def _shopping(context: Context, console: Console) -> None:
    for group in shopping_groups(context):
        table = _table(("item", "need", "on_hand", "buy", "cost"), cast("list[Row]", group["lines"]))
        table.title = f"{group['group']}, {group['sum']}"
        console.print(table)


def _summary(context: Context, console: Console) -> None:
    plan = context.plan
    size = " × ".join(context.sizes.plain(mm) for mm in plan.piece.overall.sizes)
    unit, mass = context.sizes.unit_word, context.sizes.mass(plan.mass.total)
    _hung(console, f"{size} {unit} (wide × deep × high), {mass}", label=plan.piece.name)
    for settled in plan.settled:
        shown = settled.text if settled.value is None else context.sizes.both(settled.value)
        _hung(console, f"{shown}; {settled.why}", label=f"settled {settled.name}")
    for row in costs(context):
        _hung(console, str(row["words"]), label=str(row["label"]))
    bench = work_time(plan.build_plan.active_minutes)
    console.print(f"{_counted(len(plan.build_plan.steps), 'step')}, {bench} at the bench")
    _findings(context, console)


def _table(columns: tuple[str, ...], rows: list[Row]) -> Table:
    table = Table(box=None, pad_edge=False)
    for column in columns:
        table.add_column(HEADINGS.get(column, column))
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
    if isinstance(value, float) and not isfinite(value):
        return None  # no limit: JSON has no number for it
    return value


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
