"""What a form says, as words and whole numbers; whatever is neither counts as not said."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

MOST_DIGITS = 15


def words_in(form: Mapping[str, Any], name: str) -> str:
    """The words of a field; "" where it is not there, or a file stands in it."""
    said = form.get(name, "")
    return said if isinstance(said, str) else ""


def number_in(form: Mapping[str, Any], name: str) -> int | None:
    """The whole number of a field; None where it says none, or one longer than anything counted here."""
    said = words_in(form, name)
    return int(said) if said.isdecimal() and len(said) <= MOST_DIGITS else None
