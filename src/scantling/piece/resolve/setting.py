"""What stands round the piece: things it must hold, loads, the room, the finish."""

from __future__ import annotations

from scantling.piece.language.document import MappingNode, Scalar
from scantling.piece.language.parse import parse_expression
from scantling.piece.model import Axis
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.tree import Scope
from scantling.piece.resolve.wanting import size_in

_AXIS_OF_SIZE = {"width": Axis.WIDE, "depth": Axis.DEEP, "height": Axis.HIGH}


def hold_size(home: Scope, name: str, size: str) -> float | None:
    """`height of machine`: None if nothing held goes by that name. [mm]"""
    holds = home.node.get("holds")
    entry = holds.get(name) if isinstance(holds, MappingNode) else None
    if not isinstance(entry, MappingNode):
        return None
    axis = _AXIS_OF_SIZE.get(size)
    scalar = entry.get(axis.word) if axis is not None else None
    if not isinstance(scalar, Scalar):
        place = Scalar(name, entry.place)
        known = [word for word, a in _AXIS_OF_SIZE.items() if a.word in entry]
        raise Asker(home, place, what=name).error(f'"{name}" has no {size}', None, nearest(size, known))
    return held(home, name, axis or Axis.WIDE, scalar)


def held(home: Scope, name: str, axis: Axis, scalar: Scalar) -> float:
    asker = Asker(home, scalar, what=f"{name}, {axis.word}")
    key = ("hold", id(home), name, axis)
    return home.common.once(
        key, f"{name} {axis.word}", scalar, lambda: size_in(asker, parse_expression(scalar))
    )
