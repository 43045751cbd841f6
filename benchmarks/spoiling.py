"""Seeded ways of spoiling a maker's files: slips of the hand, wrong numbers, names, entries and methods.

Characters and lines are spoiled as `mutate_files` does; here the words are first found in their places
(keys, values, entries), so that most spoiled files can still be read and their meaning is wrong.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

import mutate_files
import yaml

from scantling.piece.methods import METHODS

EXAMPLES = mutate_files.EXAMPLES

NUMBER = re.compile(r"\d+ \d+/\d+|\d+-\d+/\d+|\d+/\d+|\d*\.\d+|\d+")
WORD = re.compile(r"[A-Za-z]{3,}")
NUMBERS = (
    *("0", "0.0", "-1", "-3/4", "- 2", "1/64", "1/1000", "0.000001", "99", "1000", "100000", "1e9", "1e400"),
    *("inf", "nan", ".inf", ".nan", "9" * 30, "8 deg", "60 %", "4 pcs", "40 lb", "5 mm", "3 ft", "2 kg"),
    *("1/0", "½", "٣", "-0", "0 %", "200 %", "1 1/2", "1/2 1/2", "least", "free", "90 deg", "89.99 deg"),
    *("12", "2", "1/8", "1/3", "5", "24", "500 mm", "0.1 mm", "70 F", "-40 C", "1_000", "0x10", "07"),
)
SPECIES = (
    *("walnut", "white oak", "yellow-poplar", "hard maple", "sugar maple", "eastern white pine", "balsa"),
    *("unobtainium", "walnot", "plywood", "birch plywood 3/4", "walnut plywood 1/4", "MDF 3/4", "oak"),
    *(
        "walnut 0",
        "walnut 1/64",
        "walnut 12",
        "walnut -1",
        "cherry 4/4",
        "white ash 8/4",
        "pine 2x4",
        "glass",
    ),
)
FITTINGS = (
    *("butt hinge 2", "butt hinge 0", "continuous hinge", "side slide", "side slide 100", "lid stay", "knob"),
    *("pull", "overlay hinge", "magnet", "catch", "caster", "levelling foot", "bed rail fitting", "strap"),
    *("shelf pin", "bolt", "bed bolt", "hook", "hinge", "drop-leaf hinge", "table lock", "sofa", "lock"),
)
COPIES = (
    *(
        "left and right",
        "front and back",
        "four corners",
        "top and bottom",
        "{row: right, count: 3, every: 4}",
    ),
    *(
        "{row: up, count: 40, every: 1/8}",
        "{row: back, count: 400, every: 1/100}",
        "{ring: 5}",
        "{ring: 500}",
    ),
    *("{row: back, spread: front to back, gap: at most 1}", "{row: right, spread: 5, count: 3}", "{ring: 2}"),
    *("{row: back, spread: left to right, count: 2}", "{mirror: left and right, about: middle}", "{row: up}"),
    *("{row: down, spread: bottom to top, count: 0}", "{ring: 3, about: middle}", "five corners", "[]", "{}"),
)
WORK = (
    *("{hole: 1/4, through: back}", "{hole: 200, through: top}", "{chamfer: every edge, size: 40}"),
    *("{chamfer: bottom, size: 1/8}", "{round-over: top, radius: 1/4}", "{groove: back, wide: 1/4, deep: 9}"),
    *("{rabbet: back, wide: 3/8, deep: 3/8}", "{notch: {wide: left to middle, deep: 1 back from front}}"),
    *("{notch: {wide: left to right, deep: front to back, high: bottom to top}}", "{arch: bottom, rise: 2}"),
    *("{arch: bottom, rise: 90}", "{bevel: front, angle: 45 deg}", "{dish: top, deep: 1/2}", "{slot: 1/4}"),
    *("{shelf pins: left, every: 1/100}", "{band: front, thick: 1/8}", "{detail: shadow line}", "{hole: -1}"),
    *("{bevel: front, angle: 89.9 deg}", "{round-over: every edge, radius: 0}", "{chamfer: top, size: 0}"),
)
ODD = ("", "{}", "[]", "~", "yes", "none", "any", "every leg", "top of top", "wall", "floor", "it", "É", "🪵")
SPANS = (
    *(
        "left to right",
        "front to back",
        "bottom to top",
        "right to left",
        "top to bottom",
        "middle to middle",
    ),
    *("0", "1", "thick down from top", "thick up from bottom", "thick inward from outside", "left to left"),
    *("2 centred on middle", "200 right from left", "-2 back from front", "same as leg", "least", "broad"),
    *("floor to top", "left + 1 to right - 1", "left + 100 to right", "thick", "height", "width of machine"),
    *("1/1000 up from bottom", "front + 1/64 to back - 1/64", "left - 5 to right + 5", "top to 90 ft"),
)


@dataclass(frozen=True)
class Span:
    """A stretch of a text: a key, a value, or a whole entry; `key` is the key it stands at."""

    start: int
    end: int
    kind: str
    key: str = ""

    def of(self, text: str) -> str:
        return text[self.start : self.end]


@dataclass(frozen=True)
class Case:
    """A maker's folder after spoiling: file name -> text. `piece` and `shop` name the two that are read."""

    number: int
    piece: str
    shop: str
    texts: dict[str, str]
    ways: tuple[str, ...] = ()


Way = Callable[[str, random.Random], str]


@lru_cache(maxsize=256)
def spans_of(text: str) -> tuple[Span, ...]:
    """Keys, values, entries and items of a YAML text, in order; none where it cannot be read."""
    try:
        root = yaml.compose(text)
    except (yaml.YAMLError, RecursionError, ValueError):
        return ()
    return tuple(_walk(root, "")) if root is not None else ()


def _walk(node: yaml.Node, key: str) -> Iterator[Span]:
    if isinstance(node, yaml.ScalarNode):
        yield Span(node.start_mark.index, node.end_mark.index, "value", key)
    elif isinstance(node, yaml.MappingNode):
        yield from _entries([(k, v) for k, v in node.value])
        for name, value in node.value:
            if isinstance(name, yaml.ScalarNode):
                yield Span(name.start_mark.index, name.end_mark.index, "key", key)
                yield from _walk(value, str(name.value))
    elif isinstance(node, yaml.SequenceNode):
        yield from _entries([(item, item) for item in node.value])
        for item in node.value:
            yield from _walk(item, key)


def _entries(pairs: list[tuple[yaml.Node, yaml.Node]]) -> Iterator[Span]:
    """Each entry up to the next one; the last up to its own end."""
    for at, (name, value) in enumerate(pairs):
        last = at + 1 == len(pairs)
        end = value.end_mark.index if last else pairs[at + 1][0].start_mark.index
        yield Span(name.start_mark.index, end, "last entry" if last else "entry")


def _put(text: str, span: Span, new: str) -> str:
    return text[: span.start] + new + text[span.end :]


def _pick(text: str, chance: random.Random, kind: str, keys: tuple[str, ...] = ()) -> Span | None:
    found = [s for s in spans_of(text) if s.kind == kind and (not keys or s.key in keys)]
    return chance.choice(found) if found else None


def number_changed(text: str, chance: random.Random) -> str:
    """A number of some value for a nonsensical or an extreme one."""
    spans = [s for s in spans_of(text) if s.kind == "value" and NUMBER.search(s.of(text))]
    if not spans:
        return text
    span = chance.choice(spans)
    found = chance.choice(list(NUMBER.finditer(span.of(text))))
    return text[: span.start + found.start()] + chance.choice(NUMBERS) + text[span.start + found.end() :]


def misspelt(text: str, chance: random.Random) -> str:
    """A word with a letter lost, doubled, swapped or foreign."""
    spans = [s for s in spans_of(text) if s.kind in ("value", "key") and WORD.search(s.of(text))]
    if not spans:
        return text
    span = chance.choice(spans)
    found = chance.choice(list(WORD.finditer(span.of(text))))
    word, at = found[0], chance.randrange(len(found[0]) - 1)
    new = chance.choice(
        (
            word[:at] + word[at + 1 :],
            word[:at] + word[at] * 2 + word[at + 1 :],
            word[:at] + word[at + 1] + word[at] + word[at + 2 :],
            word[:at] + chance.choice("éßı𝔘ﬁ٣-_.") + word[at + 1 :],
            word.upper(),
            word + "s",
        )
    )
    return text[: span.start + found.start()] + new + text[span.start + found.end() :]


def values_swapped(text: str, chance: random.Random) -> str:
    """Two values, one in the other's place."""
    first, second = _pick(text, chance, "value"), _pick(text, chance, "value")
    if not first or not second or first.start >= second.start:
        return text
    return _put(_put(text, second, first.of(text)), first, second.of(text))


def same_key_swapped(text: str, chance: random.Random) -> str:
    """Another entry's value at a key of the same name: sensible words in the wrong place."""
    span = _pick(text, chance, "value")
    others = [s for s in spans_of(text) if s.kind == "value" and span and s.key == span.key]
    return _put(text, span, chance.choice(others).of(text)) if span else text


def keys_swapped(text: str, chance: random.Random) -> str:
    """One key's name at another."""
    first, second = _pick(text, chance, "key"), _pick(text, chance, "key")
    return _put(text, first, second.of(text)) if first and second else text


def entry_lost(text: str, chance: random.Random) -> str:
    """A whole entry left out: a part, a joint, a section, a board, a machine."""
    span = _pick(text, chance, chance.choice(("entry", "entry", "last entry")))
    return _put(text, span, "") if span else text


def entry_doubled(text: str, chance: random.Random) -> str:
    span = _pick(text, chance, "entry")
    return _put(text, span, span.of(text) * 2) if span else text


def entry_moved(text: str, chance: random.Random) -> str:
    """An entry of one place in another."""
    first, second = _pick(text, chance, "entry"), _pick(text, chance, "entry")
    return text[: second.start] + first.of(text) + text[second.start :] if first and second else text


def entries_swapped(text: str, chance: random.Random) -> str:
    first, second = _pick(text, chance, "entry"), _pick(text, chance, "entry")
    if not first or not second or first.end > second.start:
        return text
    return _put(_put(text, second, first.of(text)), first, second.of(text))


def _of(pool: tuple[str, ...], *keys: str) -> Way:
    """A value at one of these keys (or any, where there is none) for one of a pool."""

    def way(text: str, chance: random.Random) -> str:
        span = _pick(text, chance, "value", keys) or _pick(text, chance, "value")
        return _put(text, span, chance.choice(pool)) if span else text

    return way


def span_added(text: str, chance: random.Random) -> str:
    """Copies or work on a part that had none (or twice)."""
    span = _pick(text, chance, "value", ("wide", "deep", "high"))
    if not span:
        return text
    pool = chance.choice((("copies", COPIES), ("work", WORK), ("grain", ("wide", "deep", "high"))))
    new = chance.choice(pool[1])
    return _put(text, span, f"{span.of(text)}, {pool[0]}: {f'[{new}]' if pool[0] == 'work' else new}")


def huge(text: str, chance: random.Random) -> str:
    """The overall sizes, or one, far too large or small."""
    factor = chance.choice(("10000", "600", "1/4", "0", "-38", "1e7", "120", "3000 ft"))
    spot = chance.choice((r"wide", r"deep", r"high"))
    return re.sub(rf"(overall: .*?{spot}: )[^,}}]+", lambda m: m[1] + factor, text, count=1)


def slip(text: str, chance: random.Random) -> str:
    """A slip of the fingers, as in `mutate_files`."""
    return chance.choice(mutate_files.WAYS)(text, chance, _all_texts())


@lru_cache(maxsize=1)
def _all_texts() -> dict[str, str]:
    return {path.name: path.read_text(encoding="utf-8") for path in _piece_paths()}


SPOILING: tuple[Way, ...] = (
    *(number_changed, number_changed, number_changed, misspelt, values_swapped, same_key_swapped),
    *(same_key_swapped, keys_swapped, entry_lost, entry_lost, entry_doubled, entry_moved, entries_swapped),
    *(slip, slip, huge, span_added, span_added),
)
PIECE_SPOILING: tuple[Way, ...] = (
    *(_of(tuple(METHODS), "with"), _of(tuple(METHODS), "with"), _of(tuple(METHODS), "with")),
    *(_of(SPECIES, "wood", "case", "panels", "of", "ply"), _of(FITTINGS, "kind"), _of(COPIES, "copies")),
    *(_of(SPANS, "wide", "deep", "high"), _of(SPANS, "wide", "deep", "high"), _of(ODD)),
)
SHOP_SPOILING: tuple[Way, ...] = (_of(SPECIES), _of(NUMBERS), _of(ODD), number_changed, entry_lost)


def _piece_paths() -> list[Path]:
    paths = sorted(EXAMPLES.glob("*.yaml"))
    return [path for path in paths if re.search(r"^(piece|style):", path.read_text(encoding="utf-8"), re.M)]


@lru_cache(maxsize=1)
def makers_folders() -> tuple[Case, ...]:
    """Each example that has a shop, as the folder of files a maker would have."""
    return tuple(_folder(path) for path in _piece_paths() if (EXAMPLES / "shops" / path.name).is_file())


def _folder(path: Path) -> Case:
    text = path.read_text(encoding="utf-8")
    texts = {path.name: text, "shop.yaml": (EXAMPLES / "shops" / path.name).read_text(encoding="utf-8")}
    for followed in re.findall(r"^follows:\s*(\S+)", text, flags=re.MULTILINE):
        texts[followed] = (EXAMPLES / followed).read_text(encoding="utf-8")
    return Case(0, path.name, "shop.yaml", texts)


def spoiled(number: int, seed: int) -> Case:
    """The `number`th spoiled folder of a seed: always the same one."""
    chance = random.Random(f"{seed}/{number}")
    case = chance.choice(makers_folders())
    for _ in range(chance.choice((1, 1, 1, 1, 2, 2, 3, 5))):
        case = _spoiled_once(case, chance)
    return replace(case, number=number)


def _spoiled_once(case: Case, chance: random.Random) -> Case:
    name = chance.choice([case.piece] * 7 + [case.shop] * 4 + sorted(case.texts))
    own = SHOP_SPOILING if name == case.shop else PIECE_SPOILING
    way = chance.choice(SPOILING + own)
    text = way(case.texts[name], chance)
    said = f"{name}: {way.__name__}"
    return replace(case, texts={**case.texts, name: text}, ways=(*case.ways, said))
