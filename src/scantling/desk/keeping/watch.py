"""Seeing what other programs did to the files: times and sizes first, texts only where those differ."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from scantling.desk.keeping.folder import Folder, Signature
from scantling.desk.keeping.names import scope_of
from scantling.desk.keeping.reading import FileText
from scantling.errors import ReadError
from scantling.ledger import Changes, Turn

# A file written twice within the clock of a disk keeps its time: one this young is read again.
YOUNG = 2_000_000_000  # ns


class _Look(NamedTuple):
    """`settled`: any later writing would show in the signature."""

    signature: Signature
    settled: bool


@dataclass
class Watch:
    """What each file of a folder looked like last; what changed outside goes into the journal."""

    folder: Folder
    changes: Changes
    _known: dict[str, str] = field(default_factory=dict)
    _looks: dict[str, _Look] = field(default_factory=dict)
    _missing: set[str] = field(default_factory=set)
    _news: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.renew()

    def renew(self) -> None:
        """Take what the journal knows as seen."""
        self._known = self.changes.known()

    def news(self) -> tuple[str, ...]:
        """Look at all files; those that changed outside since the last time, by name."""
        listing = self.folder.signatures()
        changed = [file for file, sign in listing.items() if self._looks.get(file) != (sign, True)]
        self._look_at(changed, listing)
        self._look_for(file for file in self._known if file not in listing)
        news, self._news = tuple(dict.fromkeys(self._news)), []
        return news

    def look_at(self, files: Iterable[str]) -> None:
        """Look at some files now, before the desk itself writes them."""
        listing = self.folder.signatures()
        self._look_at([file for file in files if file in listing], listing)
        for file in files:
            if file in self._known and file not in listing:
                self._gone(file)

    def _look_at(self, files: Iterable[str], listing: dict[str, Signature]) -> None:
        new: dict[str, str | None] = {}
        for file in files:
            text = self._read(file, listing[file])
            if text is not None and file not in self._known:
                new[file] = text
        if new:
            self.changes.know(new)
            self._news += new
            self.renew()

    def _read(self, file: str, sign: Signature) -> str | None:
        """A file's text, put down if it is another than was known; None if it cannot be read."""
        self._missing.discard(file)
        found = self._found(file, sign)
        if found and self._known.get(file, found.digest) != found.digest:
            self._put_down(file, found.text, "changed outside the desk")
        self._looks[file] = _look(sign)
        return found.text if found else None

    def _found(self, file: str, sign: Signature) -> FileText | None:
        """None for a file that cannot be read, which is told once."""
        try:
            return self.folder.text(file)
        except ReadError:
            seen = self._looks.get(file)
            self._news += [file] if seen is None or seen.signature != sign else []
            return None

    def _look_for(self, missing: Iterable[str]) -> None:
        """Editors take a file away for a moment as they save; gone is what is missing twice."""
        absent = set(missing)
        for file in absent & self._missing:
            self._gone(file)
        self._missing = absent - self._missing

    def _gone(self, file: str) -> None:
        self._looks.pop(file, None)
        self._put_down(file, None, "taken out of the folder outside the desk")

    def _put_down(self, file: str, text: str | None, words: str) -> None:
        turn = Turn(self.changes.known_text(file), text)
        self.changes.noted(scope_of(file), f"{file} {words}", {file: turn})
        self._news.append(file)
        self.renew()


def _look(sign: Signature) -> _Look:
    return _Look(sign, abs(time.time_ns() - sign.modified) > YOUNG)
