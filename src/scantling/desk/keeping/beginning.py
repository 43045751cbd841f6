"""A new piece: from an example, or as a copy that follows another."""

from __future__ import annotations

import json

from scantling.desk.keeping.folder import Folder, PieceFile
from scantling.desk.keeping.keeper import Keeper
from scantling.desk.keeping.names import ENDING, slug_of, trouble_with
from scantling.errors import ScantlingError
from scantling.starting import example_texts, file_name, first_line

LONGEST_TITLE = 100


def begin_like(keeper: Keeper, name: str, like: str) -> PieceFile:
    """A new piece as the example `like`; a shop and styles that lie in the folder stay as they are.

    Raises ScantlingError for a name without letters, or an example that is not there.
    """
    title = _title(name)
    file = _free_file(keeper.folder, title)
    texts = example_texts(title, like, file)
    wanted = {f: (None, text) for f, text in texts.items() if not keeper.folder.has(f)}
    keeper.write(slug_of(file), f"new piece {title}", wanted)
    return _begun(keeper.folder, file)


def begin_following(keeper: Keeper, name: str, slug: str) -> PieceFile:
    """A new piece that is as the piece `slug` until something is said otherwise in it.

    Raises ScantlingError for a name without letters, a piece that is not there or cannot be followed.
    """
    title = _title(name)
    followed = keeper.folder.piece(slug)
    if followed is None:
        raise ScantlingError("there is no piece of that name in this folder any more")
    if ":" in followed.file:
        raise ScantlingError(f'a file with a colon in its name, as "{followed.file}", cannot be followed')
    file = _free_file(keeper.folder, title)
    follows = json.dumps(followed.file, ensure_ascii=False)
    text = f"{first_line(title)}\nfollows: {follows}\n"
    keeper.write(slug_of(file), f"new piece {title}, as {followed.title}", {file: (None, text)})
    return _begun(keeper.folder, file)


def _title(name: str) -> str:
    title = " ".join(name.split())
    if len(title) > LONGEST_TITLE:
        raise ScantlingError(f"a name has at most {LONGEST_TITLE} characters")
    return title


def _free_file(folder: Folder, title: str) -> str:
    """A file name for the title that no file has, in whatever letters, and every system takes."""
    taken = {name.lower() for name in folder.signatures()}
    stem = file_name(title)
    if stem == "shop" or trouble_with(stem + ENDING):
        stem = f"{stem}-piece"
    tries = (f"{stem}{ENDING}", *(f"{stem}-{number}{ENDING}" for number in range(2, len(taken) + 3)))
    return next(file for file in tries if file.lower() not in taken)


def _begun(folder: Folder, file: str) -> PieceFile:
    piece = folder.piece(slug_of(file))
    assert piece is not None
    return piece
