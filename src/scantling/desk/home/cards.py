"""The state of each piece: remembered in the ledger while nothing it was made from has changed."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from enum import Enum

from scantling import __version__
from scantling.desk.desk import Desk
from scantling.desk.home.view import Card, card_of
from scantling.desk.keeping import PieceFile
from scantling.desk.working import Asked
from scantling.errors import ReadError


class State(Enum):
    """How far a piece is, in a maker's words."""

    DRAFT = "draft"
    MUST_FIX = "must fix first"
    READY = "ready to build"
    BEING_BUILT = "being built"


@dataclass(frozen=True, slots=True)
class Shown:
    """A piece with its state and its card; `trouble` says why a draft has none."""

    piece: PieceFile
    state: State
    card: Card | None = None
    trouble: ReadError | None = None


async def shown(desk: Desk, piece: PieceFile) -> Shown:
    """What Home shows of a piece; planned only if that was not done before."""
    if known := remembered(desk, piece):
        return known
    try:
        card = await _card(desk, piece)
    except ReadError as error:
        return Shown(piece, State.DRAFT, trouble=error)
    return Shown(piece, _state(desk, piece, card), card)


def remembered(desk: Desk, piece: PieceFile) -> Shown | None:
    """The same, where the card is remembered."""
    try:
        kept = desk.ledger.summaries.get(_key(desk.asked(piece.slug)))
    except ReadError as error:
        return Shown(piece, State.DRAFT, trouble=error)
    if kept is None:
        return None
    card = Card(**kept.facts, svg=kept.svg)
    return Shown(piece, _state(desk, piece, card), card)


async def _card(desk: Desk, piece: PieceFile) -> Card:
    asked = desk.asked(piece.slug)
    card = await desk.printer.ask(card_of, asked)
    facts = asdict(card)
    desk.ledger.summaries.put(_key(asked), facts, facts.pop("svg"))
    return card


def _key(asked: Asked) -> str:
    return f"{__version__} {asked.digest}"


def _state(desk: Desk, piece: PieceFile, card: Card) -> State:
    if desk.being_built(piece.slug):
        return State.BEING_BUILT
    return State.MUST_FIX if card.must_fix else State.READY
