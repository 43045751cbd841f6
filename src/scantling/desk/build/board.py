"""What the page of a build shows at this moment, gathered for its templates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import quote

from scantling.desk.build.clock import at_words, left_words
from scantling.desk.build.sheet_view import BoardSheet, board_sheet
from scantling.desk.build.standing import Stamped, StandingView, standing_view
from scantling.desk.build.view import BuildView, StepView, build_view
from scantling.desk.desk import Desk
from scantling.desk.working import Asked
from scantling.ledger import Timer

MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class TimerShown:
    """A timer on the page. `left_ms`: what is left of it; `piece`: whose it is, where that is another."""

    number: int
    label: str
    left_ms: int
    left: str
    until: str
    piece: str

    @property
    def over(self) -> bool:
        return self.left_ms <= 0


@dataclass(frozen=True, slots=True)
class Board:
    """A build as its page shows it. `step`: the one looked at; `sheet`: the board in hand at it."""

    slug: str
    view: BuildView
    standing: StandingView
    step: StepView | None
    sheet: BoardSheet | None
    notes: dict[str, str]
    stamp: str

    @property
    def address(self) -> str:
        return f"/piece/{self.slug}/build"

    @property
    def here(self) -> str:
        """The step and the board looked at, as the page's address says them."""
        board = f"&board={quote(self.sheet.name, safe='')}" if self.sheet else ""
        return f"step={self.step.number}{board}" if self.step else ""

    def near(self, by: int) -> StepView | None:
        """The step that many after (or before) the one looked at."""
        steps = self.view.steps
        at = steps.index(self.step) + by if self.step else -1
        return steps[at] if 0 <= at < len(steps) else None

    def titled(self, number: int) -> str:
        """A step as it is called elsewhere on the page: "12 Square 4 legs"."""
        return next((f"{step.number} {step.title}" for step in self.view.steps if step.number == number), "")

    def note(self, step: StepView) -> str:
        """What is noted at a step."""
        return self.notes.get(self.standing.steps[step.number].note_as, "")


async def board_of(desk: Desk, slug: str, asked: Asked, step: int | None, stock: str = "") -> Board:
    """The build of a piece now, at a step and with a board of it in hand.

    Raises ReadError where the piece cannot be planned.
    """
    view = await desk.planner.ask(build_view, asked)
    notes = desk.ledger.builds.notes(slug)
    stamped = tuple(sorted((key, note.when) for key, note in notes.items() if key))
    standing = await desk.planner.ask(standing_view, asked, ticks_of(desk, slug), stamped, this_minute())
    wanted = standing.now if step is None else step
    sheet = await desk.planner.ask(board_sheet, asked, wanted, stock)
    return Board(
        slug=slug,
        view=view,
        standing=standing,
        step=next((each for each in view.steps if each.number == wanted), None),
        sheet=sheet,
        notes={key: note.text for key, note in notes.items()},
        stamp=asked.stamp[:12],
    )


def ticks_of(desk: Desk, slug: str) -> Stamped:
    """The ticks of a build in a form that can be asked about."""
    return tuple(sorted(desk.ledger.builds.ticks(slug).items()))


def this_minute() -> datetime:
    """Now, to the minute before: what was asked a moment ago need not be asked again."""
    now = datetime.now(UTC)
    return now.replace(second=0, microsecond=0)


def timers_of(desk: Desk, slug: str) -> tuple[TimerShown, ...]:
    """Every timer that runs or was not heard yet, of all pieces, soonest over first."""
    now = datetime.now(UTC)
    running = sorted(desk.ledger.builds.running(), key=lambda timer: timer.ends_at)
    return tuple(_shown(desk, timer, slug, now) for timer in running)


def _shown(desk: Desk, timer: Timer, slug: str, now: datetime) -> TimerShown:
    left = timer.left(now)
    other = desk.folder.piece(timer.scope) if timer.scope != slug else None
    return TimerShown(
        timer.number,
        timer.label,
        round(left.total_seconds() * 1000),
        left_words(left),
        at_words(timer.ends_at, now),
        other.title if other else "",
    )


def at(when: datetime) -> str:
    """A time for a template."""
    return at_words(when, datetime.now(UTC))


def shared(desk: Desk, slug: str) -> dict[str, Any]:
    """What every page of a build has in its context."""
    return {"slug": slug, "timers": timers_of(desk, slug), "at": at}
