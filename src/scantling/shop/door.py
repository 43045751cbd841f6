"""The door: every entry of a shop file passes one of these models. Extra keys are refused.

Fields carry the words a maker writes as their aliases; values arrive as text and leave in mm, kg, N, °C.
The context of each validation is the unit of bare numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo

from scantling.quantity.kinds import LengthUnit
from scantling.shop import words
from scantling.shop.model import MachineKind, Surface
from scantling.shop.words import AmissError


def _in_unit(parse: Callable[[str, LengthUnit], Any]) -> BeforeValidator:
    def read(text: str, info: ValidationInfo) -> Any:
        unit = info.context
        assert isinstance(unit, LengthUnit)
        return parse(text, unit)

    return BeforeValidator(read)


def _one_of(meaning: dict[str, Any], what: str) -> BeforeValidator:
    def read(text: str) -> Any:
        name = " ".join(text.lower().split())
        if name not in meaning:
            raise AmissError(f'"{text}" is not {what}; known are {", ".join(meaning)}')
        return meaning[name]

    return BeforeValidator(read)


def _is_so(text: str) -> bool:
    answers = {"": True, "yes": True, "no": False}
    if text.strip().lower() not in answers:
        raise AmissError(f'"{text}" says nothing here; write yes or no, or the words alone')
    return answers[text.strip().lower()]


def _how_many(text: str) -> int | None:
    """`for sale` alone is any number: None; `for sale 6` is six."""
    return words.count(text) if text.strip() else None


def _gauge(text: str) -> int:
    gauge = words.count(text)
    if not 4 <= gauge <= 14:
        raise AmissError("wood screws have gauges 4 to 14; a thicker one is named by its diameter")
    return gauge


def _price_for(text: str) -> tuple[float, int]:
    """`6.50 for 50` -> (6.5, 50); `14` -> (14, 1)."""
    price, _, pack = text.partition(" for ")
    pieces = words.count(pack) if pack else 1
    if pieces == 0:
        raise AmissError("a pack holds at least one")
    return words.money(price), pieces


def _price_a(text: str) -> tuple[float, str]:
    """`21 a litre` -> (21, "litre")."""
    price, joined, unit = text.partition(" a ")
    if not joined or not unit.strip():
        raise AmissError("say the price and for what, such as 21 a litre or 0.80 a sheet")
    return words.money(price), unit.strip().lower()


SURFACES = {surface.value: surface for surface in Surface} | {
    "s1s": Surface.ONE_FACE,
    "s2s": Surface.TWO_FACES,
    "s4s": Surface.FOUR_SIDES,
}
_KINDS = {kind.value: kind for kind in MachineKind}

Length = Annotated[float, _in_unit(words.length)]
SomeLength = Annotated[float, _in_unit(words.some_length)]
Lengths = Annotated[tuple[float, ...], _in_unit(words.lengths)]
Mass = Annotated[float, _in_unit(words.mass)]
Force = Annotated[float, _in_unit(words.force)]
Degrees = Annotated[float, _in_unit(words.temperature)]
Percent = Annotated[float, BeforeValidator(words.percent)]
Money = Annotated[float, BeforeValidator(words.money)]
Count = Annotated[int, BeforeValidator(words.count)]
Gauge = Annotated[int, BeforeValidator(_gauge)]
Number = Annotated[float, BeforeValidator(words.number)]
Area = Annotated[float, BeforeValidator(words.area)]
Flag = Annotated[bool, BeforeValidator(_is_so)]
HowMany = Annotated[int | None, BeforeValidator(_how_many)]


class Door(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=False)


class BoardDoor(Door):
    size: Lengths
    bow: Length = 0.0
    crook: Length = 0.0
    cup: Length = 0.0
    twist: Length = 0.0
    stations: str = ""
    nominal: str = ""
    surface: Annotated[Surface, _one_of(SURFACES, "a surface")] = Surface.ROUGH
    moisture: Percent | None = None
    figure: str = ""
    rings: Annotated[str, _one_of({w: w for w in ("flat", "quarter", "rift")}, "a cut")] = "flat"
    price: Money = 0.0
    for_sale: Flag = Field(False, alias="for sale")
    ends: Length | None = None
    defects: tuple[str, ...] = ()


class SheetDoor(Door):
    size: Lengths
    on_hand: Count | None = Field(None, alias="on hand")
    for_sale: HowMany = Field(0, alias="for sale")
    price: Money = 0.0
    defects: tuple[str, ...] = ()


class LumberDoor(Door):
    size: Lengths
    on_hand: Count | None = Field(None, alias="on hand")
    for_sale: HowMany = Field(0, alias="for sale")
    price: Money = 0.0


class TimberDoor(Door):
    size: Lengths
    nominal: str
    surface: Annotated[Surface, _one_of(SURFACES, "a surface")] = Surface.ROUGH
    price: Money


class MachineDoor(Door):
    here: Flag = Field(True, alias="yes")
    kind: Annotated[MachineKind | None, _one_of(_KINDS, "a kind of machine")] = Field(None, alias="is a")
    kerf: SomeLength | None = None
    widest: SomeLength | None = None
    thickest: SomeLength | None = None
    thinnest: SomeLength | None = None
    shortest: SomeLength | None = None
    longest: SomeLength | None = None
    snipe: Length | None = None
    sled: Length | None = None
    good_to: SomeLength | None = Field(None, alias="good to")


class ClampDoor(Door):
    count: Count
    opens: SomeLength
    force: Force | None = None


class FittingDoor(Door):
    price: Annotated[tuple[float, int], BeforeValidator(_price_for)] = (0.0, 1)
    on_hand: Count = Field(0, alias="on hand")
    rating: Mass | None = None
    screws: str = ""
    length: SomeLength | None = None
    width: SomeLength | None = None
    height: SomeLength | None = None
    thick: SomeLength | None = None
    diameter: SomeLength | None = None
    gauge: Gauge | None = None
    clearance: SomeLength | None = None
    open_width: SomeLength | None = Field(None, alias="open width")
    reach: SomeLength | None = None
    arm: SomeLength | None = None
    slot: SomeLength | None = None
    travel: SomeLength | None = None
    opens: SomeLength | None = None


class SupplyDoor(Door):
    price: Annotated[tuple[float, str], BeforeValidator(_price_a)]
    covers: Area | None = None
    on_hand: Number = Field(0.0, alias="on hand")


class AirDoor(Door):
    dry: Percent
    damp: Percent
    at: Degrees = 20.0


class HeadDoor(Door):
    """The plain lines at the top of the file."""

    shop: str
    fraction: str = "1/32"
    hours_a_week: Number | None = Field(None, alias="hours a week")
    currency: str = ""
    hour_rate: Money = Field(0.0, alias="hour rate")
    note: str = ""
    likes: tuple[str, ...] = ()
