"""The folder of pieces: what lies in it, by name; no path from outside is ever opened."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from scantling.desk.keeping.heads import Head, Kind, head_of
from scantling.desk.keeping.names import SHOP_FILE, record_file_of, slug_of, trouble_with
from scantling.desk.keeping.reading import FileText, file_text
from scantling.errors import ReadError


class Signature(NamedTuple):
    """What changes with a file, told without reading it: time [ns], bytes, and which file it is."""

    modified: int
    size: int
    inode: int


@dataclass(frozen=True, slots=True)
class PieceFile:
    """One file of the folder. `slug`: what pages call it; `title`: what it calls itself, else its file name.

    `follows`: the file it follows, or "". `broken`: it cannot be read, or does not say what it is.
    """

    slug: str
    file: str
    title: str
    modified: datetime
    kind: Kind = Kind.PIECE
    follows: str = ""
    broken: bool = False


@dataclass
class Folder:
    """The files of one folder, whole and by name; kinds and titles are remembered until a file changes."""

    path: Path
    _heads: dict[str, tuple[Signature, Head | None]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.path = self.path.resolve()

    def pieces(self) -> tuple[PieceFile, ...]:
        """The pieces, newest first; a file that is broken or says nothing stands among them."""
        return self._of(Kind.PIECE)

    def styles(self) -> tuple[PieceFile, ...]:
        """The styles, newest first."""
        return self._of(Kind.STYLE)

    def builds(self) -> tuple[PieceFile, ...]:
        """The build records, newest first."""
        return self._of(Kind.BUILD)

    def shops(self) -> tuple[PieceFile, ...]:
        """The shop files, newest first."""
        return self._of(Kind.SHOP)

    def piece(self, slug: str) -> PieceFile | None:
        """The piece that pages call `slug`."""
        return next((piece for piece in self.pieces() if piece.slug == slug), None)

    def record_file(self, slug: str) -> str:
        """The name of a piece's build record, whether there is one or not."""
        return record_file_of(slug)

    def shop_file(self) -> str | None:
        """The name of the shop file; None where there is none."""
        return SHOP_FILE if self.has(SHOP_FILE) else None

    def has(self, file: str) -> bool:
        """Whether a file of that name is in the listing."""
        return self._signature(file) is not None

    def text(self, file: str) -> FileText:
        """What stands in a file of the listing. Raises ReadError, also for a name that is not listed."""
        if not self.has(file):
            raise ReadError(f'there is no file "{_shown(file)}" in this folder')
        return file_text(self.path / file)

    def signatures(self) -> dict[str, Signature]:
        """Every file of the listing in order of name, with what tells that it changed."""
        try:
            names = sorted(os.listdir(self.path))
        except OSError as error:
            raise ReadError(f"the folder cannot be looked through: {error.strerror or error}") from None
        return {name: sign for name in names if (sign := self._signature(name))}

    def stamp(self, but: Iterable[str] = ()) -> str:
        """Another word whenever a file of this folder, `but` some, or of a folder right in it, changes."""
        own = self.signatures()
        for file in but:
            own.pop(file, None)
        signs = [own, *(Folder(Path(path))._readable_signatures() for path in self._inner())]
        return sha256(repr(signs).encode("utf-8", "surrogatepass")).hexdigest()

    def _inner(self) -> list[str]:
        with os.scandir(self.path) as entries:
            return sorted(entry.path for entry in entries if _is_plain_folder(entry))

    def _readable_signatures(self) -> dict[str, Signature]:
        """None in a folder that may not be looked into."""
        try:
            return self.signatures()
        except ReadError:
            return {}

    def _signature(self, file: str) -> Signature | None:
        """None for what is not in the listing."""
        if trouble_with(file):
            return None
        path = f"{self.path}{os.sep}{file}"
        try:
            told = os.lstat(path)
            if stat.S_ISLNK(told.st_mode):
                told = os.stat(path if self._leads_inside(path) else self.path)
        except (OSError, RuntimeError):  # gone meanwhile, or a link that leads round in a circle
            return None
        if not stat.S_ISREG(told.st_mode):
            return None
        return Signature(told.st_mtime_ns, told.st_size, told.st_ino)

    def _leads_inside(self, link: str) -> bool:
        target = Path(link).resolve()
        return target.parent == self.path and not trouble_with(target.name)

    def _of(self, kind: Kind) -> tuple[PieceFile, ...]:
        files = [self._file(file, sign) for file, sign in self.signatures().items()]
        return tuple(sorted((f for f in files if f.kind is kind), key=lambda f: f.modified, reverse=True))

    def _file(self, file: str, sign: Signature) -> PieceFile:
        head = self._head(file, sign)
        known = head or head_of(file, "")
        modified = datetime.fromtimestamp(sign.modified / 1e9, UTC)
        broken = head is None or not head.title
        return PieceFile(
            slug_of(file), file, known.title or file, modified, known.kind, known.follows, broken
        )

    def _head(self, file: str, sign: Signature) -> Head | None:
        """None for a file that cannot be read."""
        if (cached := self._heads.get(file)) and cached[0] == sign:
            return cached[1]
        try:
            head = head_of(file, file_text(self.path / file).text)
        except ReadError:
            head = None
        self._heads[file] = (sign, head)
        return head


def _is_plain_folder(entry: os.DirEntry[str]) -> bool:
    return not entry.name.startswith(".") and entry.is_dir(follow_symlinks=False)


def _shown(file: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in file[:80])
