"""Names: plain words with spaces, numbers after words, none of the language's own words."""

from __future__ import annotations

from scantling.piece.language.cursor import Cursor
from scantling.piece.language.expressions import DIRECTIONS, RESERVED, Name
from scantling.piece.language.tokens import TokenKind


def continues_name(cursor: Cursor) -> bool:
    """Whether the next token is a word that may stand in a name here.

    A direction before `from` (`3 up from`) belongs to the span, not to the name before it.
    """
    token = cursor.token
    if token.kind is not TokenKind.WORD or token.text in RESERVED:
        return False
    return not (token.text in DIRECTIONS and cursor.following.text == "from")


def take_name(cursor: Cursor, wanted: str) -> Name:
    """The words of a name; a whole number belongs to the word before it."""
    if not continues_name(cursor):
        reserved = cursor.token.text in RESERVED
        remedy = (
            f"`{cursor.token.text}` is a word of the language and may not stand in a name" if reserved else ""
        )
        raise cursor.error(f"{wanted} is wanted {cursor.here}", remedy)
    start = cursor.token.offset
    words = [cursor.take().text]
    while continues_name(cursor) or _is_row_number(cursor):
        words.append(str(int(cursor.take().text)) if _is_row_number(cursor) else cursor.take().text)
    if cursor.token.kind is TokenKind.NUMBER:
        raise cursor.error(
            f"{cursor.token.text} stands right after `{' '.join(words)}`", "put + or - between them"
        )
    return Name(start, cursor.length_from(start), tuple(words))


def _is_row_number(cursor: Cursor) -> bool:
    number = cursor.token.number
    return number is not None and number.whole and number.kind is None
