"""Which step a tick is for: keys that outlive planning again, and ticks matched to the steps of a plan.

A key reads `Flatten 19 blanks on the sled ~kind.what.how`. `kind` is the sort of work, `what` the parts,
joints and machine, `how` the title and the settings. A tick whose `how` no longer agrees is no tick of what
the plan now says: the step was done earlier and has changed since.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256

from scantling.building.build_plan import Step

LETTERS = 8  # of a digest: a plan has some hundred steps
_COUNTS = re.compile(r"\d+|s\b")
_BETWEEN = re.compile(r"[,;:] | and ")


@dataclass(frozen=True, slots=True)
class Tick:
    """A tick found again. `key`: as it was kept; `changed`: the step is not what it was when ticked."""

    key: str
    when: datetime
    changed: bool = False


@dataclass(frozen=True, slots=True)
class Astray:
    """A tick whose step is no longer in the plan. `words`: what the step was called then."""

    key: str
    words: str
    when: datetime


@dataclass(frozen=True, slots=True)
class Ticked:
    """Ticks by the number of their step, and those that found none."""

    by_step: Mapping[int, Tick]
    astray: tuple[Astray, ...]


def step_keys(steps: Sequence[Step]) -> Mapping[int, str]:
    """The key of each step by its number: each once in a plan, whatever the numbers are."""
    met: dict[tuple[str, str], int] = {}
    keys: dict[int, str] = {}
    for step in sorted(steps, key=lambda step: step.number):
        same = (_kind(step), _digest(_subject(step)))
        met[same] = met.get(same, 0) + 1
        what = _digest(*_subject(step), met[same])
        keys[step.number] = f"{step.title} ~{same[0]}.{what}.{_digest(_said(step))}"
    return keys


def words_of(key: str) -> str:
    """What the step of a key was called."""
    return key.rpartition(" ~")[0]


def ticked(steps: Sequence[Step], done: Mapping[str, datetime]) -> Ticked:
    """Each tick at its step: the very same one, else one of the same parts, else one of the same kind."""
    open_steps = dict(step_keys(steps))
    open_ticks = dict(sorted(done.items(), key=lambda tick: (tick[1], tick[0])))
    found: dict[int, Tick] = {}
    for shared in (3, 2, 1):
        for number, key in _matched(open_steps, open_ticks, shared):
            found[number] = Tick(key, open_ticks.pop(key), changed=shared < 3)
            del open_steps[number]
    return Ticked(found, tuple(Astray(key, words_of(key), when) for key, when in open_ticks.items()))


def _matched(
    steps: Mapping[int, str], ticks: Mapping[str, datetime], shared: int
) -> tuple[tuple[int, str], ...]:
    """Pairs that share the first tokens of their keys, in the order of the steps and of the ticks."""
    waiting: dict[str, list[str]] = {}
    for key in ticks:
        waiting.setdefault(_sign(key, shared), []).append(key)
    return tuple(_paired(steps, waiting, shared))


def _paired(
    steps: Mapping[int, str], waiting: Mapping[str, list[str]], shared: int
) -> Iterator[tuple[int, str]]:
    for number in sorted(steps):
        if alike := waiting.get(_sign(steps[number], shared)):
            yield number, alike.pop(0)


def _sign(key: str, shared: int) -> str:
    return ".".join(key.rpartition(" ~")[2].split(".")[:shared])


def _kind(step: Step) -> str:
    return _digest(step.stage.value, _COUNTS.sub("", step.title))


def _subject(step: Step) -> tuple[object, ...]:
    return tuple(sorted(step.parts)), tuple(sorted(step.joints)), step.machine


def same_words(line: str) -> tuple[str, ...]:
    """The phrases of a setting whatever their order: planning again may list the same things otherwise."""
    return tuple(sorted(_BETWEEN.split(line)))


def _said(step: Step) -> tuple[object, ...]:
    return step.title, tuple(sorted(map(same_words, step.settings)))


def _digest(*words: object) -> str:
    return sha256(repr(words).encode()).hexdigest()[:LETTERS]
