"""In the worker: how the steps of one plan are otherwise than those of another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from scantling.desk.build.changes import Change

if TYPE_CHECKING:
    from scantling.building import Step
    from scantling.packet.context import Context


def steps_changed(old: Context, new: Context) -> Iterator[Change]:
    """Old steps found again in the new plan as ticks are: what is not the very same is told."""
    from scantling.building.ticks import step_keys, ticked

    before, after = old.plan.build_plan.steps, new.plan.build_plan.steps
    keys = step_keys(before)
    titles = {keys[step.number]: step for step in before}
    again = ticked(after, dict.fromkeys(titles, datetime.min.replace(tzinfo=UTC)))
    for step in after:
        tick = again.by_step.get(step.number)
        if tick is None:
            yield Change(f"{step.number} {step.title}", "", "new")
        elif tick.changed:
            yield Change(f"{step.number} {step.title}", *_otherwise(titles[tick.key], step))
    for gone in again.astray:
        yield Change(gone.words, "in the plan", "no longer needed")


def _otherwise(old: Step, new: Step) -> tuple[str, str]:
    """The first that differs, most telling first; of long words only what is not on both sides."""
    from scantling.packet.shown import bound

    told = (pair for pair in _pairs(old, new) if pair[0] != pair[1])
    lost, won = next(told, ("", "joins other parts"))
    return bound(lost), bound(won)


def _pairs(old: Step, new: Step) -> Iterator[tuple[str, str]]:
    yield _only(old.settings, new.settings), _only(new.settings, old.settings)
    yield old.title, new.title
    yield _only(_sentences(old), _sentences(new)), _only(_sentences(new), _sentences(old))
    yield old.machine, new.machine
    lost, won = _only(old.parts, new.parts), _only(new.parts, old.parts)
    yield (f"also for {lost}" if lost else ""), (f"also for {won}" if won else "")


def _sentences(step: Step) -> list[str]:
    return [part.strip(".") for part in step.text.replace("; ", ". ").split(". ")]


def _only(these: Sequence[str], others: Sequence[str]) -> str:
    from scantling.building.ticks import same_words

    known = {same_words(words) for words in others}
    return "; ".join(words for words in these if same_words(words) not in known)
