"""Golden tests: few, text where possible. Renew with SCANTLING_RENEW_GOLDEN=1 and look at the difference."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

HERE = Path(__file__).parent


def _loaded(path: Path, name: str) -> ModuleType:
    spec = spec_from_file_location(name, path)
    assert spec
    assert spec.loader
    module = module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def golden_bench() -> Any:
    """The hand-made boot bench of the packet's tests."""
    from scantling.geometry import mass_of, scene_of

    kit = _loaded(HERE.parent / "packet" / "bench_plan.py", "golden_bench_plan")
    machined = kit.machined_bench()
    scene = scene_of(machined)
    return kit.bench_plan(scene, mass_of(scene), machined)


@pytest.fixture(scope="session")
def golden() -> Callable[[str, str], None]:
    """Compare a text with the one kept under that name."""

    def compare(name: str, text: str) -> None:
        kept = HERE / name
        if os.environ.get("SCANTLING_RENEW_GOLDEN"):
            kept.write_text(text, encoding="utf-8")
        assert text == kept.read_text(encoding="utf-8")

    return compare
