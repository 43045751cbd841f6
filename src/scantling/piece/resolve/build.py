"""From a document to scopes and families; kits opened with the settings of their use."""

from __future__ import annotations

from scantling.errors import ResolveError
from scantling.piece.language.document import Document, Entry, MappingNode, Node, Scalar, as_name
from scantling.piece.language.part_keys import KEYS_OF_A_USE
from scantling.piece.resolve import spaces
from scantling.piece.resolve.common import Common, nearest
from scantling.piece.resolve.steps import FACINGS
from scantling.piece.resolve.tree import GROUP, KIT, PART, SIDES, SPACE, Family, Scope, Setting, Thing

MOST_DEEP = 8


def root_scope(common: Common, document: Document) -> Scope:
    """The scope of the whole piece."""
    return _filled(Scope(common, document, document.root))


def contents_of(thing: Thing) -> Scope | None:
    """The scope inside a group or a kit; None for a part or a space."""
    if thing.family.kind == GROUP:
        return _group(thing)
    return _kit(thing) if thing.family.kind == KIT else None


def _group(thing: Thing) -> Scope:
    scope = thing.scope
    facing = _facing(thing)
    inner = Scope(
        scope.common,
        scope.document,
        thing.family.node,
        scope,
        thing,
        facing is not None,
        FACINGS.get(facing or ""),
    )
    return _filled(inner)


def _facing(thing: Thing) -> str | None:
    node = thing.family.node.get("facing")
    if not isinstance(node, Scalar):
        return None
    word = node.text.strip().lower()
    return None if word == "front" else word


def _kit(thing: Thing) -> Scope:
    scope = thing.scope
    _refuse_depth(thing)
    said = thing.family.node.get("kit")
    assert isinstance(said, Scalar)
    kit = scope.document.kits[as_name(said.text)]
    inner = Scope(
        scope.common,
        kit,
        kit.root,
        scope,
        thing,
        True,
        FACINGS.get(_facing(thing) or ""),
        _settings(thing, kit, said.text),
    )
    return _filled(inner)


def _refuse_depth(thing: Thing) -> None:
    depth, owner = 0, thing.scope.owner
    while owner is not None:
        depth, owner = depth + 1, owner.scope.owner
    if depth > MOST_DEEP:
        raise ResolveError(f"kits and groups stand more than {MOST_DEEP} deep", thing.family.key.place)


def _settings(thing: Thing, kit: Document, kit_name: str) -> dict[str, Setting]:
    """The settings a use gives; an unknown one is an error with the list of those known."""
    known = [
        entry.name for group in ("sizes", "choices", "materials") for entry in _entries(kit.root.get(group))
    ]
    settings: dict[str, Setting] = {}
    for entry in thing.family.node:
        if entry.name in KEYS_OF_A_USE:
            continue
        if entry.name not in known:
            raise ResolveError(
                f'the kit "{kit_name}" has no setting "{entry.name}"',
                entry.key.place,
                nearest(entry.name, known),
                (thing.family.name,),
            )
        settings[entry.name] = Setting(entry.value, thing)
    return settings


def _entries(node: Node | None) -> tuple[Entry, ...]:
    return node.entries if isinstance(node, MappingNode) else ()


def _filled(scope: Scope) -> Scope:
    for entry in _entries(scope.node.get("spaces")):
        _add_space(scope, entry)
    for entry in _entries(scope.node.get("parts")):
        assert isinstance(entry.value, MappingNode)
        _add(scope, Family(scope, entry.key, entry.name, _kind(entry.value), entry.value))
    if scope.is_home:
        _refuse_double_names(scope)
    _refuse_clashes(scope)
    return scope


def _kind(node: MappingNode) -> str:
    return KIT if "kit" in node else GROUP if "parts" in node else PART


def _add_space(scope: Scope, entry: Entry) -> None:
    assert isinstance(entry.value, MappingNode)
    space = Family(scope, entry.key, entry.name, SPACE, entry.value)
    _add(scope, space)
    split = entry.value.get("split")
    gap = spaces.gap_entry(split) if isinstance(split, MappingNode) else None
    if gap is not None and len(spaces.openings(space)) > 1:
        _add(scope, Family(scope, gap.key, gap.name, SPACE, MappingNode.of((), gap.key.place), space))


def _add(scope: Scope, family: Family) -> None:
    other = scope.families.get(family.name)
    if other is not None:
        raise ResolveError(
            f'"{family.name}" is already the name of what stands at line {other.key.place.line}',
            family.key.place,
            "one name, one thing: call one of them otherwise",
        )
    scope.families[family.name] = family


def _refuse_double_names(scope: Scope) -> None:
    """A size, a held thing or a fitting may not bear the name of a part or a space."""
    taken: dict[str, tuple[str, Scalar]] = {
        name: ("part" if family.kind != SPACE else "space", family.key)
        for name, family in scope.families.items()
    }
    for group, what in (("sizes", "size"), ("holds", "held thing"), ("hardware", "fitting")):
        for entry in _entries(scope.node.get(group)):
            if entry.name in taken:
                other, key = taken[entry.name]
                raise ResolveError(
                    f'a {what} and a {other} are both called "{entry.name}" (line {key.place.line})',
                    max(entry.key.place, key.place),
                    "one name, one thing: call one of them otherwise",
                )
            taken[entry.name] = (what, entry.key)


_COPY_WORDS = {
    "left and right": ("left", "right"),
    "front and back": ("front", "back"),
    "four corners": ("left", "right", "front", "back"),
}


def _refuse_clashes(scope: Scope) -> None:
    """`back rail`, against `rail` with copies front and back: two things called by the same words."""
    for family in scope.families.values():
        sides = set(_side_words(family))
        if not sides:
            continue
        key = family.name.split()
        for other in scope.families.values():
            if other is not family and _is_called(other.name.split(), key, sides):
                later, earlier = sorted((family, other), key=lambda f: f.key.place, reverse=True)
                raise ResolveError(
                    f'"{other.name}" could also be a copy of "{family.name}" (line {earlier.key.place.line})',
                    later.key.place,
                    "call one of them otherwise",
                )


def _is_called(words: list[str], key: list[str], sides: set[str]) -> bool:
    left = [w for w in words if w not in sides]
    return left == [w for w in key if w not in sides] and len(words) > len(key)


def _side_words(family: Family) -> tuple[str, ...]:
    node = family.node.get("copies")
    if isinstance(node, MappingNode):
        node = node.get("mirror")
    if not isinstance(node, Scalar):
        return ()
    words = _COPY_WORDS.get(as_name(node.text), ())
    return tuple(w for w in words if w in SIDES)
