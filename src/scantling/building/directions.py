"""Along which axes of the piece the two parts of a joint can be pushed together.

A tail is a block of one section all along the thickness of its board, so dovetails close along that
thickness and along nothing else; a sliding dovetail along its length; corners that lock neither way (fingers,
mitres, rabbets) along the length or the thickness of the first part; a cross lap the way its halves were cut;
all else as the two faces meet.
Source: geometry of the cuts as `joinery` lays them out.
"""

from __future__ import annotations

from scantling.piece.model import Axis, Joint, Part, Piece, Vec3

ANY_WAY = 3  # axis of a joint whose faces lean or curve
LAP = "cross lap"
_TAILED = frozenset({"dovetails", "half-blind dovetails"})
_EITHER_WAY = frozenset({"finger joint", "mitre", "splined mitre", "rabbet"})


def ways_in(joint: Joint, piece: Piece) -> tuple[int, ...]:
    """The axes along which the joint can close, best liked first."""
    if joint.method == LAP:
        return (_lap_axis(joint, piece),)
    meeting = meeting_axis(joint, piece)
    if meeting == ANY_WAY:
        return (ANY_WAY,)
    thin, long = _across(joint, piece, meeting)
    if joint.method in _TAILED and joint.settings.tails_on != joint.second:
        return (thin,)
    if joint.method in _EITHER_WAY:
        return (meeting, thin)
    return (long,) if joint.method == "sliding dovetail" else (meeting,)


def meeting_axis(joint: Joint, piece: Piece) -> int:
    """The axis of the piece across which the faces of the two parts meet."""
    if joint.first_face is None:
        return ANY_WAY
    direction = piece.part_by_name[joint.first].placement.direction(joint.first_face.normal)
    return max(range(3), key=lambda axis: abs(direction[axis]))


def side_entered(joint: Joint, piece: Piece, axis: int) -> int:
    """From which side the first part comes along `axis`: +1 moving up it, -1 down it, 0 either."""
    if joint.first_face is None or axis == ANY_WAY or joint.method == "sliding dovetail":
        return 0
    first, second = (piece.part_by_name[name] for name in (joint.first, joint.second))
    if axis == meeting_axis(joint, piece):
        return 1 if first.placement.direction(joint.first_face.normal)[axis] > 0 else -1
    return 1 if _middle(first)[axis] < _middle(second)[axis] else -1


def _middle(part: Part) -> Vec3:
    return part.placement.point(part.box.centre)


def _lap_axis(joint: Joint, piece: Piece) -> int:
    """The axis along which neither part runs; ANY_WAY where that is not one."""
    grains = {piece.part_by_name[name].grain for name in (joint.first, joint.second)}
    free = [axis for axis in Axis if axis not in grains]
    return free[0] if len(free) == 1 and joint.area else ANY_WAY


def _across(joint: Joint, piece: Piece, meeting: int) -> tuple[int, int]:
    """The shorter and the longer way of where the faces meet, as axes of the piece."""
    sizes = joint.area.sizes if joint.area else _sizes_in_piece(piece.part_by_name[joint.first])
    thin, long = sorted((axis for axis in range(3) if axis != meeting), key=lambda axis: sizes[axis])
    return thin, long


def _sizes_in_piece(part: Part) -> tuple[float, ...]:
    """A part's sizes along the axes of the piece, a turned one's by the axis each lies nearest to. [mm]"""
    turned = (tuple(abs(x) for x in part.placement.direction(_unit(axis))) for axis in Axis)
    columns = tuple(zip(part.box.sizes, turned, strict=True))
    return tuple(sum(size * share[axis] for size, share in columns) for axis in range(3))


def _unit(axis: Axis) -> Vec3:
    return (float(axis == 0), float(axis == 1), float(axis == 2))
