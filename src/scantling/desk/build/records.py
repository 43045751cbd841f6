"""Text edits of a build record: a measured size, a part lost, boards cut. No file is touched here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.editing.naming import put_words
from scantling.piece.language import Scalar, read_tree, replace_scalar
from scantling.quantity import LengthUnit, QuantityError, parse_length

BEGUN = "build: piece\n"


@dataclass(frozen=True, slots=True)
class Record:
    """A build record as it stands. `text` None: there is none yet; `piece`: what was built."""

    file: str
    text: str | None
    piece: str

    @property
    def begun(self) -> str:
        """Its text, or that of a new one."""
        if self.text is not None:
            return self.text
        named = read_tree(BEGUN, self.file).get("build")
        assert isinstance(named, Scalar)
        return replace_scalar(BEGUN, named.place, self.piece)

    def measured(self, part: str, axis: str, words: str, unit: LengthUnit, *, done: bool) -> str:
        """With a size of a part as measured, in `unit` where the words say none; `done`: it can't change.

        Raises ReadError, with what to write instead, for words that are no size.
        """
        text = put_words(self.begun, self.file, (part, axis), self._length(words, unit))
        return put_words(text, self.file, (part, "cut"), "done") if done else text

    def spoiled(self, part: str, times: int) -> str:
        """With a part that was lost for the `times`th time."""
        return put_words(self.begun, self.file, (part, "spoiled"), str(times))

    def boards_cut(self, entries: Iterable[tuple[str, str]]) -> str:
        """With boards that are cut up: each name with what it gave, as `cut_words` says it."""
        text = self.begun
        for board, gave in entries:
            text = put_words(text, self.file, ("boards", board), gave)
        return text

    def _length(self, words: str, unit: LengthUnit) -> str:
        said = " ".join(words.split())
        try:
            meant = parse_length(said, unit)
        except QuantityError as error:
            raise ReadError(error.message, remedy=error.remedy or "write a size, as in `29 1/8`") from None
        if meant <= 0:
            raise ReadError("a measured size is more than nothing")
        own = unit_of(self.text, self.file, unit)
        return said if parse_length(said, own) == meant else f"{said} {_UNIT_WORDS[unit]}"


_UNIT_WORDS = {LengthUnit.INCHES: "in", LengthUnit.MM: "mm"}


def unit_of(text: str | None, file: str, unit: LengthUnit) -> LengthUnit:
    """The unit of bare numbers in a record: the one it says, else `unit`, that of the piece."""
    if text is None:
        return unit
    named = read_tree(text, file, unit).get("build")
    return named.unit if isinstance(named, Scalar) else unit
