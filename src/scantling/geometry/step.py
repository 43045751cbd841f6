"""STEP (ISO 10303-242) of a scene, written in a child process so that OCP's weight stays there.

Run as `python -m scantling.geometry.step FILE` it reads the parts to write from its input.
"""

from __future__ import annotations

import importlib.util
import pickle
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from scantling.errors import MissingTool
from scantling.geometry.drawing import Colour
from scantling.geometry.recipe import Recipe
from scantling.geometry.scene import Scene
from scantling.geometry.tones import tone_named, wood_tone
from scantling.piece.model import PartName, Placement

NOT_LOADED = 3  # exit code: OCP is there but cannot be loaded
PATIENCE = 45.0  # seconds of wall clock; the examples take 2 to 5
WITHOUT = "The other files are complete without it."
HOW = f"STEP files need the extra `step`: pip install 'scantling[step]'. {WITHOUT}"


class StepFailed(MissingTool):
    """The STEP file could not be made, or not in time; everything else is complete without it."""


@dataclass(frozen=True, slots=True)
class StepPart:
    """What the child needs of one part."""

    name: str
    recipe: Recipe
    placement: Placement
    colour: Colour


def write_step(
    scene: Scene,
    path: Path,
    names: Mapping[PartName, str] | None = None,
    colours: Mapping[PartName, Colour | str] | None = None,
    seconds: float = PATIENCE,
) -> Path:
    """Write the scene at rest as STEP AP242 with names and colours; returns `path`.

    Holes, arcs and round sticks are true cylinders and cones. Raises MissingTool when OCP is not
    installed or cannot load, StepFailed (a MissingTool) when it fails or takes longer than `seconds`.
    """
    if importlib.util.find_spec("OCP") is None:
        raise MissingTool(HOW)
    parts = [_step_part(scene, part, names or {}, colours or {}) for part in scene.solids]
    done = _run(pickle.dumps(parts), path, seconds)
    said = done.stderr.decode(errors="replace").strip()
    if done.returncode == NOT_LOADED:
        raise MissingTool(
            f"OCP is installed but cannot be loaded ({said}); on "
            "Linux it needs the system libraries libGL.so.1 and libX11.so.6. " + HOW
        )
    if done.returncode != 0:
        raise StepFailed(f"the STEP file could not be made: {' '.join(said.splitlines()[-1:])}. {WITHOUT}")
    return path


def _run(parts: bytes, path: Path, seconds: float) -> subprocess.CompletedProcess[bytes]:
    """The child, ended when it takes too long."""
    command = [sys.executable, "-m", "scantling.geometry.step", str(path)]
    try:
        return subprocess.run(command, input=parts, capture_output=True, check=False, timeout=seconds)
    except subprocess.TimeoutExpired:
        raise StepFailed(
            f"the STEP file was not ready within {seconds:g} seconds, so it was left out: many rounded or "
            f"fitted parts take long. {WITHOUT}"
        ) from None


def _step_part(
    scene: Scene, part: PartName, names: Mapping[PartName, str], colours: Mapping[PartName, Colour | str]
) -> StepPart:
    solid = scene.solids[part]
    colour = tone_named(colours[part]) if part in colours else wood_tone(scene.piece.part(part))
    return StepPart(names.get(part, part), solid.body.recipe, solid.placement, colour)


def _child(path: Path) -> int:
    """Build and write what comes on standard input."""
    try:
        from scantling.geometry.step_file import write_document
    except ImportError as error:
        sys.stderr.write(str(error))
        return NOT_LOADED
    write_document(pickle.load(sys.stdin.buffer), path)
    return 0


if __name__ == "__main__":
    sys.exit(_child(Path(sys.argv[1])))
