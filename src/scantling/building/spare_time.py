"""What to do with half an hour: steps that are ready and fit, best first, each with its reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from scantling.building.build_plan import BuildPlan, Stage, Step
from scantling.building.progress import Progress, State
from scantling.building.tables import minutes as usual
from scantling.quantity import listed

LONG_WAIT = 4 * 60.0  # minutes: what is begun now is dry by the next session
LEAST_SHARE = 0.1  # of a step that is worth setting up for
ERRANDS = frozenset({Stage.BUY})  # no work at the bench, whatever time there is
# Work that can be laid down at any part or joint and taken up again; glue and finish cannot.
IN_PIECES = frozenset(
    {
        Stage.CHOOSE, Stage.ROUGH_CUT, Stage.FLATTEN, Stage.RIP, Stage.FINAL_SIZE, Stage.SHAPE, Stage.JOINTS,
        Stage.SAND, Stage.FIT, Stage.HARDWARE,
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A step to do now. `whole`: it can be finished in the time; else `share` of it. `why`: a sentence."""

    step: int
    whole: bool
    share: float
    why: str


def suggestions(plan: BuildPlan, progress: Progress, minutes: float) -> tuple[Suggestion, ...]:
    """Ready steps for that many minutes, set-up included, best first.

    First those that fit whole: what starts a long wait, then what shares a machine with other ready work,
    then what more depends on. After them those of which a worthwhile share can be done.
    """
    by_number = {step.number: step for step in plan.steps}
    ready = [by_number[number] for number in progress.steps(State.READY)]
    ready = [step for step in ready if step.stage not in ERRANDS]
    whole = [step for step in ready if step.active <= minutes]
    parts = [step for step in ready if step.active > minutes and _share(step, minutes) >= LEAST_SHARE]
    after = _followers(plan)
    mates = _mates(ready)
    last = _last_machine(plan, progress)
    ranked = sorted(whole, key=lambda step: _rank(step, mates, after, last))
    shown = sorted(parts, key=lambda step: (-_share(step, minutes), step.number))
    return tuple(Suggestion(s.number, True, 1.0, _why(s, mates, after, last)) for s in ranked) + tuple(
        Suggestion(s.number, False, _share(s, minutes), _why_begun(s, minutes)) for s in shown
    )


def _rank(
    step: Step, mates: Mapping[int, tuple[int, ...]], after: Mapping[int, int], last: str
) -> tuple[float, ...]:
    set_up = bool(step.machine) and step.machine == last
    long_wait = step.wait if step.wait >= LONG_WAIT else 0.0
    return (-long_wait, not set_up, -len(mates[step.number]), -after[step.number], step.number)


def _share(step: Step, minutes: float) -> float:
    """How much of a step can be done in the time, its set-up taken off; 0 where it must be done in one go."""
    if step.stage not in IN_PIECES:
        return 0.0
    set_up = usual("set up") if step.machine else 0.0
    work = step.active - set_up
    return max(0.0, (minutes - set_up) / work) if work > 0 else 0.0


def _mates(ready: list[Step]) -> Mapping[int, tuple[int, ...]]:
    """For each ready step the other ready ones on its machine."""
    return {
        step.number: tuple(
            other.number
            for other in ready
            if other is not step and step.machine and other.machine == step.machine
        )
        for step in ready
    }


def _followers(plan: BuildPlan) -> Mapping[int, int]:
    """How many steps cannot be done before each one."""
    behind: dict[int, set[int]] = {step.number: set() for step in plan.steps}
    for step in sorted(plan.steps, key=lambda step: -step.number):
        for number in step.after:
            behind[number] |= behind[step.number] | {step.number}
    return {number: len(found) for number, found in behind.items()}


def _last_machine(plan: BuildPlan, progress: Progress) -> str:
    """The machine of the step ticked last; it may still stand set up."""
    machines = {step.number: step.machine for step in plan.steps}
    done = [(s.tick.when, s.step) for s in progress.standings if s.tick and s.state is State.DONE]
    return machines[max(done)[1]] if done else ""


def _why(step: Step, mates: Mapping[int, tuple[int, ...]], after: Mapping[int, int], last: str) -> str:
    return " ".join(_reasons(step, mates[step.number], after[step.number], last))


def _reasons(step: Step, mates: tuple[int, ...], followers: int, last: str) -> Iterator[str]:
    if step.wait >= LONG_WAIT:
        yield f"Done now, the wait for {step.wait_for.partition(';')[0]} runs while you are away."
    elif step.wait:
        yield "Its wait begins while there is still other work."
    if step.machine and step.machine == last:
        yield f"The {last} was used last and may still be set up."
    if mates:
        numbers = listed([str(number) for number in mates])
        yield f"{'Steps' if len(mates) > 1 else 'Step'} {numbers} can follow on the {step.machine}."
    if followers and not step.wait:
        yield f"{followers} steps cannot begin before it." if followers > 1 else "One step waits for it."
    if not (step.wait or mates or followers):
        yield "Nothing waits for it; it fits in the time."


def _why_begun(step: Step, minutes: float) -> str:
    share = _share(step, minutes)
    part = next(words for least, words in _SHARES if share >= least)
    set_up = ", set-up included" if step.machine else ""
    return f"Too long for one go, but it can be laid down part way: {part} of it fits{set_up}."


_SHARES = (
    (0.8, "most"),
    (0.6, "two thirds"),
    (0.45, "half"),
    (0.3, "a third"),
    (0.2, "a quarter"),
    (0.0, "a little"),
)
