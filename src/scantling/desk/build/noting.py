"""What a maker wants noted in the build record, and the text it comes to."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from typing import TYPE_CHECKING

from starlette.datastructures import FormData

from scantling.desk.build.boards_view import cut_words
from scantling.desk.build.looked_at import context
from scantling.desk.build.parts_view import PartView, part_view
from scantling.errors import ReadError
from scantling.quantity import LengthUnit, listed

if TYPE_CHECKING:
    from scantling.desk.build.records import Record
    from scantling.desk.working import Asked

LONGEST_NAME = 300


@dataclass(frozen=True, slots=True)
class Wish:
    """What a maker wants noted. `act`: "measured", "spoiled" or "cut"; `boards` for the last."""

    act: str
    part: str
    axis: str
    size: str
    done: bool
    boards: tuple[str, ...]

    @staticmethod
    def of(form: FormData) -> Wish:
        """What a form asks for, cut to sane lengths."""
        said = {
            name: " ".join(str(form.get(name, "")).split())[:LONGEST_NAME]
            for name in ("act", "part", "axis", "size")
        }
        boards = tuple(str(board)[:LONGEST_NAME] for board in form.getlist("board"))
        return Wish(**said, done=bool(form.get("done")), boards=boards)


@dataclass(frozen=True, slots=True)
class Edit:
    """A wish as text. `was`: the digest of the record it goes into; `what`: its name in the history."""

    before: str | None
    after: str
    what: str

    @property
    def was(self) -> str:
        return sha256((self.before or "").encode()).hexdigest()[:16]


def edit_of(asked: Asked, wish: Wish) -> Edit:
    """In the worker: the record with a wish written in. Raises ReadError where it cannot be."""
    from scantling.desk.build.records import Record

    record = Record(asked.record_file, asked.record, context(asked).plan.piece.name)
    if wish.act == "cut":
        entries = cut_words(asked, wish.boards)
        if not entries:
            raise ReadError("no board is chosen that the plan cuts", remedy="choose the boards that are cut")
        return Edit(record.text, record.boards_cut(entries), f"{listed([n for n, _ in entries])} cut")
    shown = part_view(asked, wish.part)
    if shown is None:
        raise ReadError(f'the piece has no part called "{wish.part}"')
    if wish.act == "spoiled":
        return Edit(record.text, record.spoiled(wish.part, shown.spoiled + 1), f"{wish.part} spoiled")
    return _measured(wish, shown, record)


def _measured(wish: Wish, shown: PartView, record: Record) -> Edit:
    size = next((each for each in shown.sizes if each.axis == wish.axis), None)
    if size is None:
        raise ReadError("choose which size was measured")
    unit = LengthUnit.INCHES if shown.inches else LengthUnit.MM
    text = record.measured(wish.part, wish.axis, wish.size, unit, done=wish.done)
    return Edit(record.text, text, f"{wish.part} measured: {size.noun} {wish.size}")
