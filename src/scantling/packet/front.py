"""The front of the packet: what the piece is, its sizes and choices, and what the checks found."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.checks.finding import Finding, Severity
from scantling.packet.context import Context
from scantling.packet.lists import unpriced_words
from scantling.packet.shown import Sizes, amount, duration, money, work_time
from scantling.quantity import format_angle, format_mass, format_ratio, listed
from scantling.quantity.kinds import Kind

Data = dict[str, object]
Numbered = tuple[int, Finding]
MANY = 6  # parts named at the head of a finding; more than that stand in its lines
COUNTED = {Severity.MUST: "to fix first", Severity.SHOULD: "worth a look", Severity.KNOW: "good to know"}


def summary(context: Context) -> list[Data]:
    """What one wants to know before turning the page, as (label, words)."""
    plan, sizes = context.plan, context.sizes
    wide, deep, high = plan.piece.overall.sizes
    build, cost = plan.build_plan, plan.build_plan.cost
    unpriced = unpriced_words(build)
    spent, used = money(cost.total, cost.currency), money(cost.from_rack, cost.currency)
    rows = [
        ("Overall", f"{sizes.both(wide)} wide, {sizes.both(deep)} deep, {sizes.both(high)} high"),
        ("Weight", sizes.mass(plan.mass.total)),
        (
            "Work",
            f"{work_time(build.active_minutes)} at the bench, {duration(build.waiting_minutes)} of waiting",
        ),
        (
            "To spend",
            f"{spent}, and {used} of stock off the rack" + (f"; {unpriced}" if unpriced else ""),
        ),
        ("Parts", f"{len(plan.piece.parts)} parts, {len(context.items.items)} of them different"),
        ("Timber and sheets", listed(_materials(context))),
        ("Machines and tools", listed(_machines(context)) or "hand tools"),
        ("Checks", verdict(context)),
    ]
    return [{"label": label, "words": words} for label, words in rows]


def verdict(context: Context) -> str:
    """How many findings of each weight."""
    counts = {kind: sum(f.severity is kind for f in context.plan.findings) for kind in Severity}
    if not any(counts.values()):
        return "nothing found"
    return ", ".join(f"{count} {COUNTED[kind]}" for kind, count in counts.items() if count)


def must_fix_count(context: Context) -> int:
    """How many findings stop the build."""
    return sum(finding.must_fix for finding in context.plan.findings)


def _materials(context: Context) -> list[str]:
    return list(dict.fromkeys(part.material.text for part in context.plan.piece.parts))


def _machines(context: Context) -> list[str]:
    return list(dict.fromkeys(step.machine for step in context.plan.build_plan.steps if step.machine))


def named_sizes(context: Context) -> list[Data]:
    """Every named size with what was written and what settled it."""
    why = {settled.name: settled for settled in context.plan.settled}
    rows: list[Data] = []
    for size in context.plan.piece.sizes:
        settled = why.get(size.name)
        rows.append(
            {
                "name": size.name,
                "value": value_words(size.value, size.kind, context.sizes),
                "written": "left to the tool to find" if settled else size.text,
                "why": settled.why if settled else "",
            }
        )
    return rows


def choices(context: Context) -> list[Data]:
    """Choices and materials with alternatives: what was taken, from what, and why where the tool chose."""
    why = {settled.name: settled.why for settled in context.plan.settled}
    rows: list[Data] = [
        {
            "name": c.name,
            "taken": c.taken,
            "options": _others(c.options, c.taken),
            "why": why.get(c.name, ""),
        }
        for c in context.plan.piece.choices
    ]
    for material in context.plan.piece.materials:
        measured = "" if material.measured else "usual size, not measured"
        rows.append(
            {
                "name": material.name,
                "taken": material.text,
                "options": _others(material.alternatives, material.text),
                "why": why.get(material.name, measured),
            }
        )
    return rows


def _others(options: Iterable[str], taken: str) -> str:
    return listed([option for option in options if option != taken], "or")


def value_words(value: float, kind: Kind, sizes: Sizes) -> str:
    """A named size with its unit; lengths in both units."""
    match kind:
        case Kind.LENGTH:
            return sizes.both(value)
        case Kind.ANGLE:
            return format_angle(value)
        case Kind.RATIO:
            return format_ratio(value)
        case Kind.MASS:
            return format_mass(value, sizes.style)
        case _:
            return amount(value)


def findings(context: Context) -> list[Data]:
    """Findings in the order of the plan, must-fix first; those with one remedy stand together."""
    groups: dict[tuple[object, ...], list[Numbered]] = {}
    for number, finding in enumerate(context.plan.findings, 1):
        remedy = finding.mend.text if finding.mend else finding.message
        alike = (finding.severity, finding.check, finding.code, remedy, finding.source)
        groups.setdefault(alike, []).append((number, finding))
    return [_finding(group, context) for group in groups.values()]


def _finding(group: list[Numbered], context: Context) -> Data:
    _, first = group[0]
    places = dict.fromkeys(part for _, finding in group for part in finding.where)
    return {
        "weight": first.severity.value,
        "check": first.check,
        "lines": [_line(number, finding, context) for number, finding in group],
        "where": listed([context.named(part) for part in places]) if len(places) <= MANY else "",
        "source": first.source,
        "remedy": first.mend.text if first.mend else "",
        "pose": first.pose or "",
        "judgement": first.judgement,
    }


def _line(number: int, finding: Finding, context: Context) -> Data:
    """`at`: the finding's number in the plan, from 1."""
    return {"message": finding.message, "number": _number_words(finding, context), "at": number}


def _number_words(finding: Finding, context: Context) -> str:
    """The number and its limit, unless the message says both: "1/8 in (3 mm); limit 3/32 in (2.6 mm)"."""
    if finding.number is None or not (finding.unit or finding.limit is not None):
        return ""
    words = _with_unit(finding.number, finding.unit, context)
    limit = "" if finding.limit is None else _with_unit(finding.limit, finding.unit, context)
    if words in finding.message and limit in finding.message:
        return ""
    return f"{words}; limit {limit}" if limit else words


def _with_unit(value: float, unit: str, context: Context) -> str:
    if unit == "mm":
        return context.sizes.both(value)
    if unit == "kg":
        return context.sizes.mass(value)
    return f"{amount(value)} {unit}".rstrip()
