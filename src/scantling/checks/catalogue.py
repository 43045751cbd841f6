"""The page that lists every finding: code, limit, source. `docs/findings.md` is its text."""

from __future__ import annotations

from itertools import groupby

from scantling.checks.rules import Rule, all_rules

_HEAD = """# Findings

Every finding has a code, a number held against a limit, and a source. This page is written from the
table the checks themselves read (`checks/data/rules.csv`).

A finding is **must fix** (it stops a build), **should look** (worth changing) or **good to know**. What
can be changed comes with the smallest change that mends it, worked out from the rule or by solving.
*Judgement* marks limits on which good makers differ.

These checks do not replace local codes, test standards or licensed practice. Passing them does not make
a piece comply with any standard named here; standards are quoted as outlines to plan by. Where work can
hurt someone (tip-over, lids, wall fixings, children), follow the law and the maker's sheets of fittings.

What is noticed while the piece file is read and its joints are laid out is told under its own name, in
the same three grades.
"""


def findings_page() -> str:
    """The page as Markdown."""
    sections = (
        _section(name, list(rules)) for name, rules in groupby(all_rules(), key=lambda rule: rule.check)
    )
    return "\n".join((_HEAD, *sections))


def _section(check: str, rules: list[Rule]) -> str:
    rows = "".join(_row(rule) for rule in rules)
    return f"## {check.capitalize()}\n\n| finding | grade | limit | source |\n|---|---|---|---|\n{rows}"


def _row(rule: Rule) -> str:
    limit = rule.limit_words or "–"
    judged = "; judgement" if rule.judgement else ""
    return f"| {rule.code} | {rule.severity.value} | {limit} | {rule.source}{judged} |\n"
