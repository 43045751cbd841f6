"""A formula as a chain of terms, and the chain with its last bare number changed by so much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.piece.editing.quantities import number_words
from scantling.piece.language.phrases import (
    Arithmetic,
    AtLeast,
    AtMost,
    Expression,
    FaceOf,
    FunctionOf,
    Name,
    Negative,
    Number,
    Otherwise,
    OwnSize,
    Rounded,
    SizeOf,
    When,
)
from scantling.quantity import LengthUnit
from scantling.quantity.kinds import Kind

_ZERO = 1e-6  # mm


class Stuck(Exception):
    """A formula that no drag changes: why, and what to do instead."""

    def __init__(self, why: str, remedy: str = "change the words instead") -> None:
        super().__init__(why)
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Term:
    """One term of a sum: `sign`, where the sign stands (None for the first) and what is added."""

    sign: int
    at: int | None
    value: Expression


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula within the words it stands in, with the unit of bare numbers there.

    `zero`: the place that a bare 0 is; None where a size is wanted.
    """

    text: str
    tree: Expression
    unit: LengthUnit
    zero: str | None = None

    @property
    def words(self) -> str:
        return self.text[self.tree.offset : self.tree.offset + self.tree.length]


def shifted(formula: Formula, by: float) -> str:
    """All the words with the formula made bigger by `by`, or moved that far along the axis. [mm]

    Raises Stuck for what no drag may change, and for a size of nothing.
    """
    terms = list(_terms(formula.text, formula.tree))
    bare = [term for term in terms if _is_bare(term.value)]
    if bare:
        return _with_term(formula, terms, bare[-1], by)
    if isinstance(formula.tree, FaceOf | SizeOf):
        return added_to(formula, by)
    raise Stuck(_why(formula))


def added_to(formula: Formula, by: float) -> str:
    """All the words with one more term at the end of the formula."""
    end = formula.tree.offset + formula.tree.length
    sign = "+" if by > 0 else "-"
    words = formula.words
    if isinstance(formula.tree, FaceOf | SizeOf) and formula.tree.at is not None:
        words = f"({words})"
    changed = f"{words} {sign} {number_words(abs(by), formula.unit)}"
    return f"{formula.text[: formula.tree.offset]}{changed}{formula.text[end:]}"


def _terms(text: str, tree: Expression) -> Iterator[Term]:
    if not isinstance(tree, Arithmetic) or tree.sign not in "+-":
        yield Term(1, None, tree)
        return
    yield from _terms(text, tree.left)
    end = tree.left.offset + tree.left.length
    yield Term(1 if tree.sign == "+" else -1, text.index(tree.sign, end), tree.right)


def _is_bare(value: Expression) -> bool:
    return isinstance(value, Number) and value.kind in (None, Kind.LENGTH)


def _with_term(formula: Formula, terms: list[Term], term: Term, by: float) -> str:
    assert isinstance(term.value, Number)
    now = term.sign * term.value.value + by
    if term.at is None:
        return _with_first(formula, terms, term, now)
    text, end = formula.text, term.value.offset + term.value.length
    before = text[: term.at].rstrip()
    if abs(now) < _ZERO:
        return before + text[end:]
    sign = "+" if now > 0 else "-"
    gap = text[term.at + 1 : term.value.offset]
    return f"{text[: term.at]}{sign}{gap or ' '}{_like(term.value, text, abs(now), formula.unit)}{text[end:]}"


def _with_first(formula: Formula, terms: list[Term], term: Term, now: float) -> str:
    """The number a formula begins with: a size, or a place counted from the low side of the box."""
    assert isinstance(term.value, Number)
    text, end = formula.text, term.value.offset + term.value.length
    if now < _ZERO and len(terms) > 1:
        raise Stuck(f"`{formula.words}` begins with a number, and nothing would be left of it")
    if now < _ZERO and formula.zero is None:
        raise Stuck("nothing would be left of it")
    if abs(now) < _ZERO:
        written = str(formula.zero)
    elif now < 0:
        written = f"{formula.zero} - {_like(term.value, text, -now, formula.unit)}"
    else:
        written = _like(term.value, text, now, formula.unit)
    return text[: term.value.offset] + written + text[end:]


def _like(number: Number, text: str, mm: float, unit: LengthUnit) -> str:
    """A length with the unit the old number said; bare where it said none."""
    was = text[number.offset : number.offset + number.length].lower()
    if number.kind is None:
        return number_words(mm, unit)
    own = LengthUnit.MM if was.endswith("m") else LengthUnit.INCHES
    if own is unit:
        return number_words(mm, unit)
    return f"{number_words(mm, own)} {'mm' if own is LengthUnit.MM else 'in'}"


_WORDS_OF = {
    AtLeast: "keeps to `at least`",
    AtMost: "keeps to `at most`",
    Rounded: "is rounded to steps",
    When: "is settled by `when`",
    Otherwise: "follows the thickness its wood is sold at",
    FunctionOf: "is worked out",
    Negative: "is turned round by a minus",
    Arithmetic: "is worked out from others",
    Name: "is a size of its own",
    OwnSize: "is the size its wood is bought at",
}


def _why(formula: Formula) -> str:
    return f"`{formula.words}` {_WORDS_OF.get(type(formula.tree), 'is no length')}"
