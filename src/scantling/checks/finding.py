"""A finding: one answer of a check."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.errors import Place
from scantling.piece.model import PartName, Vec3


class Severity(Enum):
    """MUST stops a build; SHOULD is worth changing; KNOW is told once so that nobody is surprised."""

    MUST = "must fix"
    SHOULD = "should look"
    KNOW = "good to know"


@dataclass(frozen=True, slots=True)
class Change:
    """One scalar to change: the named size `name` (`overall wide`), or, with `place`, the key `name` of
    the entry (a joint line, a movement) that stands there. `to` is the phrase to write.
    """

    name: str
    to: str
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Mend:
    """The smallest change that mends it, computed. `text` is a sentence a maker reads."""

    text: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """`number` against `limit` in `unit` ("mm", "N", "kg", "", ...): what was found, and what is allowed.

    `check`: the check's plain name ("seasonal movement"). `where`: parts or joints concerned.
    `passes`: False where the limit is broken (a KNOW finding may still pass).
    `source`: handbook table, standard, "common practice, no source", "from memory".
    `depends_on`: names of free sizes it may depend on, () = not known.
    """

    check: str
    code: str
    severity: Severity
    message: str
    where: tuple[PartName, ...] = ()
    number: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str = ""
    mend: Mend | None = None
    spot: Vec3 | None = None
    pose: str | None = None
    place: Place | None = None
    judgement: bool = False  # rests on judgement, and says so

    @property
    def must_fix(self) -> bool:
        return self.severity is Severity.MUST
