"""Sections of the page about building: steps, finish and movement, safety."""

from __future__ import annotations

from typing import Any

from scantling.packet.markup import Inside, Markup, bullets, element, joined, picture, rows_table

Data = dict[str, Any]


def steps(data: Data) -> Markup:
    """Every step with its cautions before it."""
    return joined(bullets(data["build_notes"]), *(_step(step) for step in data["steps"]))


def _step(step: Data) -> Markup:
    after = f"after step {step['after']}" if step["after"] else ""
    facts = " · ".join(part for part in (step["stage"], step["active"], step["machine"], after) if part)
    wait = f"Then wait {step['wait']}: {step['wait_for']}".removesuffix(": ") if step["wait"] else ""
    return element(
        "article",
        _cautions(step["cautions"]),
        element("h3", element("span", str(step["number"]), class_="number"), " " + step["title"]),
        element("p", facts, class_="quiet"),
        picture(step["svg"]) if step["svg"] else None,
        element("p", step["text"], class_="says"),
        _line("Set: ", "; ".join(step["settings"])),
        _line("Parts: ", ", ".join(step["parts"])),
        _check(step["check"]),
        element("p", wait, class_="wait") if wait else None,
        class_="step",
    )


def _cautions(lines: list[str]) -> Markup | None:
    if not lines:
        return None
    return element("div", element("strong", "▲ Caution"), bullets(lines), class_="caution")


def _line(label: str, words: str) -> Markup | None:
    return element("p", element("b", label), words) if words else None


def _check(words: str) -> Markup | None:
    if not words:
        return None
    return element(
        "p",
        element("label", element("input", type="checkbox"), " ", element("b", "Check: "), words),
        class_="check",
    )


def care(data: Data) -> Markup:
    """Finish schedule and what must stay free to move."""
    rows: list[list[Inside]] = [[row["finish"], row["coats"], row["over"]] for row in data["finish"]]
    when: list[list[Inside]] = [
        [str(row["number"]), row["title"], row["active"], row["wait"]] for row in data["finish_steps"]
    ]
    return joined(
        rows_table(["Finish", "Coats", "Where"], rows, "Finish")
        if rows
        else element("p", "No finish is named."),
        rows_table(["Step", "What", "Work", "Then wait"], when, "When") if when else None,
        element("p", "Follow the label of the product in hand where it differs. Equal coats on both faces."),
        element("h3", "Wood moves"),
        _movement(data["movement"]),
    )


def _movement(moves: Data) -> Markup:
    lead = "Solid wood swells and shrinks across the grain with the seasons."
    wanted = "What must stay free:" if moves["free"] else "Nothing in this piece must be left free to move."
    return joined(
        element("p", " ".join(filter(None, (lead, moves["air"], wanted)))),
        bullets(moves["free"]),
        element("p", "What the checks say of it:") if moves["told"] else None,
        bullets(moves["told"]),
    )


def safety(data: Data) -> Markup:
    """The usual cautions and those of this build."""
    lead = "Woodworking can maim and kill. These cautions do not replace training, manuals, or local codes."
    groups = (joined(element("h3", group["title"]), bullets(group["lines"])) for group in data["safety"])
    return joined(element("p", lead, class_="says"), *groups)
