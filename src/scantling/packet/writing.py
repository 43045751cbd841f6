"""The one place where the packet becomes files."""

from __future__ import annotations

import re
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from scantling.errors import MissingTool
from scantling.files import write_whole
from scantling.geometry import glb, write_step
from scantling.packet.data import packet_data
from scantling.packet.page import packet_page
from scantling.packet.pdf import Paper, packet_pdf
from scantling.packet.tables import parts_csv, shopping_csv
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan


def write_packet(
    plan: Plan,
    folder: Path,
    *,
    paper: Paper = "letter",
    units: LengthUnit | None = None,
    tell: Callable[[str], None] | None = None,
    doing: Callable[[str], None] | None = None,
) -> tuple[Path, ...]:
    """Write print, page, lists and models of a plan into `folder`, each file whole or not at all.

    Parameters
    ----------
    folder
        Made if it is not there. Files of the same names are replaced, others left alone.
    units
        Unit the packet leads with; None: the piece file's own.
    tell
        Hears what could not be written and why.
    doing
        Hears what is being made, in a few words.

    Returns
    -------
    The files written. The STEP file is among them only when the `step` extra is installed.
    """
    name = file_name(plan.piece.name)
    folder.mkdir(parents=True, exist_ok=True)
    with ThreadPoolExecutor(1) as beside, TemporaryDirectory(dir=folder, prefix=".step") as scratch:
        step = beside.submit(_step, plan, Path(scratch) / "whole.step")
        contents = _contents(plan, name, paper, units, doing or _unheard)
        written = [write_whole(folder / file, content) for file, content in contents.items()]
        made, missing = step.result()
        if made:
            written.append(made.replace(folder / f"{name}.step"))
    if missing and tell:
        tell(missing)
    return tuple(written)


def _contents(
    plan: Plan, name: str, paper: Paper, units: LengthUnit | None, doing: Callable[[str], None]
) -> dict[str, bytes]:
    doing("drawing")
    data = packet_data(plan, units)
    doing("setting the print")
    print_out = packet_pdf(data, paper)
    doing("writing the page, the lists and the models")
    return {
        f"{name}.pdf": print_out,
        f"{name}.html": packet_page(data),
        f"{name}-parts.csv": parts_csv(plan, units),
        f"{name}-shopping.csv": shopping_csv(plan),
        f"{name}.glb": glb(plan.scene),
    }


def _unheard(_: str) -> None:
    """Nobody is listening."""


def _step(plan: Plan, path: Path) -> tuple[Path | None, str]:
    """The STEP file, made in another process beside the rest; else why there is none."""
    try:
        return write_step(plan.scene, path), ""
    except MissingTool as missing:
        return None, str(missing)


def file_name(name: str) -> str:
    """A piece's name as a file name that every system takes: "Boot bench" -> "boot-bench"."""
    plain = re.sub(r"[^\w]+", "-", name.lower()).strip("-_")[:60]
    return plain or "piece"
