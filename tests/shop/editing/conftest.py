"""The example shops, and what must hold of every edit."""

from __future__ import annotations

from pathlib import Path

import pytest

SHOPS = tuple(sorted((Path(__file__).parents[3] / "src" / "scantling" / "examples" / "shops").glob("*.yaml")))


@pytest.fixture(params=SHOPS, ids=lambda path: path.stem)
def shop_text(request) -> str:
    return request.param.read_text(encoding="utf-8")


@pytest.fixture
def shed() -> str:
    return (SHOPS[0].parent / "sewing-desk.yaml").read_text(encoding="utf-8")
