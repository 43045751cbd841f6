"""Named sizes: of the piece, of a kit in use, and the overall sizes; ranges and wishes."""

from __future__ import annotations

from dataclasses import replace

from scantling.errors import ResolveError
from scantling.piece.language.document import Entry, MappingNode, Scalar
from scantling.piece.language.habits import phrase_meant
from scantling.piece.language.parse import parse_size
from scantling.piece.language.phrases import PLACE_WORDS, SIZE_WORDS, Name, Within
from scantling.piece.model import Axis, NamedSize, Range
from scantling.piece.resolve import choices, materials, names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.tree import Reach, Scope
from scantling.piece.resolve.values import Value
from scantling.piece.resolve.wanting import size_in
from scantling.quantity.kinds import Kind

_SLACK = 1e-6  # mm, deg: as far as numbers are exact


def size_named(asker: Asker, name: Name) -> Value:
    """The value of a named size. Raises ResolveError with the nearest name, or says what else it is."""
    home = asker.scope.home
    if has_size(home, name.text):
        return value(home, name.text)
    raise asker.error(*_what_else(asker, name))


def _what_else(asker: Asker, name: Name) -> tuple[str, Name, str]:
    home, text = asker.scope.home, name.text
    if choices.is_choice(home, text):
        return f'"{text}" is a choice, not a size', name, f"write `A when {text} is ... otherwise B`"
    found = names.look_up(asker.scope, name.words, asker.place(name))
    if found is not names.NOTHING:
        return f'"{text}" is a thing, not a size', name, _faces_to_name(asker, text)
    if materials.is_material(home, text):
        return f'"{text}" is a material, not a size', name, f"write `thick of {text}` or `broad of {text}`"
    own = size_names(home)
    told = nearest(text, [*own, "thick", "broad", "width", "depth", "height"], _WORDS)
    return f'no size is called "{text}"', name, phrase_meant(name.words) or told


_WORDS = (*PLACE_WORDS, *SIZE_WORDS)
_SIDES = {Axis.WIDE: ("left", "right"), Axis.DEEP: ("front", "back"), Axis.HIGH: ("top", "bottom")}


def _faces_to_name(asker: Asker, text: str) -> str:
    """The faces that a thing named alone may stand for, where a place is wanted; else its sizes."""
    if asker.axis is None:
        return f"say which of its sizes: `width of {text}`, `height of {text}`"
    low, high = _SIDES[asker.axis]
    return f"say which of its faces: `{low} of {text}` or `{high} of {text}`, or write `between X and Y`"


def size_names(home: Scope) -> list[str]:
    """The named sizes of a file, in the order of writing."""
    return [entry.name for entry in _entries(home)]


def has_size(home: Scope, name: str) -> bool:
    """Whether a file has a named size of that name."""
    return _entry(home, name) is not None


def value(home: Scope, name: str) -> Value:
    """A named size of the piece or of a kit in use; a bare number is a length."""
    scalar = _scalar(home, name)
    label = f"{home.label} {name}" if home.label else name
    return home.common.once(("size", id(home), name), label, scalar, lambda: _value(home, name))


def _value(home: Scope, name: str) -> Value:
    given = home.given.get(name)
    if given is not None:
        assert isinstance(given.node, Scalar)
        asker = Asker(given.user.scope, given.node, given.user, what=name)
        return strict(asker, _middle_of(asker, given.node))
    scalar = _scalar(home, name)
    asker = Asker(home, _standing_scalar(home, name, scalar), what=name)
    return strict(asker, _middle_of(asker, asker.scalar))


def _standing_scalar(home: Scope, name: str, scalar: Scalar) -> Scalar:
    """The words a setting puts in place of the file's."""
    wish = home.common.settings.get(name) if home.owner is None else None
    return scalar if wish is None else replace(scalar, text=wish, breaks=())


def _middle_of(asker: Asker, scalar: Scalar) -> Value:
    """The value a size is tried at: what is written, or the low end of what is left free."""
    size = parse_size(scalar)
    if not isinstance(size, Within):
        return asker.value(size)
    formula = size.value if size.value is not None else (size.high if size.wish == "most" else size.low)
    return asker.value(formula)


def strict(asker: Asker, found: Value) -> Value:
    """A named size: a bare number is a length, and a place or an area is none."""
    found = found.as_kind(Kind.LENGTH)
    if found.is_place:
        raise asker.error(
            f"a named size is a size, but this is {found.noun}", None, "take one place from another"
        )
    if found.kind is Kind.LENGTH and found.power != 1:
        raise asker.error(
            f"a named size cannot be {found.noun}", None, "take its `sqrt`, or divide by a length"
        )
    return found


def overall(home: Scope, axis: Axis) -> Reach:
    """The box of the whole piece, from zero."""
    node = home.node.get("overall")
    scalar = node.get(axis.word) if isinstance(node, MappingNode) else None
    if not isinstance(scalar, Scalar):
        if "piece" not in home.node:
            file = home.document.file
            raise ResolveError(
                "this is a style, with no piece in it",
                home.node.place,
                f"begin a piece with `follows: {file}`",
            )
        raise ResolveError(
            f"the piece does not say how {axis.word} it is over all",
            node.place if node else home.node.place,
            f"write `overall: {{wide: ..., deep: ..., high: ...}}`; {axis.word} is wanted here",
        )
    name = f"overall {axis.word}"
    scalar = _standing_scalar(home, name, scalar)

    def work() -> Reach:
        asker = Asker(home, scalar, what=name)
        size = strict(asker, _middle_of(asker, scalar))
        if size.kind is not Kind.LENGTH or size.number <= 0:
            raise asker.error(f"{name} must be a length above zero")
        return Reach(0.0, size.number)

    return home.common.once(("overall", axis), name, scalar, work)


def resolved(home: Scope) -> tuple[NamedSize, ...]:
    """The overall sizes, then the named sizes, with their ranges."""
    found = []
    node = home.node.get("overall")
    for axis in Axis:
        scalar = node.get(axis.word) if isinstance(node, MappingNode) else None
        if isinstance(scalar, Scalar):
            name = f"overall {axis.word}"
            number = overall(home, axis).size
            found.append(_named(home, name, number, Kind.LENGTH, scalar))
    for name in size_names(home):
        taken = value(home, name)
        found.append(_named(home, name, taken.number, taken.kind or Kind.LENGTH, _scalar(home, name)))
    return tuple(found)


def _named(home: Scope, name: str, number: float, kind: Kind, scalar: Scalar) -> NamedSize:
    stands = _standing_scalar(home, name, scalar)
    return NamedSize(name, number, kind, stands.text, scalar.place, _range(home, name, scalar, kind))


def _range(home: Scope, name: str, scalar: Scalar, kind: Kind) -> Range | None:
    size = parse_size(scalar)
    if not isinstance(size, Within):
        return None
    asker = Asker(home, scalar, what=name)
    low = size_in(asker, size.low, kind, "the low end")
    high = size_in(asker, size.high, kind, "the high end")
    step = size_in(asker, size.step, kind, "the step") if size.step else None
    if low > high:
        raise asker.error("the range runs backward", size, "write the smaller end first")
    if size.value is not None:
        _refuse_outside(asker, size, low, high, kind)
    return Range(low, high, step, size.wish)


def _refuse_outside(asker: Asker, size: Within, low: float, high: float, kind: Kind) -> None:
    """A size that is written outside its own limits."""
    assert size.value is not None
    number = size_in(asker, size.value, kind)
    if not low - _SLACK <= number <= high + _SLACK:
        side, end = ("below", size.low) if number < low else ("above", size.high)
        words = asker.scalar.text[end.offset : end.offset + end.length]
        raise asker.error(f"this lies {side} its own range", size.value, f"write {words}, or widen the range")


def _entries(home: Scope) -> tuple[Entry, ...]:
    node = home.node.get("sizes")
    return node.entries if isinstance(node, MappingNode) else ()


def _entry(home: Scope, name: str) -> Entry | None:
    node = home.node.get("sizes")
    return node.entry(name) if isinstance(node, MappingNode) else None


def _scalar(home: Scope, name: str) -> Scalar:
    entry = _entry(home, name)
    assert entry is not None
    assert isinstance(entry.value, Scalar)
    return entry.value
