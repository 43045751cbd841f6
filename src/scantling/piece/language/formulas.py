"""From tokens to formulas and conditions: names, places, sizes, arithmetic, limits, `when`.

Loosest to tightest: `when … otherwise`, `thick of … otherwise`; `at least`, `at most`, `rounded to`;
+ -; * /; minus sign; a name, a number, a place, `( )`, with `at` bound to its place.
"""

from __future__ import annotations

from scantling.piece.language import expressions as e
from scantling.piece.language.cursor import Cursor
from scantling.piece.language.names import continues_name, take_name
from scantling.piece.language.tokens import PhraseError, TokenKind

FUNCTIONS = ("tan", "sqrt")
OTHER_HABITS = {
    "min": "write `A at most B`",
    "max": "write `A at least B`",
    "round": "write `A rounded to B`",
    "floor": "write `A rounded down to B`",
    "ceil": "write `A rounded up to B`",
    "if": "write `A when C otherwise B`",
    "abs": "low side first makes every span positive",
}
COMPARISONS = (">", "<", ">=", "<=")


def expression(cursor: Cursor) -> e.Expression:
    """`A when C otherwise B`, or a formula without a condition."""
    start = cursor.token.offset
    with cursor.deeper():
        value = limited(cursor)
        if cursor.sees("otherwise") and isinstance(value, e.OwnSize):
            cursor.take()
            other = expression(cursor)
            return e.Otherwise(start, cursor.length_from(start), value, other)
        if not cursor.took("when"):
            return value
        condition = conditions(cursor)
        cursor.expect("otherwise", "write `A when C otherwise B`")
        other = expression(cursor)
    return e.When(start, cursor.length_from(start), value, condition, other)


def limited(cursor: Cursor) -> e.Expression:
    """A sum, then any `at least`, `at most`, `rounded to` after it."""
    start = cursor.token.offset
    value = total(cursor)
    while True:
        if cursor.sees_run("at", "least") or cursor.sees_run("at", "most"):
            cursor.take()
            kind = e.AtLeast if cursor.take().text == "least" else e.AtMost
            limit = total(cursor)
            value = kind(start, cursor.length_from(start), value, limit)
        elif cursor.took("rounded"):
            value = _rounded(cursor, value, start)
        else:
            return value


def _rounded(cursor: Cursor, value: e.Expression, start: int) -> e.Rounded:
    way = cursor.take().text if cursor.sees("up", "down") else "near"
    cursor.expect("to", "write `rounded to 1/8`, `rounded up to 2`, `rounded down to 2`")
    step = total(cursor)
    return e.Rounded(start, cursor.length_from(start), value, way, step)


def total(cursor: Cursor) -> e.Expression:
    """Terms joined by + and -."""
    start = cursor.token.offset
    value = product(cursor)
    while cursor.sees("+", "-"):
        sign = cursor.take().text
        right = product(cursor)
        value = e.Arithmetic(start, cursor.length_from(start), sign, value, right)
    return value


def product(cursor: Cursor) -> e.Expression:
    """Factors joined by * and /."""
    start = cursor.token.offset
    value = signed(cursor)
    while cursor.sees("*", "/"):
        sign = cursor.take().text
        right = signed(cursor)
        value = e.Arithmetic(start, cursor.length_from(start), sign, value, right)
    return value


def signed(cursor: Cursor) -> e.Expression:
    """A factor with any minus signs before it."""
    start = cursor.token.offset
    if not cursor.took("-"):
        return primary(cursor)
    with cursor.deeper():
        value = signed(cursor)
    return e.Negative(start, cursor.length_from(start), value)


def primary(cursor: Cursor) -> e.Expression:
    """A number, a bracket, a function, or words."""
    start = cursor.token.offset
    if cursor.token.kind is TokenKind.NUMBER:
        return _number(cursor)
    if cursor.took("("):
        value = expression(cursor)
        cursor.expect(")", "close the bracket")
        return value
    if cursor.following.text == "(" and cursor.token.kind is TokenKind.WORD:
        return _function(cursor, start)
    if continues_name(cursor):
        return _words(cursor, start)
    raise cursor.error(f"a size or a place is wanted {cursor.here}", _remedy_for(cursor))


def _remedy_for(cursor: Cursor) -> str:
    if cursor.token.text in e.RESERVED:
        return f"`{cursor.token.text}` is a word of the language and cannot begin a name"
    return ""


def _number(cursor: Cursor) -> e.Number:
    token = cursor.take()
    number = token.number
    assert number is not None
    if cursor.token.kind is TokenKind.NUMBER:
        raise cursor.error(
            f"two numbers stand side by side: {token.text} and {cursor.token.text}", "put + or - between them"
        )
    return e.Number(token.offset, token.length, number.plain, number.value, number.kind)


def _function(cursor: Cursor, start: int) -> e.FunctionOf:
    name = cursor.token.text
    if name not in FUNCTIONS:
        raise cursor.error(
            f"`{name}(` is not known", OTHER_HABITS.get(name, "only `tan( )` and `sqrt( )` are")
        )
    cursor.take()
    cursor.take()
    value = expression(cursor)
    cursor.expect(")", "close the bracket")
    return e.FunctionOf(start, cursor.length_from(start), name, value)


def _words(cursor: Cursor, start: int) -> e.Expression:
    """A name, `top of leg`, `width of leg`, or one of those words alone."""
    name = take_name(cursor, "a size or a place")
    if cursor.took("of"):
        return _of_material(cursor, name, start) if name.text in e.OWN_WORDS else _of(cursor, name, start)
    if name.text in e.PLACE_WORDS:
        return e.FaceOf(name.offset, name.length, name.text)
    if name.text in e.SIZE_WORDS:
        return e.SizeOf(name.offset, name.length, name.text)
    if name.text in e.OWN_WORDS:
        return e.OwnSize(name.offset, name.length, name.text)
    return name


def _of(cursor: Cursor, word: e.Name, start: int) -> e.Expression:
    whose = take_name(cursor, "the name of a part, group or space")
    if cursor.sees("of"):
        raise cursor.error(
            "one `of` is enough",
            f"write the inner part after its owner: `{word.text} of drawer {whose.text}`",
        )
    if len(word.words) > 1 and all(w in e.PLACE_WORDS for w in word.words):
        raise PhraseError(
            f"`{word.text}` is an edge, not a place",
            word.offset,
            word.length,
            f"name one face: `{word.words[0]} of {whose.text}`",
        )
    at = _read_at(cursor)
    length = cursor.length_from(start)
    if word.text in e.PLACE_WORDS:
        return e.FaceOf(start, length, word.text, whose, at)
    return e.SizeOf(start, length, word.text, whose, at)


def _of_material(cursor: Cursor, word: e.Name, start: int) -> e.OwnSize:
    material = take_name(cursor, "the name of a material")
    return e.OwnSize(start, cursor.length_from(start), word.text, material)


def _read_at(cursor: Cursor) -> e.Expression | None:
    """`at 7`: where a leaning face is read; `at least` and `at most` are limits instead."""
    if not cursor.sees("at") or cursor.following.text in ("least", "most"):
        return None
    cursor.take()
    with cursor.deeper():
        return primary(cursor)


def conditions(cursor: Cursor) -> e.Condition:
    """Conditions joined by `or`, then `and`, then `not`."""
    start = cursor.token.offset
    with cursor.deeper():
        left = _all_of(cursor)
        while cursor.took("or"):
            right = _all_of(cursor)
            left = e.Either(start, cursor.length_from(start), left, right)
    return left


def _all_of(cursor: Cursor) -> e.Condition:
    start = cursor.token.offset
    left = _negated(cursor)
    while cursor.took("and"):
        right = _negated(cursor)
        left = e.Both(start, cursor.length_from(start), left, right)
    return left


def _negated(cursor: Cursor) -> e.Condition:
    start = cursor.token.offset
    if cursor.took("not"):
        with cursor.deeper():
            condition = _negated(cursor)
        return e.Not(start, cursor.length_from(start), condition)
    if cursor.sees("(") and _bracket_is_condition(cursor):
        cursor.take()
        condition = conditions(cursor)
        cursor.expect(")", "close the bracket")
        return condition
    return _comparison(cursor)


def _bracket_is_condition(cursor: Cursor) -> bool:
    """Whether the bracket that opens here holds a condition rather than a formula."""
    depth = 0
    for token in cursor.tokens[cursor.index :]:
        depth += (token.text == "(") - (token.text == ")")
        if depth == 0:
            return False
        if token.text in (*COMPARISONS, "is", "not", "and", "or"):
            return True
    return False


def _comparison(cursor: Cursor) -> e.Condition:
    start = cursor.token.offset
    left = limited(cursor)
    if cursor.sees(*COMPARISONS):
        sign = cursor.take().text
        right = limited(cursor)
        return e.Compare(start, cursor.length_from(start), sign, left, right)
    if not cursor.took("is"):
        raise cursor.error(
            f"a comparison is wanted {cursor.here}",
            "write `width > 36`, `panels is solid`, `hung on is not left`",
        )
    name = _choice_name(left)
    if name is None:
        raise PhraseError(
            "only a choice or a material stands before `is`",
            left.offset,
            left.length,
            "compare sizes with > or <",
        )
    negated = cursor.took("not")
    option = take_name(cursor, "a choice, or `solid`, `sheet`")
    return e.Is(start, cursor.length_from(start), name, option, negated)


def _choice_name(left: e.Expression) -> e.Name | None:
    """The name before `is`; a choice may be called `back`, as what is asked about is never a place."""
    if isinstance(left, e.FaceOf | e.SizeOf) and left.of is None:
        return e.Name(left.offset, left.length, (left.word,))
    return left if isinstance(left, e.Name) else None
