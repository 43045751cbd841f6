"""A walk along the tokens of one phrase, with the errors every phrase shares."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from scantling.piece.language.expressions import DIRECTIONS, RESERVED
from scantling.piece.language.habits import phrase_meant
from scantling.piece.language.tokens import PhraseError, Token, TokenKind, tokenize
from scantling.quantity import LengthUnit, unit_meant

DEEPEST = 40


@dataclass
class Cursor:
    """Where reading stands in `tokens`. Words are compared in lower case."""

    text: str
    tokens: tuple[Token, ...]
    index: int = 0
    depth: int = 0

    @staticmethod
    def of(text: str, unit: LengthUnit) -> Cursor:
        return Cursor(text, tokenize(text, unit))

    @property
    def token(self) -> Token:
        return self.tokens[self.index]

    @property
    def following(self) -> Token:
        return self.tokens[min(self.index + 1, len(self.tokens) - 1)]

    @property
    def at_end(self) -> bool:
        return self.token.kind is TokenKind.END

    def sees(self, *words: str) -> bool:
        """Whether the next token is one of those words or signs."""
        return self.token.kind in (TokenKind.WORD, TokenKind.SIGN) and self.token.text in words

    def sees_run(self, *words: str) -> bool:
        """Whether exactly those words come next, one after the other."""
        coming = self.tokens[self.index : self.index + len(words)]
        return tuple(t.text for t in coming if t.kind is TokenKind.WORD) == words

    def take(self) -> Token:
        taken = self.token
        self.index += not self.at_end
        return taken

    def took(self, *words: str) -> bool:
        """Take the next token if it is one of those words or signs."""
        found = self.sees(*words)
        self.index += found
        return found

    def expect(self, word: str, remedy: str) -> Token:
        """Take that word, or say what to write instead."""
        if not self.sees(word):
            raise self.error(f"`{word}` is wanted {self.here}", remedy)
        return self.take()

    def expect_end(self, remedy: str = "") -> None:
        if not self.at_end:
            remedies = (self._unit_meant(), remedy)
            raise self.error(f"{self.seen} was not expected here", "; ".join(r for r in remedies if r))

    def _unit_meant(self) -> str:
        """What a word right after a bare number may have been meant for: a unit, or another habit's word."""
        before = self.tokens[self.index - 1].number if self.index else None
        word = self.token.kind is TokenKind.WORD and self.token.text not in RESERVED | DIRECTIONS
        if not word or before is None or before.kind is not None:
            return ""
        return phrase_meant((self.token.text,)) or unit_meant(self.token.text)

    @property
    def seen(self) -> str:
        return "the end" if self.at_end else f'"{self.token.text}"'

    @property
    def here(self) -> str:
        return "at the end" if self.at_end else f"before {self.seen}"

    def error(self, message: str, remedy: str = "") -> PhraseError:
        """An error at the next token."""
        return PhraseError(message, self.token.offset, self.token.length, remedy)

    def length_from(self, offset: int) -> int:
        """Characters from `offset` to the end of the token taken last."""
        return self.tokens[self.index - 1].end - offset if self.index else 0

    @contextmanager
    def deeper(self) -> Iterator[None]:
        """Bound the nesting of brackets and conditions."""
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.error("a phrase is nested too deeply", "name its parts under `sizes`")
        yield
        self.depth -= 1
