"""Cells copied from a spreadsheet, read as lines of a section; every fault is told at its own cell."""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.language.document import as_name
from scantling.quantity.kinds import LengthUnit
from scantling.shop.editing.cleaning import cleaned
from scantling.shop.editing.columns import COLUMNS, Column, Sort, columns_of
from scantling.shop.editing.entries import shop_of
from scantling.shop.editing.tables import Table, add_row, change_row, table_of
from scantling.shop.editing.trying import faults_of

FORMULAS = ("=", "+", "-", "@")  # how one begins in a spreadsheet
MOST_ROWS = 500


@dataclass(frozen=True, slots=True)
class Fault:
    """`row` counts pasted lines from 1; `column` is a key, "" for the line; `write`: what to write."""

    row: int
    column: str
    message: str
    write: str = ""


@dataclass(frozen=True, slots=True)
class Pasted:
    """`columns`: keys in the order pasted. `rows`: the cells of each line by key, made ready to write.

    `headed`: the first pasted line names the columns, so the rows begin with the second.
    """

    columns: tuple[str, ...]
    rows: tuple[Mapping[str, str], ...]
    faults: tuple[Fault, ...]
    headed: bool = False


@dataclass(frozen=True, slots=True)
class _Head:
    """`units`: what a column's head says of its lengths, by key."""

    keys: tuple[str, ...]
    units: Mapping[str, str]
    given: bool


def pasted(text: str, section: str, cells: str) -> Pasted:
    """What pasted cells say as lines of that section of the shop file `text`.

    Tabs, semicolons or commas part the cells. A first line of heads may name the columns in any order;
    without one they come in the table's order. Raises ReadError if the shop file itself cannot be read.
    """
    unit = shop_of(text).unit
    grid = _grid(cells)
    if not grid:
        return Pasted((), (), (Fault(1, "", "nothing was pasted", "copy some cells first"),))
    head = _head(section, grid[0])
    lines = list(enumerate(grid, 1))[1 if head.given else 0 :]
    table = table_of(text, section)
    rows, faults = [], list(_head_faults(section, head, grid[0]))
    for number, line in lines:
        ready, found = _cells(section, head, line, unit, number)
        there = table.says(ready)
        tried = {**there.cells, **ready} if there else ready
        rows.append(ready)
        faults.extend(found + _line_faults(section, tried, unit, number, {fault.column for fault in found}))
    faults.extend(_doubled(section, rows, 2 if head.given else 1))
    order = ["", *(column.key for column in columns_of(section))]
    ordered = sorted(faults, key=lambda fault: (fault.row, order.index(fault.column)))
    return Pasted(head.keys, tuple(rows), tuple(ordered), head.given)


def paste(text: str, section: str, rows: tuple[Mapping[str, str], ...]) -> str:
    """`text` with those lines: one whose name stands there already is said anew, the others are added.

    An empty cell takes out what the line says itself, not what its heading says for all.
    Raises ReadError if a line will not do.
    """
    for cells in rows:
        there = table_of(text, section).says(cells)
        if there:
            said = {key: words for key, words in cells.items() if words or key not in there.shared}
            was = {key: there.cells[key] for key in said}
            text = change_row(text, there.path, said, was)
        else:
            text, _ = add_row(text, section, cells)
    return text


def as_cells(table: Table) -> str:
    """The table to copy out: a line of heads, then each row, with tabs between the cells."""
    heads = [column.head for column in table.columns]
    rows = [[_harmless(row.cells[column.key]) for column in table.columns] for row in table.rows]
    return "\n".join("\t".join(line) for line in (heads, *rows)) + "\n"


def _harmless(cell: str) -> str:
    """Words that a spreadsheet would take for a formula get an apostrophe before them, as is its custom."""
    return f"'{cell}" if cell.startswith(FORMULAS) else cell


def _as_meant(cell: str) -> str:
    plain = cell.strip()
    return plain[1:] if plain.startswith("'") and plain[1:].startswith(FORMULAS) else plain


def _grid(cells: str) -> list[list[str]]:
    lines = [line for line in cells.replace("\r\n", "\n").replace("\r", "\n").split("\n") if line.strip()]
    parted = next((mark for mark in "\t;" if any(mark in line for line in lines)), ",")
    try:
        read = list(csv.reader(lines, delimiter=parted, skipinitialspace=True))
    except csv.Error:  # a cell longer than any table's
        read = [line.split(parted) for line in lines]
    return [[_as_meant(cell) for cell in line] for line in read[: MOST_ROWS + 1]]


def _head(section: str, first: list[str]) -> _Head:
    named = [_column_meant(section, cell) for cell in first]
    known = [column for column in named if column]
    if known and 2 * len(known) >= len([cell for cell in first if cell]):
        keys = tuple(column.key if column else "" for column in named)
        units = {c.key: unit for c, cell in zip(named, first, strict=True) if c and (unit := _unit_in(cell))}
        return _Head(keys, units, given=True)
    keys = tuple(column.key for column in columns_of(section))[: len(first)]
    return _Head(keys, {}, given=False)


def _column_meant(section: str, cell: str) -> Column | None:
    words = _plain(cell)
    columns = COLUMNS[section]
    exact = next((c for c in columns if words in (_plain(c.key), _plain(c.head))), None)
    return exact or next((c for c in columns if words and words in c.also), None)


def _plain(cell: str) -> str:
    bare = re.sub(r"\(.*?\)|[%.:*]|\b(?:mm|cm|in|inch|inches)$", " ", cell.lower())
    return " ".join(bare.replace("_", " ").replace("-", " ").split())


def _unit_in(cell: str) -> str:
    found = re.search(r"\b(mm|cm|inches|inch|in)\b\W*$", cell.lower())
    return "" if not found else found[1] if found[1] in ("mm", "cm") else LengthUnit.INCHES.value


def _head_faults(section: str, head: _Head, first: list[str]) -> list[Fault]:
    unknown = [
        Fault(1, "", f'no column is called "{cell}"', f"known are {_heads(section)}")
        for key, cell in zip(head.keys, first, strict=False)
        if not key and cell
    ]
    twice = [
        Fault(1, key, "two columns say the same", "take one out")
        for key in dict.fromkeys(head.keys)
        if key and head.keys.count(key) > 1
    ]
    return unknown + twice


def _heads(section: str) -> str:
    return ", ".join(column.head for column in columns_of(section))


def _cells(
    section: str, head: _Head, line: list[str], unit: LengthUnit, number: int
) -> tuple[dict[str, str], list[Fault]]:
    """The cells of one pasted line made ready, and what is wrong with them."""
    faults = []
    if any(line[len(head.keys) :]):
        faults.append(Fault(number, "", "this line has more cells than there are columns", "take some out"))
    ready: dict[str, str] = {}
    columns = {column.key: column for column in columns_of(section)}
    for key, cell in zip(head.keys, line, strict=False):
        if not key:
            continue
        try:
            ready[key] = cleaned(cell, columns[key], unit, head.units.get(key, ""))
        except ReadError as error:
            faults.append(Fault(number, key, error.message, error.remedy))
    return ready, faults


def _line_faults(
    section: str, cells: Mapping[str, str], unit: LengthUnit, number: int, told: set[str]
) -> list[Fault]:
    found = faults_of(section, cells, unit).items()
    return [Fault(number, key, e.message, e.remedy) for key, e in found if key not in told]


def _doubled(section: str, rows: list[dict[str, str]], first: int) -> list[Fault]:
    """Names given to two pasted lines. Fittings go by their kind and name together."""
    keys = [column.key for column in columns_of(section) if column.sort is Sort.NAME]
    kinds = [c.key for c in columns_of(section) if c.sort is Sort.GROUP and section == "hardware"]
    seen: set[tuple[str, ...]] = set()
    faults = []
    for number, row in enumerate(rows, first):
        name = tuple(as_name(row.get(key, "")) for key in (*kinds, *keys))
        if name in seen and name[-1]:
            faults.append(Fault(number, keys[0], f'"{row[keys[0]]}" is pasted twice', "give it another name"))
        seen.add(name)
    return faults
