"""From boards to flat, straight, square blanks: choose, crosscut, rip, flatten, thickness, straighten."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.naming import numbered, plural
from scantling.building.tables import minutes
from scantling.cutting.cut_plan import Blank, Role, StockLayout
from scantling.piece.model import MaterialKind
from scantling.quantity import listed
from scantling.shop.model import Board, Machine, MachineKind, Surface

REST = 24 * 60.0  # minutes between rough and final milling; common practice, no source
SETTLE = 7 * 24 * 60.0  # bought wood in the shop's air: 7 to 14 days, maker's gluing guide
FLAT_ENOUGH = 0.5  # mm of warp that needs no flattening
PASSES = 5  # through the planer for one thickness; common practice 4 to 10


def choosing(bench: Bench) -> Iterator[Draft]:
    """What is bought comes home; the blanks are chalked on the boards."""
    boards = bench.layouts(MaterialKind.SOLID)
    if boards:
        yield from _bought(bench, boards)
        yield _choose(bench, boards)


def milling(bench: Bench) -> Iterator[Draft]:
    """Rough blanks made flat, thick, straight and wide as they should be."""
    cut_already = tuple(blank for blank in bench.cuts.made if blank.kind is MaterialKind.SOLID)
    blanks = (*cut_already, *_layout_blanks(bench, bench.layouts(MaterialKind.SOLID)))
    yield from _flatten(bench, blanks)
    yield from _thickness(bench, blanks)
    yield from _straighten(bench, blanks)


def stock_words(bench: Bench, blanks: Iterable[Blank]) -> str:
    """`8 leg layers, 3 staves of lid board and the lip`."""
    by_name = grouped(blanks, lambda b: (bench.part(b.part).definition, b.role))
    return listed([_blank_words(bench, found) for found in by_name.values()])


def _blank_words(bench: Bench, blanks: Sequence[Blank]) -> str:
    noun = bench.names.noun(blanks[0].part)
    if blanks[0].role is Role.WHOLE:
        return blanks[0].part if len(blanks) == 1 else f"{len(blanks)} {plural(noun)}"
    return numbered(len(blanks), f"{noun} {blanks[0].role.value}")


def parts_of(bench: Bench, blanks: Iterable[Blank]) -> tuple[str, ...]:
    """The parts these blanks are for, in the order of the piece."""
    return bench.names.in_order(blank.part for blank in blanks)


def _layout_blanks(bench: Bench, layouts: Iterable[StockLayout]) -> tuple[Blank, ...]:
    return tuple(bench.blanks[placed.blank] for layout in layouts for placed in layout.placed)


def _bought(bench: Bench, boards: Sequence[StockLayout]) -> Iterator[Draft]:
    bought = [layout for layout in boards if layout.bought]
    if not bought:
        return
    names = grouped(bought, lambda layout: layout.stock.rpartition("#")[0] or layout.stock)
    words = listed([f"{numbered(len(found), 'board')} of {name}" for name, found in names.items()])
    yield Draft(
        Stage.BUY,
        "Bring the bought boards home",
        f"Buy {words}; measure them and stack them in the shop on stickers, air on all faces. "
        "If a board differs from the plan, enter what you measured and plan again before cutting.",
        parts_of(bench, _layout_blanks(bench, bought)),
        active=minutes("bring home"),
        wait=SETTLE,
        wait_for="bought boards to take up the air of the shop",
        check="Moisture of all boards within 2 % of each other, 6 to 9 %.",
    )


def _choose(bench: Bench, boards: Sequence[StockLayout]) -> Draft:
    lines = [f"{lay.stock}: {stock_words(bench, _layout_blanks(bench, [lay]))}" for lay in boards]
    return Draft(
        Stage.CHOOSE,
        f"Choose and mark {numbered(len(boards), 'board')}",
        "Chalk the blanks on the boards as the cut plan draws them, from the end marked 0, and keep clear of "
        "knots, checks and wane. Write each part's name on its blank and an arrow to end 0.",
        parts_of(bench, _layout_blanks(bench, boards)),
        settings=tuple(lines),
        active=minutes("mark parts", len(boards)),
        check=f"{numbered(sum(len(lay.placed) for lay in boards), 'blank')} chalked, each with its name.",
    )


def _flatten(bench: Bench, blanks: Sequence[Blank]) -> Iterator[Draft]:
    uneven = [blank for blank in blanks if _needs_flattening(bench, blank)]
    for (machine, how), found in grouped(uneven, lambda b: _flattener(bench, b)).items():
        yield Draft(
            Stage.FLATTEN,
            f"Flatten {numbered(len(found), 'blank')} {_where(machine, how)}",
            f"{_HOW[how]} Take {stock_words(bench, found)}. When one face is flat, plane the other parallel "
            f"and stop {bench.show(1.6)} over thickness; stand the blanks on edge with air all round.",
            parts_of(bench, found),
            machine=machine.name if machine else "",
            settings=_flatten_settings(bench, found, how),
            active=minutes("set up") + minutes("flatten", len(found)),
            wait=REST,
            wait_for="the wood to settle before its last planing",
            check="The blank does not rock on a flat table, winding sticks agree, and no light shows under a "
            f"straightedge: within {bench.tolerance(0.4)}.",
            cautions=bench.cautions(machine),
        )


_HOW = {
    "jointer": "Cupped face down, light passes until the whole face is cut.",
    "sled": "Cupped face down on the sled; shim opposite corners so that the blank does not rock, and lay "
    "supports every 8 to 12 in (200 to 300 mm). Light passes until the upper face is flat.",
    "by hand": "Plane the high corners first, across the grain, then along it until the face is flat.",
}


def _where(machine: Machine | None, how: str) -> str:
    return f"on the {how}" if how == "sled" else f"with the {machine.name}" if machine else "by hand"


def _flatten_settings(bench: Bench, blanks: Sequence[Blank], how: str) -> tuple[str, ...]:
    depth = f"no more than {bench.show(0.8)} a pass" if how != "by hand" else ""
    least = min(blank.rough_length for blank in blanks)
    planer = bench.machine(MachineKind.PLANER)
    short = bool(planer and planer.least_length and least < planer.least_length and how == "sled")
    carried = f"blanks under {bench.show(planer.least_length or 0)} end to end" if short and planer else ""
    return tuple(words for words in (depth, carried) if words)


def _needs_flattening(bench: Bench, blank: Blank) -> bool:
    layout = bench.layout_of.get(blank.id)
    stock = bench.stock_of(layout) if layout else None
    if stock is None or getattr(stock, "surface", Surface.ROUGH) in (Surface.ROUGH, Surface.ONE_FACE):
        return True
    if not isinstance(stock, Board):
        return False
    told = (abs(reading or 0.0) for s in stock.stations for reading in (s.gap, s.cup, s.twist))
    return max(stock.warp.bow, stock.warp.cup, stock.warp.twist, *told) > FLAT_ENOUGH


def _flattener(bench: Bench, blank: Blank) -> tuple[Machine | None, str]:
    """What gives this blank its first flat face: jointer, planer with a sled, or a hand plane."""
    jointer, planer = bench.machine(MachineKind.JOINTER), bench.machine(MachineKind.PLANER)
    if jointer and _takes(jointer, blank):
        return jointer, "jointer"
    if planer and planer.sled and _takes(planer, blank):
        return planer, "sled"
    return bench.machine(MachineKind.HAND_PLANE), "by hand"


def _takes(machine: Machine, blank: Blank) -> bool:
    wide = machine.most_width is None or blank.rough_width <= machine.most_width
    return wide and (machine.most_length is None or blank.rough_length <= machine.most_length)


def _thickness(bench: Bench, blanks: Sequence[Blank]) -> Iterator[Draft]:
    """All blanks of one thickness at one setting, thickest first."""
    if not blanks:
        return
    planer = bench.machine(MachineKind.PLANER)
    machine = planer or bench.machine(MachineKind.HAND_PLANE)
    settings = grouped(sorted(blanks, key=lambda b: -b.thickness), lambda b: bench.both(b.thickness))
    thin = [b for b in blanks if planer and b.thickness < (planer.least_thickness or 0)]
    yield Draft(
        Stage.THICKNESS,
        f"Plane {numbered(len(blanks), 'blank')} to thickness",
        "Thickest first. Take about the same from both faces, and send every blank of one thickness through "
        f"at the same last setting.{_on_carrier(bench, thin)}",
        parts_of(bench, blanks),
        machine=machine.name if machine else "",
        settings=tuple(f"{thickness}: {stock_words(bench, found)}" for thickness, found in settings.items()),
        active=minutes("set up", len(settings)) + minutes("plane pass", PASSES * len(blanks)),
        check=f"First and last blank of each thickness agree at both ends within {bench.tolerance(0.2)}.",
        cautions=bench.cautions(machine),
    )


def _on_carrier(bench: Bench, thin: Sequence[Blank]) -> str:
    if not thin:
        return ""
    words = stock_words(bench, thin)
    return f" Take {words} through on a flat carrier board: thinner than the planer's least."


def _straighten(bench: Bench, blanks: Sequence[Blank]) -> Iterator[Draft]:
    if not blanks:
        return
    edge = bench.machine(
        MachineKind.JOINTER, MachineKind.CIRCULAR_SAW, MachineKind.TABLE_SAW, MachineKind.HAND_PLANE
    )
    saw = bench.machine(MachineKind.TABLE_SAW, MachineKind.BAND_SAW, MachineKind.CIRCULAR_SAW) or edge
    widths = grouped(sorted(blanks, key=lambda b: -b.width), lambda b: bench.show(b.width))
    yield Draft(
        Stage.RIP,
        f"Straighten an edge and rip {numbered(len(blanks), 'blank')} to width",
        f"Make one edge straight and square {_EDGES[edge.kind] if edge else 'by hand'}, then rip the other "
        "with that edge to the fence, widest first. Mark the straight edge.",
        parts_of(bench, blanks),
        machine=saw.name if saw else "",
        settings=tuple(f"{width}: {stock_words(bench, found)}" for width, found in widths.items()),
        active=minutes("set up") + minutes("edge and rip", len(blanks)),
        check=f"Two edges laid together show no light; widths within {bench.tolerance(0.4)} of the list.",
        cautions=bench.cautions(saw),
    )


_EDGES = {
    MachineKind.JOINTER: "on the jointer",
    MachineKind.CIRCULAR_SAW: "with the circular saw along a straight guide",
    MachineKind.TABLE_SAW: "on a carrier board with hold-downs that rides the table saw's fence",
    MachineKind.HAND_PLANE: "with the hand plane",
}
