"""A desk with a small box to build, and the box as the worker is asked about it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.desk.app import desk_app
from scantling.desk.desk import Desk
from scantling.desk.working import Asked

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
BOX = EXAMPLES / "sliding-lid-box.yaml"
SHOP = EXAMPLES / "shops" / "sliding-lid-box.yaml"
_NUMBERS = count(1)


@pytest.fixture(scope="session")
def asked() -> Asked:
    """The box with nothing built yet."""
    return Asked(EXAMPLES, BOX.name, BOX.read_text(), SHOP.read_text(), record_file="box.build.yaml")


@pytest.fixture(scope="package")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A running desk on a folder with the box's shop."""
    folder = tmp_path_factory.mktemp("pieces")
    shutil.copy(SHOP, folder / "shop.yaml")
    with TestClient(desk_app(folder), base_url="http://127.0.0.1:8347") as opened:
        yield opened


@pytest.fixture
def desk(client: TestClient) -> Desk:
    found: Desk = client.app.state.desk  # type: ignore[attr-defined]
    return found


@pytest.fixture
def slug(desk: Desk) -> str:
    """A box of the test's own."""
    name = f"box {next(_NUMBERS)}"
    shutil.copy(BOX, desk.folder.path / f"{name}.yaml")
    return name


@pytest.fixture
def page(slug: str) -> str:
    """The address of its build."""
    return f"/piece/{slug.replace(' ', '%20')}/build"
