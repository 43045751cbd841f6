"""From tokens to spans, ranges, edges, turns and moves."""

from __future__ import annotations

from scantling.piece.language import spans as s
from scantling.piece.language.cursor import Cursor
from scantling.piece.language.expressions import DIRECTIONS, PLACE_WORDS, Expression, Name
from scantling.piece.language.formulas import expression, total
from scantling.piece.language.names import take_name
from scantling.piece.language.tokens import PhraseError, Token, TokenKind

WISHES = ("least", "most", "free")
SPAN_FORMS = (
    "a span is `A to B`, `between X and Y`, `S up from A`, `S centred on P`, `same as X`, or a size alone"
)
_FACE_LIST = "left, right, front, back, top or bottom"
_DIRECTION_LIST = "right, left, back, forward, up or down"


def span(cursor: Cursor) -> s.Span:
    """The value of `wide`, `deep`, `high`."""
    found = _span(cursor)
    cursor.expect_end(SPAN_FORMS)
    return found


def _span(cursor: Cursor) -> s.Span:
    start = cursor.token.offset
    if cursor.took("between"):
        return _between(cursor, start)
    if cursor.took("same"):
        cursor.expect("as", "write `same as side rail`")
        part = take_name(cursor, "the name of a part")
        return s.SameAs(start, cursor.length_from(start), part)
    return _from_size(cursor, expression(cursor), start)


def _from_size(cursor: Cursor, first: Expression, start: int) -> s.Span:
    """What may follow the first formula of a span."""
    if cursor.took("to"):
        high = expression(cursor)
        return s.FromTo(start, cursor.length_from(start), first, high)
    if cursor.sees("centred", "centered"):
        return _centred(cursor, first, start)
    if cursor.sees(*DIRECTIONS) and cursor.following.text == "from":
        direction = cursor.take().text
        cursor.take()
        place = expression(cursor)
        return s.Measured(start, cursor.length_from(start), first, direction, place)
    _refuse_half_spans(cursor)
    return s.SizeAlone(start, cursor.length_from(start), first)


def _refuse_half_spans(cursor: Cursor) -> None:
    """A span broken off, or with a habit of other tongues in it."""
    if cursor.sees("from"):
        raise cursor.error(
            "`from` wants a direction before it", "write `3 right from left`, `3 up from bottom`"
        )
    if cursor.sees(*DIRECTIONS):
        raise cursor.error(
            f"`{cursor.token.text}` wants `from` after it", f"write `3 {cursor.token.text} from A`"
        )
    if cursor.sees("within"):
        raise cursor.error(
            "a span cannot be `within` limits", "give the size a name under `sizes` and put `within` there"
        )


def _between(cursor: Cursor, start: int) -> s.Between:
    first = _between_part(cursor)
    cursor.expect("and", "write `between X and Y`")
    second = _between_part(cursor)
    return s.Between(start, cursor.length_from(start), first, second)


def _between_part(cursor: Cursor) -> Name:
    name = take_name(cursor, "the name of a part")
    if cursor.sees("of", "+", "-"):
        raise cursor.error(
            "`between` stands before two parts, with nothing added",
            "for places write `right of X to left of Y - 1/8`",
        )
    return name


def _centred(cursor: Cursor, size: Expression, start: int) -> s.Centred:
    if cursor.sees("centered"):
        raise cursor.error("`centered` is written `centred` here", "write `centred on`")
    cursor.take()
    if not cursor.took("on"):
        raise cursor.error(f"`on` is wanted {cursor.here}", "write `3 centred on middle`")
    middle = expression(cursor)
    return s.Centred(start, cursor.length_from(start), size, middle)


def size(cursor: Cursor) -> s.Size:
    """A formula, or one with `within B to C by D` after it."""
    start = cursor.token.offset
    wish = _wish(cursor)
    value = None if wish else expression(cursor)
    if not cursor.took("within"):
        if value is not None:
            cursor.expect_end("a size that may be moved is `38 within 34 to 42`")
            return value
        raise cursor.error(f"`{wish}` wants a range after it", f"write `{wish} within 1 to 3 by 1/8`")
    low = total(cursor)
    cursor.expect("to", "write `38 within 34 to 42`")
    high = total(cursor)
    step = total(cursor) if cursor.took("by") else None
    cursor.expect_end("steps are `by 1/8`")
    return s.Within(start, cursor.length_from(start), value, wish, low, high, step)


def _wish(cursor: Cursor) -> str | None:
    alone = cursor.following.text == "within" or cursor.following.kind is TokenKind.END
    return cursor.take().text if cursor.sees(*WISHES) and alone else None


def edge(cursor: Cursor) -> s.EdgeOf:
    """`bottom`, `top back`, `every edge`, `top back of lid board`."""
    start = cursor.token.offset
    if cursor.took("every"):
        if not cursor.took("edge", "edges"):
            raise cursor.error(f"`edge` is wanted {cursor.here}", "write `every edge`")
        faces: tuple[str, ...] = ("every",)
    else:
        faces = _faces(cursor)
    whose = take_name(cursor, "the name of a part") if cursor.took("of") else None
    return s.EdgeOf(start, cursor.length_from(start), faces, whose)


def _faces(cursor: Cursor) -> tuple[str, ...]:
    if not cursor.sees(*PLACE_WORDS):
        raise cursor.error(
            f"an edge is wanted {cursor.here}", "write `every edge`, `bottom`, `top back of board`"
        )
    faces = [face(cursor)]
    while cursor.sees(*PLACE_WORDS):
        if len(faces) == 2:
            raise cursor.error("an edge is named by two faces", "write `top back of lid board`")
        faces.append(face(cursor))
    return tuple(faces)


def face(cursor: Cursor) -> str:
    """One place word."""
    if not cursor.sees(*PLACE_WORDS):
        raise cursor.error(f"a face is wanted {cursor.here}", f"write {_FACE_LIST}")
    return cursor.take().text


def turn(cursor: Cursor) -> s.Turn:
    """`front toward top 100 deg`, `top toward back 15 deg about bottom back`."""
    start = cursor.token.offset
    form = "write `front toward top 100 deg`"
    if not cursor.sees(*PLACE_WORDS):
        raise cursor.error(f"a face is wanted {cursor.here}", form)
    moving = face(cursor)
    if not cursor.took("toward"):
        raise cursor.error(f"`toward` is wanted {cursor.here}", form)
    toward = face(cursor)
    if cursor.at_end or cursor.sees("about"):
        raise cursor.error("how far it turns is not said", form)
    angle = expression(cursor)
    about = edge(cursor) if cursor.took("about") else None
    return s.Turn(start, cursor.length_from(start), moving, toward, angle, about)


def move(cursor: Cursor) -> s.Move:
    """`12 forward`, `length of slide forward`: the last word is the direction."""
    start, last = cursor.token.offset, cursor.tokens[-2] if len(cursor.tokens) > 1 else cursor.token
    if last.text not in DIRECTIONS or last is cursor.token:
        remedy = (
            "`out` is `forward` here"
            if last.text == "out"
            else "`in` is `back` here"
            if last.text == "in"
            else ""
        )
        listed = f"write `12 forward`: {_DIRECTION_LIST}"
        raise PhraseError(
            "a move ends with its direction",
            last.offset,
            last.length,
            f"{remedy}; {listed}" if remedy else listed,
        )
    end = Token(TokenKind.END, "", last.offset, last.length)
    before = Cursor(cursor.text, (*cursor.tokens[:-2], end))
    how_far = expression(before)
    before.expect_end("write `12 forward`")
    cursor.index = len(cursor.tokens) - 1
    return s.Move(start, cursor.length_from(start), how_far, last.text)
