"""Parts brought to final size: crosscut with a stop, ripped where they were glued up, panels trimmed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.naming import numbered
from scantling.building.tables import minutes
from scantling.cutting.cut_plan import Role
from scantling.geometry import density_of
from scantling.piece.model import BandWork, BuildKind, MaterialKind, PartName
from scantling.shop.model import Machine, MachineKind

NEAR = 0.5  # mm: a blank this close needs no more cutting
SLED_WIDEST = 610.0  # mm: past 24 in a panel overhangs a sled (common practice, no source)
SLED_HEAVIEST = 20.0  # kg: what one person slides with a steady hand (common practice, no source)
MM3_A_M3 = 1e9


def sizing(bench: Bench) -> Iterator[Draft]:
    """Solid parts and sticks to length, panels to size, lipping glued on."""
    cut = [name for name, blanks in bench.blanks_of.items() if blanks and name in bench.piece.part_by_name]
    parts = bench.names.in_order(name for name in cut if _needs_cutting(bench, name))
    solid = [name for name in parts if bench.part(name).material.kind is not MaterialKind.SHEET]
    for machine, found in grouped(solid, lambda name: _saw(bench, name)).items():
        yield _to_length(bench, found, machine)
    sheets = [name for name in parts if name not in solid]
    for machine, found in grouped(sheets, lambda name: _panel_saw(bench, name)).items():
        yield _panels(bench, found, machine)
    yield from _lippings(bench)


def _needs_cutting(bench: Bench, name: PartName) -> bool:
    """Whether the blanks are larger than the part; a ring of bricks gets its size with its outline."""
    blanks = bench.blanks_of[name]
    built = bench.part(name).built
    if built and built.kind is BuildKind.BRICKS:
        return False
    if bench.part(name).material.kind is not MaterialKind.SHEET:
        return True
    long, wide, _ = bench.cut_sizes(name)
    return blanks[0].rough_length > long + NEAR or blanks[0].rough_width > wide + NEAR


def _goes_to_the_saw(bench: Bench, name: PartName) -> bool:
    """Whether a maker can slide it over a table saw; else the saw goes to the panel."""
    long, wide, thick = bench.cut_sizes(name)
    mass = long * wide * thick / MM3_A_M3 * density_of(bench.part(name).material)
    return wide <= SLED_WIDEST and mass <= SLED_HEAVIEST


def _large(bench: Bench, found: Sequence[PartName]) -> tuple[str, ...]:
    return () if all(_goes_to_the_saw(bench, name) for name in found) else ("large panel",)


def _panel_saw(bench: Bench, name: PartName) -> Machine | None:
    """The saw that trims a panel: run along a clamped guide where the panel is wide or heavy."""
    if not _goes_to_the_saw(bench, name):
        return bench.machine(MachineKind.CIRCULAR_SAW, MachineKind.HAND_SAW)
    return bench.machine(MachineKind.TABLE_SAW, MachineKind.CIRCULAR_SAW, MachineKind.HAND_SAW)


def _saw(bench: Bench, name: PartName) -> Machine | None:
    """The saw that crosscuts this part: a mitre saw if it is narrow enough."""
    if not _goes_to_the_saw(bench, name):
        return _panel_saw(bench, name)
    mitre = bench.machine(MachineKind.MITRE_SAW)
    if mitre and bench.part(name).width <= (mitre.most_width or 1e9):
        return mitre
    return bench.machine(
        MachineKind.TABLE_SAW, MachineKind.CIRCULAR_SAW, MachineKind.BAND_SAW, MachineKind.HAND_SAW
    )


def _to_length(bench: Bench, found: Sequence[PartName], machine: Machine | None) -> Draft:
    lengths = grouped(found, lambda name: round(bench.cut_sizes(name)[0], 1))
    glued = [name for name in found if bench.blanks_of[name][0].role is Role.STAVE]
    ripped = " Rip glued-up panels to width first, a little from each edge." if glued else ""
    how = _HOW.get(machine.kind if machine else MachineKind.HAND_SAW, _HOW[MachineKind.HAND_SAW])
    return Draft(
        Stage.FINAL_SIZE,
        f"Cut {numbered(len(found), 'part')} to length",
        f"Square one end of each, then cut the other {how}, all parts of one length at one setting, longest "
        f"first. Lengths are overall, with what goes into the joints.{ripped}",
        bench.names.in_order(found),
        machine=machine.name if machine else "",
        settings=tuple(
            f"{bench.show(length)}: {bench.names.counted(names)}"
            for length, names in sorted(lengths.items(), reverse=True)
        )
        + _width_lines(bench, glued),
        active=minutes("set up", max(1, len(lengths) / 2)) + minutes("final crosscut", 2 * len(found)),
        check=f"First and last of each length agree with the list within {bench.tolerance(0.4)}; equal parts "
        "stand level side by side.",
        cautions=bench.cautions(machine, *_large(bench, found)),
    )


def _width_lines(bench: Bench, glued: Sequence[PartName]) -> tuple[str, ...]:
    widths = grouped(glued, lambda name: bench.show(bench.cut_sizes(name)[1]))
    return tuple(f"{width} wide: {bench.names.counted(names)}" for width, names in widths.items())


_HOW = {
    MachineKind.MITRE_SAW: "against a stop",
    MachineKind.TABLE_SAW: "on a sled against a stop block",
    MachineKind.CIRCULAR_SAW: "along a guide clamped square across it",
    MachineKind.BAND_SAW: "with a mitre gauge, and plane the end",
    MachineKind.HAND_SAW: "to a knife line all round",
}


def _panels(bench: Bench, found: Sequence[PartName], machine: Machine | None) -> Draft:
    sizes = grouped(found, lambda name: _panel_size(bench, name))
    guided = machine is not None and machine.kind is MachineKind.CIRCULAR_SAW
    guide = " Run the saw along a clamped guide." if guided else ""
    return Draft(
        Stage.FINAL_SIZE,
        f"Trim {numbered(len(found), 'panel')} to size",
        "Trim one long edge clean, the ends square to it, then the width. First size is along the grain."
        f"{guide}",
        bench.names.in_order(found),
        machine=machine.name if machine else "",
        settings=tuple(f"{size}: {bench.names.counted(names)}" for size, names in sizes.items()),
        active=minutes("set up") + minutes("final crosscut", 4 * len(found)),
        check=f"Sizes within {bench.tolerance(0.4)}; diagonals agree within {bench.tolerance(0.8)}.",
        cautions=bench.cautions(machine, *_large(bench, found)),
    )


def _panel_size(bench: Bench, name: PartName) -> str:
    long, wide, _ = bench.cut_sizes(name)
    return f"{bench.number(long)} x {bench.show(wide)}"


def _lippings(bench: Bench) -> Iterator[Draft]:
    banded = {p.name: [w for w in p.work if isinstance(w, BandWork)] for p in bench.piece.parts}
    found = [name for name, works in banded.items() if works]
    if not found:
        return
    metres = sum(_edge_length(bench, name) * len(banded[name]) for name in found) / 1000
    thick = {bench.show(work.thick) for name in found for work in banded[name]}
    yield Draft(
        Stage.SHAPE,
        f"Glue lipping on {bench.names.counted(found)}",
        "Cut the strips a little wide and long, glue them on with tape or a caul, let them set, then trim "
        "flush with a block plane and a sharp chisel.",
        bench.names.in_order(found),
        settings=(f"{', '.join(sorted(thick))} thick, {metres:.1f} m in all",),
        active=minutes("band", metres),
        wait=bench.glue.clamp_minutes,
        wait_for=f"{bench.glue.name} to set under the lipping",
        check="No gap along the line; the lipping is flush on both faces.",
    )


def _edge_length(bench: Bench, name: PartName) -> float:
    return max(bench.part(name).length, bench.part(name).width)
