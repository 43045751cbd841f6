"""Named fittings: the item chosen from the shop, its sizes, the parts it joins or sits on."""

from __future__ import annotations

from scantling.piece.facts import HardwareFact
from scantling.piece.language.document import MappingNode, Scalar
from scantling.piece.language.parse import parse_expression, parse_fitting
from scantling.piece.model import Notice
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.tree import Scope
from scantling.piece.resolve.wanting import size_in

_SAID = {"length": "length", "width": "width", "thickness": "thick"}
_SAME = 0.6  # mm: nominal sizes of fittings nearer than this are one


def fitting_size(home: Scope, name: str, size: str) -> float | None:
    """`length of slide`: as said, else the chosen item's; None if no fitting goes by that name. [mm]"""
    entry = _entry(home, name)
    if entry is None:
        return None
    sizes = sizes_of(home, name)
    word = _SAID.get(size, size)
    for key in (word, size):
        if key in sizes:
            return sizes[key]
    kind = entry.get("kind")
    place = kind if isinstance(kind, Scalar) else Scalar(name, entry.place)
    raise Asker(home, place, what=name).error(
        f'nothing says the {size} of "{name}"', None, f"add `{word}: ...` to it; {nearest(size, sizes)}"
    )


def sizes_of(home: Scope, name: str) -> dict[str, float]:
    """Every known size of a fitting: the item's from the shop, overruled by what the maker says."""
    entry = _entry(home, name)
    assert entry is not None
    return home.common.once(("fitting", id(home), name), name, None, lambda: _sizes(home, name, entry))


def _sizes(home: Scope, name: str, entry: MappingNode) -> dict[str, float]:
    said: dict[str, float] = {}
    for key in ("length", "width", "thick"):
        scalar = entry.get(key)
        if isinstance(scalar, Scalar):
            asker = Asker(home, scalar, what=f"{name}, {key}")
            said[key] = size_in(asker, parse_expression(scalar))
    fact = chosen(home, name, entry, said)
    return {**(dict(sorted(fact.sizes.items())) if fact else {}), **said}


def chosen(home: Scope, name: str, entry: MappingNode, said: dict[str, float]) -> HardwareFact | None:
    """The shop's item of that kind whose sizes agree with those said; a notice when none does."""
    kind = entry.get("kind")
    if not isinstance(kind, Scalar):
        raise Asker(home, Scalar(name, entry.place), what=name).error(
            f'nothing says what "{name}" is', None, "add `kind: butt hinge 2`"
        )
    fitting = parse_fitting(kind)
    words = " ".join(fitting.words)
    marked = size_in(Asker(home, kind, what=name), fitting.size) if fitting.size is not None else None
    alike = [fact for fact in home.common.facts.hardware if _same_kind(fact.kind, words)]
    fitted = [fact for fact in alike if _agrees(fact, marked, said)]
    if fitted:
        return min(fitted, key=lambda fact: fact.item)
    if home.common.facts.hardware:
        _none_fits(home, name, kind, [fact.item for fact in alike], said)
    return None


def _same_kind(a: str, b: str) -> bool:
    return a.lower().replace("-", " ").split() == b.lower().replace("-", " ").split()


def _agrees(fact: HardwareFact, marked: float | None, said: dict[str, float]) -> bool:
    if any(key in fact.sizes and abs(fact.sizes[key] - size) > _SAME for key, size in said.items()):
        return False
    return marked is None or any(abs(size - marked) <= _SAME for size in fact.sizes.values())


def _none_fits(home: Scope, name: str, kind: Scalar, alike: list[str], said: dict[str, float]) -> None:
    sizes = ", ".join(f"{key} {shown(size, kind.unit)}" for key, size in said.items())
    wanted = f"{kind.text} ({sizes})" if sizes else kind.text
    remedy = f"the shop has {', '.join(sorted(alike)[:4])}" if alike else "add it to the shop file"
    home.common.notice(
        Notice("fitting not in the shop", f"no {wanted} is in the shop for {name}", kind.place, remedy=remedy)
    )


def _entry(home: Scope, name: str) -> MappingNode | None:
    fittings = home.node.get("hardware")
    entry = fittings.get(name) if isinstance(fittings, MappingNode) else None
    return entry if isinstance(entry, MappingNode) else None
