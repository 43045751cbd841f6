"""The cut plan as pages: each board, sheet and stick with its drawing, cuts in order, and blanks."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.cutting.cut_plan import Blank, GlueUp, Role, SawCut, StockLayout
from scantling.packet.context import Context
from scantling.packet.cut_drawings import cut_drawing
from scantling.packet.shown import money
from scantling.piece.model import MaterialKind
from scantling.quantity import listed
from scantling.shop.model import Defect, Shop

Data = dict[str, object]
MANY = 8  # blanks of one glue-up listed singly; more than that by the first and the last
ON = "piece for cut "
NAMES = ("stock", "title")
TRIM = 0.05  # mm: a fence set to less than this only straightens an edge
STOCK = {MaterialKind.SOLID: "Board", MaterialKind.SHEET: "Sheet", MaterialKind.LUMBER: "Stick"}


def cut_sheets(context: Context) -> list[Data]:
    """One entry a stock, in the order of the plan."""
    return _once_each(cut_sheets_singly(context))


def cut_sheets_singly(context: Context) -> list[Data]:
    """The same with an entry for every stock, those cut alike too."""
    return [_sheet(layout, context) for layout in context.plan.cut_plan.layouts]


def _once_each(sheets: list[Data]) -> list[Data]:
    """Stocks of one kind cut alike share an entry: "10 × Stick S2: pine"."""
    alike: dict[str, list[Data]] = {}
    for sheet in sheets:
        alike.setdefault(repr({key: value for key, value in sheet.items() if key not in NAMES}), []).append(
            sheet
        )
    return [group[0] if len(group) == 1 else _shared(group) for group in alike.values()]


def _shared(group: list[Data]) -> Data:
    first = group[0]
    return first | {
        "title": f"{len(group)} × {first['many']}",
        "stock": first["many"],
        "facts": f"{first['facts']} each",
    }


def _sheet(layout: StockLayout, context: Context) -> Data:
    blanks = {blank.id: blank for blank in context.plan.cut_plan.blanks}
    labels = {ident: blank_label(blank, context) for ident, blank in blanks.items()}
    sizes = context.sizes
    drawing = cut_drawing(layout, defects_on(layout.stock, context.plan.shop_as_left), labels, blanks, sizes)
    price = f"to buy, {money(layout.price, context.plan.shop.currency)}" if layout.bought else "on the rack"
    size = f"{sizes.plain(layout.thickness)} × {sizes.plain(layout.width)} × {sizes.plain(layout.length)}"
    return {
        "stock": layout.stock,
        "title": f"{STOCK[layout.kind]} {_stock_name(layout.stock)}: {layout.species}",
        "many": f"{STOCK[layout.kind]} {layout.stock.split('#')[0]}: {layout.species}",
        "machine": _machines(layout),
        "facts": f"{size}, {price}",
        "scale": drawing.scale,
        "svg": drawing.svg,
        "alt": drawing.alt,
        "cuts": [_cut(cut, layout, labels, context) for cut in layout.cuts],
        "blanks": _counted([_blank(p.blank, blanks, labels, layout, context) for p in layout.placed]),
        "notes": list(layout.notes),
    }


def _stock_name(ident: str) -> str:
    """The id "P1#2", the second of a stack, as "P1, no. 2"."""
    return ident.replace("#", ", no. ")


def defects_on(stock: str, shop: Shop) -> Sequence[Defect]:
    """What must be kept out of the blanks of one stock ("P1#2" is the second sheet of P1)."""
    ident = stock.split("#")[0]
    known = {board.id: board.defects for board in shop.boards}
    known |= {sheet.id: sheet.defects for sheet in shop.sheets}
    return known.get(ident, ())


def blank_label(blank: Blank, context: Context) -> str:
    """The item mark; "1 (2 of 3)" for one of several glued into a part."""
    mark = context.items.marks.get(blank.part, blank.part)
    return mark if blank.role is Role.WHOLE else f"{mark} ({blank.index} of {blank.count})"


def _cut(cut: SawCut, layout: StockLayout, labels: dict[str, str], context: Context) -> Data:
    return {
        "number": cut.number,
        "kind": "crosscut" if cut.across else "rip",
        "machine": cut.machine,
        "setting": context.sizes.both(cut.setting) if cut.setting > TRIM else "clean the edge",
        "gives": _gives_words(cut, layout, labels),
    }


def _gives_words(cut: SawCut, layout: StockLayout, labels: dict[str, str]) -> str:
    """What falls off the saw, waste last: "blank 3 and waste", "pieces for cuts 4 and 3"."""
    gives = sorted(
        (_node_words(node, layout, labels) for node in cut.gives), key=lambda words: words == "waste"
    )
    if all(words.startswith(ON) for words in gives):
        return f"pieces for cuts {listed([words.removeprefix(ON) for words in gives])}"
    return listed(gives)


def _node_words(node: str, layout: StockLayout, labels: dict[str, str]) -> str:
    """A blank by its label, a piece still to be cut by the cut that is next on it."""
    piece = next((piece for piece in layout.pieces if piece.id == node), None)
    if piece is None:
        return "waste"
    if piece.use == "blank":
        return f"blank {labels.get(piece.blank, piece.blank)}"
    after = next((cut.number for cut in layout.cuts if cut.of == node), None)
    return piece.use if after is None or piece.use in ("offcut", "waste") else f"{ON}{after}"


def _machines(layout: StockLayout) -> str:
    """Which saw does what, said once; empty when one kind of cut is done on several."""
    crosscuts = sorted({cut.machine for cut in layout.cuts if cut.across})
    rips = sorted({cut.machine for cut in layout.cuts if not cut.across})
    if len(crosscuts) > 1 or len(rips) > 1:
        return ""
    if crosscuts == rips or not (crosscuts and rips):
        return "".join(crosscuts or rips)
    return f"{crosscuts[0]} for crosscuts, {rips[0]} for rips"


def _blank(
    ident: str, blanks: dict[str, Blank], labels: dict[str, str], layout: StockLayout, context: Context
) -> Data:
    blank, sizes = blanks[ident], context.sizes
    flat = dict(layout.flat).get(ident)
    return {
        "label": labels[ident],
        "part": context.items.by_part[blank.part].name,
        "role": blank.role.value,
        "rough": f"{sizes.plain(blank.rough_width)} × {sizes.plain(blank.rough_length)}",
        "milled": sizes.three((blank.thickness, blank.width, blank.length)),
        "flat": sizes.one(flat) if flat is not None else "",
    }


def _counted(rows: list[Data]) -> list[Data]:
    """Equal blanks in one row with their number: "7 × 2"."""
    count: dict[tuple[object, ...], int] = {}
    for row in rows:
        count[tuple(row.values())] = count.get(tuple(row.values()), 0) + 1
    once = {tuple(row.values()): row for row in rows}
    return [
        row if count[key] == 1 else row | {"label": f"{row['label']} × {count[key]}"}
        for key, row in once.items()
    ]


def glue_ups(context: Context) -> list[Data]:
    """Which blanks become one part."""
    return [_glue_up(group, context) for group in context.plan.cut_plan.glue_ups]


def _glue_up(group: GlueUp, context: Context) -> Data:
    ways = {"wide": ", side by side", "deep": ", front to back", "high": ", one above the other"}
    blanks = {blank.id: blank for blank in context.plan.cut_plan.blanks}
    labels = [blank_label(blanks[ident], context) for ident in group.blanks if ident in blanks]
    way = "" if group.role is Role.SEGMENT else ways.get(group.axis, "")
    many = len(labels) > MANY
    return {
        "part": context.named(group.part),
        "what": f"{len(group.blanks)} {group.role.value}s{way}",
        "blanks": f"{labels[0]} to {labels[-1]}" if many else ", ".join(labels),
    }


def unmet(context: Context) -> list[Data]:
    """Parts nothing on the rack or for sale can give."""
    return [
        {"part": context.named(gap.blank.part), "reason": gap.reason, "best": gap.best}
        for gap in context.plan.cut_plan.unmet
    ]
