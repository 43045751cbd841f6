"""Is the build record followed: boards left or cut, parts wanted from a board, blanks made and spoiled?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from scantling.cutting.cut_plan import CutPlan
from scantling.joinery.features import MachinedPiece
from scantling.piece.model import BuildRecord, CutBlank, GrainWish, MaterialKind, Measured, StockUse
from scantling.quantity import LengthUnit
from scantling.wood import is_panel_name, panel_named

_NOTED = 1.0  # mm: sizes in a record are rounded


def record_complaints(plan: CutPlan, machined: MachinedPiece) -> Iterator[str]:
    """Everything the plan does against the build record."""
    record = machined.piece.record
    used = {each.stock.lower(): each for each in record.stock}
    for layout in plan.layouts:
        told = used.get(layout.stock.lower())
        if told is not None:
            done = "left alone" if told.use is StockUse.LEAVE else "cut up already"
            yield f"{layout.stock} is used, and the record says it is {done}"
    for noted in record.measured:
        yield from _stock_wished(plan, noted)
        yield from _again(plan, machined, noted)
    yield from _made(plan, record, machined.piece.unit)
    yield from _turned(plan, machined)


def _stock_wished(plan: CutPlan, noted: Measured) -> Iterator[str]:
    told = {name for each in plan.unheeded if each.part == noted.part for name in each.stock}
    names = {name.lower() for name in noted.stock if name not in told}
    if not names:
        return
    mine = {blank.id for blank in plan.blanks if blank.part == noted.part}
    for layout in plan.layouts:
        called = {layout.stock.lower(), layout.stock.lower().partition("#")[0]}
        if called.isdisjoint(names):
            strays = [p.blank for p in layout.placed if p.blank in mine]
            yield from (
                f"{blank} is wanted from {', '.join(noted.stock)}, not {layout.stock}" for blank in strays
            )


def _again(plan: CutPlan, machined: MachinedPiece, noted: Measured) -> Iterator[str]:
    """A part spoiled as often as it was made must be made again."""
    if not noted.spoiled or noted.part not in machined.by_name:
        return
    planned = any(blank.part == noted.part for blank in plan.blanks)
    lacking = any(each.blank.part == noted.part for each in plan.unmet)
    if not (planned or lacking or _standing(machined.piece.record, noted.part)):
        yield f"{noted.part} was spoiled and is not made again"


def _standing(record: BuildRecord, part: str) -> list[CutBlank]:
    """Blanks of a part cut for another making than those spoiled, or cut more often than it was spoiled."""
    noted = record.of(part)
    spoiled = noted.spoiled if noted else 0
    mine = [b for used in record.stock for b in used.blanks if part in (b.part, b.name)]
    times = Counter(blank.name for blank in mine)
    return [blank for blank in mine if times[blank.name] > spoiled or _making(blank.name, part) >= spoiled]


def _making(name: str, part: str) -> int:
    words = name.removeprefix(part).split()
    if words[:1] != ["again"]:
        return 0
    return int(words[1]) if words[1:2] and words[1].isdecimal() else 1


def _made(plan: CutPlan, record: BuildRecord, unit: LengthUnit) -> Iterator[str]:
    """Blanks told to be cut already are so by the record, large enough, and not cut once more."""
    planned = {blank.id for blank in plan.blanks}
    for blank in plan.made:
        cut = [b for b in _standing(record, blank.part) if b.name == blank.id]
        if not cut:
            yield f"{blank.id} is called cut, and it is not, or was spoiled"
        elif not any(_covers(each, blank.length, blank.width, unit) for each in cut):
            yield f"{blank.id} was cut too small for {blank.length:.1f} x {blank.width:.1f}"
        if blank.id in planned:
            yield f"{blank.id} is cut already and is planned again"


def _covers(cut: CutBlank, length: float, width: float, unit: LengthUnit) -> bool:
    have = sorted((cut.long.within(unit), cut.wide.within(unit)))
    return all(h >= w - _NOTED for h, w in zip(have, sorted((length, width)), strict=True))


def _turned(plan: CutPlan, machined: MachinedPiece) -> Iterator[str]:
    """Only what has no grain, or what the maker allows, may be turned on a sheet."""
    for blank in plan.blanks:
        noted = machined.piece.record.of(blank.part)
        wish = noted.grain if noted else None
        grainless = is_panel_name(blank.species) and not panel_named(blank.species).layered
        may = wish is GrainWish.MAY_TURN or (wish is None and grainless)
        if not blank.grain_fixed and not (may and blank.kind is MaterialKind.SHEET):
            yield f"{blank.id} may not be turned"
