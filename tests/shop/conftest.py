"""Helpers for shop tests."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from scantling.errors import ReadError
from scantling.shop import Shop, read_shop_text

HEAD = "shop: a test\nunits: {unit}\n"


@pytest.fixture
def shop_of() -> Callable[..., Shop]:
    """A shop from the lines below its head."""

    def read(lines: str, unit: str = "inches") -> Shop:
        return read_shop_text(HEAD.format(unit=unit) + lines, "shop.yaml")

    return read


@pytest.fixture
def refusal(shop_of: Callable[..., Shop]) -> Callable[..., ReadError]:
    """The error these lines are answered with."""

    def read(lines: str, unit: str = "inches") -> ReadError:
        with pytest.raises(ReadError) as caught:
            shop_of(lines, unit)
        return caught.value

    return read


@pytest.fixture(scope="session")
def example_shops() -> tuple[Path, ...]:
    return tuple(
        sorted((Path(__file__).parents[2] / "src" / "scantling" / "examples" / "shops").glob("*.yaml"))
    )
