"""What a job is asked about, and how trouble is told: plain data that crosses between processes."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from hashlib import sha256
from pathlib import Path

from scantling.errors import Conflict, Place, ReadError


@dataclass(frozen=True, slots=True)
class Asked:
    """One piece in one shop, as texts: equal questions have equal answers.

    `folder`: where followed files and kits are looked for. `stamp`: changes when any of those changes.
    `others`: texts of files it follows, as they would be.
    `shop` None: no shop file, the trade's usual shop stands in. `record` None: nothing is built yet.
    """

    folder: Path = field(repr=False)
    file: str
    text: str = field(repr=False)
    shop: str | None = field(default=None, repr=False)
    shop_file: str = "shop.yaml"
    record: str | None = field(default=None, repr=False)
    record_file: str = ""
    stamp: str = ""
    others: tuple[tuple[str, str], ...] = field(default=(), repr=False)

    @property
    def digest(self) -> str:
        """A word that stands for the whole question."""
        said = [getattr(self, each.name) for each in fields(self)]
        return sha256(repr(said).encode("utf-8", "surrogatepass")).hexdigest()


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why there is no answer, for a maker: what is wrong, where, what to write instead.

    `words`: of a conflict, what stands there now, what stood there and what was wanted.
    """

    message: str
    place: Place | None = None
    remedy: str = ""
    chain: tuple[str, ...] = ()
    words: tuple[str, str, str] | None = None

    @staticmethod
    def of(error: Exception) -> Trouble:
        """The trouble an error tells of."""
        if isinstance(error, ReadError):
            return Trouble(error.message, error.place, error.remedy, error.chain)
        if isinstance(error, Conflict):
            return Trouble(str(error), words=(error.now, error.was, error.wanted))
        return Trouble(str(error) or "it cannot be worked out")

    def raised(self) -> ReadError | Conflict:
        """The error again, on the pages' side."""
        if self.words is not None:
            return Conflict(*self.words)
        return ReadError(self.message, self.place, self.remedy, self.chain)
