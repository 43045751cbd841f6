"""When each step is done: one maker, sessions through the week, waits that stop nobody."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from scantling.building.build_plan import Slot, Step

WEEK = 7 * 24 * 60.0
LONGEST_SESSION = 4 * 60.0  # minutes a maker works at a stretch; common practice, no source
USUAL_HOURS = 10.0  # a week, where the shop file does not say


@dataclass(frozen=True, slots=True)
class Sessions:
    """A week's hours in equal sessions, evenly spread. Turns shop minutes into time on the wall and back."""

    hours_a_week: float

    @property
    def count(self) -> int:
        return max(1, ceil(self.hours_a_week * 60 / LONGEST_SESSION))

    @property
    def long(self) -> float:
        return self.hours_a_week * 60 / self.count

    @property
    def apart(self) -> float:
        return WEEK / self.count

    def wall(self, worked: float) -> float:
        """Minutes since the start when `worked` minutes of shop time are over."""
        at = max(0, ceil(worked / self.long - 1e-9) - 1)
        return at * self.apart + worked - at * self.long

    def worked(self, wall: float) -> float:
        """Shop minutes that have passed at a time on the wall."""
        at = floor(wall / self.apart + 1e-9)
        return at * self.long + min(wall - at * self.apart, self.long)


def schedule(steps: Sequence[Step], hours_a_week: float | None) -> tuple[Slot, ...]:
    """Do the first step of the list whose waits are over; stand idle only when there is none.

    `start`, `end` and `free_at` are shop minutes; a wait runs on through the nights between sessions.
    """
    sessions = Sessions(hours_a_week or USUAL_HOURS)
    free: dict[int, float] = {}
    left = list(steps)
    slots: list[Slot] = []
    now = 0.0
    while left:
        open_steps = [step for step in left if all(number in free for number in step.after)]
        ready = [(max([0.0, *(free[n] for n in step.after)]), step) for step in open_steps]
        first = next((s for at, s in ready if at <= now + 1e-9), None) or min(ready, key=lambda p: p[0])[1]
        start = max(now, *(free[n] for n in first.after), 0.0) if first.after else now
        slot = _slot(first, start, sessions)
        slots.append(slot)
        free[first.number] = slot.free_at
        left.remove(first)
        now = slot.end
    return tuple(slots)


def _slot(step: Step, start: float, sessions: Sessions) -> Slot:
    end = start + step.active
    free_at = sessions.worked(sessions.wall(end) + step.wait) if step.wait else end
    return Slot(step.number, start, end, max(end, free_at))


def weeks(slots: Sequence[Slot], steps: Sequence[Step], hours_a_week: float | None) -> float:
    """Weeks from the first cut until the last wait is over."""
    sessions = Sessions(hours_a_week or USUAL_HOURS)
    waits = {step.number: step.wait for step in steps}
    return max((sessions.wall(slot.end) + waits[slot.step] for slot in slots), default=0.0) / WEEK
