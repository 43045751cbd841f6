"""A maker's file as text: every character as it stands, troubles told in words."""

from __future__ import annotations

import codecs
from dataclasses import dataclass
from pathlib import Path

from scantling.errors import Place, ReadError
from scantling.ledger import digest_of

BIGGEST = 4_000_000  # bytes; the language reads a million characters


@dataclass(frozen=True, slots=True)
class FileText:
    """A file's characters, line ends as written. `digest` names the text; `newline`: its line ends."""

    file: str
    text: str
    digest: str
    newline: str

    def in_its_lines(self, typed: str) -> str:
        """Text from a page, whose lines may end in any way, with the line ends of this file."""
        return typed.replace("\r\n", "\n").replace("\r", "\n").replace("\n", self.newline)


def file_text(path: Path) -> FileText:
    """What stands in a file. Raises ReadError where that is no text, too much or not to be had."""
    text = _decoded(_bytes(path), path.name)
    newline = "\r\n" if "\r\n" in text else "\n"
    return FileText(path.name, text, digest_of(text), newline)


def encoded(text: str, path: Path) -> bytes:
    """The bytes to write for a text; a file that begins with a mark of its encoding keeps it."""
    return (codecs.BOM_UTF8 if _begins_with_mark(path) else b"") + text.encode("utf-8")


def check_text(file: str, text: str) -> None:
    """Raises ReadError for a text that would not be read again as it is written."""
    if text.startswith("\ufeff"):
        raise ReadError("a character that cannot be seen stands here", Place(file, 1, 1), "take it out")
    try:
        size = len(text.encode("utf-8"))
    except UnicodeEncodeError as error:
        before = text[: error.start]
        place = Place(file, before.count("\n") + 1, len(before) - before.rfind("\n"))
        raise ReadError("half a character stands here", place, "take it out") from None
    if size > BIGGEST:
        raise ReadError(f'the text for "{file}" is too long; at most {BIGGEST:,} bytes are read again')


def _bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            data = file.read(BIGGEST + 1)
    except FileNotFoundError:
        raise ReadError(f'there is no file "{path.name}" any more') from None
    except OSError as error:
        raise ReadError(f'the file "{path.name}" cannot be opened: {error.strerror or error}') from None
    if len(data) > BIGGEST:
        raise ReadError(f'"{path.name}" is too long to be read; at most {BIGGEST:,} bytes are')
    return data


def _decoded(data: bytes, file: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8", "ignore")
        place = Place(file, before.count("\n") + 1, len(before) - before.rfind("\n"))
        raise ReadError("the file is not plain text here", place, "save it as UTF-8 text") from None


def _begins_with_mark(path: Path) -> bool:
    try:
        with path.open("rb") as file:
            return file.read(len(codecs.BOM_UTF8)) == codecs.BOM_UTF8
    except OSError:
        return False
