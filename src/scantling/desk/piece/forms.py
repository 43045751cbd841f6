"""From the fields of a form to an act."""

from __future__ import annotations

import json
from collections.abc import Callable

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException

from scantling.desk.piece.acts import (
    Act,
    Add,
    ChangeWords,
    Choose,
    Keep,
    MendIt,
    Nudge,
    OpenKit,
    Pull,
    Remove,
    Say,
    SetWords,
    Steps,
)

LARGEST = 1e6
NOT_SAID = ("do", "what", "name", "keep", "way", "part", "field")


def act_of(form: FormData) -> Act:
    """The act a form asks for; a page that says so if it makes no sense."""
    said = _Said(form)
    make = _ACTS.get(said("do"))
    try:
        if make is not None:
            return make(said)
    except (ValueError, TypeError, RecursionError):
        pass
    raise HTTPException(400, "The desk could not make out what was meant. Load the page again.")


class _Said:
    def __init__(self, form: FormData) -> None:
        self.form = form

    def __call__(self, name: str) -> str:
        value = self.form.get(name, "")
        return value if isinstance(value, str) else ""

    @property
    def path(self) -> Steps:
        names = json.loads(self("path"))
        if not names or not isinstance(names, list) or not all(isinstance(name, str) for name in names):
            raise ValueError
        "".join(names).encode()  # raises ValueError for half a character
        return tuple(names)

    def number(self, name: str) -> float:
        """A number that some length or count may have."""
        number = float(self(name))
        if not abs(number) <= LARGEST:
            raise ValueError
        return number

    @property
    def words(self) -> str:
        """The words of the field; a range that stands after it on the page belongs to them."""
        return " ".join(self("words").split()) + self("rest")

    @property
    def others(self) -> tuple[tuple[str, str], ...]:
        pairs = [(key, value) for key, value in self.form.multi_items() if isinstance(value, str)]
        return tuple((key, " ".join(value.split())) for key, value in pairs if key not in NOT_SAID)


_ACTS: dict[str, Callable[[_Said], Act]] = {
    "words": lambda said: SetWords(said.path, said("was"), said.words, said("way")),
    "nudge": lambda said: Nudge(said("name"), said("was"), int(said.number("steps")), said("way")),
    "choose": lambda said: Choose(said.path, said("was"), said("option"), said("way")),
    "keep": lambda said: Keep(said("name"), said("way")),
    "change": lambda said: ChangeWords(said("file"), said.path, said("was"), said.words, said("way")),
    "say": lambda said: Say(said.path, said.words),
    "pull": lambda said: Pull(said("part"), said("face"), said.number("by"), said("way")),
    "remove": lambda said: Remove(said.path),
    "open": lambda said: OpenKit(said.path),
    "mend": lambda said: MendIt(int(said.number("number"))),
    "add": lambda said: Add(said("what"), said("name"), said.others),
}
