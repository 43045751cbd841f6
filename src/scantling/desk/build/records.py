"""Text edits of a build record: a measured size, a part lost, boards cut. No file is touched here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.editing.recording import set_record_words
from scantling.piece.editing.writes import Steps
from scantling.piece.language import Scalar, read_tree
from scantling.quantity import LengthUnit, QuantityError, parse_length


@dataclass(frozen=True, slots=True)
class Record:
    """A build record as it stands. `text` None: there is none yet; `piece`: what is built."""

    file: str
    text: str | None
    piece: str

    def measured(self, part: str, axis: str, words: str, unit: LengthUnit, *, done: bool) -> str:
        """With a size of a part as measured, in `unit` where the words say none; `done`: it can't change.

        Raises ReadError, with what to write instead, for words that are no size.
        """
        wanted = {axis: self._length(words, unit), **({"cut": "done"} if done else {})}
        return self._written({(part, key): said for key, said in wanted.items()})

    def spoiled(self, part: str, times: int) -> str:
        """With a part that was lost for the `times`th time."""
        return self._written({(part, "spoiled"): str(times)})

    def boards_cut(self, entries: Iterable[tuple[str, str]]) -> str:
        """With boards that are cut up: each name with what it gave, as `cut_words` says it."""
        return self._written({("boards", board): gave for board, gave in entries})

    def _written(self, entries: Mapping[Steps, str]) -> str:
        text = self.text or ""
        for path, words in entries.items():
            ((_, text),) = set_record_words(text, self.piece, path, words, self.file).files
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
