"""What is done to which workpiece, on which machine, held how, set to what. All mm."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Doing(Enum):
    """One kind of operation; the value is the word for it."""

    CROSSCUT = "crosscut"
    RIP = "rip"
    FLATTEN = "flatten a face"
    THICKNESS = "plane to thickness"
    EDGE = "straighten an edge"
    WIDTH = "rip to width"


class Hold(Enum):
    """How a workpiece is held or guided; the value is said after the machine."""

    FENCE = "against the fence"  # wants a flat face down and a straight edge on the fence
    STOP = "against a stop"  # wants a flat face down and a straight edge on the fence
    GUIDE = "along a clamped straight guide"
    LINE = "along the line"
    MARK = "at the mark"
    CLAMPED = "clamped down, at the mark"
    CARRIER = "on a carrier board with hold-downs"
    SLED = "on the sled, shimmed so that it cannot rock"
    BED = "flat face down"
    BENCH = "on the bench, by hand"


@dataclass(frozen=True, slots=True)
class Work:
    """A workpiece. `flat`: how many faces are; `straight`: whether an edge is."""

    length: float
    width: float
    thickness: float
    flat: int
    straight: bool


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation on the workpiece `takes`, a piece of the cut plan.

    `number`: of the plan's cut, 0 for milling; `setting`: fence or stop, or thickness or width to come to,
    None where a mark is followed; `gives`: pieces of the cut plan, or the same piece again. `near`: the
    setting it shares with others that are as good as equal.
    """

    stock: str
    doing: Doing
    machine: str
    hold: Hold
    setting: float | None
    takes: str
    gives: tuple[str, ...]
    work: Work
    number: int = 0
    caution: str = ""
    near: float | None = None

    @property
    def set_up(self) -> tuple[str, str, str, float | None]:
        """What must be changed on a machine before another one: its name, way of holding, and setting."""
        return self.machine, self.doing.value, self.hold.value, self.near


@dataclass(frozen=True)
class Sequence:
    """All operations of a plan in their order.

    `set_ups`: how often a machine is set anew; `one_by_one`: how often it would be with each board finished
    before the next; `least`: how many different set-ups there are, fewer than which no order has.
    """

    operations: tuple[Operation, ...]
    set_ups: int
    one_by_one: int
    least: int
