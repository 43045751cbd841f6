"""Named fittings: the item chosen from the shop, its sizes, the parts it joins or sits on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scantling.piece.facts import HardwareFact
from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, as_mapping
from scantling.piece.language.parse import parse_expression, parse_fitting
from scantling.piece.model import Axis, Hardware, Notice
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.images import Image
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.tree import SIDES, Scope
from scantling.piece.resolve.uses import Use, scalars_of
from scantling.piece.resolve.values import Value
from scantling.piece.resolve.wanting import place_at, size_in
from scantling.quantity.kinds import Kind, LengthUnit

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
    kind = entry.get("kind")
    said = kind if isinstance(kind, Scalar) else None
    return home.common.once(("fitting", id(home), name), name, said, lambda: _sizes(home, name, entry))


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
        marking = "" if marked is None else f" {shown(marked, kind.unit)}"
        _none_fits(home, name, words + marking, said, kind, alike)
    return None


def _same_kind(a: str, b: str) -> bool:
    return a.lower().replace("-", " ").split() == b.lower().replace("-", " ").split()


def _agrees(fact: HardwareFact, marked: float | None, said: dict[str, float]) -> bool:
    if any(key in fact.sizes and abs(fact.sizes[key] - size) > _SAME for key, size in said.items()):
        return False
    return marked is None or any(abs(size - marked) <= _SAME for size in fact.sizes.values())


def _none_fits(
    home: Scope, name: str, words: str, said: dict[str, float], kind: Scalar, alike: list[HardwareFact]
) -> None:
    """With the unit of every size: in a file in mm `butt hinge 2` is a hinge of 2 mm."""
    sizes = ", ".join(f"{key} {shown(size, kind.unit)}" for key, size in said.items())
    has = [_with_size(fact, kind.unit) for fact in sorted(alike, key=lambda fact: fact.item)[:4]]
    remedy = f"the shop has {'; '.join(has)}" if has else "add it to the shop file"
    wanted = f"{words} ({sizes})" if sizes else words
    message = f"no {wanted} is in the shop for {name}"
    home.common.notice(Notice("fitting not in the shop", message, kind.place, remedy=remedy))


def _with_size(fact: HardwareFact, unit: LengthUnit) -> str:
    length = fact.sizes.get("length", next(iter(fact.sizes.values()), None))
    return fact.item if length is None else f"{fact.item}: {shown(length, unit)}"


def _entry(home: Scope, name: str) -> MappingNode | None:
    fittings = home.node.get("hardware")
    entry = fittings.get(name) if isinstance(fittings, MappingNode) else None
    return entry if isinstance(entry, MappingNode) else None


def fittings_of(uses: list[Use], crowd: Crowd) -> tuple[Hardware, ...]:
    """Every fitting, one entry for each pair it joins or part it sits on."""
    return tuple(
        fitting
        for use in uses
        for entry in use.entries("hardware")
        if use.stands(as_mapping(entry.value, entry.name), entry.name)
        for fitting in _fittings(use, entry, as_mapping(entry.value, entry.name), crowd)
    )


def _fittings(use: Use, entry: Entry, node: MappingNode, crowd: Crowd) -> Iterator[Hardware]:
    base = _base(use, entry, node)
    if "joins" in node:
        yield from _joining(use, entry, node, crowd, base)
    elif "to" in node:
        for one in _parts(use, entry, node, "to", crowd):
            yield replace(base, to=one.name, at=_spot(use, entry, node, one))
    elif "under" in node:
        for one in _parts(use, entry, node, "under", crowd):
            rows, every = _holes(use, entry, node, one)
            yield replace(base, under=one.name, at=_spot(use, entry, node, one), rows=rows, every=every)
    else:
        raise Asker(use.scope, Scalar(entry.name, entry.key.place), what=entry.name).error(
            "nothing says where this fitting goes", None, "add `joins: [lid, top]`, `to: ...` or `under: ...`"
        )


def _base(use: Use, entry: Entry, node: MappingNode) -> Hardware:
    home = use.scope
    sizes = sizes_of(home, entry.name)
    kind = node.get("kind")
    assert isinstance(kind, Scalar)
    said = {key: sizes[key] for key in ("length", "width", "thick") if key in node}
    fact = home.common.once(
        ("item", id(home), entry.name), entry.name, None, lambda: chosen(home, entry.name, node, said)
    )
    item = fact.item if fact else None
    count = _count(use, entry, node)
    text = " ".join(kind.text.split())
    return Hardware(
        use.named(entry.name), text, count, entry.key.place, item, sizes=tuple(sorted(sizes.items()))
    )


def _count(use: Use, entry: Entry, node: MappingNode) -> int:
    scalar = node.get("count")
    if not isinstance(scalar, Scalar):
        return 1
    asker = Asker(use.scope, scalar, what=f"{entry.name}, count")
    count = size_in(asker, parse_expression(scalar), Kind.COUNT)
    if count != int(count) or count < 1:
        raise asker.error(f"a count is a whole number from 1, not {count:g}")
    return int(count)


def _parts(use: Use, entry: Entry, node: MappingNode, key: str, crowd: Crowd) -> list[Standing]:
    found: dict[str, Standing] = {}
    for scalar in scalars_of(node.get(key)):
        for one in use.standing(scalar, crowd, f"{entry.name}, {key}"):
            found[one.name] = one
    return list(found.values())


def _joining(use: Use, entry: Entry, node: MappingNode, crowd: Crowd, base: Hardware) -> Iterator[Hardware]:
    scalars = scalars_of(node.get("joins"))
    if len(scalars) != 2:
        raise Asker(use.scope, scalars[0], what=f"{entry.name}, joins").error(
            "`joins` names two things",
            None,
            "write `joins: [lid, top]`: what moves first, what carries second",
        )
    firsts = use.standing(scalars[0], crowd, f"{entry.name}, joins")
    outside = use.outside(scalars[1])
    if outside:
        for one in firsts:
            yield replace(base, joins=(one.name, outside), at=_spot(use, entry, node, one))
        return
    seconds = use.standing(scalars[1], crowd, f"{entry.name}, joins")
    for first in firsts:
        partners = _partners(first, seconds)
        for second, count in zip(partners, _shared(base.count, len(partners), "count" in node), strict=True):
            yield replace(
                base, joins=(first.name, second.name), count=count, at=_spot(use, entry, node, first)
            )


def _shared(count: int, pairs: int, said: bool) -> list[int]:
    """A count said for one moving part is shared out over all it is joined to."""
    if not said or pairs == 1:
        return [count] * pairs
    whole, over = divmod(max(count, pairs), pairs)
    return [whole + (i < over) for i in range(pairs)]


def _partners(first: Standing, seconds: list[Standing]) -> list[Standing]:
    """Those on the same side; of numbered copies of one thing, the nearest."""
    sides = {SIDES[w][0]: w for w in first.part.copy_words if w in SIDES}
    same = [
        s for s in seconds if all(sides.get(SIDES[w][0], w) == w for w in s.part.copy_words if w in SIDES)
    ]
    nearest_of: dict[tuple[str, tuple[str, ...]], Standing] = {}
    for second in same or seconds:
        words = tuple(w for w in second.part.copy_words if w in SIDES)
        key = (second.part.definition, words)
        other = nearest_of.get(key)
        if other is None or _apart(first, second) < _apart(first, other) - 1e-6:
            nearest_of[key] = second
    return list(nearest_of.values())


def _apart(a: Standing, b: Standing) -> float:
    """How far apart the two boxes are, summed over the three ways; then their middles."""
    p, q = a.part.box, b.part.box
    gaps = sum(max(0.0, p.low[i] - q.high[i], q.low[i] - p.high[i]) for i in range(3))
    return gaps + 1e-3 * sum(abs(p.centre[i] - q.centre[i]) for i in range(3))


def _spot(use: Use, entry: Entry, node: MappingNode, one: Standing) -> tuple[tuple[str, float], ...]:
    """Places said by the maker on the part, in the piece's frame."""
    said = node.get("at")
    if said is None:
        return ()
    image = Image(one.seen.steps)
    found: dict[str, float] = {}
    for axis, scalar in _said_places(said):
        asker = Asker(use.scope, scalar, one.seen.thing, axis, own=True, what=f"{entry.name}, at")
        place = _place(asker, scalar, axis)
        assert place.axis is not None
        found[image.axis(place.axis).word] = image.along(place.axis, place.number)
    return tuple(sorted(found.items()))


def _said_places(said: Node) -> Iterator[tuple[Axis | None, Scalar]]:
    if isinstance(said, Scalar):
        yield None, said
        return
    for entry in as_mapping(said, "`at`"):
        assert isinstance(entry.value, Scalar)
        yield Axis[entry.name.upper()], entry.value


def _place(asker: Asker, scalar: Scalar, axis: Axis | None) -> Value:
    formula = parse_expression(scalar)
    if axis is not None:
        return place_at(asker, formula, axis)
    value = asker.value(formula)
    if not value.is_place:
        raise asker.error("which way?", formula, "write `at: {high: 3}`, or a face: `at: top - 3`")
    return value


def _holes(
    use: Use, entry: Entry, node: MappingNode, one: Standing
) -> tuple[tuple[float, ...], float | None]:
    """Rows of pin holes as written, from the front of the space the part stands in, and their pitch."""
    holes = node.get("holes")
    if not isinstance(holes, MappingNode):
        return (), None
    rows = holes.get("rows")
    places = []
    for scalar in scalars_of(rows):
        asker = Asker(use.scope, scalar, one.seen.thing, Axis.DEEP, what=f"{entry.name}, rows")
        places.append(place_at(asker, parse_expression(scalar), Axis.DEEP).number - asker.box(Axis.DEEP).low)
    every = holes.get("every")
    pitch = None
    if isinstance(every, Scalar):
        pitch = size_in(Asker(use.scope, every, what=f"{entry.name}, every"), parse_expression(every))
    return tuple(places), pitch
