"""The order of work: steps, waits, what to buy, what it costs. Minutes; money in the shop's currency."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.piece.model import PartName


class Stage(Enum):
    """Stages of a build, in their usual order."""

    BUY = "buy wood"
    CHOOSE = "choose and mark boards"
    ROUGH_CUT = "rough cut"
    FLATTEN = "flatten"
    THICKNESS = "thickness"
    RIP = "rip to width"
    GLUE_UP = "glue up stock"
    FINAL_SIZE = "cut to final size"
    SHAPE = "shape"
    JOINTS = "cut joints"
    DRY_FIT = "dry fit"
    SAND = "sand"
    ASSEMBLE = "assemble"
    FIT = "fit moving parts"
    FINISH = "finish"
    HARDWARE = "fit hardware"
    PLACE = "place in the room"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do. `active` minutes of work, then `wait` minutes (glue, finish, settling).

    `after`: numbers of the steps that must be done (waits included) before this one.
    `settings`: fence, stop, bit, depth. `check`: how one knows it is right.
    `joined`: parts that are together once it is done (for its picture). `cautions`: read before starting.
    """

    number: int
    stage: Stage
    title: str
    text: str
    parts: tuple[PartName, ...] = ()
    machine: str = ""
    settings: tuple[str, ...] = ()
    active: float = 0.0
    wait: float = 0.0
    wait_for: str = ""
    after: tuple[int, ...] = ()
    check: str = ""
    cautions: tuple[str, ...] = ()
    joined: tuple[PartName, ...] = ()
    joints: tuple[str, ...] = ()  # ids of the joints this step cuts, or puts together
    stock: tuple[str, ...] = ()  # boards, sticks and sheets it saws, as the cut plan names them


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """`group`: timber, sheets, hardware, supplies. `need` and `on_hand` of `unit`; `buy` in whole packs."""

    group: str
    item: str
    need: float
    unit: str
    on_hand: float
    buy: float
    price_each: float
    cost: float
    note: str = ""


@dataclass(frozen=True, slots=True)
class Cost:
    bought: float
    from_rack: float  # value of owned stock used up
    supplies: float
    hours: float
    labour: float
    currency: str

    @property
    def total(self) -> float:
        """Money still to be spent."""
        return self.bought + self.supplies


@dataclass(frozen=True, slots=True)
class Slot:
    """When a step is done: minutes from the start of the build, shop hours only, and its wait's end."""

    step: int
    start: float
    end: float
    free_at: float


@dataclass(frozen=True)
class BuildPlan:
    steps: tuple[Step, ...]
    shopping: tuple[ShoppingLine, ...]
    cost: Cost
    active_minutes: float
    waiting_minutes: float
    schedule: tuple[Slot, ...] = ()
    notes: tuple[str, ...] = ()
