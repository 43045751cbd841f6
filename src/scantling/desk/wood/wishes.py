"""What a maker wishes of the wood, written into the build record. No file is touched here."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.editing.recording import clear_record_entry, set_record_words
from scantling.piece.editing.writes import Write

BOARDS = "boards"
GRAINS = ("", "stays", "may turn")


@dataclass(frozen=True, slots=True)
class Wish:
    """`act`: "from" (a part from a board; no board: from any), "leave" or "take" (a board), "grain"."""

    act: str
    part: str = ""
    board: str = ""
    grain: str = ""


def wished(text: str | None, piece: str, file: str, wish: Wish) -> Write:
    """The record with a wish in it. Raises ReadError where it makes no sense."""
    now = text or ""
    match wish.act:
        case "from" if wish.board:
            return set_record_words(now, piece, (wish.part, "from"), wish.board, file)
        case "from":
            return clear_record_entry(now, wish.part, "from", file)
        case "leave":
            return set_record_words(now, piece, (BOARDS, wish.board), "leave", file)
        case "take":
            return clear_record_entry(now, BOARDS, wish.board, file)
        case "grain" if wish.grain in GRAINS[1:]:
            return set_record_words(now, piece, (wish.part, "grain"), wish.grain, file)
        case "grain":
            return clear_record_entry(now, wish.part, "grain", file)
    raise ReadError("it is not said what is wished")
