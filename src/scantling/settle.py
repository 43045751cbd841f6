"""Free sizes and free choices: the one loop, round resolve and checks.

A size written `least within 1 to 3 by 1/8` takes the first value, from the wished-for end, at which
every check that depends on it passes. A check does not depend on it when it fails alike at the other
end of the range. A choice or material written `any of …` takes the option with the fewest findings,
then the one whose cut plan costs least.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.checks import check_piece
from scantling.checks.finding import Finding, Severity
from scantling.cutting import cut_plan
from scantling.geometry import scene_of
from scantling.joinery import machine_piece
from scantling.piece import Document, resolve
from scantling.piece.model import BuildRecord, NamedSize, Piece
from scantling.quantity.kinds import Kind
from scantling.shop import facts_of
from scantling.shop.model import Shop

Settings = dict[str, str]
Key = tuple[str, str, tuple[str, ...]]

MOST_TRIES = 200
_UNIT_WORDS = {Kind.LENGTH: " mm", Kind.ANGLE: " deg", Kind.COUNT: " pcs", Kind.RATIO: ""}
MOST_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Settled:
    """One free size or choice as it was settled. `value` in mm for a size, None for a choice.

    `why` is a sentence: which check decided, or that none stood against the wish.
    """

    name: str
    text: str
    why: str
    value: float | None = None
    ok: bool = True


@dataclass(frozen=True)
class _Trial:
    """The pipeline up to the checks, for one piece file in one shop."""

    document: Document
    shop: Shop
    record: BuildRecord

    def piece(self, settings: Settings) -> Piece:
        return resolve(self.document, facts_of(self.shop), self.record, settings)

    def failures(self, settings: Settings) -> dict[Key, Finding]:
        machined = machine_piece(self.piece(settings), self.shop)
        findings = check_piece(machined, scene_of(machined), self.shop)
        return {_key(f): f for f in findings if f.severity is not Severity.KNOW}

    def money(self, settings: Settings) -> tuple[int, float]:
        """Blanks that cannot be had, then money to be spent."""
        plan = cut_plan(machine_piece(self.piece(settings), self.shop), self.shop)
        return len(plan.unmet), plan.money


def settle(document: Document, shop: Shop, record: BuildRecord) -> tuple[Settings, tuple[Settled, ...]]:
    """Find every free choice, then every free size.

    Returns
    -------
    Settings to resolve with (name -> phrase), and what was settled and why.
    """
    trial = _Trial(document, shop, record)
    settings: Settings = {}
    choices = _settle_choices(trial, settings)
    sizes: dict[str, Settled] = {}
    for _ in range(MOST_ROUNDS):
        before = dict(settings)
        for size in _free_sizes(trial.piece(settings)):
            sizes[size.name] = _settle_size(trial, size, settings)
            settings[size.name] = sizes[size.name].text
        if settings == before or len(sizes) < 2:
            break
    return settings, (*choices, *sizes.values())


def _free_sizes(piece: Piece) -> list[NamedSize]:
    return [size for size in piece.sizes if size.range is not None and size.range.wish is not None]


def _settle_size(trial: _Trial, size: NamedSize, settings: Settings) -> Settled:
    values = list(_candidates(size))
    unavoidable = _unavoidable(trial, size, values, settings)
    last: dict[Key, Finding] = {}
    for value in values:
        failures = trial.failures({**settings, size.name: _phrase(size, value)})
        against = {key: f for key, f in failures.items() if key not in unavoidable}
        if not against:
            return Settled(size.name, _phrase(size, value), _reason(values[0] == value, last), value)
        last = against
    first = next(iter(last.values()))
    why = f"no value in its range passes: {first.message}"
    return Settled(size.name, _phrase(size, values[0]), why, values[0], ok=False)


def _unavoidable(trial: _Trial, size: NamedSize, values: list[float], settings: Settings) -> set[Key]:
    """Failures found at both ends of the range: this size does not mend them."""
    first, last = (
        trial.failures({**settings, size.name: _phrase(size, value)}) for value in (values[0], values[-1])
    )
    return first.keys() & last.keys()


def _candidates(size: NamedSize) -> Iterator[float]:
    """Values of the range from the wished-for end; `free` starts from the value as written."""
    span = size.range
    assert span is not None
    step = span.step or (span.high - span.low) / 16 or 1.0
    count = min(int((span.high - span.low) / step + 1e-9), MOST_TRIES)
    values = [span.low + step * i for i in range(count + 1)]
    if span.wish == "most":
        values = [span.high - step * i for i in range(count + 1)]
    if span.wish == "free":
        values.sort(key=lambda value: (abs(value - size.value), value))
    return iter(values)


def _reason(first: bool, last: dict[Key, Finding]) -> str:
    if first or not last:
        return "no check stands against it"
    decisive = next(iter(last.values()))
    return f"one step before, {decisive.check} failed: {decisive.message}"


def _settle_choices(trial: _Trial, settings: Settings) -> tuple[Settled, ...]:
    piece = trial.piece(settings)
    free = [(c.name, c.options) for c in piece.choices if c.free]
    free += [(m.name, m.alternatives) for m in piece.materials if m.free]
    return tuple(_settle_choice(trial, name, options, settings) for name, options in free)


def _settle_choice(trial: _Trial, name: str, options: tuple[str, ...], settings: Settings) -> Settled:
    def rank(option: str) -> tuple[int, int, float]:
        tried = {**settings, name: option}
        musts = sum(f.must_fix for f in trial.failures(tried).values())
        return (musts, *trial.money(tried))

    ranks = {option: rank(option) for option in options}
    best = min(options, key=lambda option: ranks[option])
    settings[name] = best
    musts, unmet, money = ranks[best]
    why = f"of {len(options)}: {musts} must-fix findings, {unmet} blanks without stock, {money:.2f} to spend"
    return Settled(name, best, why, ok=musts == 0 and unmet == 0)


def _phrase(size: NamedSize, value: float) -> str:
    """A value as a phrase that reads back to the same quantity in a file of either unit."""
    return f"{round(value, 9):.9g}{_UNIT_WORDS[size.kind]}"


def _key(finding: Finding) -> Key:
    return (finding.check, finding.code, finding.where)
