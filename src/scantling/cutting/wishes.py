"""What the build record wishes of a part: the stock it comes from, and whether it may turn on a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from scantling.cutting.cut_plan import Need, Role, Unheeded, Way
from scantling.cutting.milling import Means
from scantling.cutting.rack import stock_called, unknown_stock
from scantling.cutting.report import unmet
from scantling.cutting.solver.search import Search
from scantling.cutting.supply import Source
from scantling.cutting.wants import blank_of, fits, group_of
from scantling.errors import Place
from scantling.piece.model import BuildRecord, GrainWish, MaterialKind, Measured, StockUse
from scantling.quantity import listed
from scantling.shop.model import Shop

Sources = Callable[[Need], tuple[Source, ...]]


def wished(need: Need, noted: Measured | None) -> tuple[Need, tuple[Unheeded, ...]]:
    """A need as the record wishes it."""
    if noted is None:
        return need, ()
    need = replace(need, only=noted.stock, again=noted.spoiled)
    if noted.grain is None or need.kind is not MaterialKind.SHEET:
        return need, _no_turning(need, noted)
    return replace(need, grain_fixed=noted.grain is GrainWish.STAYS), ()


def _no_turning(need: Need, noted: Measured) -> tuple[Unheeded, ...]:
    if noted.grain is not GrainWish.MAY_TURN:
        return ()
    reason = f"{need.part} is not cut from a sheet, so its grain runs with the board"
    return (Unheeded(need.part, (), reason, "take `grain` out", noted.place),)


def heeded(
    need: Need, sources: Sequence[Source], whole: Shop, left: Shop, record: BuildRecord, means: Means
) -> tuple[Need, tuple[Unheeded, ...]]:
    """A need with those of its wishes that some stock can meet; all others told.

    `whole`: the shop as listed, `left`: as the record leaves it.
    """
    noted = record.of(need.part)
    if noted is None or not need.only:
        return need, ()
    told = [_no_such(need, name, sources, (left, whole), record, noted.place) for name in need.only]
    unheeded = tuple(each for each in told if each is not None)
    named = tuple(name for name, each in zip(need.only, told, strict=True) if each is None)
    tried = replace(need, only=named)
    if not named or any(_gives(tried, way, tuple(sources), means) for way in need.ways):
        return tried, unheeded
    return replace(need, only=()), (*unheeded, _too_small(tried, sources, left, noted.place))


def _gives(need: Need, way: Way, sources: tuple[Source, ...], means: Means) -> bool:
    """Whether its stock gives the part, with nothing else to give."""
    group = group_of([(need, way)], sources, means)
    return bool(fits(need, way, sources, means)) and not Search(group.problem, 0).fill().unmet


def _no_such(
    need: Need,
    name: str,
    sources: Sequence[Source],
    shops: tuple[Shop, Shop],
    record: BuildRecord,
    place: Place,
) -> Unheeded | None:
    """Why a part cannot come from stock of that name, whatever its size; None where it might."""
    if any(source.is_among([name]) for source in sources):
        return None
    used = next((used for used in record.stock if used.stock.lower() == name.lower()), None)
    if used is not None:
        done = "is to be left alone" if used.use is StockUse.LEAVE else "is cut up already"
        reason = f"{need.part} is wanted from {name}, but {name} {done}"
        return Unheeded(need.part, (name,), reason, _elsewhere(need), place)
    found = next((f for f in (stock_called(name, shop) for shop in shops) if f is not None), None)
    if found is None:
        return unknown_stock(name, shops[0], place, need.part)
    of_it = any(source.is_among([found[0].id]) for source in sources)
    lack = f"there are not that many of {found[0].id}" if of_it else f"that is no {need.material}"
    reason = f"{need.part} is wanted from {name}, but {lack}"
    return Unheeded(need.part, (name,), reason, _elsewhere(need), place)


def _elsewhere(need: Need) -> str:
    return f"{need.part} is planned from other stock; name another board, or take `from` out"


def _too_small(need: Need, sources: Sequence[Source], shop: Shop, place: Place) -> Unheeded:
    """No stock named is large, thick or flat enough: the reason, and what it would give."""
    way = need.ways[0]
    width = way.stave[0] if way.role is Role.STAVE else way.width
    among = tuple(source for source in sources if source.is_among(need.only))
    lacking = unmet(blank_of(need, way, 1, 1, width, ""), among, shop, barred=True)
    names = listed(need.only, "or")
    best = f"the best that can be had is {lacking.best}" if lacking.best else _elsewhere(need)
    reason = f"{need.part} cannot come from {names}: {lacking.reason}"
    return Unheeded(need.part, need.only, reason, best, place)


def crowded_out(need: Need, others: Sequence[Need]) -> Unheeded:
    """A part its stock would give, were it not for others that are wanted from it too."""
    names = listed(need.only, "or")
    rivals = [o.part for o in others if o.part != need.part and set(o.only) & set(need.only)]
    beside = f" beside {listed(rivals, 'and')}" if rivals else " beside what else it must give"
    reason = f"{names} has no room for {need.part}{beside}"
    return Unheeded(need.part, need.only, reason, _elsewhere(need))


def placed(unheeded: Sequence[Unheeded], record: BuildRecord) -> Iterator[Unheeded]:
    """Each with the place of its part in the record, where it has none of its own."""
    for each in unheeded:
        noted = record.of(each.part)
        yield replace(each, place=noted.place) if each.place is None and noted else each
