"""The page of a piece in process: one desk and one worker for all tests, each test on files of its own."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx2
import pytest
from starlette.testclient import TestClient

from scantling.desk.app import desk_app
from scantling.desk.piece import answering

HOUSE = """style: House
units: inches
sizes: {foot: 3/4}
"""
STAND = """piece: Small stand
units: inches
follows: house.yaml   # foot
overall: {wide: 12 within 10 to 14, deep: 10, high: 8}
sizes: {inset: 1, rise: least within 1 to 3 by 1/2}
materials: {case: walnut 3/4 or pine 3/4}
spaces:
  under: {wide: between left side and right side, deep: front to back, high: floor to bottom of top}
parts:
  top: {wide: left to right, deep: front to back, high: foot down from top, grain: wide}
  side: {wide: thick inward from left + inset, deep: front to back, high: floor to bottom of top, grain: high,
    copies: left and right}
  rail: {wide: between left side and right side, deep: thick forward from back,
    high: rise down from bottom of top}
joints:
  - {join: side, to: top, with: dowels}
  - {join: rail, to: side, with: dowels}
"""
_numbers = itertools.count(1)


@dataclass
class Bench:
    """A desk, and one piece on it. Names of files are new for each test: pages remember what they showed."""

    folder: Path
    client: TestClient
    text: str = STAND
    house: str = HOUSE
    slug: str = field(default_factory=lambda: f"stand-{next(_numbers)}")

    def __post_init__(self) -> None:
        self.style = f"house-{self.slug}.yaml"
        self.path.write_text(self.text.replace("house.yaml", self.style), newline="")
        (self.folder / self.style).write_text(self.house)

    @property
    def path(self) -> Path:
        return self.folder / f"{self.slug}.yaml"

    @property
    def words(self) -> str:
        return self.path.read_text()

    def get(self, more: str = "", **query: str) -> httpx2.Response:
        return self.client.get(f"/piece/{self.slug}{more}", params=query)

    def post(self, more: str, **fields: Any) -> httpx2.Response:
        return self.client.post(f"/piece/{self.slug}{more}", data=fields)

    def act(self, do: str, path: tuple[str, ...] = (), **fields: Any) -> httpx2.Response:
        where = {"path": json.dumps(path)} if path else {}
        return self.post("/act", do=do, **where, **fields)

    def size(self, name: str, was: str, new: str, **fields: Any) -> httpx2.Response:
        return self.act("words", ("sizes", name), was=was, words=new, field="f1", **fields)


def triggers(response: httpx2.Response) -> dict[str, Any]:
    """What the page's script is told."""
    told: dict[str, Any] = json.loads(response.headers.get("hx-trigger", "{}"))
    return told


def dialog(response: httpx2.Response) -> str:
    """The words of a dialog that is opened."""
    assert triggers(response) == {"desk:open": {"id": "asking"}}
    assert 'hx-target="#asking-in"' in response.text
    return plain(response.text)


def plain(html: str) -> str:
    """The words of a page without its tags."""
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


@pytest.fixture(scope="package")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A browser at a desk that waits for its plans: how long they take is the machine's affair."""
    folder = tmp_path_factory.mktemp("pieces")
    with (
        pytest.MonkeyPatch.context() as patch,
        TestClient(desk_app(folder), follow_redirects=False) as client,
    ):
        patch.setattr(answering, "PATIENCE", 120.0)
        yield client


@pytest.fixture
def folder(served: TestClient) -> Path:
    path: Path = served.app.state.desk.folder.path  # type: ignore[attr-defined]
    return path


@pytest.fixture
def bench(folder: Path, served: TestClient) -> Bench:
    return Bench(folder, served)
