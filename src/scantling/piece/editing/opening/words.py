"""Phrases of a kit as they read where the kit is opened: its settings' words in their places."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields

from scantling.errors import Place
from scantling.piece.editing.finding import size_meant
from scantling.piece.editing.phrased import words_in
from scantling.piece.editing.quantities import number_words, quantity_words
from scantling.piece.language import Scalar, parse_expression, parse_material, parse_size
from scantling.piece.language.document import as_name
from scantling.piece.language.edits import child_or_none
from scantling.piece.language.phrases import (
    Arithmetic,
    AtLeast,
    AtMost,
    Between,
    EdgeOf,
    FaceOf,
    FunctionOf,
    Is,
    Name,
    Negative,
    Number,
    Otherwise,
    OwnSize,
    Rounded,
    SameAs,
    SizeOf,
    Target,
    When,
    Within,
    Words,
)
from scantling.piece.resolve import choices, materials, named
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.conditions import holds
from scantling.piece.resolve.evaluate import own_size
from scantling.piece.resolve.tree import Scope
from scantling.quantity import LengthUnit
from scantling.quantity.kinds import Kind

_COMPOUND = (Arithmetic, AtLeast, AtMost, Rounded, When, Otherwise, Negative)
_BINDING = (Arithmetic, AtLeast, AtMost, Rounded, Negative, FunctionOf)


@dataclass(frozen=True)
class Reading:
    """How a kit's phrases are to be read outside it.

    `home`: the kit in one of its uses. `unit`: of the file it is opened in. `made_of`: the kit's material of
    the part the phrase stands in. `prefix`: what comes before the names of its parts, "" inside the group.
    `own_box`: bare words no longer mean the box of the kit.
    """

    home: Scope
    unit: LengthUnit
    made_of: str = ""
    prefix: str = ""
    own_box: bool = False

    def phrase(self, scalar: Scalar, tree: Words) -> str:
        """All the words of a scalar, read outside the kit."""
        return _Spelling(self, scalar).whole(tree)

    def size(self, name: str) -> str:
        """The words that stand for a size of the kit."""
        given = self.home.given.get(name)
        scalar = given.node if given else child_or_none(self.home.node, ("sizes", name))
        assert isinstance(scalar, Scalar)
        size = parse_size(scalar)
        tree = (size.value or size.low) if isinstance(size, Within) else size
        if self.own_box and _has_bare(tree):
            return self.number(name)
        return scalar.text.strip() if given else _Spelling(self, scalar).words(tree)

    def number(self, name: str) -> str:
        """The value of a size of the kit as a number."""
        value = named.value(self.home, name)
        return quantity_words(value.number, value.kind or Kind.LENGTH, self.unit)

    def choice(self, name: str) -> str:
        """What stands for a choice of the kit: the maker's own choice, or the option taken."""
        given = self.home.given.get(name)
        if given is not None and isinstance(given.node, Scalar):
            own = as_name(given.node.text)
            if choices.is_choice(given.user.scope.home, own):
                return own
        return choices.taken(self.home, name)

    def material(self, name: str) -> str:
        """The words that stand for a material of the kit."""
        given = self.home.given.get(name)
        if given is not None and isinstance(given.node, Scalar):
            return given.node.text.strip()
        scalar = child_or_none(self.home.node, ("materials", name))
        assert isinstance(scalar, Scalar)
        option = parse_material(scalar).options[0]
        return _Spelling(self, scalar).words(option)

    def named_material(self, name: str) -> str:
        """The maker's own name for a material of the kit; "" where it has none."""
        given = self.home.given.get(name)
        if given is None or not isinstance(given.node, Scalar):
            return ""
        own = as_name(given.node.text)
        return own if materials.is_material(given.user.scope.home, own) else ""

    def thing(self, words: str) -> str:
        """The name of a part of the kit, seen from where the phrase then stands."""
        return f"{self.prefix} {words}" if self.prefix else words

    def holds(self, scalar: Scalar, tree: Words) -> bool:
        """Whether a condition of the kit holds in this use."""
        return holds(Asker(self.home, scalar, what="when"), tree)  # type: ignore[arg-type]


def _is_compound(words: str, unit: LengthUnit) -> bool:
    tree = parse_expression(Scalar(words, Place("", 1, 1), unit))
    return isinstance(tree, _COMPOUND)


def _has_bare(tree: Words) -> bool:
    return any(isinstance(one, FaceOf | SizeOf) and one.of is None for one in words_in(tree))


@dataclass(frozen=True)
class _Spelling:
    """The words of one scalar, spelt anew."""

    reading: Reading
    scalar: Scalar

    def whole(self, tree: Words) -> str:
        text = self.scalar.text
        return text[: tree.offset] + self.words(tree) + text[tree.offset + tree.length :]

    def words(self, tree: Words, binding: bool = False) -> str:
        """The words of a tree; `binding`: what stands round it binds tighter than a sum."""
        size = size_meant(self.reading.home, tree)
        if size:
            words = self.reading.size(size)
            return f"({words})" if binding and _is_compound(words, self.reading.unit) else words
        match tree:
            case Name():
                return self._named(tree)
            case When():
                chosen = tree.value if self.reading.holds(self.scalar, tree.condition) else tree.other
                return self._bracketed(self.words(chosen), chosen, binding)
            case Otherwise():
                chosen = tree.value if self._is_sold_by_size(tree.value) else tree.other
                return self._bracketed(self.words(chosen), chosen, binding)
            case OwnSize(of=Name() as of):
                return self._of_material(tree, of)
            case Number():
                return self._number(tree)
            case _:
                return self._spliced(tree, isinstance(tree, _BINDING))

    def _spliced(self, tree: Words, binding: bool) -> str:
        """The words as they stand, with those inside spelt anew."""
        text, at, spelt = self.scalar.text, tree.offset, ""
        for inner in sorted(_inside(tree), key=lambda one: one.offset):
            spelt += text[at : inner.offset] + self._inner(tree, inner, binding)
            at = inner.offset + inner.length
        return spelt + text[at : tree.offset + tree.length]

    def _inner(self, tree: Words, inner: Words, binding: bool) -> str:
        if isinstance(inner, Name) and _is_thing(tree, inner):
            return self.reading.thing(self._raw(inner))
        factor = isinstance(tree, Arithmetic) and tree.sign in "*/"
        if isinstance(inner, Number) and factor:
            return self._raw(inner)
        return self.words(inner, binding)

    def _raw(self, tree: Words) -> str:
        return self.scalar.text[tree.offset : tree.offset + tree.length]

    def _named(self, name: Name) -> str:
        reading = self.reading
        if choices.is_choice(reading.home, name.text):
            return reading.choice(name.text)
        if materials.is_material(reading.home, name.text):
            return reading.material(name.text)
        return self._raw(name)

    def _bracketed(self, words: str, tree: Words, binding: bool) -> str:
        return f"({words})" if binding and isinstance(tree, _COMPOUND) else words

    def _is_sold_by_size(self, own: OwnSize) -> bool:
        assert own.of is not None
        material = materials.named(self.reading.home, own.of.text)
        return (material.thick if own.word == "thick" else material.broad) is not None

    def _of_material(self, own: OwnSize, of: Name) -> str:
        if of.text == self.reading.made_of:
            return own.word
        named_so = self.reading.named_material(of.text)
        if named_so:
            return f"{own.word} of {named_so}"
        return number_words(own_size(Asker(self.reading.home, self.scalar), own), self.reading.unit)

    def _number(self, number: Number) -> str:
        """A bare number with the unit of the kit, where the other file has another one."""
        words = self._raw(number)
        if number.kind is not None or self.scalar.unit is self.reading.unit:
            return words
        return f"{words} {'in' if self.scalar.unit is LengthUnit.INCHES else 'mm'}"


def _is_thing(tree: Words, name: Name) -> bool:
    """Whether a name in a tree is that of a part, and not that of a size."""
    if isinstance(tree, FaceOf | SizeOf | EdgeOf | Target):
        return tree.of is name
    return isinstance(tree, Between | SameAs)


def _inside(tree: Words) -> Iterator[Words]:
    """The trees one step inside a tree."""
    if isinstance(tree, Is):
        return
    for field in fields(tree):
        value = getattr(tree, field.name)
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(one, Words):
                yield one
