"""Packets being made and packets that are there: one at a time for each piece."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from scantling.desk.desk import Desk
from scantling.desk.publish.view import packet_made
from scantling.desk.working import Cancelled, Planner
from scantling.errors import ReadError, ScantlingError

PACKETS = "packets"
KINDS = {
    ".pdf": ("The packet to print", "application/pdf"),
    ".html": ("The page to publish: one file, with all drawings", "text/html; charset=utf-8"),
    ".csv": ("A list for a spreadsheet", "text/csv; charset=utf-8"),
    ".glb": ("The model, for any 3D viewer", "model/gltf-binary"),
    ".step": ("The model as exact solids", "model/step"),
}


@dataclass
class Making:
    """A packet on its way. `doing`: what is being made; `missing`: what could not be, and why."""

    doing: str = "getting ready"
    done: bool = False
    trouble: str = ""
    missing: tuple[str, ...] = ()
    task: asyncio.Task[None] | None = None
    worker: Planner = field(default_factory=Planner)

    def cancel(self) -> None:
        """Stop making it, even if its process is only about to begin; files that are whole already stay."""
        self.worker.close()


@dataclass(frozen=True, slots=True)
class Made:
    """One file of a packet."""

    name: str
    what: str
    size: str
    when: datetime

    @property
    def opens(self) -> bool:
        """Whether a browser shows it."""
        return self.name.endswith((".pdf", ".html"))


@dataclass
class Makings:
    """What is being made, by slug."""

    by_slug: dict[str, Making] = field(default_factory=dict)

    def start(self, desk: Desk, slug: str, paper: str, units: str) -> Making:
        """Begin to make a packet, unless one of this piece is on its way."""
        now = self.by_slug.get(slug)
        if now is not None and not now.done:
            return now
        making = self.by_slug[slug] = Making()
        making.task = asyncio.ensure_future(_made(desk, slug, making, paper, units))
        return making

    def close(self) -> None:
        """End whatever is being made."""
        for making in self.by_slug.values():
            making.worker.close()


async def _made(desk: Desk, slug: str, making: Making, paper: str, units: str) -> None:
    loop = asyncio.get_running_loop()

    def hear(words: str) -> None:
        making.doing = words
        asyncio.run_coroutine_threadsafe(desk.hub.tell(f"packet:{slug}"), loop)

    try:
        folder = packet_folder(desk, slug)
        asked = desk.asked(slug)
        making.missing = await making.worker.ask(packet_made, asked, folder, paper, units, hear=hear)
    except Cancelled:
        making.trouble = "It was stopped; nothing half made was kept."
    except ScantlingError as error:
        making.trouble = str(error)
    finally:
        making.done = True
        await asyncio.to_thread(making.worker.close)
        await desk.hub.tell(f"packet:{slug}")


def packet_folder(desk: Desk, slug: str) -> Path:
    """Where the packet of a piece lies. Raises ReadError where a link there leads elsewhere."""
    place = desk.folder.path / PACKETS / desk.piece(slug).slug
    if place.resolve() != place:
        raise ReadError(
            f'"{PACKETS}/{slug}" is a link that leads elsewhere, and no packet is read or made there',
            remedy="take the link away; a folder is made in its place",
        )
    return place


def files_made(desk: Desk, slug: str) -> tuple[Made, ...]:
    """The files of a piece's packet, those to read first."""
    found = []
    with contextlib.suppress(OSError):
        found = [_file(path) for path in packet_folder(desk, slug).iterdir() if _is_ours(path)]
    return tuple(sorted(found, key=lambda made: (list(KINDS).index(Path(made.name).suffix), made.name)))


def _is_ours(path: Path) -> bool:
    plain = path.name.isprintable() and not path.name.startswith(".") and not path.is_symlink()
    return plain and path.suffix in KINDS and path.is_file()


def _file(path: Path) -> Made:
    told = path.stat()
    what = KINDS[path.suffix][0]
    return Made(path.name, what, _size(told.st_size), datetime.fromtimestamp(told.st_mtime).astimezone())


def _size(count: int) -> str:
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(1, round(count / 1e3))} kB"
