"""Free sizes and free choices: the one loop, round resolve and checks.

A size written `least within 1 to 3 by 1/8` takes the first value, from the wished-for end, at which
every check that depends on it passes. A check does not depend on it when it fails alike at the other
end of the range. A choice or material written `any of …` takes the option with the fewest must-fix
findings, then the one whose cut plan leaves least without stock and costs least.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field
from functools import cached_property

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Severity
from scantling.checks.run import CHECKS, Check, Checked
from scantling.cutting import cut_plan
from scantling.geometry import Scene, scene_of
from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPiece
from scantling.piece import Document, resolve
from scantling.piece.model import BuildRecord, NamedSize, Piece
from scantling.quantity.kinds import Kind
from scantling.shop import facts_of
from scantling.shop.model import Shop

Settings = Mapping[str, str]
Key = tuple[str, str, tuple[str, ...]]

MOST_TRIES = 200
MOST_ROUNDS = 3
USUAL_TRIES = 16  # of a range that names no step
_UNIT_WORDS = {Kind.LENGTH: " mm", Kind.ANGLE: " deg", Kind.COUNT: " pcs", Kind.RATIO: ""}


@dataclass(frozen=True, slots=True)
class Settled:
    """One free size or choice as it was settled. `value` in the inside unit for a size, else None.

    `text` is the phrase that stands for it; `why` a sentence: which check decided, or that none stood
    against the wish. `ok`: False where no value passes, and the wished-for one stands.
    """

    name: str
    text: str
    why: str
    value: float | None = None
    ok: bool = True


@dataclass(frozen=True, eq=False)
class Tried:
    """The pipeline up to the checks with one set of settings, each stage run when it is first asked for.

    Raises ResolveError from the stages whose words cannot be worked out.
    """

    piece: Piece
    shop: Shop

    @cached_property
    def machined(self) -> MachinedPiece:
        return machine_piece(self.piece, self.shop)

    @cached_property
    def scene(self) -> Scene:
        return scene_of(self.machined)

    @cached_property
    def checked(self) -> Checked:
        return Checked(Examined(self.machined, self.scene, self.shop))


@dataclass(frozen=True, slots=True)
class _Failure:
    finding: Finding
    check: Check


Failures = dict[Key, _Failure]


@dataclass
class _Trial:
    """Tries settings on one piece file in one shop, each set once."""

    document: Document
    shop: Shop
    record: BuildRecord
    tried: dict[tuple[tuple[str, str], ...], Tried] = field(default_factory=dict)

    def of(self, settings: Settings) -> Tried:
        key = tuple(sorted(settings.items()))
        if key not in self.tried:
            piece = resolve(self.document, facts_of(self.shop), self.record, settings)
            self.tried[key] = Tried(piece, self.shop)
        return self.tried[key]

    def failures(self, settings: Settings, checks: Sequence[Check] = CHECKS) -> Failures:
        """What `checks` find against it."""
        checked = self.of(settings).checked
        return {
            (finding.check, finding.code, finding.where): _Failure(finding, check)
            for check in checks
            for finding in checked.found(check)
            if finding.severity is not Severity.KNOW
        }

    def against(self, settings: Settings, known: Sequence[Check], unavoidable: Set[Key]) -> Failures:
        """What stands against it: what the first of the `known` checks to fail finds, else all checks."""
        for checks in (*((check,) for check in known), CHECKS):
            failures = self.failures(settings, checks)
            found = {key: failure for key, failure in failures.items() if key not in unavoidable}
            if found:
                return found
        return {}


def settle(document: Document, shop: Shop, record: BuildRecord) -> tuple[Tried, tuple[Settled, ...]]:
    """Find every free choice, then every free size.

    Returns
    -------
    The piece as settled, and what was settled and why.
    """
    trial = _Trial(document, shop, record)
    settings, choices = _settle_choices(trial)
    sizes: dict[str, Settled] = {}
    for _ in range(MOST_ROUNDS):
        before = settings
        for size in _free_sizes(trial.of(settings).piece):
            sizes[size.name] = _settle_size(trial, size, settings)
            settings = {**settings, size.name: sizes[size.name].text}
        if settings == before or len(sizes) < 2:
            break
    return trial.of(settings), (*choices, *sizes.values())


def _free_sizes(piece: Piece) -> list[NamedSize]:
    return [size for size in piece.sizes if size.range is not None and size.range.wish is not None]


def _settle_size(trial: _Trial, size: NamedSize, settings: Settings) -> Settled:
    """Walk the range from the wished-for end.

    A value that fails a check known to have failed before is passed over by that check alone; a value is
    taken only when all checks pass.
    """
    tries = [({**settings, size.name: _phrase(size, value)}, value) for value in _candidates(size)]
    first = trial.failures(tries[0][0])
    last = trial.failures(tries[-1][0], _checks_of(first))
    against = {key: failure for key, failure in first.items() if key not in last}
    unavoidable = first.keys() - against.keys()
    if not against:
        return _at_the_first(size, *tries[0], _stuck(first, last))
    known = _checks_of(against)
    for tried, value in tries[1:]:
        found = trial.against(tried, known, unavoidable)
        if not found:
            return Settled(size.name, tried[size.name], _reason(against), value)
        against, known = found, _checks_of(found, known)
    return _at_the_first(size, *tries[0], _first(against))


def _at_the_first(size: NamedSize, settings: Settings, value: float, stuck: Finding | None) -> Settled:
    why = f"no value in its range passes: {stuck.message}" if stuck else "no check stands against it"
    return Settled(size.name, settings[size.name], why, value, ok=stuck is None)


def _stuck(first: Failures, last: Failures) -> Finding | None:
    """What must be fixed and changes along the range, yet fails at both of its ends."""
    for key, failure in first.items():
        if failure.finding.must_fix and failure.finding.number != last[key].finding.number:
            return failure.finding
    return None


def _checks_of(failures: Failures, more: Sequence[Check] = ()) -> tuple[Check, ...]:
    wanted = {failure.check for failure in failures.values()}.union(more)
    return tuple(check for check in CHECKS if check in wanted)


def _candidates(size: NamedSize) -> list[float]:
    """Values of the range from the wished-for end; `free` starts from the value as written."""
    span = size.range
    assert span is not None
    step = span.step or (span.high - span.low) / USUAL_TRIES or 1.0
    count = min(int((span.high - span.low) / step + 1e-9), MOST_TRIES)
    if span.wish == "most":
        return [span.high - step * i for i in range(count + 1)]
    values = [span.low + step * i for i in range(count + 1)]
    if span.wish == "free":
        values.sort(key=lambda value: (abs(value - size.value), value))
    return values


def _phrase(size: NamedSize, value: float) -> str:
    """A value as a phrase that reads back to the same quantity in a file of either unit."""
    return f"{round(value, 9):.9g}{_UNIT_WORDS[size.kind]}"


def _reason(against: Failures) -> str:
    decisive = _first(against)
    return f"one step before, {decisive.check} failed: {decisive.message}"


def _first(failures: Failures) -> Finding:
    return next(iter(failures.values())).finding


def _settle_choices(trial: _Trial) -> tuple[Settings, tuple[Settled, ...]]:
    settings: Settings = {}
    piece = trial.of(settings).piece
    free = [(choice.name, choice.options) for choice in piece.choices if choice.free]
    free += [(material.name, material.alternatives) for material in piece.materials if material.free]
    done = []
    for name, options in free:
        done.append(_settle_choice(trial, name, options, settings))
        settings = {**settings, name: done[-1].text}
    return settings, tuple(done)


def _settle_choice(trial: _Trial, name: str, options: tuple[str, ...], settings: Settings) -> Settled:
    def rank(option: str) -> tuple[int, int, float]:
        tried = {**settings, name: option}
        musts = sum(failure.finding.must_fix for failure in trial.failures(tried).values())
        wood = cut_plan(trial.of(tried).machined, trial.shop)
        return musts, len(wood.unmet), wood.money

    ranks = {option: rank(option) for option in options}
    best = min(options, key=lambda option: ranks[option])
    musts, unmet, money = ranks[best]
    why = (
        f"of {len(options)} it does best: {musts} findings that must be fixed, "
        f"{unmet} blanks without stock, {money:.2f} to spend on stock"
    )
    return Settled(name, best, why, ok=musts == 0 and unmet == 0)
