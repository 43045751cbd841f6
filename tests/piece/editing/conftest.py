"""The example pieces read once, small pieces from a few lines, and all their scalars."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scantling.piece import Document, read_piece, read_piece_text

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
HEAD = "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\n"


@pytest.fixture(scope="session")
def pieces() -> dict[str, Document]:
    """Every example piece by the stem of its file."""
    return {path.stem: read_piece(path) for path in sorted(EXAMPLES.glob("*.yaml")) if _is_piece(path)}


def _is_piece(path: Path) -> bool:
    return path.read_text(encoding="utf-8").lstrip().startswith("piece:")


@pytest.fixture(scope="session")
def small() -> Callable[..., Document]:
    """A piece 24 wide, 12 deep, 30 high of 3/4 cherry, with these lines added."""

    def make(text: str, head: str = HEAD) -> Document:
        return read_piece_text(head + text, "small.yaml")

    return make


@pytest.fixture
def refit(tmp_path: Path) -> Callable[..., Document]:
    """A piece that follows another: `refit(own lines, followed lines)`."""

    def make(own: str, followed: str) -> Document:
        (tmp_path / "base.yaml").write_text(followed, encoding="utf-8", newline="")
        (tmp_path / "own.yaml").write_text(own, encoding="utf-8", newline="")
        return read_piece(tmp_path / "own.yaml")

    return make
