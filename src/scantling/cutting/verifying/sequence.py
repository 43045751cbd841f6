"""Replay a sequence of operations: is every piece there when it is wanted, and safe where it is held?

Shares nothing with what made the sequence but the words for doing and holding. Limits: nothing under 12 in on
a table saw's fence or wider than long (safety article of a woodworking magazine); planer least length by the
machine or 12 in, 3/4 in wide (owners' manuals); 8 in on a mitre saw (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.cutting.cut_plan import CutPlan, StockLayout
from scantling.cutting.sequence import Doing, Hold, Operation, Sequence
from scantling.piece.model import MaterialKind
from scantling.shop.model import Board, BoardForSale, Machine, MachineKind, Shop, Surface

_FOOT = 300.0  # mm, about 12 in
_HANDS, _CLAMPED = 200.0, 100.0
_NARROW = 19.0
_TOL = 0.06
_FLAT = 0.8  # mm of warp that rides a table still
_SAWS = (Doing.CROSSCUT, Doing.RIP)


@dataclass(frozen=True, slots=True)
class _State:
    length: float
    width: float
    thickness: float
    faces: int
    edge: bool


def sequence_complaints(sequence: Sequence, plan: CutPlan, shop: Shop) -> Iterator[str]:
    """Everything wrong with it, in words."""
    stock = {b.id: b for b in shop.boards}
    sold = {b.id: b for b in shop.for_sale}
    for layout in plan.layouts:
        name = layout.stock.partition("#")[0]
        mine = [op for op in sequence.operations if op.stock == layout.stock]
        yield from _Replay(layout, plan, stock.get(name) or sold.get(name), shop).complaints(mine)
    known = {layout.stock for layout in plan.layouts}
    yield from (f"{op.stock} is not in the plan" for op in sequence.operations if op.stock not in known)


class _Replay:
    def __init__(
        self, layout: StockLayout, plan: CutPlan, stock: Board | BoardForSale | None, shop: Shop
    ) -> None:
        self.layout, self.stock, self.shop = layout, stock, shop
        self.blanks = {blank.id: blank for blank in plan.blanks}
        self.pieces = {piece.id: piece for piece in layout.pieces}
        self.cuts = {cut.number: cut for cut in layout.cuts}
        self.machines = {machine.name: machine for machine in shop.machines}
        root = layout.cuts[0].of if layout.cuts else layout.pieces[0].id
        self.here: dict[str, _State] = {root: self._at_first()}

    def complaints(self, operations: list[Operation]) -> Iterator[str]:
        done: set[int] = set()
        for op in operations:
            for words in self._one(op, done):
                yield f"{self.layout.stock}, {op.doing.value} of {op.takes}: {words}"
        missing = sorted(self.cuts.keys() - done)
        if missing:
            yield f"{self.layout.stock}: cuts {', '.join(map(str, missing))} are never made"
        yield from self._unfinished()

    def _one(self, op: Operation, done: set[int]) -> Iterator[str]:
        state = self.here.get(op.takes)
        if state is None:
            yield "the piece is not there"
            return
        machine = self.machines.get(op.machine)
        if op.machine and machine is None:
            yield f"the shop has no {op.machine}"
        yield from self._held(op, state, machine)
        if op.doing in _SAWS:
            yield from self._sawn(op, state, done)
        else:
            yield from self._milled(op, state)

    def _sawn(self, op: Operation, state: _State, done: set[int]) -> Iterator[str]:
        cut = self.cuts.get(op.number)
        if cut is None or cut.of != op.takes or cut.across != (op.doing is Doing.CROSSCUT):
            yield "it is no cut of the plan"
            return
        if op.number in done:
            yield "it is made twice"
        if op.setting is not None and abs(op.setting - cut.setting) > _TOL:
            yield "its setting is not that of the plan"
        done.add(op.number)
        del self.here[op.takes]
        edge = state.edge or (not cut.across and op.hold in (Hold.GUIDE, Hold.CARRIER, Hold.FENCE))
        for name in filter(None, cut.gives):
            piece = self.pieces[name]
            across = min(piece.width, state.width) if cut.across else piece.width
            self.here[name] = replace(state, length=piece.length, width=across, edge=edge)

    def _milled(self, op: Operation, state: _State) -> Iterator[str]:
        match op.doing:
            case Doing.FLATTEN:
                after = replace(state, faces=max(state.faces, 1), edge=False)  # square to nothing yet
            case Doing.THICKNESS:
                if op.setting is None or op.setting > state.thickness + _TOL:
                    yield "it cannot come to that thickness"
                if not state.faces:
                    yield "thickness is measured from a flat face, and none is flat"
                after = replace(state, faces=2, thickness=op.setting or state.thickness)
            case Doing.EDGE:
                after = replace(state, edge=True)
            case _:
                if op.setting is None or op.setting > state.width + _TOL:
                    yield "it cannot come to that width"
                if not state.edge:
                    yield "its other edge is not straight yet"
                after = replace(state, width=op.setting or state.width)
        self.here[op.takes] = after

    def _held(self, op: Operation, state: _State, machine: Machine | None) -> Iterator[str]:
        kind = machine.kind if machine else None
        if op.hold in (Hold.FENCE, Hold.STOP):
            if not state.faces:
                yield "it rides a fence without a flat face"
            if not state.edge and op.doing is not Doing.EDGE:
                yield "it rides a fence without a straight edge"
        if kind is MachineKind.TABLE_SAW and op.doing in (Doing.RIP, Doing.WIDTH):
            yield from self._on_fence(op, state, machine)
        if op.doing is Doing.CROSSCUT and kind in (MachineKind.MITRE_SAW, MachineKind.TABLE_SAW):
            yield from self._by_the_blade(op, state)
        guided = kind is MachineKind.CIRCULAR_SAW and op.hold is Hold.GUIDE
        if guided and state.length < _or(machine, _FOOT) - _TOL:
            yield f"{state.length:.0f} mm is too short for the guide of the {op.machine}"
        if kind in (MachineKind.PLANER, MachineKind.JOINTER) and machine is not None:
            yield from self._planed(op, state, machine)

    def _on_fence(self, op: Operation, state: _State, machine: Machine | None) -> Iterator[str]:
        if op.hold not in (Hold.FENCE, Hold.CARRIER):
            yield "it is ripped on a table saw without fence or carrier"
        if op.hold is not Hold.FENCE:
            return
        if state.length < _or(machine, _FOOT) - _TOL:
            yield f"{state.length:.0f} mm is too short for the fence of the {op.machine}"
        if state.width > state.length + _TOL:
            yield "it is wider than long against a fence"
        if machine and machine.most_width is not None and (op.setting or 0.0) > machine.most_width + _TOL:
            yield f"it is set beyond the fence of the {op.machine}"

    def _by_the_blade(self, op: Operation, state: _State) -> Iterator[str]:
        if state.length < _CLAMPED - _TOL:
            yield f"{state.length:.0f} mm is too short for the {op.machine}, clamped or not"
        if op.hold is Hold.CLAMPED:
            return
        if state.length < _HANDS - _TOL:
            yield f"{state.length:.0f} mm is too short to be held by hand on the {op.machine}"
        if not state.faces:
            yield f"a piece that rocks is not clamped on the {op.machine}"

    def _planed(self, op: Operation, state: _State, machine: Machine) -> Iterator[str]:
        if state.length < _or(machine, _FOOT) - _TOL:
            yield f"{state.length:.0f} mm is shorter than the {op.machine} takes"
        if machine.kind is MachineKind.PLANER:
            if state.width < _NARROW - _TOL:
                yield f"{state.width:.0f} mm is too narrow for the {op.machine}"
            if op.doing is Doing.FLATTEN and op.hold is not Hold.SLED:
                yield "a planer flattens nothing without a sled"
        yield from self._too_large(op, state, machine)

    def _too_large(self, op: Operation, state: _State, machine: Machine) -> Iterator[str]:
        under = machine.sled_thickness if op.hold is Hold.SLED else 0.0
        thick, long, wide = machine.most_thickness, machine.most_length, machine.most_width
        is_planer = machine.kind is MachineKind.PLANER
        if is_planer and thick is not None and state.thickness + under > thick + _TOL:
            yield f"{state.thickness:.0f} mm is thicker than the {op.machine} takes"
        if is_planer and long is not None and state.length > long + _TOL:
            yield f"{state.length:.0f} mm is longer than the {op.machine} takes"
        thin = machine.least_thickness
        if thin is not None and (op.setting or thin) < thin - _TOL and op.hold is not Hold.CARRIER:
            yield f"{op.setting:.1f} mm is thinner than the {op.machine} takes without a carrier"
        if op.doing in (Doing.FLATTEN, Doing.THICKNESS) and wide is not None and state.width > wide + _TOL:
            yield f"{state.width:.0f} mm is wider than the {op.machine} takes"

    def _unfinished(self) -> Iterator[str]:
        if self.layout.kind is not MaterialKind.SOLID:
            return
        for placed in self.layout.placed:
            state, blank = self._state_of(placed.blank), self.blanks[placed.blank]
            if state is None:
                yield f"{placed.blank} never comes off the saw"
            elif state.faces < 2 or state.thickness > blank.thickness + 0.5 + _TOL:
                yield f"{placed.blank} is never planed to {blank.thickness:.1f}"
            elif state.width > blank.width + 0.5 + _TOL:
                yield f"{placed.blank} is never ripped to {blank.width:.1f}"
            elif not state.edge:
                yield f"{placed.blank} never gets a straight edge"

    def _state_of(self, blank: str) -> _State | None:
        piece = next((p.id for p in self.layout.pieces if p.blank == blank), "")
        return self.here.get(piece)

    def _at_first(self) -> _State:
        lay = self.layout
        if lay.kind is not MaterialKind.SOLID or self.stock is None:
            return _State(lay.length, lay.width, lay.thickness, 2, edge=True)
        dressed = self.stock.surface in (Surface.TWO_FACES, Surface.FOUR_SIDES)
        warp = self.stock.warp if isinstance(self.stock, Board) else None
        still = warp is not None and warp.bow + warp.cup + warp.twist / 2 <= _FLAT
        edge = self.stock.surface is Surface.FOUR_SIDES and warp is not None and warp.crook <= _FLAT
        return _State(lay.length, lay.width, lay.thickness, 2 if dressed and still else 0, edge)


def _or(machine: Machine | None, usual: float) -> float:
    return usual if machine is None or machine.least_length is None else machine.least_length
