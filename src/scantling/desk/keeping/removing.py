"""Taking a piece out of the folder, and putting it back: nothing is ever thrown away."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from scantling.desk.keeping.folder import Folder, PieceFile
from scantling.desk.keeping.keeper import Keeper
from scantling.desk.keeping.names import scope_of, slug_of, trouble_with
from scantling.desk.keeping.reading import file_text
from scantling.errors import ReadError, ScantlingError
from scantling.files import write_whole

REMOVED = Path(".scantling", "removed")
_TIME = "%Y%m%d-%H%M%S-%f"
_NAMED = re.compile(r"(\d{8}-\d{6}-\d{6}) (.+)")


@dataclass(frozen=True, slots=True)
class Removed:
    """One file that was taken out: `name` to put it back by, `file` as it was called, when (local time)."""

    name: str
    file: str
    when: datetime


def remove(keeper: Keeper, slug: str) -> tuple[Removed, ...]:
    """Take a piece and its build record out of the folder; they are kept in `.scantling/removed`.

    Can be undone as any change, too. Raises ScantlingError where there is no such piece.
    """
    folder = keeper.folder
    piece = folder.piece(slug)
    if piece is None:
        raise ScantlingError("there is no piece of that name in this folder any more")
    files = [file for file in (piece.file, folder.record_file(slug)) if folder.has(file)]
    out = tuple(_set_by(folder, file) for file in files)
    keeper.take_out(slug, f"{piece.title} removed", files)
    return out


def removed(folder: Folder) -> tuple[Removed, ...]:
    """What was taken out, newest first."""
    kept = folder.path / REMOVED
    names = (
        sorted((p.name for p in kept.iterdir() if p.is_file() and not p.is_symlink()), reverse=True)
        if kept.is_dir()
        else []
    )
    return tuple(found for name in names if (found := _told(name)))


def restore(keeper: Keeper, name: str) -> PieceFile | None:
    """Put a file back that was taken out; None where it is no piece.

    Raises ScantlingError where it is not kept any more, or another file has its name by now.
    """
    found = next((one for one in removed(keeper.folder) if one.name == name), None)
    if found is None:
        raise ScantlingError("this file is not kept any more")
    if keeper.folder.has(found.file):
        raise ScantlingError(f'there is a file "{found.file}" already; rename that one first')
    _put_back(keeper, keeper.folder.path / REMOVED / name, found.file)
    return keeper.folder.piece(slug_of(found.file))


def _put_back(keeper: Keeper, kept: Path, file: str) -> None:
    """What is no text cannot go through the journal; it goes back as it is."""
    try:
        text = file_text(kept).text
    except ReadError:
        os.replace(kept, keeper.folder.path / file)
        return
    keeper.write(scope_of(file), f"{file} put back", {file: (None, text)})
    kept.unlink()


def _set_by(folder: Folder, file: str) -> Removed:
    now = datetime.now()
    name = f"{now.strftime(_TIME)} {file}"
    try:
        write_whole(folder.path / REMOVED / name, (folder.path / file).read_bytes())
    except OSError as error:
        raise ScantlingError(f'"{file}" cannot be set by: {error.strerror or error}') from error
    return Removed(name, file, now)


def _told(name: str) -> Removed | None:
    """None for a file that was not set by here."""
    said = _NAMED.fullmatch(name)
    if said is None or trouble_with(said[2]):
        return None
    try:
        return Removed(name, said[2], datetime.strptime(said[1], _TIME))
    except ValueError:
        return None
