"""A phrase cut into numbers, words and signs, each with its place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from scantling.quantity import LengthUnit, QuantityError
from scantling.quantity.scanning import Scanned, plain_spaces, scan_number, starts_number

MOST_CHARACTERS = 1000
MOST_TOKENS = 200


@dataclass(eq=False)
class PhraseError(Exception):
    """A phrase cannot be understood; `offset` and `length` say which characters of it."""

    message: str
    offset: int
    length: int = 1
    remedy: str = ""


class TokenKind(Enum):
    NUMBER = "number"
    WORD = "word"
    SIGN = "sign"
    END = "end"


@dataclass(frozen=True, slots=True)
class Token:
    """`text` is lower case for words; `number` is set for numbers."""

    kind: TokenKind
    text: str
    offset: int
    length: int
    number: Scanned | None = None

    @property
    def end(self) -> int:
        return self.offset + self.length


_SIGNS = re.compile(r">=|<=|[-+*/()<>]")
_SAME_SIGN = {"−": "-", "–": "-", "×": "x", "≥": ">=", "≤": "<=", "·": "*"}
_WORD = re.compile(r"[^\W\d_](?:[^\W_]|['’](?=[^\W\d_])|-(?=[^\W\d_]))*")
_BY_TIGHT = re.compile(r"[xX](?=[\d.])")

_HINTS = {
    ",": (
        "a comma has no meaning in a phrase",
        "a decimal comma? write 3.5; for limits write `A at most B`, `A at least B`",
    ),
    "=": ("`=` has no meaning in a phrase", "compare with `>`, `<`, or `is` for choices and materials"),
    "_": ("an underscore has no meaning in a phrase", "names are plain words with spaces"),
    ".": ("a dot has no meaning between words", "write `width of leg`, `left of leg`"),
    "^": ("`^` has no meaning in a phrase", "multiply: `width * width`"),
    '"': (
        "a quote stands here without a number before it",
        'inches are `1 1/2` or `1 1/2"`; names need no quotes',
    ),
    "'": ("a quote stands here without a number before it", "feet are `3' 2`; names need no quotes"),
    "#": ("`#` has no meaning in a phrase", "a screw is written `8 x 1 1/4`"),
    "[": ("a bracket has no meaning in a phrase", "group with ( )"),
    "{": ("a brace has no meaning in a phrase", "group with ( )"),
    "&": ("`&` has no meaning in a phrase", "write `and`"),
    "|": ("`|` has no meaning in a phrase", "write `or`"),
    "!": ("`!` has no meaning in a phrase", "write `not`"),
    ";": ("a semicolon has no meaning in a phrase", "each phrase says one thing"),
    ":": ("a colon has no meaning in a phrase", "a share is `60 %`; a part is written `key: phrase`"),
}


def tokenize(text: str, unit: LengthUnit) -> tuple[Token, ...]:
    """All tokens of a phrase, the END token last. Raises PhraseError."""
    if len(text) > MOST_CHARACTERS:
        raise PhraseError(
            f"a phrase of {len(text)} characters is too long",
            0,
            1,
            f"at most {MOST_CHARACTERS}; name its parts",
        )
    text = plain_spaces(text)
    tokens: list[Token] = []
    at = 0
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        token = _token(text, at, unit, tokens)
        tokens.append(token)
        at = token.end
        if len(tokens) > MOST_TOKENS:
            raise PhraseError(
                "a phrase has too many words", token.offset, token.length, f"at most {MOST_TOKENS}"
            )
    return (*tokens, Token(TokenKind.END, "", len(text.rstrip()), 1))


def _token(text: str, at: int, unit: LengthUnit, before: list[Token]) -> Token:
    if starts_number(text, at):
        return _number(text, at, unit, before)
    if (found := _BY_TIGHT.match(text, at)) and before and before[-1].kind is TokenKind.NUMBER:
        return Token(TokenKind.WORD, "x", at, 1)
    if found := _WORD.match(text, at):
        return Token(TokenKind.WORD, found[0].lower(), at, len(found[0]))
    if found := _SIGNS.match(text, at):
        return Token(TokenKind.SIGN, found[0], at, len(found[0]))
    if same := _SAME_SIGN.get(text[at]):
        return Token(TokenKind.WORD if same == "x" else TokenKind.SIGN, same, at, 1)
    message, remedy = _HINTS.get(text[at], (f'"{text[at]}" has no meaning in a phrase', ""))
    raise PhraseError(message, at, 1, remedy)


def _number(text: str, at: int, unit: LengthUnit, before: list[Token]) -> Token:
    try:
        number = scan_number(text, at, unit)
    except QuantityError as error:
        raise PhraseError(error.message, error.at, 1, error.remedy) from None
    token = Token(TokenKind.NUMBER, text[at : number.end], at, number.end - at, number)
    _refuse_runs(text, token)
    if number.fraction and before and before[-1].text == "/":
        raise PhraseError(
            f"divided by {token.text}, or by one number and then the other?",
            at,
            token.length,
            f"write `/ ({token.text})`, or the two divisions with spaces",
        )
    return token


def _refuse_runs(text: str, token: Token) -> None:
    """A comma or a second point right after a number, as in 3,5 or 1.2.3."""
    after = text[token.end : token.end + 2]
    if after[:1] == "," and after[1:].isdigit():
        raise PhraseError("a decimal comma?", token.end, 1, "write a point, as in 3.5")
    if after[:1] == ".":
        raise PhraseError("a point too many in a number", token.end, 1, "write 3.5, or 3 1/2")
