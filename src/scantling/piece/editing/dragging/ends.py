"""What may be written so that one end of a part's span lies elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from scantling.errors import ReadError
from scantling.piece.editing.dragging.terms import Formula, Stuck, added_to, shifted
from scantling.piece.editing.finding import kit_around, path_of, size_meant
from scantling.piece.editing.naming import freed, put_words, said
from scantling.piece.editing.quantities import number_words
from scantling.piece.editing.writes import Question, Steps, Write
from scantling.piece.language import (
    Document,
    MappingNode,
    Scalar,
    parse_material,
    parse_size,
    parse_span,
)
from scantling.piece.language.edits import child_or_none
from scantling.piece.language.phrases import (
    Between,
    Centred,
    Expression,
    FromTo,
    Measured,
    Name,
    OwnSize,
    SameAs,
    SizeAlone,
    Span,
    Within,
)
from scantling.piece.model import Axis, Face, MaterialKind
from scantling.piece.resolve import materials, named, names
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.faces import FACE_OF_WORD
from scantling.piece.resolve.narrowing import meant
from scantling.piece.resolve.spans import sign_of
from scantling.piece.resolve.steps import face_inside
from scantling.piece.resolve.tree import PART, Scope, Thing
from scantling.quantity.kinds import Kind

EVERYWHERE, HERE = "everywhere", "only here"
LOW = {Axis.WIDE: "left", Axis.DEEP: "front", Axis.HIGH: "bottom"}
HIGH = {Axis.WIDE: "right", Axis.DEEP: "back", Axis.HIGH: "top"}
MOST_FOLLOWED = 8


@dataclass(frozen=True)
class Grab:
    """A face of a part as it is written, and how far outward it is to lie. [mm]"""

    question: Question
    thing: Thing
    face: Face
    by: float

    @property
    def axis(self) -> Axis:
        return self.face.axis


@dataclass(frozen=True)
class Answer:
    """One thing that may be written; `name` is empty where there is nothing to choose."""

    name: str
    write: Write


@dataclass(frozen=True)
class Answers:
    """`what`: the name that stands at the end grabbed, where there is a choice.

    `closed`: why one of the two answers is not open.
    """

    answers: tuple[Answer, ...]
    what: str = ""
    closed: str = ""


def answers(grab: Grab, followed: int = 0) -> Answers:
    """What may be written for a grab, none of it tried yet. Raises Stuck, or ReadError."""
    node = grab.thing.family.node.get(grab.axis.word)
    if not isinstance(node, Scalar):
        return _unsaid(grab)
    return _of_span(grab, node, parse_span(node), followed)


def _of_span(grab: Grab, scalar: Scalar, span: Span, followed: int) -> Answers:
    sign = grab.face.sign
    match span:
        case FromTo():
            return _of_formula(
                grab, scalar, span.low if sign < 0 else span.high, sign * grab.by, LOW[grab.axis]
            )
        case Between():
            return _one(_span_write(grab, scalar, _parted(grab, scalar, span)))
        case Measured():
            if sign_of(Asker(grab.thing.scope, scalar, grab.thing, grab.axis), span) == sign:
                return _of_formula(grab, scalar, span.size, grab.by)
            return _of_formula(grab, scalar, span.start, sign * grab.by, LOW[grab.axis])
        case Centred():
            return _of_formula(grab, scalar, span.size, 2 * grab.by)
        case SizeAlone():
            return _of_formula(grab, scalar, span.size, grab.by)
        case SameAs():
            return _of_same(grab, scalar, span, followed)


def _one(write: Write) -> Answers:
    return Answers((Answer("", write),))


def _unsaid(grab: Grab) -> Answers:
    """It fills the space it stands in: the span is written, with a term at the end that was grabbed."""
    path = (*path_of(grab.thing.family), grab.axis.word)
    _refuse_inside_kit(grab)
    low, high = _with_end(grab, LOW[grab.axis], HIGH[grab.axis])
    return _one(_put(grab.question.document, path, f"{low} to {high}", ""))


def _with_end(grab: Grab, low: str, high: str) -> tuple[str, str]:
    """Two places, the grabbed one with a term added."""
    outward = "+" if grab.face.sign * grab.by > 0 else "-"
    term = f" {outward} {number_words(abs(grab.by), grab.question.document.unit)}"
    return (low + term, high) if grab.face.sign < 0 else (low, high + term)


def _parted(grab: Grab, scalar: Scalar, span: Between) -> str:
    """`between X and Y` as two places, the grabbed one with a term added."""
    low = _near_face(grab, scalar, span.first, HIGH[grab.axis])
    high = _near_face(grab, scalar, span.second, LOW[grab.axis])
    low, high = _with_end(grab, low, high)
    return f"{low} to {high}"


def _near_face(grab: Grab, scalar: Scalar, name: Name, word: str) -> str:
    words = scalar.text[name.offset : name.offset + name.length]
    scope, place = grab.thing.scope, scalar.place_of(name)
    own = name.text in FACE_OF_WORD and names.look_up(scope, name.words, place) is names.NOTHING
    return words if own else f"{word} of {words}"


def _of_formula(grab: Grab, scalar: Scalar, tree: Expression, by: float, zero: str | None = None) -> Answers:
    formula = Formula(scalar.text, tree, scalar.unit, zero)
    name = size_meant(grab.thing.scope.home, tree)
    if name:
        return _of_size(grab, scalar, formula, name, by)
    if isinstance(tree, OwnSize):
        return _of_material(grab, scalar, formula, tree, by)
    return _one(_span_write(grab, scalar, shifted(formula, by)))


def _of_size(grab: Grab, scalar: Scalar, formula: Formula, name: str, by: float) -> Answers:
    home = grab.thing.scope.home
    use = kit_around(home)
    if use is not None:
        return _one(_setting_write(grab, home, use, name, by))
    return _two(
        f"the size {name}",
        lambda: _size_write(grab.question, home, name, by),
        lambda: _span_write(grab, scalar, added_to(formula, by)),
    )


def _of_material(grab: Grab, scalar: Scalar, formula: Formula, own: OwnSize, by: float) -> Answers:
    _refuse_inside_kit(grab)
    return _two(
        f"`{formula.words}` of its wood",
        lambda: _material_write(grab, own, by),
        lambda: _span_write(grab, scalar, added_to(formula, by)),
    )


def _of_same(grab: Grab, scalar: Scalar, span: SameAs, followed: int) -> Answers:
    """Drag the part it is the same as, or part from it."""
    words = scalar.text[span.part.offset : span.part.offset + span.part.length]
    seen = meant(Asker(grab.thing.scope, scalar, grab.thing, grab.axis), span.part)[0]
    if seen.thing.family.kind != PART or followed > MOST_FOLLOWED:
        raise Stuck(f"it is the same as {words}, which is no single part")
    other = replace(grab, thing=seen.thing, face=face_inside(seen.steps, grab.face))
    if kit_around(grab.thing.scope) is not None:
        return answers(other, followed + 1)
    low, high = _with_end(grab, f"{LOW[grab.axis]} of {words}", f"{HIGH[grab.axis]} of {words}")
    return _two(
        f"the span of {words}",
        lambda: answers(other, followed + 1).answers[0].write,
        lambda: _span_write(grab, scalar, f"{low} to {high}"),
    )


def _two(what: str, everywhere: Callable[[], Write], here: Callable[[], Write]) -> Answers:
    """Both answers to `everywhere, or only here?`, and why one is not open."""
    found, closed = [], ""
    for name, write in ((EVERYWHERE, everywhere), (HERE, here)):
        try:
            found.append(Answer(name, write()))
        except Stuck as stuck:
            closed = str(stuck)
        except ReadError as error:
            closed = error.message
    if not found:
        raise Stuck(closed)
    return Answers(tuple(found), what, closed)


def _span_write(grab: Grab, scalar: Scalar, new: str) -> Write:
    _refuse_inside_kit(grab)
    path = (*path_of(grab.thing.family), grab.axis.word)
    return _put(grab.question.document, path, new, scalar.text)


def _put(document: Document, path: Steps, new: str, was: str) -> Write:
    """The words written in the piece's own file; over those of a file it follows, as a re-fit does."""
    text = put_words(document.text, document.file, path, new)
    return Write(((document.file, text),), said(path, was, new), freed=freed(path))


def _refuse_inside_kit(grab: Grab) -> None:
    use = kit_around(grab.thing.scope)
    if use is not None:
        raise Stuck(
            f'this is written inside the kit of "{use.label}"', "open the kit first, or change its space"
        )


def _size_write(question: Question, home: Scope, name: str, by: float) -> Write:
    """A named size of the piece made bigger."""
    scalar = child_or_none(home.node, ("sizes", name))
    assert isinstance(scalar, Scalar)
    size = parse_size(scalar)
    if isinstance(size, Within) and size.value is None:
        now = named.value(home, name).number + by
        assert size.wish is not None
        new = number_words(now, scalar.unit) + scalar.text.lstrip()[len(size.wish) :]
    else:
        tree = size.value if isinstance(size, Within) else size
        assert tree is not None
        new = shifted(Formula(scalar.text, tree, scalar.unit), by)
    return _put(question.document, ("sizes", name), new, scalar.text)


def _setting_write(grab: Grab, home: Scope, use: Thing, name: str, by: float) -> Write:
    """A setting of a kit where it is used: changed, or given for the first time."""
    document = grab.question.document
    if kit_around(use.scope) is not None:
        raise Stuck(f'"{use.label}" stands inside another kit', "open that one first")
    given = home.given.get(name)
    if given is None:
        value = named.value(home, name)
        assert value.kind is Kind.LENGTH
        return put_setting(document, use, name, number_words(value.number + by, document.unit), "")
    scalar = given.node
    assert isinstance(scalar, Scalar)
    tree = parse_size(scalar)
    assert not isinstance(tree, Within)
    formula = Formula(scalar.text, tree, scalar.unit)
    new = added_to(formula, by) if isinstance(tree, Name | OwnSize) else shifted(formula, by)
    return put_setting(document, use, name, new, scalar.text)


def put_setting(document: Document, use: Thing, name: str, new: str, was: str) -> Write:
    """A setting where a kit is used; over a followed file the use says its kit again."""
    path, kit = path_of(use.family), use.family.node.get("kit")
    assert isinstance(kit, Scalar)
    own = child_or_none(document.own, path)
    text = document.text
    if not isinstance(own, MappingNode) or "kit" not in own:
        text = put_words(text, document.file, (*path, "kit"), kit.text)
    text = put_words(text, document.file, (*path, name), new)
    return Write(((document.file, text),), said((*path, name), was, new))


def _material_write(grab: Grab, own: OwnSize, by: float) -> Write:
    """The thickness that a solid wood is worked to, where the material has a name."""
    thing, home = grab.thing, grab.thing.scope.home
    material = materials.named(home, own.of.text) if own.of else materials.of_thing(thing)
    if material.kind is not MaterialKind.SOLID or own.word != "thick":
        raise Stuck(f"{material.text} is bought at that size")
    scalar = child_or_none(home.node, ("materials", material.name))
    if not isinstance(scalar, Scalar):
        raise Stuck(f"{material.text} has no name under materials")
    thick = parse_material(scalar).options[0].thick
    if thick is None or material.name in dict(grab.question.settings):
        raise Stuck(f"{material.text} says no thickness")
    new = shifted(Formula(scalar.text, thick, scalar.unit), by)
    return _put(grab.question.document, ("materials", material.name), new, scalar.text)
