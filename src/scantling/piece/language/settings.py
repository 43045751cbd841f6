"""From tokens to the short settings: `3/8 x 2`, `3 to 6`, `front 3`, materials, options, fittings."""

from __future__ import annotations

import re

from scantling.piece.language import spans as s
from scantling.piece.language.cursor import Cursor
from scantling.piece.language.expressions import PLACE_WORDS, Expression, Name, Number
from scantling.piece.language.formulas import expression, total
from scantling.piece.language.names import take_name
from scantling.piece.language.tokens import PhraseError, Token, TokenKind
from scantling.quantity import Kind

MOST_PIECES = 200  # glued into one part
_NOMINAL = re.compile(r"\d+(?:/4)?x\d+")


def by(cursor: Cursor) -> s.By:
    """`3/8 x 2`: one to three sizes."""
    start = cursor.token.offset
    sizes = [total(cursor)]
    while cursor.took("x"):
        sizes.append(total(cursor))
    if len(sizes) > 3:
        raise PhraseError("more than three sizes", start, cursor.length_from(start), "write `29 x 78`")
    return s.By(start, cursor.length_from(start), tuple(sizes))


def counts(cursor: Cursor) -> s.Counts:
    """`4` or `3 to 6`."""
    start = cursor.token.offset
    least = _whole(cursor)
    most = _whole(cursor) if cursor.took("to") else least
    if not 1 <= least <= MOST_PIECES or most > MOST_PIECES:
        told = f"a part is built of 1 to {MOST_PIECES} pieces"
        raise PhraseError(told, start, cursor.length_from(start), "write `4` or `3 to 6`")
    if most < least:
        raise PhraseError(
            f"{least} to {most} runs backward", start, cursor.length_from(start), f"write `{most} to {least}`"
        )
    return s.Counts(start, cursor.length_from(start), least, most)


def _whole(cursor: Cursor) -> int:
    number = cursor.token.number
    fits = number is not None and number.kind in (None, Kind.COUNT) and number.plain == int(number.plain)
    if number is None or not fits:
        raise cursor.error(f"a whole number is wanted {cursor.here}", "write `4`, `3 to 6`")
    cursor.take()
    return int(number.plain)


def limit(cursor: Cursor) -> s.Limit:
    """`at most 2 1/2`, `at least 1`, or an exact size."""
    start = cursor.token.offset
    bound = "exact"
    if cursor.took("at"):
        if not cursor.sees("most", "least"):
            raise cursor.error(f"`most` or `least` is wanted {cursor.here}", "write `at most 2 1/2`")
        bound = cursor.take().text
    size = expression(cursor)
    return s.Limit(start, cursor.length_from(start), bound, size)


def glue(cursor: Cursor) -> s.GlueOn:
    """`none`, `all`, `front 3`."""
    start = cursor.token.offset
    if cursor.sees("none", "all", *PLACE_WORDS):
        where = cursor.take().text
        stretch = None if cursor.at_end or where in ("none", "all") else expression(cursor)
        return s.GlueOn(start, cursor.length_from(start), where, stretch)
    raise cursor.error(f"where the glue goes is wanted {cursor.here}", "write `none`, `all`, `front 3`")


def target(cursor: Cursor) -> s.Target:
    """`lid board`, `top of head post`, `edge of top`."""
    start = cursor.token.offset
    name = take_name(cursor, "the name of a part, group or space")
    if not cursor.took("of"):
        return s.Target(start, cursor.length_from(start), name)
    if name.text != "edge" and name.text not in PLACE_WORDS:
        raise PhraseError(
            f"`{name.text}` is no face", name.offset, name.length, "write `edge of top`, `top of head post`"
        )
    whose = take_name(cursor, "the name of a part, group or space")
    return s.Target(start, cursor.length_from(start), whose, name.text)


def options(cursor: Cursor) -> s.Options:
    """`rabbet or dowels`, `any of rabbet or dowels`."""
    start = cursor.token.offset
    any_of = _any_of(cursor)
    names = [_option(cursor)]
    while cursor.took("or"):
        names.append(_option(cursor))
    seen: set[str] = set()
    for name in names:
        if name.text in seen:
            raise PhraseError(f"`{name.text}` is offered twice", name.offset, name.length)
        seen.add(name.text)
    return s.Options(start, cursor.length_from(start), tuple(names), any_of)


def _option(cursor: Cursor) -> Name:
    return take_name(cursor, "one of the choices")


def _any_of(cursor: Cursor) -> bool:
    if not cursor.sees_run("any", "of"):
        return False
    cursor.take()
    cursor.take()
    return True


def material(cursor: Cursor) -> s.MaterialWords:
    """`walnut plywood 3/4 or walnut 3/4`, `pine 2x4`, `cherry`, `given`."""
    start = cursor.token.offset
    any_of = _any_of(cursor)
    found = [_material_option(cursor)]
    while cursor.took("or"):
        found.append(_material_option(cursor))
    return s.MaterialWords(start, cursor.length_from(start), tuple(found), any_of)


def _material_option(cursor: Cursor) -> s.MaterialOption:
    words, start = _plain_words(cursor, "a timber or a sheet, such as `cherry 3/4`"), cursor.token.offset
    first = cursor.token
    if first.kind is not TokenKind.NUMBER:
        return s.MaterialOption(words.offset, words.length, words.words)
    thick = _size_after(cursor)
    nominal: str | None = None
    if cursor.took("x"):
        _whole(cursor)
        written = "".join(
            cursor.text[start : start + cursor.length_from(start)].lower().replace("×", "x").split()
        )
        if not _NOMINAL.fullmatch(written):
            raise PhraseError(
                f"`{written}` is no lumber size", start, cursor.length_from(start), "write `pine 2x4`"
            )
        nominal = written
    length = cursor.length_from(words.offset)
    return s.MaterialOption(words.offset, length, words.words, None if nominal else thick, nominal)


def _size_after(cursor: Cursor) -> Expression:
    """The number a material or a fitting is sold by."""
    token = cursor.take()
    number = token.number
    if number is None or number.kind not in (None, Kind.LENGTH):
        raise PhraseError(f"{token.text} is no size", token.offset, token.length, "write `cherry 3/4`")
    return Number(token.offset, token.length, number.plain, number.value, number.kind)


def fitting(cursor: Cursor) -> s.Fitting:
    """`butt hinge 2 1/2`, `side slide`."""
    words = _plain_words(cursor, "a kind of hardware, such as `butt hinge 2`")
    size = None if cursor.at_end else _size_after(cursor)
    return s.Fitting(words.offset, cursor.length_from(words.offset), words.words, size)


def _plain_words(cursor: Cursor, wanted: str) -> Name:
    """Words up to a number or a word of the language; numbers do not join."""
    first: Token = cursor.token
    words: list[str] = []
    while cursor.token.kind is TokenKind.WORD and cursor.token.text not in ("or", "x"):
        words.append(cursor.take().text)
    if not words:
        raise cursor.error(f"{wanted} is wanted {cursor.here}")
    return Name(first.offset, cursor.length_from(first.offset), tuple(words))


def coats(cursor: Cursor) -> int:
    """`3 coats`, `3`."""
    if cursor.token.number is None:
        raise cursor.error(f"a whole number of coats is wanted {cursor.here}", "write `3 coats`")
    number = _whole(cursor)
    cursor.took("coats", "coat")
    return number
