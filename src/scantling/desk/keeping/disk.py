"""Texts to files and back, for the keeper alone: what stands there, and putting another text in its place."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from scantling.desk.keeping.conflicts import FileConflict
from scantling.desk.keeping.folder import Folder
from scantling.desk.keeping.names import trouble_with
from scantling.desk.keeping.reading import check_text, encoded
from scantling.errors import ReadError, ScantlingError
from scantling.files import HALF_WRITTEN, write_whole
from scantling.ledger import Turn


def standing(folder: Folder, file: str) -> str | None:
    """A file's text; None where there is no such file. Raises ReadError for one that is no text."""
    if folder.has(file):
        return folder.text(file).text
    path = _place(folder, file)
    if path.is_symlink() or path.exists():
        raise ReadError(f'"{file}" lies in the folder, but is no file the desk may write')
    return None


def to_do(folder: Folder, turns: Mapping[str, Turn]) -> dict[str, Turn]:
    """The turns that still have to be made.

    Raises FileConflict for the first file that holds neither the text before nor the one after, ReadError
    for one that cannot be read.
    """
    now = {file: standing(folder, file) for file in turns}
    for file, turn in turns.items():
        if now[file] not in turn:
            raise FileConflict(file, now[file], turn.before, turn.after)
    return {file: turn for file, turn in turns.items() if now[file] != turn.after}


def put(folder: Folder, file: str, text: str | None) -> None:
    """Make a file hold `text`, whole; None takes the file out. Raises ScantlingError where it cannot be."""
    path = _place(folder, file).resolve()
    try:
        if text is not None:
            write_whole(path, encoded(text, path))
        else:
            path.unlink(missing_ok=True)
    except OSError as error:
        raise ScantlingError(f'"{file}" could not be written: {error.strerror or error}') from error


def clear_half_written(folder: Path) -> None:
    """Take out what a killed process left of a file it had not written whole."""
    start, end = HALF_WRITTEN
    for path in folder.iterdir():
        if path.name.startswith(start) and path.name.endswith(end) and path.is_file():
            path.unlink(missing_ok=True)


def check_wanted(turns: Mapping[str, Turn]) -> None:
    """Raises ReadError for a name that no file of the folder may have, and a text that none can hold."""
    for file, turn in turns.items():
        _check_name(file)
        if turn.after is not None:
            check_text(file, turn.after)


def _check_name(file: str) -> None:
    if trouble := trouble_with(file):
        raise ReadError(f"a file cannot be called {ascii(file)[:90]}: {trouble}")


def _place(folder: Folder, file: str) -> Path:
    _check_name(file)
    return folder.path / file
