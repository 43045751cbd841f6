"""What a wish costs: two plans of one piece side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from scantling.cutting.cut_plan import Blank, CutPlan
from scantling.piece.model import PartName
from scantling.quantity import listed

_CENT = 0.005
_FEET = 0.05
_SHARE = 0.005
_NAMED = 4  # parts named in one sentence


@dataclass(frozen=True, slots=True)
class Moved:
    """A part whose blanks come from other stock than before; stock in the order of the plan."""

    part: PartName
    before: tuple[str, ...]
    after: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """`after` less `before`. `used`: change of the share of the wood cut into that becomes blanks (0..1).

    Blanks cut in between are left out. `blanks_moved`: blanks that both plans cut, from another board.
    `freed`, `added`: stock no longer, and newly, cut into. `lost`, `gained`: parts that have no wood any
    more, and that have it now.
    """

    money: float
    bound: float
    board_feet: float
    used: float
    blanks_moved: int
    moved: tuple[Moved, ...]
    freed: tuple[str, ...]
    added: tuple[str, ...]
    lost: tuple[PartName, ...]
    gained: tuple[PartName, ...]

    @property
    def is_nothing(self) -> bool:
        lists = (self.moved, self.freed, self.added, self.lost, self.gained)
        return not any(lists) and abs(self.money) < _CENT

    def sentences(self, money: Callable[[float], str]) -> tuple[str, ...]:
        """It in plain words, weightiest first. `money` says a sum with its currency."""
        if self.is_nothing:
            return ("nothing changes",)
        said = (
            f"no wood is left for {_some(self.lost)}" if self.lost else "",
            f"there is wood now for {_some(self.gained)}" if self.gained else "",
            _more(self.money, _CENT, "{} more is spent", "{} less is spent", money),
            f"{listed(self.added)} must be cut into as well" if self.added else "",
            f"{listed(self.freed)} {'stays' if len(self.freed) == 1 else 'stay'} whole" if self.freed else "",
            self._said_moved(),
            _more(self.board_feet, _FEET, "{} board feet more", "{} board feet less", "{:.1f}".format),
            _more(self.used, _SHARE, "{} more of the wood becomes parts",
                  "{} less of the wood becomes parts", "{:.0%}".format),
        )  # fmt: skip
        return tuple(sentence for sentence in said if sentence)

    def _said_moved(self) -> str:
        if not self.moved:
            return ""
        if len(self.moved) > _NAMED:
            return f"{len(self.moved)} parts come from another board: {_some([m.part for m in self.moved])}"
        each = [f"{m.part} comes from {listed(m.after)}, not {listed(m.before)}" for m in self.moved]
        return "; ".join(each)


def compare(before: CutPlan, after: CutPlan) -> Difference:
    """What changes from one plan to the other."""
    made = {blank.id for blank in after.made}
    places = {blank: stock for blank, stock in _boards(before).items() if blank not in made}
    was, now = _boards_of_parts(before, places), _boards_of_parts(after, _boards(after))
    shared = [part for part in now if part in was]
    lacked, lacks = _lacking(before), _lacking(after)
    cut_before, cut_after = ([layout.stock for layout in plan.layouts] for plan in (before, after))
    return Difference(
        money=round(after.money - before.money, 2),
        bound=round(after.bound - before.bound, 2),
        board_feet=round(after.board_feet - before.board_feet, 2),
        used=share_used(after) - share_used(before),
        blanks_moved=sum(places.get(blank, stock) != stock for blank, stock in _boards(after).items()),
        moved=tuple(Moved(part, was[part], now[part]) for part in shared if set(was[part]) != set(now[part])),
        freed=tuple(
            stock for stock in cut_before if stock not in cut_after and not _is_cut(stock, before, made)
        ),
        added=tuple(stock for stock in cut_after if stock not in cut_before),
        lost=tuple(part for part in lacks if part not in lacked),
        gained=tuple(part for part in lacked if part not in lacks and part in now),
    )


def share_used(plan: CutPlan) -> float:
    """Share of the wood cut into, its offcuts left out, that becomes blanks; 0 where nothing is cut."""
    cut = plan.areas.stock - plan.areas.offcuts
    return plan.areas.blanks / cut if cut > 0 else 0.0


def _boards(plan: CutPlan) -> dict[str, str]:
    return {placed.blank: layout.stock for layout in plan.layouts for placed in layout.placed}


def _is_cut(stock: str, before: CutPlan, made: set[str]) -> bool:
    """Whether a board is gone because it was cut up since."""
    return any(p.blank in made for layout in before.layouts if layout.stock == stock for p in layout.placed)


def _boards_of_parts(plan: CutPlan, places: Mapping[str, str]) -> dict[PartName, tuple[str, ...]]:
    found: dict[PartName, list[str]] = {}
    for blank in plan.blanks:
        if blank.id in places:
            found.setdefault(blank.part, []).append(places[blank.id])
    return {part: tuple(dict.fromkeys(stocks)) for part, stocks in found.items()}


def _lacking(plan: CutPlan) -> list[PartName]:
    blanks: list[Blank] = [lacking.blank for lacking in plan.unmet]
    return list(dict.fromkeys(blank.part for blank in blanks))


def _some(parts: tuple[PartName, ...] | list[PartName]) -> str:
    if len(parts) <= _NAMED:
        return listed(parts)
    return f"{', '.join(parts[:_NAMED])} and {len(parts) - _NAMED} more"


def _more(value: float, least: float, more: str, less: str, said: Callable[[float], str]) -> str:
    if abs(value) < least:
        return ""
    return (more if value > 0 else less).format(said(abs(value)))
