"""The desk itself: the folder, what is kept, the planners and the line to every open page."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol, TypeVar

from starlette.exceptions import HTTPException
from starlette.requests import Request

from scantling.desk.keeping import Folder, Keeper, PieceFile
from scantling.desk.news import Hub
from scantling.desk.working import Asked, Planner
from scantling.ledger import Ledger, open_ledger


class Closing(Protocol):
    """What must be ended with the desk."""

    def close(self) -> None: ...


C = TypeVar("C", bound=Closing)
LEDGER = Path(".scantling", "ledger.sqlite3")


@dataclass
class Desk:
    """`planner` answers the open page; `printer` does the long work: packets, and cards of other pieces."""

    folder: Folder
    ledger: Ledger
    keeper: Keeper
    hub: Hub = field(default_factory=Hub)
    planner: Planner = field(default_factory=Planner)
    printer: Planner = field(default_factory=Planner)
    _kept: dict[type, Closing] = field(default_factory=dict)

    @staticmethod
    def of(path: Path) -> Desk:
        """The desk on a folder; its ledger is made if there is none."""
        folder = Folder(path)
        ledger = open_ledger(path / LEDGER)
        return Desk(folder, ledger, Keeper(folder, ledger))

    def kept(self, kind: type[C]) -> C:
        """The one thing of its kind that a group of pages keeps while the desk is open."""
        found = self._kept.setdefault(kind, kind())
        assert isinstance(found, kind)
        return found

    def close(self) -> None:
        """End the planners and close the ledger."""
        for kept in self._kept.values():
            kept.close()
        self.planner.close()
        self.printer.close()
        self.keeper.close()
        self.ledger.close()

    def piece(self, slug: str) -> PieceFile:
        """The piece of that name; a page that says so when there is none."""
        found = self.folder.piece(slug)
        if found is None:
            raise HTTPException(404, "There is no piece of that name in this folder.")
        return found

    def readable(self, slug: str) -> PieceFile:
        """A piece or a style: what has a text to look at. A page that says so when there is none."""
        files = (*self.folder.pieces(), *self.folder.styles())
        found = next((file for file in files if file.slug == slug), None)
        if found is None:
            raise HTTPException(404, "There is no file of that name in this folder.")
        return found

    def being_built(self, slug: str) -> bool:
        """Whether building it has begun: a step is ticked, or something is on record."""
        return slug in self.ledger.builds.being_built() or self.folder.has(self.folder.record_file(slug))

    def asked(
        self, slug: str, *, text: str | None = None, shop: str | None = None, record: str | None = None
    ) -> Asked:
        """What to plan: the files as they are, or with one of them as it would be."""
        piece = self.piece(slug)
        words = self.folder.text(piece.file).text if text is None else text
        return self.asked_text(piece, words, shop=shop, record=record)

    def asked_text(
        self, piece: PieceFile, text: str, *, shop: str | None = None, record: str | None = None
    ) -> Asked:
        """The same of a file with this text."""
        shop_file, record_file = self.folder.shop_file(), self.folder.record_file(piece.slug)
        return Asked(
            folder=self.folder.path,
            file=piece.file,
            text=text,
            shop=self._text(shop_file) if shop is None else shop,
            shop_file=shop_file or "shop.yaml",
            record=self._text(record_file) if record is None else record,
            record_file=record_file,
            stamp=self.folder.stamp(but=(piece.file, shop_file or "", record_file)),
        )

    def _text(self, file: str | None) -> str | None:
        return self.folder.text(file).text if file and self.folder.has(file) else None


def desk_of(request: Request) -> Desk:
    """The desk a request came to."""
    desk: Desk = request.app.state.desk
    return desk
