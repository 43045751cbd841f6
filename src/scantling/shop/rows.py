"""Headings and the lines under them: what a stack of stock shares, and one line each."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from scantling.errors import ReadError
from scantling.piece.language.document import MappingNode, Node, Scalar
from scantling.shop.door import SURFACES
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, Record, line_record, named_entries
from scantling.wood import UnknownSpecies, panel_named, species_named

_NOMINAL = re.compile(r"(\d{1,2}/4)(?!\s*x)\b\s*(.*)")


def sold_as(clause: Phrase) -> Mapping[str, Phrase] | None:
    """`4/4 rough`, `rough`, `S2S`: the nominal thickness and the surface as sold."""
    found = _NOMINAL.fullmatch(clause.text)
    surface = clause.part(found.start(2), found.end(2)) if found else clause
    if surface.text.lower() in SURFACES:
        both = {"surface": surface}
        return both | {"nominal": clause.part(0, found.end(1))} if found else both
    return {"nominal": clause} if found and not surface.text else None


def heading(key: Scalar, kind: Kind) -> tuple[Phrase, Record]:
    """`walnut, 4/4 rough, moisture 7 %`: the wood, and what all lines below share."""
    first, *others = Phrase.of(key).clauses()
    found = re.search(r"\s\d{1,2}/4\b", first.text) if kind.rewrite else None
    clauses = [first.after(found.start()), *others] if found else others
    wood = first.part(0, found.start()) if found else first
    if not wood.text:
        raise ReadError("say which wood it is first", first.place(), "such as walnut, 4/4 rough")
    shared: Record = {}
    for clause in clauses:
        shared |= line_record(clause, kind)
    return wood, shared


def rows(key: Scalar, value: Node, name: str, kind: Kind) -> Iterator[tuple[Phrase, Node]]:
    """The lines under a heading, each with its label; a heading with one entry is its own label."""
    if isinstance(value, MappingNode) and not any(word in value for word in kind.words):
        yield from ((Phrase.of(label), line) for label, line in named_entries(value, name))
    else:
        yield Phrase(name, key), value


def wood_named(words: Phrase) -> str:
    """The wood as written, if the handbook knows it."""
    try:
        species_named(words.text)
    except UnknownSpecies as unknown:
        raise ReadError(
            f'no wood is called "{words.text}"', words.place(), _nearest(unknown.nearest)
        ) from None
    return words.text.lower()


def panel_name(words: Phrase) -> str:
    """The sheet as written, if it is known."""
    try:
        panel_named(words.text)
    except UnknownSpecies as unknown:
        raise ReadError(
            f'no sheet is called "{words.text}"', words.place(), _nearest(unknown.nearest)
        ) from None
    return words.text.lower()


def _nearest(names: tuple[str, ...]) -> str:
    return f"nearest: {', '.join(names)}" if names else "write it as the trade does, such as black walnut"


def wanted_sizes(
    found: tuple[float, ...], least: int, most: int, record: Record, kind: Kind
) -> tuple[float, ...]:
    """The sizes, if there are as many as there must be."""
    if least <= len(found) <= most:
        return found
    said = record["size"]
    assert isinstance(said, Phrase)
    many = f"{least}" if least == most else f"{least} or {most}"
    raise ReadError(
        f"{kind.what} has {many} sizes here, not {len(found)}", said.place(), f"such as {kind.example}"
    )
