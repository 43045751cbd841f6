"""The wood plan in process: the app on the demo's folder, with its planning process, once for the module."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.desk.e2e.served import demo_folder

from scantling.desk.app import desk_app


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's folder."""
    return demo_folder(tmp_path_factory.mktemp("wood") / "pieces")


@pytest.fixture(scope="module")
def asking(folder: Path) -> Iterator[TestClient]:
    """A browser at the desk."""
    with TestClient(desk_app(folder)) as client:
        yield client
