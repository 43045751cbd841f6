"""In the worker: words that stand in a followed file are changed for this piece alone, or there for all."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from scantling.errors import ReadError
from scantling.piece.editing.naming import Stands, stands, told, words_at
from scantling.piece.editing.setting import Where
from scantling.piece.editing.writes import Ask, Steps, Way, Write

if TYPE_CHECKING:
    from scantling.piece import Document

HERE = "in this piece alone"


def there(file: str) -> str:
    """What the button says that changes the followed file."""
    return f"in {file}, for every piece that follows it"


def here_or_there(document: Document, path: Steps, way: str, make: Callable[[Where], Write]) -> Write | Ask:
    """What is made of words under a path of the whole piece; a question where a followed file holds them."""
    file = document.files[words_at(document, path).file]
    return made_or_asked(document, file, path, way, make)


def made_or_asked(
    document: Document, file: Document, path: Steps, way: str, make: Callable[[Where], Write]
) -> Write | Ask:
    """The same for words of a known file. Raises what `make` raises."""
    if stands(document, file) is not Stands.FOLLOWED:
        return make(Where.EVERYWHERE)
    if way:
        return make(Where.HERE if way == HERE else Where.EVERYWHERE)
    return _question(file.file, path, make)


def _question(file: str, path: Steps, make: Callable[[Where], Write]) -> Ask:
    ways, closed = [Way(there(file), make(Where.EVERYWHERE))], ""
    try:
        ways.insert(0, Way(HERE, make(Where.HERE)))
    except ReadError as error:
        closed = f"It cannot be changed in this piece alone: {error.message}."
    return Ask(f"{told(path)} stands in {file}. Where is it to be changed?", tuple(ways), closed)
