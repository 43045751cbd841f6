"""Materials: the alternative taken, what it is of, and its real sizes from the shop or the trade's usual."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.errors import ResolveError
from scantling.piece.facts import ShopFacts
from scantling.piece.language.document import Entry, MappingNode, Scalar, as_name
from scantling.piece.language.parse import parse_material
from scantling.piece.language.phrases import MaterialOption, MaterialWords
from scantling.piece.model import Material, MaterialKind, Notice
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.tree import GROUP, PART, Family, Scope, Thing
from scantling.piece.resolve.wanting import size_in
from scantling.quantity import MM_PER_INCH, LengthUnit
from scantling.wood import (
    UnknownSpecies,
    dressed_section,
    dressed_widths,
    is_panel_name,
    panel_named,
    species_named,
)

GIVEN = "given"
# mm: nothing thicker is sold (common practice, no source); thicker parts are glued up
_THICKEST = {MaterialKind.SHEET: 75.0, MaterialKind.SOLID: 300.0, MaterialKind.LUMBER: 300.0}
_SAME_LABEL = 0.1  # mm: two marks nearer than this are one


def names(home: Scope) -> list[str]:
    """The materials of a file, in the order of writing."""
    return [entry.name for entry in _entries(home)]


def is_material(home: Scope, name: str) -> bool:
    """Whether a file has a material of that name."""
    return name in names(home)


def of_thing(thing: Thing) -> Material:
    """The material of a part: what `of` names, else the first listed."""
    home = thing.scope.home
    node = thing.family.node.get("of")
    if node is None:
        listed = names(home)
        if not listed:
            raise ResolveError(
                "nothing says what it is made of",
                thing.family.key.place,
                "add `materials: {wood: cherry 3/4}`",
                (thing.label,),
            )
        return named(home, listed[0])
    assert isinstance(node, Scalar)
    name = as_name(node.text)
    return named(home, name) if is_material(home, name) else _unnamed(thing, node, name)


def _unnamed(thing: Thing, node: Scalar, name: str) -> Material:
    """A wood or a sheet said in the part itself: `of: pine 2x4`."""
    home = thing.scope.home
    asker = Asker(thing.scope, node, thing, what="of")
    words = parse_material(node)
    if words.any_of:
        raise asker.error(
            "`any of` is for a material that has a name",
            words,
            f"write `materials: {{board: {name}}}` and here `of: board`",
        )
    option = words.options[0]
    if option.thick is None and option.nominal is None and not _is_wood_or_sheet(_text(option)):
        raise asker.error(f'no material is called "{name}"', None, nearest(name, names(home)))
    key = ("material of", id(home), name, node.unit)
    return home.common.once(key, name, node, lambda: _described(asker, name, words, node))


def _is_wood_or_sheet(text: str) -> bool:
    try:
        return is_panel_name(text) or bool(species_named(text))
    except UnknownSpecies:
        return False


def named(home: Scope, name: str) -> Material:
    """A named material of the piece or of a kit in use."""
    scalar = _scalar(home, name)
    label = f"{home.label} {name}" if home.label else name
    return home.common.once(("material", id(home), name), label, scalar, lambda: _material(home, name))


def resolved(home: Scope) -> tuple[Material, ...]:
    """All materials of the piece: those with a name, then those its parts say themselves."""
    said = [thing for family in _families(home) for thing in family.things if "of" in family.node]
    own = {material.name: material for material in map(of_thing, said)}
    listed = [named(home, name) for name in names(home)]
    return (*listed, *(own[name] for name in own if not is_material(home, name)))


def _families(scope: Scope) -> Iterator[Family]:
    """The part keys of one file, those in groups too."""
    for family in scope.families.values():
        if family.kind == PART:
            yield family
        elif family.kind == GROUP:
            for thing in family.things:
                if thing.contents is not None:
                    yield from _families(thing.contents)


def _material(home: Scope, name: str) -> Material:
    given = home.given.get(name)
    if given is None:
        scalar = _scalar(home, name)
        asker = Asker(home, scalar, what=name)
        wish = home.common.settings.get(name) if home.owner is None else None
        if wish is not None:
            scalar = Scalar(wish, scalar.place, scalar.unit)
            asker = Asker(home, scalar, what=name)
        return _described(asker, name, parse_material(scalar), _scalar(home, name))
    assert isinstance(given.node, Scalar)
    words = parse_material(given.node)
    user = given.user.scope.home
    one = words.options[0]
    if (
        len(words.options) == 1
        and one.thick is None
        and one.nominal is None
        and is_material(user, _text(one))
    ):
        return named(user, _text(one))
    return _described(Asker(given.user.scope, given.node, given.user, what=name), name, words, given.node)


def _words_of(scalar: Scalar, option: MaterialOption) -> str:
    """One alternative as written, size included."""
    return scalar.text[option.offset : option.offset + option.length].strip()


def _text(option: MaterialOption) -> str:
    return " ".join(option.words)


def _described(asker: Asker, name: str, words: MaterialWords, offered: Scalar) -> Material:
    option = words.options[0]
    if _text(option) == GIVEN:
        owner = asker.scope.label or "the piece"
        raise asker.error(
            f'{owner} is not told what "{name}" is', None, f"add `{name}: ...` where the kit is used"
        )
    kind, species = _kind(asker, option)
    text = _words_of(asker.scalar, option)
    thick, broad, label, measured = _sizes(asker, option, kind, text)
    all_words = words if offered is asker.scalar else parse_material(offered)
    alternatives = tuple(_words_of(offered, option) for option in all_words.options)
    return Material(name, text, kind, species, thick, broad, label, measured, alternatives, all_words.any_of)


def _kind(asker: Asker, option: MaterialOption) -> tuple[MaterialKind, str]:
    text = _text(option)
    try:
        if is_panel_name(text):
            return MaterialKind.SHEET, panel_named(text).name
        species = species_named(text).name
    except UnknownSpecies as unknown:
        known = f"nearest: {', '.join(unknown.nearest)}" if unknown.nearest else ""
        raise asker.error(f'no wood or sheet is called "{text}"', option, known) from None
    return (MaterialKind.LUMBER if option.nominal else MaterialKind.SOLID), species


def _sizes(
    asker: Asker, option: MaterialOption, kind: MaterialKind, text: str
) -> tuple[float | None, float | None, float | None, bool]:
    """Thick, broad, label, and whether a shop measured them."""
    facts = asker.scope.common.facts
    label = size_in(asker, option.thick) if option.thick is not None else None
    if label is not None:
        _refuse_blocks(asker, option, kind, label)
    if kind is MaterialKind.LUMBER:
        return _lumber_sizes(asker, option, facts, text)
    if kind is MaterialKind.SOLID or label is None:
        return label, None, label, False
    for fact in facts.sheets:
        if _alike(fact.name, _text(option)) and abs(fact.label - label) <= _SAME_LABEL:
            return fact.thick, None, label, True
    _usual(asker, text, f"taken at {shown(label, asker.scalar.unit)} thick, as it is marked")
    return label, None, label, False


def _refuse_blocks(asker: Asker, option: MaterialOption, kind: MaterialKind, label: float) -> None:
    """A thickness no sheet or board has: most often millimetres in a file in inches."""
    if label <= _THICKEST[kind]:
        return
    unit, what = asker.scalar.unit, "sheet" if kind is MaterialKind.SHEET else "board"
    words = " ".join((*option.words, f"{label / MM_PER_INCH:g} mm"))
    remedy = f"write `{words}`" if unit is LengthUnit.INCHES else "thicker parts are glued up by themselves"
    raise asker.error(f"no {what} is {shown(label, unit)} thick", option, remedy)


def _lumber_sizes(
    asker: Asker, option: MaterialOption, facts: ShopFacts, text: str
) -> tuple[float, float, None, bool]:
    assert option.nominal is not None
    for fact in facts.lumber:
        if _alike(fact.name, _text(option)) and fact.nominal == option.nominal:
            return fact.thick, fact.broad, None, True
    section = dressed_section(option.nominal)
    if section is None:
        raise asker.error(
            f"{option.nominal} is no usual lumber size",
            option,
            f"widths: {', '.join(dressed_widths())}; thickness first, as in 2x4",
        )
    thick, broad = section
    unit = asker.scalar.unit
    _usual(asker, text, f"taken at {shown(thick, unit)} x {shown(broad, unit)}, the usual dressed size")
    return thick, broad, None, False


def _usual(asker: Asker, text: str, how: str) -> None:
    asker.scope.common.notice(
        Notice(
            "usual size assumed",
            f"{text} is {how}",
            asker.scalar.place,
            remedy="measure what you have and say so in the shop file",
        )
    )


def _alike(a: str, b: str) -> bool:
    return a.lower().replace("-", " ").split() == b.lower().replace("-", " ").split()


def _entries(home: Scope) -> tuple[Entry, ...]:
    node = home.node.get("materials")
    return node.entries if isinstance(node, MappingNode) else ()


def _scalar(home: Scope, name: str) -> Scalar:
    entry = next(entry for entry in _entries(home) if entry.name == name)
    assert isinstance(entry.value, Scalar)
    return entry.value
