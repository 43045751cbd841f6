"""A hand-made plan with real solids, and the packet's data made of it once."""

from __future__ import annotations

import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from scantling.geometry import mass_of, scene_of
from scantling.packet.data import packet_data
from scantling.packet.pdf import packet_pdf
from scantling.quantity.kinds import LengthUnit


def _loaded(name: str) -> ModuleType:
    """A helper beside this file, under a name no other folder's helper has."""
    spec = spec_from_file_location(f"packet_{name}", Path(__file__).parent / f"{name}.py")
    assert spec
    assert spec.loader
    module = module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


KIT = _loaded("bench_plan")


def planned(name: str = "Boot bench", top_name: str = "top") -> Any:
    machined = KIT.machined_bench(name, top_name)
    scene = scene_of(machined)
    return KIT.bench_plan(scene, mass_of(scene), machined, top_name)


@pytest.fixture(scope="session")
def kit() -> ModuleType:
    """The parts of the hand-made plan, for tests that change one."""
    return KIT


@pytest.fixture(scope="session")
def make_plan() -> Any:
    """A function (piece's name, top's name) -> plan."""
    return planned


@pytest.fixture(scope="session")
def bench() -> Any:
    return planned()


@pytest.fixture(scope="session")
def bench_data(bench: Any) -> dict[str, Any]:
    return packet_data(bench)


@pytest.fixture(scope="session")
def bench_data_mm(bench: Any) -> dict[str, Any]:
    metric = replace(bench, shop=replace(bench.shop, unit=LengthUnit.MM))
    return packet_data(metric, LengthUnit.MM)


@pytest.fixture(scope="session")
def bench_pdf(bench_data: dict[str, Any]) -> bytes:
    return packet_pdf(bench_data, "letter")
