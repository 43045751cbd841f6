"""The house itself: layers, light imports, sizes of files and functions, public names."""

from __future__ import annotations

import ast
import importlib
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "scantling"
MODULES = sorted(SRC.rglob("*.py"))
PACKAGES = sorted(path.parent for path in SRC.rglob("__init__.py"))


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)


def test_folders_import_downwards_only() -> None:
    lint = Path(sys.executable).with_name("lint-imports")
    done = run(str(lint), "--no-cache")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("words", ["import scantling", "import scantling.cli"])
def test_heavy_libraries_wait_at_the_door(words: str) -> None:
    heavy = ["numpy", "manifold3d", "pydantic", "typst", "yaml", "rich", "OCP"]
    code = f"{words}; import sys; print([m for m in {heavy!r} if m in sys.modules])"
    assert run(sys.executable, "-c", code).stdout.strip() == "[]"


def test_the_pages_of_the_desk_start_without_the_planner() -> None:
    heavy = [
        "numpy",
        "manifold3d",
        "typst",
        "pydantic",
        "PIL",
        "scantling.plan",
        "scantling.piece.resolve",
    ]
    code = f"import scantling.desk.app, sys; print([m for m in {heavy!r} if m in sys.modules])"
    assert run(sys.executable, "-c", code).stdout.strip() == "[]"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(SRC).as_posix())
def test_files_and_functions_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= 500
    functions = [n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.FunctionDef)]
    long = {f.name: f.end_lineno - f.lineno + 1 for f in functions if f.end_lineno}
    assert {name: lines for name, lines in long.items() if lines > 60} == {}


@pytest.mark.parametrize("folder", PACKAGES, ids=lambda path: path.relative_to(SRC.parent).as_posix())
def test_public_names_are_there(folder: Path) -> None:
    name = ".".join(folder.relative_to(SRC.parent).parts)
    package = importlib.import_module(name)
    assert package.__doc__
    missing = [public for public in getattr(package, "__all__", ()) if not hasattr(package, public)]
    assert missing == []
