"""A part in words: its sizes, its material and grain, its shaping, the joints it takes part in."""

from __future__ import annotations

from collections.abc import Callable

from scantling.joinery.features import MachinedPart
from scantling.packet.frames import lean_angles
from scantling.packet.shown import Sizes
from scantling.packet.tapers import taper_run
from scantling.piece.model import (
    ArchWork,
    Axis,
    BandWork,
    Box,
    DishWork,
    Edge,
    EdgeWork,
    Face,
    MaterialKind,
    Part,
    Section,
    Work,
)
from scantling.quantity import format_angle

SAME = 0.05  # mm: sizes closer than this are one size


def thickness_width_length(part: Part, box: Box) -> tuple[float, float, float]:
    """The box's sizes in the trade's order, length along the grain. [mm]"""
    return (box.size(part.thickness_axis), box.size(part.width_axis), box.size(part.grain))


Say = Callable[[float], str]


def length_words(machined: MachinedPart, say: Say) -> str:
    """How long: "37 1/2 between shoulders, 39 1/2 overall" where something goes in."""
    part = machined.part
    true, overall = part.length * part.true_ratio, machined.true_overall_length
    more = abs(overall - true) >= SAME
    if part.true_ratio > 1:
        whole = f"{say(overall)} overall, " if more else ""
        return f"{say(true)} true, {whole}{say(part.length)} upright"
    return f"{say(true)} between shoulders, {say(overall)} overall" if more else say(true)


def width_words(machined: MachinedPart, say: Say) -> str:
    """How wide; with what goes in beside where the width as cut differs."""
    part = machined.part
    cut = machined.cut_box.size(part.width_axis)
    if abs(cut - part.width) < SAME:
        return say(part.width)
    return f"{say(part.width)} showing, {say(cut)} as cut"


def material_words(part: Part) -> str:
    """What the maker wrote, with the measured thickness of a sheet."""
    return part.material.text


def grain_words(part: Part) -> str:
    """Which way the grain runs in the finished piece, and the rings where they matter."""
    ways = {Axis.WIDE: "side to side", Axis.DEEP: "front to back", Axis.HIGH: "upright"}
    rings = "" if part.material.kind is MaterialKind.SHEET else f", {part.rings.value}-sawn"
    return ways[part.grain] + (rings if part.rings.value != "flat" else "")


def shape_notes(part: Part, sizes: Sizes) -> list[str]:
    """Lean, taper, section, outline and edge work, in sentences for the part sheet."""
    notes = _lean_notes(part, sizes)
    shape = part.shape
    if shape.section not in (Section.SQUARE, Section.LEVEL):
        notes.append(f"Section: {shape.section.value}.")
    if shape.taper:
        faces = ", ".join(sorted(face.word for face in shape.taper.faces)) or "all"
        end, run = shape.taper.end.word, taper_run(part)
        notes.append(
            f"Tapers from {sizes.both(run)} off the {end} to {sizes.both(shape.taper.to)} at the {end}, "
            f"on faces: {faces}."
        )
    if shape.outline:
        radius = f", {sizes.both(shape.outline.radius)}" if shape.outline.radius else ""
        notes.append(f"Outline: {shape.outline.kind.value}{radius}.")
    notes += [words for work in part.work if (words := work_words(work, sizes))]
    return notes


def _lean_notes(part: Part, sizes: Sizes) -> list[str]:
    lean = lean_angles(part)
    if lean is None:
        return []
    return [
        f"Leans {format_angle(lean.sideways)} sideways and {format_angle(lean.front_back)} front to back: "
        f"{format_angle(lean.resultant)} in all, along a sight line {format_angle(lean.sight_line)} from "
        f"side to side. Ends are level. True length {sizes.both(lean.length)}."
    ]


def work_words(work: Work, sizes: Sizes) -> str:
    """Work that its own drawing letter does not tell; empty for holes and grooves, which the tables hold."""
    match work:
        case EdgeWork():
            size = sizes.both(work.size)
            if abs(work.size - work.drop) > 0.01:
                size = f"{size} by {sizes.both(work.drop)}"
            return f"{work.kind.value.capitalize()} {size} along {_edges_words(work.edges)}."
        case ArchWork():
            return f"Arch cut into the {work.face.word} edge, rising {sizes.both(work.rise)} in the middle."
        case DishWork():
            return (
                f"{work.face.word.capitalize()} dished {sizes.both(work.deep)}, rim {sizes.both(work.rim)}."
            )
        case BandWork():
            return f"Lipping of {work.material} {sizes.both(work.thick)} thick on the {work.face.word}."
        case _:
            return ""


def _edges_words(edges: tuple[Edge, ...]) -> str:
    """The edges in few words: all of them, all round one face, or one by one."""
    shared = [face for face in Face if all(face in (edge.first, edge.second) for edge in edges)]
    if len(edges) >= 8:
        return "all edges"
    if len(edges) == 4 and shared:
        return f"all edges of the {shared[0].word}"
    words = [f"{edge.first.word} {edge.second.word}" for edge in edges]
    return f"the edges {', '.join(words)}" if len(words) > 1 else f"the edge {''.join(words)}"
