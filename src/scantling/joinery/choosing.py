"""Which wood screw: as said, else one the shop lists, else one the trade sells; and how deep it sits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import Drive, drive_of
from scantling.joinery.meeting import Meeting

_SLIMMEST = 6.0  # gauge: the least taken unasked
_ABOUT = 0.3  # mm
_LONGER = 1.25  # times the wish: a longer screw of the rack is passed over for another gauge
_LEAST_UNDER_HEAD = 6.0  # mm of wood a sunk head must press on


@dataclass(frozen=True, slots=True)
class Screw:
    """`gauge` 0 where the maker gave a diameter. [mm]"""

    gauge: float
    major: float
    clearance: float
    length: float

    def name(self, bench: Bench) -> str:
        size = f"{self.gauge:g}" if self.gauge else bench.number(self.major)
        return f"{size} x {bench.number(self.length)}"


def driven(m: Meeting, bench: Bench, *, from_first: bool | None = None) -> tuple[Drive, Screw]:
    """The screw, and the way it is driven: its head sunk deeper where no screw sold is long enough."""
    step = 2 * bench.step
    drive = drive_of(m, from_first=from_first)
    drive = replace(drive, sunk=drive.sunk // step * step)
    screw = _screw_for(m, bench, drive)
    least = least_thread(drive, screw.major)
    lack = least - (screw.length - drive.under)
    too_short = lack > (0.5 if m.settings.size else 0.2) * least
    if too_short and drive.under - lack >= _LEAST_UNDER_HEAD:
        drive = replace(drive, sunk=drive.sunk + -(-lack // step) * step)
    return drive, screw


def least_thread(drive: Drive, major: float) -> float:
    """Thread that must bite: 6 diameters, or two thirds of a thinner part. [mm]"""
    return min(rules.number("screw thread least over diameter") * major, drive.into * 2 / 3)


def _screw_for(m: Meeting, bench: Bench, drive: Drive) -> Screw:
    size = m.settings.size
    if size and not m.settings.gauge:
        length = size[1] if len(size) > 1 else _usual_length(bench, drive, 10.0)
        return Screw(0.0, size[0], size[0] + rules.number("bolt hole spare"), length)
    if len(size) > 1:
        return _of_gauge(size[0], size[1])
    gauges = (size[0],) if size else _gauges(m, drive)
    listed = (_listed(bench, drive, gauge) for gauge in gauges)
    found = next((screw for screw in listed if screw is not None), None)
    return found or _of_gauge(gauges[0], _usual_length(bench, drive, gauges[0]))


def _of_gauge(gauge: float, length: float) -> Screw:
    row = rules.screw_row(gauge)
    return Screw(gauge, row["major"], row["clearance"], length)


def _gauges(m: Meeting, drive: Drive) -> tuple[float, ...]:
    """By the wood under the head, slimmer on a narrow meeting; then its neighbours in the table."""
    wanted = rules.row_for("screw gauges", "thick", drive.under)["gauge"]
    rows = [row for row in rules.rows("screws") if row["gauge"] >= _SLIMMEST]
    fitting = [r["gauge"] for r in rows if 4 * r["major"] <= m.thin + _ABOUT] or [_SLIMMEST]
    slim = [gauge for gauge in fitting if gauge <= wanted] or [_SLIMMEST]
    above = [gauge for gauge in fitting if gauge > slim[-1]]
    return tuple(dict.fromkeys((slim[-1], *slim[-2:-1], *above[:1])))


def _wish(drive: Drive, gauge: float) -> float:
    """2.75 times the wood under the head, 7 to 8 diameters of thread, half as much again in end grain."""
    major = rules.screw_row(gauge)["major"]
    thread = (rules.number("screw length over thickness") - 1) * drive.under
    thread = min(thread, rules.number("screw thread most over diameter") * major)
    thread = max(thread, rules.number("screw thread over diameter") * major)
    if drive.into_end_grain:
        thread *= rules.number("screw end grain longer")
    return min(drive.under + thread, _most(drive))


def _most(drive: Drive) -> float:
    """The longest that stops short of the far face. [mm]"""
    return drive.under + max(1.0, drive.into - rules.number("screw short of far face"))


def _listed(bench: Bench, drive: Drive, gauge: float) -> Screw | None:
    """The shop's screw of that gauge nearest to the wish, of those that bite and do not come out."""
    major, wish = rules.screw_row(gauge)["major"], _wish(drive, gauge)
    least, most = drive.under + 0.95 * least_thread(drive, major), min(_most(drive), _LONGER * wish)
    lengths = bench.screw_lengths(major)
    fitting = [x for x in lengths if least - _ABOUT <= x <= most + _ABOUT]
    return _of_gauge(gauge, _nearest(fitting, wish)) if fitting else None


def _usual_length(bench: Bench, drive: Drive, gauge: float) -> float:
    """Of the lengths the trade sells in that gauge, the nearest to the wish that does not come out."""
    most = min(_most(drive), rules.screw_row(gauge)["longest"]) + _ABOUT
    series = list(_series(bench))
    return _nearest([x for x in series if x <= most] or series[:1], _wish(drive, gauge))


def _series(bench: Bench) -> Iterator[float]:
    for row in rules.rows("screw lengths"):
        if bool(row["inch"]) is bench.inches:
            yield row["length"]


def _nearest(lengths: Iterable[float], wish: float) -> float:
    return min(lengths, key=lambda length: (abs(length - wish), length))
