"""The one place where the packet becomes files."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.geometry import glb
from scantling.packet.data import packet_data
from scantling.packet.files import write_whole
from scantling.packet.page import packet_page
from scantling.packet.pdf import Paper, packet_pdf
from scantling.packet.tables import parts_csv, shopping_csv
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan


def write_packet(
    plan: Plan, folder: Path, *, paper: Paper = "letter", units: LengthUnit | None = None
) -> tuple[Path, ...]:
    """Write print, page, lists and models of a plan into `folder`, each file whole or not at all.

    Parameters
    ----------
    folder
        Made if it is not there. Files of the same names are replaced, others left alone.
    units
        Unit the packet leads with; None: the piece file's own.

    Returns
    -------
    The files written.
    """
    name = file_name(plan.piece.name)
    data = packet_data(plan, units)
    contents = {
        f"{name}.pdf": packet_pdf(data, paper),
        f"{name}.html": packet_page(data),
        f"{name} parts.csv": parts_csv(plan, units),
        f"{name} shopping.csv": shopping_csv(plan),
        f"{name}.glb": glb(plan.scene),
    }
    return tuple(write_whole(folder / file, content) for file, content in contents.items())


def file_name(name: str) -> str:
    """A piece's name as a file name that every system takes: "Boot bench" -> "boot-bench"."""
    plain = re.sub(r"[^\w]+", "-", name.lower()).strip("-_")[:60]
    return plain or "piece"
