"""In the worker: making the packet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from scantling.desk.working.plans import plan_of
from scantling.desk.working.telling import tell
from scantling.errors import ScantlingError

if TYPE_CHECKING:
    from scantling.desk.working import Asked
    from scantling.packet.pdf import Paper


def packet_made(asked: Asked, folder: Path, paper: Paper, units: str) -> tuple[str, ...]:
    """Write the packet into `folder`; what could not be made, and why. `units` "": the file's own.

    Raises ReadError where the piece cannot be planned, ScantlingError where nothing can be written.
    """
    from scantling.packet import write_packet
    from scantling.quantity.kinds import LengthUnit

    tell("working out the plan")
    plan = plan_of(asked)
    missing: list[str] = []
    unit = LengthUnit(units) if units else None
    try:
        write_packet(plan, folder, paper=paper, units=unit, tell=missing.append, doing=tell)
    except OSError as error:
        raise ScantlingError(f"the packet could not be written: {error.strerror or error}") from error
    return tuple(missing)
