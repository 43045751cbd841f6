"""The wood of the hand-made boot bench: its shop, and its cut plan board by board. Inches in, mm out."""

from __future__ import annotations

from scantling.cutting.cut_plan import (
    Areas,
    Blank,
    CutPlan,
    GlueUp,
    Piece2D,
    Placed,
    Role,
    SawCut,
    StockLayout,
)
from scantling.errors import Place
from scantling.piece.model import MaterialKind
from scantling.quantity.kinds import LengthUnit
from scantling.shop.model import (
    Board,
    Defect,
    HardwareItem,
    Machine,
    MachineKind,
    Sheet,
    Shop,
    Supply,
    Surface,
    Warp,
)

INCH = 25.4
HERE = Place("boot-bench.yaml", 1, 1)


def _boards() -> tuple[Board, ...]:
    knot = Defect("knot", 30 * INCH, 33 * INCH, 0, 2.5 * INCH)
    return (
        Board(
            "C1",
            "cherry, black",
            96 * INCH,
            7 * INCH,
            25.4,
            Surface.ROUGH,
            Warp(bow=3),
            HERE,
            "4/4",
            defects=(knot,),
        ),
        Board(
            "C2",
            "cherry, black",
            84 * INCH,
            8 * INCH,
            25.4,
            Surface.ROUGH,
            Warp(),
            HERE,
            "4/4",
            owned=False,
            price=31.5,
        ),
    )


def bench_shop() -> Shop:
    return Shop(
        name="Back garage",
        unit=LengthUnit.INCHES,
        boards=_boards(),
        sheets=(Sheet("P1", "birch plywood", 6.35, 6.0, 1220, 610, HERE),),
        machines=(
            Machine("mitre saw", MachineKind.MITRE_SAW, HERE, kerf=2.5),
            Machine("table saw", MachineKind.TABLE_SAW, HERE, kerf=3.0),
        ),
        hardware=(HardwareItem("D1", "dowel", "3/8 x 1 1/2 dowel", 0.1, HERE, pack=50),),
        supplies=(Supply("F1", "hardwax oil", "litre", 42.0, HERE, covers=24.0),),
        currency="USD",
    )


def _blank(
    ident: str, of: str, role: Role, index: int, count: int, width: float, length: float, sheet: bool = False
) -> Blank:
    kind = MaterialKind.SHEET if sheet else MaterialKind.SOLID
    extra_w, extra_l = (0.0, 0.0) if sheet else (0.25, 1.0)
    return Blank(
        ident, of, role, index, count, kind, "birch plywood" if sheet else "cherry, black",
        6.0 if sheet else 0.75 * INCH, width * INCH, length * INCH,
        (width + extra_w) * INCH, (length + extra_l) * INCH,
    )  # fmt: skip


BLANKS = (
    _blank("b1", "top", Role.STAVE, 1, 2, 6.1, 36),
    _blank("b2", "top", Role.STAVE, 2, 2, 6.1, 36),
    _blank("b3", "front rail", Role.WHOLE, 0, 1, 2.5, 33.25),
    _blank("b4", "cleat 1", Role.WHOLE, 0, 1, 0.75, 7),
    _blank("b5", "back panel", Role.WHOLE, 0, 1, 13.25, 33.25, sheet=True),
)


def _board_layout() -> StockLayout:
    k = 2.5
    pieces = (
        Piece2D("n0", 0, 0, 96 * INCH, 7 * INCH, "stock"),
        Piece2D("n1", 25.4, 0, 37 * INCH, 7 * INCH, "part way"),
        Piece2D("n2", 25.4, 7 * INCH - 6.35 * INCH, 37 * INCH, 6.35 * INCH, "blank", "b1"),
        Piece2D("n3", 25.4 + 37 * INCH + k, 0, 37 * INCH, 7 * INCH, "part way"),
        Piece2D("n4", 25.4 + 37 * INCH + k, 0, 37 * INCH, 6.35 * INCH, "blank", "b2"),
        Piece2D("n5", 25.4 + 74 * INCH + 2 * k, 0, 96 * INCH - 25.4 - 74 * INCH - 2 * k, 7 * INCH, "offcut"),
    )
    cuts = (
        SawCut(1, "n0", True, 25.4 - k, k, ("", "n0"), "mitre saw", 25.4 - k),
        SawCut(2, "n0", True, 25.4 + 37 * INCH, k, ("n1", "n3"), "mitre saw", 37 * INCH),
        SawCut(3, "n0", True, 25.4 + 74 * INCH + k, k, ("n3", "n5"), "mitre saw", 37 * INCH),
        SawCut(4, "n1", False, 0.65 * INCH - 3, 3.0, ("", "n2"), "table saw", 6.35 * INCH),
        SawCut(5, "n3", False, 6.35 * INCH, 3.0, ("n4", ""), "table saw", 6.35 * INCH),
    )
    placed = tuple(Placed(p.blank, p.x, p.y, p.length, p.width) for p in pieces if p.use == "blank")
    return StockLayout(
        "C1",
        MaterialKind.SOLID,
        "cherry, black",
        96 * INCH,
        7 * INCH,
        25.4,
        False,
        0.0,
        placed,
        pieces,
        cuts,
        (("b1", 21.0), ("b2", 20.2)),
        ("planned for an even bow of 3 mm",),
    )


def _second_layout() -> StockLayout:
    pieces = (
        Piece2D("n0", 0, 0, 84 * INCH, 8 * INCH, "stock"),
        Piece2D("n1", 25.4, 0, 34.25 * INCH, 2.75 * INCH, "blank", "b3"),
        Piece2D("n2", 25.4, 3 * INCH, 8 * INCH, 1 * INCH, "blank", "b4"),
        Piece2D("n3", 25.4 + 35 * INCH, 0, 46 * INCH, 8 * INCH, "offcut"),
    )
    cuts = (
        SawCut(1, "n0", True, 25.4 - 2.5, 2.5, ("", "n0"), "mitre saw", 22.9),
        SawCut(2, "n0", True, 25.4 + 34.25 * INCH, 2.5, ("n0", "n3"), "mitre saw", 34.25 * INCH),
        SawCut(3, "n0", False, 2.75 * INCH, 3.0, ("n1", ""), "table saw", 2.75 * INCH),
    )
    placed = tuple(Placed(p.blank, p.x, p.y, p.length, p.width) for p in pieces if p.use == "blank")
    return StockLayout(
        "C2", MaterialKind.SOLID, "cherry, black", 84 * INCH, 8 * INCH, 25.4, True, 31.5, placed, pieces, cuts
    )


def _sheet_layout() -> StockLayout:
    w, l = 13.25 * INCH, 33.25 * INCH
    pieces = (
        Piece2D("n0", 0, 0, 1220, 610, "stock"),
        Piece2D("n1", 5, 5, l, w, "blank", "b5"),
        Piece2D("n2", 5, 5 + w + 3, 1215, 610 - w - 8, "offcut"),
    )
    cuts = (
        SawCut(1, "n0", False, 2, 3.0, ("", "n0"), "table saw", 5),
        SawCut(2, "n0", False, 5 + w, 3.0, ("n1", "n2"), "table saw", w),
    )
    return StockLayout(
        "P1",
        MaterialKind.SHEET,
        "birch plywood",
        1220,
        610,
        6.0,
        False,
        0.0,
        (Placed("b5", 5, 5, l, w),),
        pieces,
        cuts,
    )


def bench_cut_plan() -> CutPlan:
    return CutPlan(
        blanks=BLANKS,
        layouts=(_board_layout(), _second_layout(), _sheet_layout()),
        glue_ups=(GlueUp("top", Role.STAVE, ("b1", "b2"), "deep"),),
        unmet=(),
        areas=Areas(1_600_000, 900_000, 20_000, 450_000, 230_000),
        money=31.5,
        bound=28.0,
        board_feet=9.3,
    )
