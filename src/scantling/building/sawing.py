"""Cuts of the cut plan as steps: crosscuts before rips, sheets by themselves, ganged blanks apart at last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.naming import numbered
from scantling.building.tables import minutes
from scantling.cutting.cut_plan import SawCut, StockLayout
from scantling.piece.model import MaterialKind, PartName
from scantling.quantity import LengthUnit
from scantling.shop.model import Machine

HEAVY = 1.5e6  # mm² of sheet that one person should not carry alone; common practice, no source
TRIM = 1.6  # mm: a cut this near the edge only takes the edge off


@dataclass(frozen=True, slots=True)
class _Sawing:
    """One cut with its layout and how often the saw has turned from across to along before it.

    `piece`: what was in hand at the first of the cuts that run this way.
    """

    layout: StockLayout
    cut: SawCut
    level: int
    piece: str
    after_planing: bool


def rough_cuts(bench: Bench) -> Iterator[Draft]:
    """Boards, sticks and sheets cut into blanks, in the order of the cuts."""
    for kind in (MaterialKind.SOLID, MaterialKind.LUMBER, MaterialKind.SHEET):
        sawings = [s for layout in bench.layouts(kind) for s in _sawings(layout) if not s.after_planing]
        yield from _steps(bench, kind, sawings)


def cuts_after_planing(bench: Bench) -> Iterator[Draft]:
    """Short blanks that were planed in one length, cut apart."""
    layouts = bench.layouts(MaterialKind.SOLID)
    sawings = [s for layout in layouts for s in _sawings(layout) if s.after_planing]
    for (across, name), found in _by_saw(sawings).items():
        yield Draft(
            Stage.FINAL_SIZE,
            f"Cut ganged blanks apart: {numbered(len(found), 'crosscut' if across else 'rip')}",
            "These blanks were planed in one length because they are too short for the planer. Cut them "
            "apart now.",
            _parts(bench, found),
            machine=name,
            settings=_lines(bench, found),
            active=minutes("set up") + minutes("rough crosscut" if across else "rough rip", len(found)),
            check="Each blank carries its name again.",
            cautions=bench.cautions(_machine(bench, name)),
        )


def _sawings(layout: StockLayout) -> Iterator[_Sawing]:
    cut_of = {cut.of: cut for cut in layout.cuts}
    parent = {child: cut.of for cut in layout.cuts for child in cut.gives if child}
    planed = {piece.id for piece in layout.pieces if piece.flattened is not None}
    for cut in sorted(layout.cuts, key=lambda cut: cut.number):
        chain = [cut.of, *_ancestors(cut.of, parent)]
        turns = [cut_of[node].across for node in reversed(chain)]
        level = sum(a != b for a, b in pairwise(turns)) + (0 if turns[0] else 1)
        same = chain[: _same_way(turns)]
        late = next((node for node in chain if node in planed), "")
        yield _Sawing(layout, cut, level, late if late in same else same[-1], bool(late))


def _same_way(turns: Sequence[bool]) -> int:
    """How many of the last cuts run the same way as the last one."""
    return next((n for n, turn in enumerate(reversed(turns)) if turn is not turns[-1]), len(turns))


def _ancestors(node: str, parent: Mapping[str, str]) -> Iterator[str]:
    while node in parent:
        node = parent[node]
        yield node


def _steps(bench: Bench, kind: MaterialKind, sawings: Sequence[_Sawing]) -> Iterator[Draft]:
    if kind is MaterialKind.SHEET:
        yield from _sheet_steps(bench, sawings)
        return
    for level in sorted({s.level for s in sawings}):
        for (across, name), found in _by_saw(s for s in sawings if s.level == level).items():
            yield _board_step(bench, kind, found, across=across, name=name, level=level)


def _by_saw(sawings: Iterable[_Sawing]) -> dict[tuple[bool, str], tuple[_Sawing, ...]]:
    return grouped(sawings, lambda s: (s.cut.across, s.cut.machine))


def _board_step(
    bench: Bench, kind: MaterialKind, found: Sequence[_Sawing], *, across: bool, name: str, level: int
) -> Draft:
    stock = "board" if kind is MaterialKind.SOLID else "stick"
    layouts = {s.layout.stock for s in found}
    return Draft(
        Stage.ROUGH_CUT,
        f"{_verb(across, level)} {numbered(len(layouts), stock)}, {numbered(len(found), 'cut')}",
        _why(kind, across, level),
        _parts(bench, found),
        machine=name,
        settings=_lines(bench, found),
        active=minutes("set up") + minutes("rough crosscut" if across else "rough rip", len(found)),
        check="Every piece still carries its name and its end 0; what is left over is labelled and racked.",
        cautions=bench.cautions(_machine(bench, name)),
        stock=_stock(found),
    )


def _verb(across: bool, level: int) -> str:
    if across:
        return "Crosscut" if level == 0 else "Crosscut the strips of"
    return "Rip pieces of"


def _why(kind: MaterialKind, across: bool, level: int) -> str:
    if kind is MaterialKind.LUMBER:
        return "Cut off the ends if they are split, then cut to the marks, measured from end 0."
    if across and level == 0:
        return "Cut the boards short before flattening: bow and twist shrink with length. Measure from end 0."
    if across:
        return "Cut the ripped strips at the marks, measured from end 0 of the board."
    return "Rip along the chalk lines, measured from the straighter edge; never a twisted piece on a fence."


def _sheet_steps(bench: Bench, sawings: Sequence[_Sawing]) -> Iterator[Draft]:
    for name, found in grouped(sawings, lambda s: s.cut.machine).items():
        sheets = {s.layout.stock for s in found}
        yield Draft(
            Stage.ROUGH_CUT,
            f"Cut {numbered(len(sheets), 'sheet')} into panels, {numbered(len(found), 'cut')}",
            "Best face down under a circular saw, up on a table saw; score or tape the line where the face "
            "shows. Cut in the order numbered: every cut runs right through the piece in hand.",
            _parts(bench, found),
            machine=name,
            settings=_in_turn(bench, found),
            active=minutes("set up") + minutes("rough rip", len(found)),
            check=f"Sizes as the cut plan says, within {bench.tolerance(0.8)}; diagonals agree.",
            cautions=bench.cautions(_machine(bench, name), *_heavy(found)),
            stock=_stock(found),
        )


def _heavy(found: Iterable[_Sawing]) -> tuple[str, ...]:
    largest = max(s.layout.length * s.layout.width for s in found)
    return ("heavy sheet",) if largest > HEAVY else ()


def _lines(bench: Bench, found: Sequence[_Sawing]) -> tuple[str, ...]:
    """The places of the cuts: `W1: across at 26 1/8, 52 5/8`, `W1 from 1 to 44: along at 2, 4 1/8`."""
    by_stretch = grouped(found, lambda s: _stretch(bench, s))
    equal = grouped(by_stretch.items(), lambda item: (_kept_apart(item[1][0]), _places(bench, item[1])))
    return tuple(
        f"{same[0][0] if len(same) == 1 else f'{stock}, {len(same)} {_word(same[0][1][0])}'}: "
        f"{'across' if same[0][1][0].cut.across else 'along'} at {places}"
        for (stock, places), same in equal.items()
    )


def _kept_apart(sawing: _Sawing) -> str:
    """Each board is marked for itself; sticks of one kind are all alike."""
    layout = sawing.layout
    return layout.stock.partition("#")[0] if layout.kind is MaterialKind.LUMBER else layout.stock


def _word(sawing: _Sawing) -> str:
    return "sticks" if sawing.layout.kind is MaterialKind.LUMBER else "pieces"


def _stretch(bench: Bench, sawing: _Sawing) -> str:
    """The board, and the stretch of it that is sawn if that is not all of it."""
    layout = sawing.layout
    piece = next((p for p in layout.pieces if p.id == sawing.piece), None)
    if piece is None or piece.length > layout.length - 1.0:
        return layout.stock
    return f"{layout.stock} from {bench.rough(piece.x)} to {bench.rough(piece.x + piece.length)}"


def _places(bench: Bench, sawings: Iterable[_Sawing]) -> str:
    unit = "mm" if bench.unit is LengthUnit.MM else "in"
    places = sorted({round(s.cut.at, 1) for s in sawings})
    words = ["the edge" if at < TRIM else bench.rough(at) for at in places]
    return f"{', '.join(words)} {unit}" if words[-1] != "the edge" else words[-1]


def _in_turn(bench: Bench, found: Sequence[_Sawing]) -> tuple[str, ...]:
    """Each sheet's cuts by their numbers: `P1 (in): 1 across 45 15/16, 2 along 12 1/8`."""
    unit = "mm" if bench.unit is LengthUnit.MM else "in"
    by_sheet = grouped(found, lambda s: s.layout.stock)
    return tuple(
        f"{stock} ({unit}): {', '.join(_numbered(bench, s.cut) for s in sawings)}"
        for stock, sawings in by_sheet.items()
    )


def _numbered(bench: Bench, cut: SawCut) -> str:
    place = "trim" if cut.at < TRIM else bench.number(cut.at)
    return f"{cut.number} {'across' if cut.across else 'along'} {place}"


def _parts(bench: Bench, found: Iterable[_Sawing]) -> tuple[PartName, ...]:
    layouts = {s.layout.stock: s.layout for s in found}
    return bench.names.in_order(
        bench.blanks[placed.blank].part for layout in layouts.values() for placed in layout.placed
    )


def _stock(found: Iterable[_Sawing]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(s.layout.stock for s in found))


def _machine(bench: Bench, name: str) -> Machine | None:
    return next((machine for machine in bench.shop.machines if machine.name == name), None)
