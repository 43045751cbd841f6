"""Sections of the page about wood: parts list, shopping list, cut plan, part sheets."""

from __future__ import annotations

from typing import Any

from scantling.packet.markup import Inside, Markup, bullets, element, joined, picture, rows_table

Data = dict[str, Any]


def parts(data: Data) -> Markup:
    """The parts list."""
    heads = ["No.", "Part", "Qty", "T", "W", "L", "Material", "Grain", "Joints"]
    rows: list[list[Inside]] = [
        [
            element("b", str(row["number"])),
            row["name"],
            f"{row['quantity']} {'(' + row['hands'] + ')' if row['hands'] else ''}".strip(),
            *(row[key] for key in ("thick", "wide", "long", "material", "grain", "joints")),
        ]
        for row in data["parts"]
    ]
    return rows_table(heads, rows, f"Parts, in {data['unit']}")


def shopping(data: Data) -> Markup:
    """What to buy, group by group, and what it comes to."""
    heads = ["", "Item", "Needed", "On hand", "Buy", "Each", "Cost"]
    tables = []
    for group in data["shopping"]:
        rows: list[list[Inside]] = [
            [
                element("input", type="checkbox", aria_label=f"bought: {line['item']}")
                if line["wanted"]
                else None,
                joined(element("b", line["item"]), " " + line["note"] if line["note"] else None),
                *(line[key] for key in ("need", "on_hand", "buy", "each", "cost")),
            ]
            for line in group["lines"]
        ]
        rows.append(
            ["", element("b", f"Sum of {group['group']}"), "", "", "", "", element("b", group["sum"])]
        )
        tables.append(rows_table(heads, rows, group["group"].capitalize()))
    costs: list[list[Inside]] = [[row["label"], row["words"]] for row in data["costs"]]
    return joined(*tables, rows_table(["What", "Comes to"], costs, "Costs"))


def cutting(data: Data) -> Markup:
    """Each board, sheet and stick with its cuts."""
    plan = data["cutting"]
    shares: list[list[Inside]] = [[row["label"], row["words"]] for row in plan["shares"]]
    glued: list[list[Inside]] = [[row["part"], row["what"], row["blanks"]] for row in plan["glue_ups"]]
    gaps = [f"▲ {gap['part']}: {gap['reason']} {gap['best']}" for gap in plan["unmet"]]
    legend = (
        "Plain tint: blank. Single hatching: offcut worth keeping. Double hatching: waste. "
        "Dense hatching: defect. Thick lines are saw cuts, numbered in their turn; "
        "double arrows show the grain."
    )
    return joined(
        element("p", legend),
        bullets(gaps),
        *(_stock(layout) for layout in plan["layouts"]),
        _sequence(plan["sequence"]),
        rows_table(["Part", "From", "Blanks, in order"], glued, "Glue up before milling to size")
        if glued
        else None,
        rows_table(["Where the wood goes", "How much"], shares, "Shares of the stock"),
        element("p", f"To spend on stock: {plan['money']}."),
        element("p", f"No plan of this kind can cost less than {plan['bound']}.") if plan["bound"] else None,
        element("p", plan["weight"]) if plan["weight"] else None,
        bullets(plan["notes"]),
        joined(element("h3", "Will it come out?"), bullets(plan["chances"])) if plan["chances"] else None,
        rows_table(
            [head.capitalize() for head in plan["ways"]["heads"]],
            plan["ways"]["rows"],
            "Ways to come by the wood",
        ),
        bullets(plan["ways"]["notes"]),
    )


def _sequence(sequence: Data) -> Markup | None:
    if not sequence["rows"]:
        return None
    rows: list[list[Inside]] = [
        [
            element("b", str(row["number"])),
            row["machine"],
            joined(row["what"], f". {row['caution']}" if row["caution"] else None),
            row["setting"],
            row["pieces"],
        ]
        for row in sequence["rows"]
    ]
    heads = ["Set-up", "Machine", "What is done, and how it is held", "Set to", "What goes through"]
    return joined(rows_table(heads, rows, "Sawing and milling, in order"), element("p", sequence["words"]))


def _stock(layout: Data) -> Markup:
    cuts: list[list[Inside]] = [
        [element("b", str(cut["number"])), _how(cut, layout), cut["setting"], cut["gives"]]
        for cut in layout["cuts"]
    ]
    blanks: list[list[Inside]] = [
        [element("b", blank["label"]), blank["part"], blank["rough"], _milled(blank)]
        for blank in layout["blanks"]
    ]
    return joined(
        element("h3", layout["title"]),
        element(
            "p", f"{layout['facts']}. Saw: {layout['machine']}." if layout["machine"] else layout["facts"]
        ),
        picture(layout["svg"], f"{layout['scale']}. {' '.join(layout['notes'])}", measured=True),
        element(
            "div",
            rows_table(
                ["Cut", "How", "Stop or fence", "Gives"], cuts, f"Cuts of {layout['stock']}, in order"
            ),
            rows_table(
                ["Blank", "Part", "Cut to, W × L", "Mill to, T × W × L"],
                blanks,
                f"Blanks of {layout['stock']}",
            ),
            class_="pair",
        ),
    )


def _milled(blank: Data) -> Markup:
    flat = element("span", f" can be flat at {blank['flat']}", class_="quiet") if blank["flat"] else None
    return joined(blank["milled"], flat)


def _how(cut: Data, layout: Data) -> str:
    return str(cut["kind"] if layout["machine"] else f"{cut['kind']}, {cut['machine']}")


def sheets(data: Data) -> Markup:
    """One sheet for each different part."""
    return joined(*(_sheet(sheet) for sheet in data["sheets"]))


def _sheet(sheet: Data) -> Markup:
    keys = ("quantity", "thick", "wide", "long", "material", "grain")
    pairs = (element("div", element("dt", key.capitalize()), element("dd", str(sheet[key]))) for key in keys)
    return element(
        "article",
        element("h3", element("span", str(sheet["number"]), class_="number"), " " + sheet["name"]),
        element("dl", *pairs, class_="facts"),
        bullets(sheet["copies"]),
        picture(sheet["svg"], sheet["faces"], measured=True),
        _holes(sheet["holes"], sheet["pair"]),
        _cuts(sheet["cuts"], sheet["pair"]),
        bullets(sheet["notes"]),
        class_="sheet",
        id=f"part-{sheet['number']}",
    )


def _holes(holes: list[Data], pair: str) -> Markup | None:
    keys = ("face", "along", "across", "through", "diameter", "deep", "purpose")
    rows: list[list[Inside]] = [
        [element("b", hole["letter"]), str(hole["count"]), *(hole[key] for key in keys)] for hole in holes
    ]
    heads = ["Hole", "No.", "Into face", "From end 0", "From lower edge", "From far face"]
    return rows_table([*heads, f"Ø, {pair}", f"Deep, {pair}", "For"], rows, "Holes") if rows else None


def _cuts(cuts: list[Data], pair: str) -> Markup | None:
    keys = ("kind", "face", "along", "across", "through", "deep", "purpose")
    rows: list[list[Inside]] = [[element("b", cut["letter"]), *(cut[key] for key in keys)] for cut in cuts]
    heads = ["Cut", "Kind", "On face", "From end 0", "From lower edge", "From far face"]
    return rows_table([*heads, f"Deep, {pair}", "For"], rows, "Joint cuts") if rows else None
