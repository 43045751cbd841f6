"""The forms of our own pages, as a browser would send them: what is spoiled begins as right."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from html.parser import HTMLParser

Fields = list[tuple[str, str]]


@dataclass
class Form:
    """Where a form is sent, and with what."""

    address: str
    fields: Fields = field(default_factory=list)


class Forms(HTMLParser):
    """All forms in a page, and its buttons that send by themselves."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Form] = []
        self._open: Form | None = None
        self._select = self._area = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = {name: value or "" for name, value in attrs}
        target = said.get("hx-post") or (
            said.get("action") if said.get("method", "").lower() == "post" else ""
        )
        if target:
            form = Form(target, _values(said.get("hx-vals", "")))
            self.found.append(form)
            self._open = form if tag == "form" else self._open
        self._field(tag, said)

    def _field(self, tag: str, said: dict[str, str]) -> None:
        name = said.get("name", "")
        if tag in ("input", "button") and name:
            self._add(name, said.get("value", ""))
        elif tag == "select":
            self._select = name
        elif tag == "option" and self._select and "value" in said:
            self._add(self._select, said["value"])
            self._select = ""
        elif tag == "textarea":
            self._area = name

    def handle_data(self, data: str) -> None:
        if self._area:
            self._add(self._area, data)
            self._area = ""

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._open = None

    def _add(self, name: str, value: str) -> None:
        if self._open is not None:
            self._open.fields.append((name, value))


def forms_in(html: str) -> list[Form]:
    """The forms of a page."""
    reader = Forms()
    reader.feed(html)
    return reader.found


def _values(words: str) -> Fields:
    try:
        told = json.loads(words or "{}")
    except ValueError:
        return []
    return [(str(key), str(value)) for key, value in told.items()]
