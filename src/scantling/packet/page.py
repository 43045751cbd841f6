"""The self-contained page: one HTML file, no script, no request, readable from phone to print."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable
from functools import cache
from hashlib import sha256
from html import escape
from importlib.resources import files
from typing import Any

from scantling.packet.markup import Markup, bullets, element, joined, picture, rows_table
from scantling.packet.page_build import care, safety, steps
from scantling.packet.page_wood import cutting, parts, sheets, shopping

Data = dict[str, Any]
Section = tuple[str, str, Callable[[Data], Markup]]


def packet_page(data: Data) -> bytes:
    """The whole page in UTF-8."""
    style = _style()
    digest = b64encode(sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    head = (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(_clean(data['name']))}</title><style>{style}</style></head><body>"
    )
    body = joined(_top(data), _contents(), element("main", *(_section(entry, data) for entry in SECTIONS)))
    return _clean(f"{head}{body}</body></html>\n").encode()


def _clean(words: str) -> str:
    """Without control characters and lone surrogates, which HTML does not allow."""
    return "".join(
        c for c in words if c == "\n" or (c >= " " and c != "\x7f" and not "\ud800" <= c <= "\udfff")
    )


@cache
def _style() -> str:
    return files("scantling.packet").joinpath("templates", "page.css").read_text(encoding="utf-8")


def _top(data: Data) -> Markup:
    ready = "Ready to build. No finding stands in the way."
    count = data["must_fix"]
    stop = f"▲ Don’t build yet: {count} finding{'s' if count != 1 else ''} must be fixed first."
    return element(
        "header",
        element("p", "Workshop packet", class_="kicker"),
        element("h1", data["name"]),
        element("p", data["size_line"], class_="size"),
        element("p", data["note"], class_="lead") if data["note"] else None,
        element("div", *(picture(it["svg"]) for it in data["cover"]), class_="cover"),
        element("p", stop if count else ready, class_="verdict stop" if count else "verdict"),
        _facts(data["summary"]),
    )


def _facts(rows: list[dict[str, str]]) -> Markup:
    pairs = (element("div", element("dt", row["label"]), element("dd", row["words"])) for row in rows)
    return element("dl", *pairs, class_="facts")


def _contents() -> Markup:
    links = (element("li", element("a", title, href=f"#{ident}")) for ident, title, _ in SECTIONS)
    return element("nav", element("ol", *links), aria_label="Contents")


def _section(entry: Section, data: Data) -> Markup:
    ident, title, content = entry
    return element("section", element("h2", title), content(data), id=ident)


def _sizes(data: Data) -> Markup:
    sizes = [[element("b", r["name"]), r["value"], r["written"], r["why"]] for r in data["sizes"]]
    chosen = [[element("b", r["name"]), r["taken"], r["options"], r["why"]] for r in data["choices"]]
    return joined(
        rows_table(["Size", "Value", "As written", "Why this value"], sizes, "Named sizes"),
        rows_table(["Name", "Taken", "Could also be", "Why"], chosen, "Materials and choices")
        if chosen
        else None,
    )


def _findings(data: Data) -> Markup:
    if not data["findings"]:
        return element("p", "Every check passes.")
    return joined(*(_finding(row) for row in data["findings"]))


def _finding(row: Data) -> Markup:
    weight = {"must fix": "must", "should look": "should"}.get(row["weight"], "know")
    mark = "▲ " if weight == "must" else ""
    source = f"Source: {row['source']}." if row["source"] else ""
    small = [source, "Rests on judgement." if row["judgement"] else ""]
    return element(
        "article",
        element(
            "p",
            element("strong", mark + row["weight"].upper(), class_=f"weight {weight}"),
            element("b", " " + row["check"]),
            element("span", f" {row['where']}", class_="quiet") if row["where"] else None,
        ),
        *(_finding_line(line) for line in row["lines"]),
        element("p", element("b", "Remedy: "), row["remedy"]) if row["remedy"] else None,
        element("p", " ".join(part for part in small if part), class_="quiet"),
        class_="finding",
    )


def _finding_line(line: dict[str, str]) -> Markup:
    number = element("span", f" {line['number']}.", class_="quiet") if line["number"] else None
    return element("p", line["message"], number, class_="says")


def _views(data: Data) -> Markup:
    poses = (picture(pose["svg"], pose["name"]) for pose in data["poses"])
    return joined(
        element("div", *poses, class_="poses"),
        picture(
            data["general"]["svg"], "Third angle: each view stands where it is seen from.", measured=True
        ),
        picture(
            data["exploded"]["svg"], "All parts apart. The numbers are the item numbers of the parts list."
        ),
    )


def _reading(data: Data) -> Markup:
    return bullets(
        [
            f"Sizes stand as thickness × width × length, in {data['unit']}; length runs along the grain.",
            "Between shoulders is what shows; overall includes what goes into the joint. Cut to overall.",
            "Every different part has one number everywhere. L and R are opposite hands.",
            "Drawings keep their proportions, but their scale changes with the screen. Work to the numbers.",
            *filter(None, [data["foreign"]]),
        ]
    )


SECTIONS: tuple[Section, ...] = (
    ("reading", "How to read it", _reading),
    ("sizes", "Sizes and choices", _sizes),
    ("findings", "Findings", _findings),
    ("views", "Views", _views),
    ("parts", "Parts list", parts),
    ("shopping", "Shopping list", shopping),
    ("cutting", "Cut plan", cutting),
    ("sheets", "Part sheets", sheets),
    ("steps", "Build, step by step", steps),
    ("care", "Finish and seasonal movement", care),
    ("safety", "Safety", safety),
)
