"""The rack in process: the app on a folder with the demo's shop, asked as a browser would."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.desk.app import desk_app

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
HTMX = {"hx-request": "true"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a shop file and one small piece."""
    home = tmp_path / "pieces"
    home.mkdir()
    shutil.copy(EXAMPLES / "shops" / "sewing-desk.yaml", home / "shop.yaml")
    return home


@pytest.fixture
def asking(folder: Path) -> Iterator[TestClient]:
    """A browser at the desk."""
    yield from _browser(folder)


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[TestClient]:
    """A browser at a desk whose folder has no shop file."""
    yield from _browser(tmp_path)


def _browser(folder: Path) -> Iterator[TestClient]:
    """Without the app's own start, which warms a process for planning that nothing here asks."""
    app = desk_app(folder)
    yield TestClient(app, follow_redirects=False)
    app.state.desk.close()
