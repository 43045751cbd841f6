"""A desk on a folder of odd things, planning in the same process; and what must stay true of it."""

from __future__ import annotations

import hashlib
import os
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from scantling.desk.app import desk_app
from scantling.desk.desk import LEDGER, Desk
from scantling.desk.guard import GuardSettings, guarded
from scantling.desk.working import Planner
from scantling.desk.working.telling import Hear
from scantling.desk.working.worker import answered
from scantling.ledger import State

PORT = 8123
OWN = f"http://127.0.0.1:{PORT}"
STOOL = """piece: Small stand
units: inches
follows: house.yaml   # foot
overall: {wide: 12 within 10 to 14, deep: 10, high: 8}
sizes: {inset: 1, rise: 2}
materials: {case: walnut 3/4 or pine 3/4}
spaces:
  under: {wide: between left side and right side, deep: front to back, high: floor to bottom of top}
parts:
  top: {wide: left to right, deep: front to back, high: foot down from top, grain: wide}
  side: {wide: thick inward from left + inset, deep: front to back, high: floor to bottom of top, grain: high,
    copies: left and right}
joints:
  - {join: side, to: top, with: dowels}
"""
SHOP = """shop: A shed
units: inches
currency: $
boards:
  walnut, 4/4 rough, moisture 7 %:
    W1: 97 x 7 1/2 x 1 1/16, bow 3/8, knot 30 to 32 1/2 x 2 to 4
    "<b>W2": 74 x 6 1/4 x 1, bow 5/8
sheets:
  walnut plywood 3/4:
    P1: 49 x 32 x 0.71, on hand 1
machines:
  table saw: kerf 3/32, widest 24, thickest 3, shortest 12
  dowel jig: thickest 2
"""
ODD: dict[str, bytes] = {
    "house.yaml": b"style: House\nunits: inches\nsizes: {foot: 3/4}\n",
    "stand.yaml": STOOL.encode(),
    "shop.yaml": SHOP.encode(),
    "crlf.yaml": STOOL.replace("Small", "Second").replace("\n", "\r\n").encode(),
    "it's <b> & 100%.yaml": b"\xef\xbb\xbf" + STOOL.replace("Small stand", '"<i>Third\\u202e"').encode(),
    "no text.yaml": b"\xff\xfe\x00piece: x",
    "empty.yaml": b"",
    "away.yaml": b"piece: Away\nunits: mm\nfollows: ../outside/secret.yaml\n",
    "odd.build.yaml": b"\xff",
    "odd.yaml": STOOL.replace("Small", "Odd").encode(),
}


class Near(Planner):
    """A planner that asks no other process. `stumbled`: jobs that met what nobody foresaw."""

    def __init__(self) -> None:
        super().__init__()
        self.stumbled: list[str] = []

    def _talk(self, key: Any, hear: Hear) -> Any:
        answer, trouble = answered(*key)
        if trouble and "in Scantling itself" in trouble.message:
            self.stumbled.append(str(key)[:300])
        return answer, trouble


@dataclass
class Bench:
    """A desk under its guard. `originals`: the files at the start."""

    folder: Path
    client: TestClient
    desk: Desk
    originals: dict[str, bytes]
    near: Near

    @property
    def files(self) -> dict[str, bytes]:
        return {
            path.name: path.read_bytes()
            for path in self.folder.iterdir()
            if path.is_file() and not path.is_symlink()
        }

    def secrets(self) -> tuple[str, ...]:
        """What no answer may hold: places of this machine."""
        own = Path(__file__).resolve()
        places = (
            self.folder,
            self.folder.parent,
            Path.home(),
            Path(sys.prefix),
            own.parents[3],
            Path(tempfile.gettempdir()),
        )
        return (
            *(str(place) for place in places if len(place.parts) > 1),
            "site-packages",
            "Traceback (most recent",
        )


def prepared(folder: Path) -> dict[str, bytes]:
    """Fill a folder with odd files, and put secrets beside it."""
    outside = folder.parent / "outside"
    (outside / "packets").mkdir(parents=True)
    (outside / "secret.yaml").write_text("piece: Not yours\nnote: the secret words\n")
    (outside / "packets" / "secret.pdf").write_text("the secret words")
    (folder / "packets" / "stand").mkdir(parents=True)
    for name, content in ODD.items():
        (folder / name).write_bytes(content)
    (folder / "packets" / "stand" / "stand.html").write_text("<p>x")
    (folder / "packets" / "stand" / "s.pdf").write_text("x")
    (folder / "packets" / "stand" / "linked.pdf").symlink_to(outside / "packets" / "secret.pdf")
    (folder / "packets" / "crlf").symlink_to(outside / "packets")
    (folder / "linked.yaml").symlink_to(outside / "secret.yaml")
    (folder / "round.yaml").symlink_to(folder / "round.yaml")
    return dict(ODD)


@contextmanager
def bench(folder: Path) -> Iterator[Bench]:
    """A desk on such a folder, for as long as it is used."""
    originals = prepared(folder)
    app = desk_app(folder)
    desk: Desk = app.state.desk
    near = desk.planner = desk.printer = Near()
    client = TestClient(
        guarded(app, GuardSettings.at(PORT)),
        base_url=OWN,
        headers={"origin": OWN},
        follow_redirects=False,
    )
    with client:
        yield Bench(folder, client, desk, originals, near)


def standing(folder: Path) -> dict[str, str]:
    """Every file outside the folder of pieces, by a digest of its bytes."""
    outside = (Path(place) / name for place, _, names in os.walk(folder.parent) for name in names)
    return {
        str(path): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in outside
        if not path.is_relative_to(folder)
    }


def kept_wrong(bench: Bench) -> list[str]:
    """Files that hold neither what they held first nor what was acknowledged last, and a torn ledger."""
    bench.desk.keeper.noticed()
    changes = bench.desk.ledger.changes
    outside = set(_outside_changes(bench.desk))
    wrong = [f"{file} was written past the journal" for file in outside]
    for file, content in bench.files.items():
        known = changes.known_text(file)
        text = content.decode("utf-8-sig", "surrogateescape")
        if file.endswith(".yaml") and known != text and content != bench.originals.get(file):
            wrong.append(f"{file} holds other words than were kept")
    with closing(sqlite3.connect(bench.folder / LEDGER)) as raw:
        if raw.execute("PRAGMA quick_check").fetchone()[0] != "ok":
            wrong.append("the ledger is torn")
    if changes.unfinished():
        wrong.append("a change was left half done")
    return wrong


def _outside_changes(desk: Desk) -> Iterator[str]:
    for scope in scopes(desk):
        for change in desk.ledger.changes.listed(scope):
            if change.outside:
                yield change.what


def scopes(desk: Desk) -> tuple[str, ...]:
    """All scopes the journal has."""
    with closing(sqlite3.connect(desk.ledger.path)) as raw:
        return tuple(scope for (scope,) in raw.execute("SELECT DISTINCT scope FROM changes"))


def step_all_back(bench: Bench) -> int:
    """Undo everything, the newest first; how many steps that was."""
    steps = 0
    while newest := max(
        (
            change
            for scope in scopes(bench.desk)
            for change in bench.desk.ledger.changes.listed(scope, State.DONE, 1)
        ),
        key=lambda change: change.number,
        default=None,
    ):
        bench.desk.keeper.undo(newest.scope, newest.number)
        steps += 1
    return steps
