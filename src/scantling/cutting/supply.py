"""Stock that could serve a need, turned into the solver's bins.

Sheets are matched by name and marking, lumber by name and nominal size, boards by species.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import count as count_from
from itertools import islice

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Need
from scantling.cutting.milling import Timber, thickness_lost, timber_of
from scantling.cutting.saws import Saw, Task, saw_for
from scantling.cutting.solver.problem import Barred, Stock, down, up
from scantling.piece.model import MaterialKind
from scantling.shop.model import Board, BoardFace, BoardForSale, Defect, Lumber, Sheet, Shop, Surface
from scantling.wood import is_species_name, species_named

_MM3_PER_BOARD_FOOT = 144 * 25.4**3
_USUAL_PRICE = 10.0  # a board foot, where the shop sells none of it: only to weigh boards against each other
_SOUND = frozenset({"sound knot", "sapwood", "stain"})  # may lie on a hidden face; common practice, no source
_LABEL_SLACK = 0.5  # mm: 3/4 and 19 mm are one marking, where nothing is marked nearer
_SAME_LABEL = 0.06  # mm: 19.05 and 19 are the same
_MANY = 200  # of a stack without end that can be named by number
_POOLS = 1000  # more than there are stacks of one wood
_LEAST_COUNTED = 1.0  # in: thinner boards are sold as 1 in; common practice, no source


@dataclass(frozen=True)
class Source:
    """Stock of one kind: what it is in the shop, and the bin the solver sees."""

    item: Board | BoardForSale | Sheet | Lumber
    id: str
    species: str
    length: float
    width: float
    thickness: float
    price: float  # each; 0 where owned
    bought: bool
    bin: Stock
    across: Saw
    along: Saw
    first_edge: Saw
    final: Saw  # for crosscuts of what is planed already
    timber: Timber | None = None
    number: int | None = None  # it is this one of a stack alone
    gone: frozenset[int] = frozenset()  # numbers of its stack that are not to be had from it

    def name_of(self, copy: int) -> str:
        """What the plan calls the copy (from 0) of this stack: its id, "id#2", ..."""
        numbers = (n for n in count_from(1) if n not in self.gone)
        number = self.number or next(islice(numbers, copy, None))
        return self.id if number == 1 else f"{self.id}#{number}"

    def is_among(self, only: Sequence[str]) -> bool:
        """Whether it is among the stock named: a stack's own name means all of it, no name anything."""
        return not only or any(self._answers_to(name.lower()) for name in only)

    def _answers_to(self, name: str) -> bool:
        alone = self.number is not None and name == f"{self.id}#{self.number}".lower()
        return alone or name == self.id.lower()

    @property
    def board_feet(self) -> float:
        """Board feet of one, by its nominal thickness."""
        if not isinstance(self.item, Board | BoardForSale):
            return 0.0
        return board_feet(self.item)


def board_feet(board: Board | BoardForSale) -> float:
    """Thickness in (nominal where said) x width in x length ft / 12; under 1 in counts as 1 in."""
    thick = _nominal_inches(board.nominal) or board.thickness / 25.4
    return max(thick, _LEAST_COUNTED) * (board.width / 25.4) * (board.length / 304.8) / 12


def _nominal_inches(nominal: str) -> float | None:
    whole, _, quarter = nominal.partition("/")
    return int(whole) / int(quarter) if whole.isdigit() and quarter.isdigit() and int(quarter) else None


@lru_cache(maxsize=256)
def canonical(words: str) -> str:
    """The handbook's name of a wood, or the words made plain where it knows none."""
    return species_named(words).name if is_species_name(words) else plain(words)


def plain(words: str) -> str:
    """Lower case, no punctuation, single spaces."""
    return " ".join("".join(c if c.isalnum() or c == "/" else " " for c in words.lower()).split())


def sources_for(need: Need, shop: Shop) -> tuple[Source, ...]:
    """Every stock of the right material, the maker's own first."""
    match need.kind:
        case MaterialKind.SOLID:
            return _boards(canonical(need.species), shop)
        case MaterialKind.SHEET:
            return _sheets(plain(need.material), need.label or need.ways[0].thickness, shop)
        case MaterialKind.LUMBER:
            return _sticks(plain(need.material), shop)


def boards_of_wood(species: str, shop: Shop) -> tuple[Source, ...]:
    """Every board of a wood, the maker's own first."""
    return _boards(canonical(species), shop)


def singled_out(
    sources: Sequence[Source], gone: Mapping[str, frozenset[int]], names: Iterable[str]
) -> tuple[Source, ...]:
    """Sources that know which of their stack are gone; one that is named by its number stands alone."""
    wanted = frozenset(name.lower() for name in names if "#" in name)
    found: list[Source] = []
    for source in sources:
        known = replace(source, gone=gone.get(source.id, frozenset()))
        found += _apart(known, wanted) if wanted and not isinstance(source.item, Board) else [known]
    return tuple(found)


def _apart(source: Source, names: frozenset[str]) -> list[Source]:
    count = source.bin.count
    numbers = islice((n for n in count_from(1) if n not in source.gone), count or _MANY)
    alone = [n for n in numbers if f"{source.id}#{n}".lower() in names]
    singles = [
        replace(source, number=n, bin=replace(source.bin, pool=source.bin.pool + n * _POOLS, count=1))
        for n in alone
    ]
    left = None if count is None else count - len(alone)
    rest = replace(source, gone=source.gone.union(alone), bin=replace(source.bin, count=left))
    return [*singles, rest] if left != 0 else singles


@lru_cache(maxsize=64)
def _boards_of(shop_boards: tuple[Board, ...], species: str) -> tuple[Board, ...]:
    return tuple(b for b in shop_boards if canonical(b.species) == species)


def _boards(species: str, shop: Shop) -> tuple[Source, ...]:
    own = _boards_of(shop.boards, species)
    sold = [b for b in shop.for_sale if canonical(b.species) == species]
    worth = min((b.price_per_board_foot for b in sold if b.price_per_board_foot > 0), default=_USUAL_PRICE)
    boards: list[Board | BoardForSale] = [*sorted(own, key=lambda b: not b.owned), *sold]
    return tuple(_board(number, board, worth, shop) for number, board in enumerate(boards))


def _board(pool: int, board: Board | BoardForSale, worth: float, shop: Shop) -> Source:
    timber = timber_of(board)
    rough = timber.surface is not Surface.TWO_FACES and timber.surface is not Surface.FOUR_SIDES
    uneven = rough or thickness_lost(timber, board.length, board.width) > allow.STILL_FLAT
    across = saw_for(Task.ROUGH_CROSSCUT if uneven else Task.CROSSCUT, shop)
    along = saw_for(Task.ROUGH_RIP if uneven else Task.RIP, shop)
    own = isinstance(board, Board)
    bought = not (isinstance(board, Board) and board.owned)
    price = _board_price(board) if bought else 0.0
    defects = board.defects if isinstance(board, Board) else ()
    ends = board.end_waste if isinstance(board, Board) else allow.USUAL_END_WASTE
    return Source(
        board,
        board.id,
        board.species,
        board.length,
        board.width,
        board.thickness,
        price,
        bought,
        Stock(
            pool=pool,
            length=down(board.length),
            width=down(board.width),
            count=1 if own else None,
            money=price,
            rate=worth * board.thickness / _MM3_PER_BOARD_FOOT,
            kerf_across=up(across.kerf),
            kerf_along=up(along.kerf),
            ends=(up(ends), up(ends)),
            crook=up(timber.warp.crook),
            barred=barred(defects),
            keep=(up(allow.KEEP_LENGTH), up(allow.KEEP_WIDTH)),
        ),
        across,
        along,
        saw_for(Task.ROUGH_RIP, shop),
        saw_for(Task.CROSSCUT, shop),
        timber,
    )


def _board_price(board: Board | BoardForSale) -> float:
    if isinstance(board, Board):
        return board.price
    return round(board.price_per_board_foot * board_feet(board), 2)


def barred(defects: Iterable[Defect]) -> tuple[Barred, ...]:
    """Defects as rectangles the solver keeps clear: sound ones only where they would be seen."""
    return tuple(
        Barred(down(d.from_end), up(d.to_end), down(d.from_edge), up(d.to_edge), _level(d)) for d in defects
    )


def _level(defect: Defect) -> int:
    if defect.kind.lower() not in _SOUND:
        return 0
    return 2 if defect.face is BoardFace.OTHER else 1


def _sheets(material: str, label: float, shop: Shop) -> tuple[Source, ...]:
    named = [s for s in shop.sheets if f"{material} ".startswith(f"{plain(s.name)} ")]
    apart = {s.id: min(abs(s.label - label), abs(s.thickness - label)) for s in named}
    nearest = min(apart.values(), default=0.0) + _SAME_LABEL
    found = [s for s in named if apart[s.id] <= min(_LABEL_SLACK, nearest)]
    saw = saw_for(Task.SHEET, shop)
    own_first = sorted(filter(_outlasts_its_trim, found), key=lambda s: not s.owned)
    return tuple(
        _sheet(pool, sheet, saw, turned) for pool, sheet in enumerate(own_first) for turned in (False, True)
    )


def _outlasts_its_trim(sheet: Sheet) -> bool:
    return min(sheet.length, sheet.width) > 2 * allow.SHEET_TRIM


def _sheet(pool: int, sheet: Sheet, saw: Saw, turned: bool) -> Source:
    trim = up(allow.SHEET_TRIM)
    length, width = down(sheet.length), down(sheet.width)
    bars = barred(sheet.defects)
    if turned:
        length, width = width, length
        bars = tuple(Barred(b.y0, b.y1, b.x0, b.x1, b.level) for b in bars)
    price = 0.0 if sheet.owned else sheet.price
    return Source(
        sheet,
        sheet.id,
        sheet.name,
        sheet.length,
        sheet.width,
        sheet.thickness,
        price,
        not sheet.owned,
        Stock(
            pool=pool,
            length=length,
            width=width,
            count=sheet.count if sheet.owned else None,  # a yard has as many as are wanted
            money=price,
            rate=(sheet.price or _USUAL_PRICE) / (length * width),
            kerf_across=up(saw.kerf),
            kerf_along=up(saw.kerf),
            ends=(trim, trim),
            edges=(trim, trim),
            barred=bars,
            turned=turned,
            keep=(up(allow.KEEP_LENGTH), up(allow.KEEP_LENGTH)),
        ),
        saw,
        saw,
        saw,
        saw,
    )


def _sticks(material: str, shop: Shop) -> tuple[Source, ...]:
    found = [
        stick
        for stick in shop.lumber
        if material.startswith(plain(stick.name)) and material.endswith(plain(stick.nominal))
    ]
    across, along = saw_for(Task.CROSSCUT, shop), saw_for(Task.RIP, shop)
    own_first = sorted(found, key=lambda s: not s.owned)
    return tuple(_stick(pool, stick, across, along) for pool, stick in enumerate(own_first))


def _stick(pool: int, stick: Lumber, across: Saw, along: Saw) -> Source:
    price = 0.0 if stick.owned else stick.price
    trim = up(allow.STICK_TRIM)
    return Source(
        stick,
        stick.id,
        stick.name,
        stick.length,
        stick.width,
        stick.thickness,
        price,
        not stick.owned,
        Stock(
            pool=pool,
            length=down(stick.length),
            width=down(stick.width),
            count=stick.count,
            money=price,
            rate=(stick.price or _USUAL_PRICE) / (stick.length * stick.width * 1e4),
            kerf_across=up(across.kerf),
            kerf_along=up(along.kerf),
            ends=(trim, trim),
            keep=(up(allow.KEEP_LENGTH), up(min(allow.KEEP_WIDTH, stick.width))),
        ),
        across,
        along,
        along,
        across,
    )
