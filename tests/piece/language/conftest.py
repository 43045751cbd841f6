"""Shared by the tests of the language: scalars from text, and errors expected at a marked character."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from scantling.errors import Place, ReadError
from scantling.piece.language import Scalar
from scantling.quantity import LengthUnit

ROOT = Path(__file__).parents[3]
MARK = "‸"


def _scalar(text: str, unit: LengthUnit = LengthUnit.INCHES) -> Scalar:
    return Scalar(text, Place("a.yaml", 1, 1, len(text)), unit)


@pytest.fixture(scope="session")
def scalar() -> Callable[..., Scalar]:
    """Words as they would stand at the start of a file."""
    return _scalar


@pytest.fixture(scope="session")
def refused() -> Callable[..., ReadError]:
    """refused(read, text): the error of `read(text)`, which must be at the character after the mark ‸."""

    def check(read: Callable[[str], object], marked: str) -> ReadError:
        before, mark, after = marked.partition(MARK)
        assert mark, "mark the character of the error with ‸"
        with pytest.raises(ReadError) as caught:
            read(before + after)
        error = caught.value
        assert error.place is not None
        line, character = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
        assert (error.place.line, error.place.character) == (line, character), str(error)
        return error

    return check


@pytest.fixture(scope="session")
def examples() -> Path:
    return ROOT / "src" / "scantling" / "examples"


@pytest.fixture(scope="session")
def spoiling() -> ModuleType:
    """The benchmark that spoils piece files, for a few hundred of its files here."""
    path = ROOT / "benchmarks" / "mutate_files.py"
    spec = importlib.util.spec_from_file_location("mutate_files", path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module
