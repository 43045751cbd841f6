"""Named fittings: which rule lays out which kind, and what all of them share."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Feature, HardwareUse, JointLayout
from scantling.joinery.meeting import Meeting, meeting_of
from scantling.piece.model import (
    FLOOR,
    WALL,
    Face,
    Hardware,
    Joint,
    JointSettings,
    Notice,
    Part,
    PartName,
    Vec3,
)
from scantling.quantity import QuantityError, parse_length

PartFeatures = tuple[tuple[PartName, tuple[Feature, ...]], ...]


@dataclass(frozen=True, slots=True)
class Fitted:
    """What one fitting puts on parts, by part (own frames), and what it says."""

    features: PartFeatures
    layout: JointLayout
    hardware: tuple[HardwareUse, ...]
    notices: tuple[Notice, ...] = ()


@dataclass(frozen=True, slots=True)
class Screws:
    """Screws that come on top of the fitting: gauge, length [mm], how many."""

    gauge: float
    length: float
    count: int
    name: str

    @property
    def major(self) -> float:
        return rules.screw_row(self.gauge)["major"]


FittingRule = Callable[[Hardware, Bench], Fitted]


def meeting_for(fitting: Hardware, bench: Bench) -> Meeting | None:
    """How the two parts it joins face each other, touching or not; None at a wall or a single part."""
    if fitting.joins is None or fitting.joins[1] in (WALL, FLOOR):
        return None
    first, second = fitting.joins
    joint = Joint(fitting.name, first, second, "rests", None, None, None, JointSettings(), 0, fitting.place)
    return meeting_of(joint, bench.piece.part_by_name)


def size_of(fitting: Hardware, name: str, otherwise: float) -> float:
    """A size the maker or the shop gives, else `otherwise`. [mm]"""
    return dict(fitting.sizes).get(name, otherwise)


def marked_size(fitting: Hardware, bench: Bench) -> float | None:
    """The size in the kind as written: `butt hinge 2 1/2`. [mm]"""
    words = fitting.kind.split()
    for start in range(1, len(words)):
        try:
            return parse_length(" ".join(words[start:]), bench.piece.unit)
        except QuantityError:
            continue
    return None


def item_screw(fitting: Hardware, bench: Bench) -> tuple[float, float] | None:
    """Gauge and length [mm] of the screw the shop's item is fixed with (`5 x 5/8`); None if it names none."""
    item = next((i for i in bench.shop.hardware if i.id == fitting.item), None)
    gauge, cross, length = item.screws.partition(" x ") if item else ("", "", "")
    if not cross:
        return None
    return float(gauge), parse_length(length, bench.shop.unit)


def plain_kind(fitting: Hardware) -> str:
    """The kind without its size: `butt hinge`."""
    words = fitting.kind.split()
    number = next((i for i, word in enumerate(words) if word[0].isdigit()), len(words))
    return " ".join(words[:number])


def fitted(
    fitting: Hardware,
    features: PartFeatures,
    text: str,
    *,
    at: Sequence[Vec3] = (),
    count: int | None = None,
    screws: Screws | None = None,
    numbers: Sequence[tuple[str, float]] = (),
    notices: Sequence[Notice] = (),
    source: str = "",
) -> Fitted:
    """The result of a rule: the fitting itself, and the screws it is fixed with."""
    count = count if count is not None else fitting.count
    parts = fitting.joins or tuple(p for p in (fitting.to, fitting.under) if p)
    kind = plain_kind(fitting)
    size = fitting.kind[len(kind) :].strip()
    uses = [HardwareUse(kind, size, count, fitting.name, parts, fitting.sizes, tuple(at), fitting.item)]
    if screws is not None:
        sizes = (("diameter", screws.major), ("length", screws.length))
        uses.append(HardwareUse("wood screw", screws.name, screws.count, fitting.name, parts, sizes))
    where = " and ".join(parts)
    words = f"{where}: {text}" if where else text
    layout = JointLayout(fitting.name, kind, words, (("count", float(count)), *numbers), 0.0, source)
    return Fitted(features, layout, tuple(uses), tuple(notices))


def fitting_notice(
    fitting: Hardware,
    code: str,
    message: str,
    *,
    number: float | None = None,
    remedy: str = "",
    must: bool = False,
) -> Notice:
    """A notice about a fitting, at the line that wrote it."""
    parts = fitting.joins or tuple(p for p in (fitting.to, fitting.under) if p)
    return Notice(code, f"{fitting.name}: {message}", fitting.place, parts, number, remedy, must)


def not_laid_out(fitting: Hardware, code: str, message: str, remedy: str) -> Fitted:
    """A fitting that names too few parts to say where it goes."""
    found = fitting_notice(fitting, code, message, remedy=remedy, must=True)
    return fitted(fitting, (), "not laid out", notices=(found,))


def said_place(fitting: Hardware, part: Part, face: Face) -> Vec3:
    """The middle of a face of the part, moved to what `at` says. Part's own frame."""
    at = list(part.box.centre)
    for word, place in fitting.at:
        axis = {"wide": 0, "deep": 1, "high": 2}[word]
        at[axis] = place - part.placement.shift[axis]
    at[face.axis] = part.box.face(face)
    return (at[0], at[1], at[2])
