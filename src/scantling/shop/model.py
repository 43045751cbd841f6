"""The shop: what is on the rack, what stands on the floor, what things cost. mm, kg, °C, percent."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.errors import Place
from scantling.quantity.kinds import LengthUnit


class Surface(Enum):
    ROUGH = "rough"
    ONE_FACE = "surfaced one face"
    TWO_FACES = "surfaced two faces"
    FOUR_SIDES = "surfaced four sides"


class BoardFace(Enum):
    BEST = "best"
    OTHER = "other"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class Defect:
    """A keep-out rectangle on a board: `from_end`..`to_end` along it, `from_edge`..`to_edge` across it.

    `kind`: knot, sound knot, check, split, wane, pith, hole, sapwood, stain. `face`: where it shows.
    """

    kind: str
    from_end: float
    to_end: float
    from_edge: float
    to_edge: float
    face: BoardFace = BoardFace.BOTH


@dataclass(frozen=True, slots=True)
class Warp:
    """Measured on the whole board: bow, crook, cup and twist by the trade's four measures. [mm]"""

    bow: float = 0.0
    crook: float = 0.0
    cup: float = 0.0
    twist: float = 0.0


@dataclass(frozen=True, slots=True)
class Station:
    """The shape of a board at one place along its middle. [mm]

    `gap`: from a straightedge on both ends down to the best face, less than 0 where the board stands
    above it. `cup`: over the whole width there, less than 0 where it is crowned. `twist`: how much more the
    far edge stands up than at the first end. None: not told there.
    """

    at: float
    gap: float
    cup: float | None = None
    twist: float | None = None


@dataclass(frozen=True, slots=True)
class Board:
    """One board on the rack. `owned`: already paid for. `price`: for the whole board, if for sale.

    `figure`: plain, straight, curl, ... for matching. `end_waste`: to discard at each rough end.
    """

    id: str
    species: str
    length: float
    width: float
    thickness: float
    surface: Surface
    warp: Warp
    place: Place
    nominal: str = ""  # "4/4"
    moisture: float | None = None
    defects: tuple[Defect, ...] = ()
    owned: bool = True
    price: float = 0.0
    figure: str = ""
    rings: str = "flat"
    end_waste: float = 25.0
    stations: tuple[Station, ...] = ()  # where given, they tell its shape; bow, cup and twist fill gaps


@dataclass(frozen=True, slots=True)
class Sheet:
    """A stack of equal sheets: marked `label` thick, measuring `thickness`. Grain runs with `length`."""

    id: str
    name: str  # "birch plywood"
    label: float
    thickness: float
    length: float
    width: float
    place: Place
    count: int = 1
    owned: bool = True
    price: float = 0.0  # a sheet
    defects: tuple[Defect, ...] = ()


@dataclass(frozen=True, slots=True)
class Lumber:
    """Dressed sticks by nominal size: "pine", "2x4". `count` None: as many as wanted, to buy."""

    id: str
    name: str
    nominal: str
    thickness: float
    width: float
    length: float
    place: Place
    count: int | None = None
    owned: bool = False
    price: float = 0.0  # a stick


@dataclass(frozen=True, slots=True)
class BoardForSale:
    """Timber a yard sells by the board foot, when the rack does not do. Sizes of a usual board.

    `thickness`: as sold (rough or surfaced); `price_per_board_foot` by nominal thickness.
    """

    id: str
    species: str
    nominal: str
    thickness: float
    width: float
    length: float
    surface: Surface
    price_per_board_foot: float
    place: Place


class MachineKind(Enum):
    """What a machine is for; the words are the trade's."""

    TABLE_SAW = "table saw"
    MITRE_SAW = "mitre saw"
    CIRCULAR_SAW = "circular saw"
    BAND_SAW = "band saw"
    JIGSAW = "jigsaw"
    HAND_SAW = "hand saw"
    PLANER = "planer"
    JOINTER = "jointer"
    HAND_PLANE = "hand plane"
    ROUTER = "router"
    ROUTER_TABLE = "router table"
    DRILL = "drill"
    DRILL_PRESS = "drill press"
    DOWEL_JIG = "dowel jig"
    POCKET_JIG = "pocket jig"
    DOVETAIL_JIG = "dovetail jig"
    MORTISER = "mortiser"
    LATHE = "lathe"
    SANDER = "sander"
    BISCUIT_JOINER = "biscuit joiner"


@dataclass(frozen=True, slots=True)
class Machine:
    """Limits in mm; None = no limit known. `sled`: for a planer, whether a flattening sled is at hand."""

    name: str
    kind: MachineKind
    place: Place
    kerf: float | None = None
    most_width: float | None = None
    most_thickness: float | None = None
    least_thickness: float | None = None
    least_length: float | None = None
    most_length: float | None = None
    snipe: float | None = None  # length lost at each end
    sled: bool = False
    sled_thickness: float = 0.0
    accuracy: float | None = None


@dataclass(frozen=True, slots=True)
class Clamp:
    kind: str
    count: int
    opens: float
    place: Place
    force: float | None = None  # N


@dataclass(frozen=True, slots=True)
class HardwareItem:
    """A fitting on hand or for sale. `sizes` in mm by name; `rating` kg a pair or piece; `pack` pieces."""

    id: str
    kind: str  # "side slide", "butt hinge", "wood screw", "dowel", "figure eight"
    name: str
    price: float
    place: Place
    pack: int = 1
    on_hand: int = 0
    sizes: tuple[tuple[str, float], ...] = ()
    rating: float | None = None
    screws: str = ""  # what it is fixed with: "6 x 5/8"


@dataclass(frozen=True, slots=True)
class Supply:
    """Glue, finish, abrasive: price a unit, `covers` m² a unit and coat where that is known."""

    id: str
    kind: str  # "wood glue", "wiping varnish", "sandpaper"
    unit: str  # "litre", "sheet", "kg"
    price: float
    place: Place
    covers: float | None = None
    on_hand: float = 0.0


@dataclass(frozen=True, slots=True)
class Climate:
    """Air of the shop: relative humidity 0..1, °C. `dry` and `damp`: what it ranges between, if known."""

    humidity: float = 0.45
    temperature: float = 20.0
    dry: float | None = None
    damp: float | None = None


@dataclass(frozen=True)
class Shop:
    name: str
    unit: LengthUnit
    boards: tuple[Board, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    lumber: tuple[Lumber, ...] = ()
    for_sale: tuple[BoardForSale, ...] = ()
    machines: tuple[Machine, ...] = ()
    clamps: tuple[Clamp, ...] = ()
    hardware: tuple[HardwareItem, ...] = ()
    supplies: tuple[Supply, ...] = ()
    climate: Climate = Climate()
    hours_a_week: float | None = None
    currency: str = ""
    hour_rate: float = 0.0
    fraction: int = 32  # denominators shown
    note: str = ""
    likes: tuple[str, ...] = ()  # joint methods, best liked first, as the maker lists them

    def machine(self, kind: MachineKind) -> Machine | None:
        """The first machine of that kind, as listed."""
        return next((m for m in self.machines if m.kind is kind), None)
