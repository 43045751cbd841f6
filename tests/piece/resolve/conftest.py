"""A small piece from a few lines, and the example pieces as they are in the examples folder."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scantling.piece import NO_FACTS, NO_RECORD, Piece, read_piece, read_piece_text, resolve

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
HEAD = "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {wood: cherry 3/4}\n"


@pytest.fixture(scope="session")
def small() -> Callable[..., Piece]:
    """A piece 24 wide, 12 deep, 30 high of 3/4 cherry, with these lines added."""

    def make(text: str, facts=NO_FACTS, record=NO_RECORD, head: str = HEAD, **settings: str) -> Piece:
        names = {name.replace("_", " "): phrase for name, phrase in settings.items()}
        return resolve(read_piece_text(head + text, "small.yaml"), facts, record, names)

    return make


@pytest.fixture(scope="session")
def example() -> Callable[..., Piece]:
    """An example piece by its file's name."""

    def make(name: str, facts=NO_FACTS, record=NO_RECORD, **settings: str) -> Piece:
        names = {key.replace("_", " "): phrase for key, phrase in settings.items()}
        return resolve(read_piece(EXAMPLES / f"{name}.yaml"), facts, record, names)

    return make


@pytest.fixture(scope="session")
def inches() -> Callable[..., tuple[float, ...]]:
    """Lengths in mm as inches, to 1/10000."""

    def make(*mm: float) -> tuple[float, ...]:
        return tuple(round(length / 25.4, 4) for length in mm)

    return make
