"""Copies: pairs, corners, rows and rings. Who is a copy of whom is settled by words, before any geometry."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from scantling.errors import ResolveError
from scantling.piece.language.document import MappingNode, Node, Scalar, as_mapping, as_name, as_scalar
from scantling.piece.language.parse import (
    parse_condition,
    parse_expression,
    parse_limit,
    parse_name,
    parse_span,
    parse_turn,
)
from scantling.piece.language.phrases import Name, SizeAlone
from scantling.piece.model import TOUCH, Axis, Vec3
from scantling.piece.resolve import names, spaces
from scantling.piece.resolve.asker import Asker, place_for
from scantling.piece.resolve.build import contents_of
from scantling.piece.resolve.common import MOST_PARTS, nearest
from scantling.piece.resolve.conditions import holds
from scantling.piece.resolve.directions import DIRECTIONS
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.spans import read_span
from scantling.piece.resolve.steps import Mirror, Quarter, Shift, Steps, Swivel
from scantling.piece.resolve.tree import SPACE, Copy, Family, Reach, Seen, Thing
from scantling.piece.resolve.turning import swivel_of
from scantling.piece.resolve.wanting import place_at, size_in
from scantling.quantity.kinds import Kind

PAIRS: dict[str, tuple[str, str, Axis]] = {
    "left and right": ("left", "right", Axis.WIDE),
    "front and back": ("front", "back", Axis.DEEP),
}
FORMS = "`left and right`, `front and back`, `four corners`, `{row: ...}`, `{ring: ...}`, `{mirror: ...}`"
QUARTERS = (
    Quarter((Axis.WIDE, Axis.DEEP, Axis.HIGH), (1, 1, 1)),
    Quarter((Axis.DEEP, Axis.WIDE, Axis.HIGH), (-1, 1, 1)),
    Quarter((Axis.WIDE, Axis.DEEP, Axis.HIGH), (-1, -1, 1)),
    Quarter((Axis.DEEP, Axis.WIDE, Axis.HIGH), (1, -1, 1)),
)


@dataclass(frozen=True, slots=True)
class Row:
    """`count` copies along `axis`, `sign` the way they are numbered. `layout` worked out when asked."""

    axis: Axis
    sign: int
    count: int
    pitch: Callable[[], float]
    start: Callable[[], float] | None


def expand(family: Family) -> tuple[Copy, ...]:
    """Every copy of every thing under one key; none when a `when` leaves it out."""
    return family.scope.common.once(
        ("copies", id(family)), family.name, family.key, lambda: tuple(_expanded(family))
    )


def _expanded(family: Family) -> Iterator[Copy]:
    if not _stands(family):
        return
    numbers = spaces.numbers(family)
    standings = _standings(family)
    for standing in standings:
        for number in numbers:
            thing = Thing(family, standing, number, alone=len(standings) == 1)
            thing.contents = contents_of(thing)
            thing.copies = tuple(_images(thing))
            yield from thing.copies


def _stands(family: Family) -> bool:
    node = family.node.get("when")
    if node is None:
        return True
    scalar = as_scalar(node, "`when`")
    return holds(Asker(family.scope, scalar, what=f"{family.name}, when"), parse_condition(scalar))


def _standings(family: Family) -> tuple[Seen | None, ...]:
    source = family.split_from or family
    node = source.node.get("in")
    if node is None:
        return (None,)
    scalar = as_scalar(node, "`in`")
    name = parse_name(scalar)
    found = _space_named(family, scalar, name)
    wrong = [f for f in found.families if f.kind != SPACE]
    if wrong:
        raise ResolveError(
            f'"{name.text}" is not a space', scalar.place, "only what stands under `spaces` can be filled"
        )
    return found.seen


def _space_named(family: Family, scalar: Scalar, name: Name) -> names.Found:
    """What `in` names; raises ResolveError for unknown words, Absent for what a choice leaves out."""
    scope, place = family.scope, scalar.place_of(name)
    found = names.look_up_key(scope, name.words, place)
    if found is not names.NOTHING and not found.is_absent:
        return found
    if names.look_up(scope, name.words, place) is names.NOTHING:
        raise _no_space(family, scalar, name.text)
    return names.find(scope, name.words, place)


def _no_space(family: Family, scalar: Scalar, text: str) -> ResolveError:
    known = [f.name for f in family.scope.home.families.values() if f.kind == SPACE]
    remedy = nearest(text, known) or f"name it: `spaces: {{{text}: {{wide: ..., deep: ..., high: ...}}}}`"
    return ResolveError(f'no space is called "{text}"', scalar.place, remedy, (family.name, "in"))


def _images(thing: Thing) -> Iterator[Copy]:
    node = (thing.family.split_from or thing.family).node.get("copies")
    tilt = _tilt(thing)
    if thing.family.split_from is not None and node is not None:
        raise ResolveError("a space that is split cannot have copies too", node.place)
    if node is None:
        yield Copy(thing, steps=tilt)
    elif isinstance(node, Scalar):
        yield from _by_words(thing, node, tilt)
    else:
        yield from _by_entries(thing, as_mapping(node, "`copies`"), tilt)


def _tilt(thing: Thing) -> Steps:
    node = thing.family.node.get("tilt")
    if node is None:
        return ()
    scalar = as_scalar(node, "`tilt`")
    asker = Asker(thing.scope, scalar, thing, own=True, what="tilt")
    return (swivel_of(asker, parse_turn(scalar), "tilt"),)


def _by_words(thing: Thing, node: Scalar, tilt: Steps) -> Iterator[Copy]:
    text = as_name(node.text)
    if text == "four corners":
        wide, deep = PAIRS["left and right"], PAIRS["front and back"]
        for back in (False, True):
            for right in (False, True):
                yield _corner(thing, wide, deep, right, back, tilt)
    elif text in PAIRS:
        yield from _pair(thing, PAIRS[text], tilt, None)
    else:
        raise ResolveError(
            f'"{node.text}" is no way of copying', node.place, _way_meant(text), (thing.label, "copies")
        )


def _way_meant(text: str) -> str:
    """What to write in place of words that are no way of copying."""
    if text in ("top and bottom", "bottom and top", "up and down"):
        row = "`{row: up, count: 2, every: ...}`"
        return f"only left and right, front and back are mirrored: write two parts, or {row}"
    if text.isdigit():
        return f"write `{{row: right, count: {text}, every: ...}}`, or `four corners`"
    near = get_close_matches(text, (*PAIRS, "four corners"), 1, 0.6)
    return f'nearest: "{near[0]}"' if near else f"write {FORMS}"


def _corner(
    thing: Thing,
    wide: tuple[str, str, Axis],
    deep: tuple[str, str, Axis],
    right: bool,
    back: bool,
    tilt: Steps,
) -> Copy:
    steps = tilt
    if right:
        steps = (*steps, Mirror(Axis.WIDE, _middle(thing, Axis.WIDE)))
    if back:
        steps = (*steps, Mirror(Axis.DEEP, _middle(thing, Axis.DEEP)))
    return Copy(thing, (wide[right], deep[back]), steps=steps, mirrored=right != back)  # type: ignore[arg-type]


def _middle(thing: Thing, axis: Axis) -> Callable[[], float]:
    return lambda: place_for(thing, axis).middle


def _pair(
    thing: Thing, pair: tuple[str, str, Axis], tilt: Steps, about: Callable[[], float] | None
) -> Iterator[Copy]:
    first, second, axis = pair
    mirror = Mirror(axis, about or _middle(thing, axis))
    yield Copy(thing, (first,), steps=tilt)
    yield Copy(thing, (second,), steps=(*tilt, mirror), mirrored=True)


def _by_entries(thing: Thing, node: MappingNode, tilt: Steps) -> Iterator[Copy]:
    if "row" in node:
        yield from _row_copies(thing, tilt)
    elif "ring" in node:
        yield from _ring_copies(thing, node, tilt)
    elif "mirror" in node:
        yield from _mirror_copies(thing, node, tilt)
    else:
        raise ResolveError(
            "this says no way of copying", node.place, f"write {FORMS}", (thing.label, "copies")
        )


def _mirror_copies(thing: Thing, node: MappingNode, tilt: Steps) -> Iterator[Copy]:
    words = as_scalar(node.by_name["mirror"].value, "`mirror`")
    about = node.get("about")
    if about is None:
        yield from _by_words(thing, words, tilt)
        return
    text = as_name(words.text)
    if text not in PAIRS:
        raise ResolveError(
            f'"{words.text}" has no one line to be mirrored about',
            words.place,
            "write `left and right` or `front and back`",
        )
    axis = PAIRS[text][2]
    scalar = as_scalar(about, "`about`")
    asker = Asker(thing.scope, scalar, thing, axis, what="copies, about")
    yield from _pair(thing, PAIRS[text], tilt, lambda: place_at(asker, parse_expression(scalar), axis).number)


def _ring_copies(thing: Thing, node: MappingNode, tilt: Steps) -> Iterator[Copy]:
    count = _count(thing, node.by_name["ring"].value)

    def middle() -> Vec3:
        return (place_for(thing, Axis.WIDE).middle, place_for(thing, Axis.DEEP).middle, 0.0)

    for k in range(count):
        turned = _turned_steps(k, count, middle) if k else ()
        yield Copy(thing, row_number=k + 1 if count > 1 else None, steps=(*tilt, *turned))


def _turned_steps(k: int, count: int, middle: Callable[[], Vec3]) -> Steps:
    """The k-th of `count` turns about the middle, counted anticlockwise seen from above."""
    if (4 * k) % count == 0:
        quarter = QUARTERS[4 * k // count]
        away = tuple(Shift(axis, _shift(middle, axis, -1)) for axis in (Axis.WIDE, Axis.DEEP))
        home = tuple(Shift(axis, _shift(middle, axis, 1)) for axis in (Axis.WIDE, Axis.DEEP))
        return (*away, quarter, *home)
    return (Swivel(Axis.HIGH, lambda: 360.0 * k / count, middle, "ring"),)


def _shift(middle: Callable[[], Vec3], axis: Axis, sign: int) -> Callable[[], float]:
    return lambda: sign * middle()[axis]


def _count(thing: Thing, node: Node) -> int:
    scalar = as_scalar(node, "a count")
    asker = Asker(thing.scope, scalar, thing, what="copies")
    count = size_in(asker, parse_expression(scalar), Kind.COUNT, "a count of copies")
    if count != int(count) or not 1 <= count <= MOST_PARTS:
        raise asker.error(
            f"a count is a whole number from 1 to {MOST_PARTS}, not {count:g}",
            None,
            f"write `{max(1, min(MOST_PARTS, round(count)))}`",
        )
    return int(count)


def _row_copies(thing: Thing, tilt: Steps) -> Iterator[Copy]:
    row = row_of(thing)
    for k in range(row.count):
        number = k + 1 if row.count > 1 else None
        shift = () if k == 0 else (Shift(row.axis, _times(k * row.sign, row.pitch)),)
        yield Copy(thing, row_number=number, steps=(*tilt, *shift))


def _times(k: int, pitch: Callable[[], float]) -> Callable[[], float]:
    return lambda: k * pitch()


def row_of(thing: Thing) -> Row:
    """The row a thing is copied in."""
    node = as_mapping(thing.family.node.by_name["copies"].value, "`copies`")
    label = f"{thing.label} copies"
    return thing.common.once(("row", id(thing)), label, thing.family.key, lambda: _row(thing, node))


def _row(thing: Thing, node: MappingNode) -> Row:
    word = as_scalar(node.by_name["row"].value, "`row`")
    direction = word.text.strip().lower()
    if direction not in DIRECTIONS:
        raise ResolveError(
            f'"{word.text}" is no direction', word.place, nearest(direction, DIRECTIONS), (thing.label,)
        )
    axis, sign = DIRECTIONS[direction]
    if "spread" in node:
        return _spread_row(thing, node, axis, sign)
    every = node.get("every")
    count = node.get("count")
    if every is None or count is None:
        raise ResolveError(
            "a row wants `count` and `every`, or `spread`", node.place, "", (thing.label, "copies")
        )
    scalar = as_scalar(every, "`every`")
    asker = Asker(thing.scope, scalar, thing, what="copies, every")
    return Row(axis, sign, _count(thing, count), lambda: size_in(asker, parse_expression(scalar)), None)


def _spread_row(thing: Thing, node: MappingNode, axis: Axis, sign: int) -> Row:
    spread = as_scalar(node.by_name["spread"].value, "`spread`")
    asker = Asker(thing.scope, spread, thing, axis, what="copies, spread")
    reach = read_span(asker, parse_span(spread))
    size = _own_size(thing, axis, spread)
    closed = _is_closed(node)
    count = _spread_count(thing, node, reach, size, closed)
    places = count - 1 if closed else count + 1
    gap = (reach.size - count * size) / places if places else 0.0
    if gap < -TOUCH:
        raise asker.error(
            f"{count} of {shown(size, spread.unit)} do not fit in {shown(reach.size, spread.unit)}"
        )
    lead = 0.0 if closed else gap
    start = reach.low + lead if sign > 0 else reach.high - lead - size
    return Row(axis, sign, count, lambda: size + gap, lambda: start)


def _own_size(thing: Thing, axis: Axis, spread: Scalar) -> float:
    node = thing.family.node.get(axis.word)
    span = parse_span(node) if isinstance(node, Scalar) else None
    if not isinstance(span, SizeAlone):
        raise ResolveError(
            f"a row with `spread` gives the place, so `{axis.word}` is a size alone",
            node.place if node else spread.place,
            f"write `{axis.word}: broad` or `{axis.word}: 3 1/2`",
            (thing.label,),
        )
    assert isinstance(node, Scalar)
    return size_in(Asker(thing.scope, node, thing, axis), span.size)


def _is_closed(node: MappingNode) -> bool:
    ends = node.get("ends")
    if ends is None:
        return True
    scalar = as_scalar(ends, "`ends`")
    word = scalar.text.strip().lower()
    if word not in ("open", "closed"):
        raise ResolveError(f'"{scalar.text}" is no kind of end', scalar.place, "write `open` or `closed`")
    return word == "closed"


def _spread_count(thing: Thing, node: MappingNode, reach: Reach, size: float, closed: bool) -> int:
    count = node.get("count")
    if count is not None:
        return _count(thing, count)
    gap = node.get("gap")
    if gap is None:
        raise ResolveError("a spread row wants `count` or `gap`", node.place, "write `gap: at most 2 1/2`")
    scalar = as_scalar(gap, "`gap`")
    limit = parse_limit(scalar)
    asker = Asker(thing.scope, scalar, thing, what="copies, gap")
    wanted = size_in(asker, limit.size)
    if wanted < 0 or size + wanted <= 0:
        raise asker.error("a gap may not be below zero")
    exact = (reach.size + wanted) / (size + wanted) if closed else (reach.size - wanted) / (size + wanted)
    steps = math.ceil(exact - 1e-6) if limit.bound == "most" else math.floor(exact + 1e-6)
    if limit.bound == "exact" and abs(exact - round(exact)) * (size + wanted) > TOUCH:
        raise asker.error(
            "no whole number leaves just this gap", limit, "write `at most` or `at least` before it"
        )
    if steps > MOST_PARTS:
        raise asker.error(f"{steps:,} copies would stand in this row; at most {MOST_PARTS:,} do")
    return max(1, round(exact) if limit.bound == "exact" else steps)


def row_start(thing: Thing, axis: Axis | None) -> float | None:
    """Where the first of a spread row begins; None for a thing in no such row."""
    node = thing.family.node.get("copies")
    if isinstance(node, MappingNode) and "row" in node and "spread" in node:
        row = row_of(thing)
        if row.axis is axis and row.start is not None:
            return row.start()
    return None
