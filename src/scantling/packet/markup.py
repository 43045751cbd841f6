"""HTML built from escaped pieces: whatever a maker wrote stays text."""

from __future__ import annotations

import re
from html import escape

_FRACTION = re.compile(r"(?<![\d/])(\d+/\d+)(?![\d/])")


class Markup(str):
    """Text that is already HTML."""

    __slots__ = ()


Inside = str | None
VOID = frozenset({"input"})  # elements of ours that have nothing inside and no end tag


def text(words: str) -> Markup:
    """Escaped words; fractions marked, so that a style can set them small and the whole number not."""
    return Markup(_FRACTION.sub(r'<span class="f">\1</span>', escape(words)))


def element(name: str, *inside: Inside, **attributes: str) -> Markup:
    """One element. Plain strings are escaped, `None` and "" left out; `class_` stands for class."""
    named = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(value)}"' for key, value in attributes.items()
    )
    if name in VOID:
        return Markup(f"<{name}{named}>")
    return Markup(f"<{name}{named}>{joined(*inside)}</{name}>")


def joined(*inside: Inside) -> Markup:
    """Pieces one after another."""
    return Markup("".join(piece if isinstance(piece, Markup) else text(piece) for piece in inside if piece))


def rows_table(heads: list[str], rows: list[list[Inside]], caption: str) -> Markup:
    """A table that scrolls sideways by itself on a narrow screen."""
    head = element("tr", *(element("th", title, scope="col") for title in heads))
    body = joined(*(_row(row, headed=bool(heads[0])) for row in rows))
    table = element("table", element("caption", caption), element("thead", head), element("tbody", body))
    kind = "wide many" if len(heads) > 4 else "wide"
    return element("div", table, class_=kind, tabindex="0", role="region", aria_label=caption)


def _row(cells: list[Inside], headed: bool) -> Markup:
    """A row that its first cell names, unless that column has no head."""
    first = element("th", cells[0], scope="row") if headed else element("td", cells[0])
    return element("tr", first, *(element("td", cell) for cell in cells[1:]))


def bullets(lines: list[str]) -> Markup:
    """An unordered list, or nothing."""
    return element("ul", *(element("li", line) for line in lines)) if lines else Markup("")


def picture(svg: str, note: str = "", *, measured: bool = False) -> Markup:
    """A drawing of ours with a line under it; a `measured` one scrolls rather than shrinks."""
    inner = Markup(svg.replace(' xmlns="http://www.w3.org/2000/svg"', "", 1))
    caption = element("figcaption", note) if note else None
    return element(
        "figure", element("div", inner, class_="drawing measured" if measured else "drawing"), caption
    )
