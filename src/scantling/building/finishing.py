"""Sanding and finishing: grits, coats, the hours between them."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.building.areas import coated, parts_coated, surface_of
from scantling.building.bench import Bench
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.tables import Finish, cautions_for, finish_named, minutes
from scantling.piece.model import Coats, MaterialKind, PartName
from scantling.quantity import format_temperature
from scantling.shop.model import MachineKind

GRITS = (80, 120, 150, 180, 220, 240)  # no step over 1.6 times the one before; common practice
UNFINISHED_GRIT = 180
COLDEST, WARMEST = 13.0, 32.0  # °C while coating; varnish data sheet, name withheld


def sanding_parts(bench: Bench) -> Iterator[Draft]:
    """Faces that cannot be reached once the piece is together."""
    parts = tuple(part.name for part in bench.piece.parts)
    area = surface_of(bench.piece, parts)
    machine = bench.machine(MachineKind.SANDER)
    yield Draft(
        Stage.SAND,
        "Sand the parts",
        f"About {bench.area(area)}. Sand what will be hard to reach, up to {GRITS[2]}, along the grain. "
        "Keep off joint faces and shoulders: masking tape over them. Break sharp edges that hands will meet.",
        parts,
        machine=machine.name if machine else "",
        settings=(_grits(bench, GRITS[2]),),
        active=minutes("sanding", area),
        check="In raking light no plane mark or cross scratch shows; every joint still fits.",
        cautions=cautions_for("sander", *_dusty(bench)),
    )


def _dusty(bench: Bench) -> tuple[str, ...]:
    woods = " ".join(part.material.species for part in bench.piece.parts)
    return ("dust of walnut or oak",) if any(w in woods for w in ("walnut", "oak", "mahogany")) else ()


def _grits(bench: Bench, last: int) -> str:
    solid = any(part.material.kind is not MaterialKind.SHEET for part in bench.piece.parts)
    sheet = any(part.material.kind is MaterialKind.SHEET for part in bench.piece.parts)
    run = ", ".join(str(grit) for grit in GRITS if grit <= last)
    words = f"grits {run}" if solid else f"grits {', '.join(str(g) for g in GRITS if 150 <= g <= last)}"
    thin = "; veneered sheets from 150 only, the face is thinner than a business card"
    return words + (thin if sheet and solid else "")


def final_sanding(bench: Bench) -> Iterator[Draft]:
    """The last grits over the assembled piece."""
    last = bench.finish.last_grit if bench.finish else UNFINISHED_GRIT
    parts = tuple(part.name for part in bench.piece.parts)
    area = surface_of(bench.piece, parts)
    machine = bench.machine(MachineKind.SANDER)
    off = "Take off all hardware first and keep its screws together. " if bench.piece.hardware else ""
    yield Draft(
        Stage.SAND,
        f"Sand the whole to {last}",
        f"{off}Flush the joints, wipe glue marks with a damp rag and sand them away; the last grit by hand, "
        "along the grain. Vacuum, then wipe.",
        parts,
        machine=machine.name if machine else "",
        settings=(f"grits {', '.join(str(g) for g in GRITS if GRITS[2] <= g <= last)}",),
        active=minutes("final sanding", area),
        check="Wiped with a damp cloth no glue shows pale.",
        cautions=cautions_for("sander"),
    )


def finishing(bench: Bench) -> Iterator[Draft]:
    """Each coat is a step, so that other work goes on while it dries."""
    for coats in bench.piece.finish:
        parts = bench.names.in_order(parts_coated(bench.piece, coats.over))
        for number in range(1, coats.coats + 1):
            yield _coat(bench, coats, parts, number)


def _coat(bench: Bench, coats: Coats, parts: tuple[PartName, ...], number: int) -> Draft:
    finish, area = finish_named(coats.finish), coated(bench.piece, coats.over)
    spread = bench.coverage(coats.finish)
    last = number == coats.coats
    hours = finish.usable_hours if last else finish.recoat_hours
    cure = f" Full hardness takes about {finish.cure_days:.0f} days." if last and finish.cure_days else ""
    between = "" if number == 1 else "Rub down lightly with 320 and wipe clean. "
    return Draft(
        Stage.FINISH,
        f"Coat {number} of {coats.coats}: {coats.finish}",
        f"{between}{_how(finish, number)} About {bench.area(area)}; equal coats on both faces of solid "
        f"boards, undersides too.{cure}",
        parts,
        settings=(
            f"{area / spread:.2f} litre at {spread:.0f} m² a litre",
            f"between {_warmth(bench, COLDEST)} and {_warmth(bench, WARMEST)}, air under 85 %",
        ),
        active=minutes("coat", area),
        wait=hours * 60,
        wait_for="light use" if last else "the next coat; the label overrules this",
        check="Dry to the touch all over before the next; no runs seen against the light.",
        cautions=cautions_for("solvent", *(("oily rags",) if finish.oils_dry else ())),
    )


def _warmth(bench: Bench, celsius: float) -> str:
    return format_temperature(celsius, bench.style)


def _how(finish: Finish, number: int) -> str:
    if "oil" in finish.name and "varnish" not in finish.name:
        return "Flood it on, wait as the label says, wipe all of it off again."
    if finish.name == "shellac":
        return "Thin coats with a brush or pad, quick and without going back."
    if number == 1:
        return "Thin the first coat as the label allows, work it into the grain, wipe off what stands."
    return "Thin and even, along the grain, from the inside out."
