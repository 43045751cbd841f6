"""Where the text of a file is shown."""

from __future__ import annotations

from urllib.parse import quote

from scantling.desk.desk import Desk
from scantling.desk.keeping import slug_of
from scantling.errors import Place


def text_address(desk: Desk, place: Place) -> str:
    """The page that shows the text at a place; "" where the file has no such page."""
    files = (*desk.folder.pieces(), *desk.folder.styles())
    if not any(file.file == place.file for file in files):
        return ""
    return f"/piece/{quote(slug_of(place.file), safe='')}/text?line={place.line}"
