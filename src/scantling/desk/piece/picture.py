"""The picture of a piece as the viewer takes it: shapes as GLB, everything else as JSON. Runs in the worker.

Places and boxes are in mm in the piece's frame: wide runs right, deep back, high up. A part that is tilted
or leans has its box in its own frame, and `turn` (rows) and `shift` that take it to the piece's.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from hashlib import sha256
from typing import TYPE_CHECKING

from scantling.geometry import View, after, glb, pose_placements, shaded_picture
from scantling.geometry.poses import AT_REST, carried_by, ordered_steps
from scantling.packet.exploding import exploded_placements
from scantling.packet.items import items_of
from scantling.packet.part_words import grain_words, material_words
from scantling.packet.shown import Sizes, bound
from scantling.piece.model import (
    Axis,
    Box,
    Face,
    Hold,
    Movement,
    Part,
    Piece,
    Placement,
    Pose,
    PoseStep,
    Swing,
    Vec3,
)
from scantling.quantity import MM_PER_INCH, Style, format_angle, format_length
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.checks.finding import Finding
    from scantling.plan import Plan

Data = dict[str, object]
SIXTEENTHS = 16
PAPER = 0.1  # of real size: how large the flat drawing counts its millimetres


@dataclass(frozen=True, slots=True)
class Picture:
    """What one shape of a piece looks like.

    `glb`: one named node a part. `digest`: of `glb`; equal for equal shapes and woods, so that a page that
    has it need not fetch it again. `description`: JSON text, safe inside a script element.
    """

    digest: str
    glb: bytes
    description: str


def picture_of(plan: Plan) -> Picture:
    """The shapes of all parts and all the viewer says about them."""
    shapes = glb(plan.scene)
    digest = sha256(shapes).hexdigest()[:16]
    text = json.dumps({"digest": digest, **description(plan)}, ensure_ascii=False, separators=(",", ":"))
    return Picture(digest, shapes, text.replace("<", "\\u003c"))


def drawing_of(plan: Plan, pose: str = AT_REST) -> str:
    """The same as a flat SVG drawing, a named path a part, for where there is no 3D.

    Raises ValueError for a pose the piece does not have.
    """
    moved = pose_placements(plan.piece, pose)
    return shaded_picture(plan.scene, View.named("corner"), placements=moved).svg(PAPER, ids=True)


def description(plan: Plan) -> Data:
    """Parts, movements, poses, things held and findings, in words and numbers."""
    piece, sizes = plan.piece, Sizes(Style(plan.piece.unit, plan.shop.fraction))
    marks, apart = items_of(plan.machined).marks, exploded_placements(piece)
    return {
        "name": piece.name,
        "step": _step(sizes),
        "box": _box(piece.overall),
        "parts": [
            {**_part(part, marks.get(part.name, ""), sizes), "apart": _point(apart[part.name].shift)}
            for part in piece.parts
        ],
        "movements": [_movement(movement, piece, sizes) for movement in _in_order(piece)],
        "poses": [_pose(pose, piece) for pose in _poses(piece)],
        "held": [_held(hold, piece, sizes) for hold in piece.holds],
        "findings": [_finding(n, found, piece) for n, found in enumerate(plan.findings, start=1)],
    }


def _step(sizes: Sizes) -> Data:
    """What a drag counts in: mm a step, and the words of each step below a whole unit."""
    unit = LengthUnit.INCHES if sizes.inches else LengthUnit.MM
    count = SIXTEENTHS if sizes.inches else 1
    mm = MM_PER_INCH / SIXTEENTHS if sizes.inches else 1.0
    words = [format_length(mm * n, Style(unit)) for n in range(count)]
    return {
        "mm": mm,
        "whole": count,
        "unit": "in" if sizes.inches else "mm",
        "words": ["", *(word.number for word in words[1:])],
        "one": format_length(mm, Style(unit)).text,
    }


def _box(box: Box) -> Data:
    return {"low": _point(box.low), "high": _point(box.high)}


def _point(point: Vec3) -> list[float]:
    return [round(value, 4) for value in point]


def _part(part: Part, mark: str, sizes: Sizes) -> Data:
    return {
        "name": part.name,
        "mark": mark,
        "label": f"{mark} {part.name}".strip(),
        "definition": part.definition,
        "material": material_words(part),
        "grain": grain_words(part),
        "sizes": [_size(part, axis, sizes) for axis in Axis],
        "box": _box(part.box),
        **_frame(part),
        "faces": [] if part.fixed else [_face(face, part) for face in Face],
    }


def _frame(part: Part) -> Data:
    """What takes the box to where the part stands: its placement, and the slant of a leaning stick."""
    frame = after(part.placement, _slant(part))
    return {} if frame.is_identity else {"turn": frame.turn, "shift": _point(frame.shift)}


def _slant(part: Part) -> Placement:
    """Level slices slide sideways, more the farther from the end that stays."""
    lean = part.shape.lean
    if lean is None:
        return Placement()
    stays = part.box.face(lean.end.opposite)
    rise = part.box.face(lean.end) - stays
    wide, deep = lean.shift[0] / rise, lean.shift[1] / rise
    return Placement(
        ((1.0, 0.0, wide), (0.0, 1.0, deep), (0.0, 0.0, 1.0)), (-wide * stays, -deep * stays, 0.0)
    )


def _size(part: Part, axis: Axis, sizes: Sizes) -> Data:
    trade = {part.thickness_axis: "thickness", part.width_axis: "width", part.grain: "length"}
    mm = part.size(axis)
    words, both = bound(sizes.one(mm)), bound(sizes.both(mm))
    return {"axis": axis.word, "trade": trade[axis], "words": words, "both": both}


def _face(face: Face, part: Part) -> Data:
    """A face that can be moved: `out` points away from the part, piece's frame."""
    return {"face": face.word, "axis": face.axis.word, "out": _point(part.placement.direction(face.normal))}


def _in_order(piece: Piece) -> list[Movement]:
    every = [PoseStep(movement.name, 1.0) for movement in piece.movements]
    return [movement for movement, _ in ordered_steps(piece, every)]


def _movement(movement: Movement, piece: Piece, sizes: Sizes) -> Data:
    """`moves`: all it takes along, riders too; `after`: what must be open before it."""
    motion = movement.motion
    about: Data
    if isinstance(motion, Swing):
        about = {"kind": "swings", "about": motion.about, "axis": motion.axis, "angle": motion.angle}
        far = format_angle(motion.angle)
    else:
        about = {"kind": "slides", "direction": motion.direction, "distance": motion.distance}
        far = bound(sizes.both(motion.distance))
    return {
        "name": movement.name,
        **about,
        "far": far,
        "moves": sorted(carried_by(piece, movement)),
        "after": list(movement.after),
        "ridesOn": movement.rides_on,
    }


def _poses(piece: Piece) -> list[Pose]:
    """At rest first, which every piece has."""
    return [Pose(AT_REST, ()), *(pose for pose in piece.poses if pose.name != AT_REST)]


def _pose(pose: Pose, piece: Piece) -> Data:
    steps = ordered_steps(piece, pose.steps)
    return {"name": pose.name, "steps": [[movement.name, fraction] for movement, fraction in steps]}


def _held(hold: Hold, piece: Piece, sizes: Sizes) -> Data:
    """A thing held: its outline at rest, and the part with which it moves."""
    known = [name for name in hold.on if name in piece.part_by_name]
    rides = [m.name for m in _in_order(piece) if known and carried_by(piece, m).issuperset(known)]
    return {
        "name": hold.name,
        "box": _box(hold.box),
        "on": known,
        "ridesOn": rides[-1] if rides else None,
        "words": f"{hold.name}, {sizes.three(hold.box.sizes)} {sizes.unit_word}",
    }


def _finding(number: int, finding: Finding, piece: Piece) -> Data:
    """`spot` None: somewhere on its first part, or nowhere in particular."""
    return {
        "number": number,
        "severity": finding.severity.value,
        "weight": finding.severity.name.lower(),
        "code": finding.code,
        "message": finding.message,
        "spot": _point(finding.spot) if finding.spot else None,
        "parts": [name for name in finding.where if name in piece.part_by_name],
        "pose": finding.pose,
    }
