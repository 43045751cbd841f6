"""The lines of a section as a table: read, changed cell by cell, added to and taken from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.errors import Conflict, Place, ReadError
from scantling.piece.language.document import as_name
from scantling.shop.editing.cleaning import cleaned
from scantling.shop.editing.columns import Column, Sort, column_named, columns_of
from scantling.shop.editing.entries import (
    FILE,
    Path,
    move,
    names_of,
    put,
    rename,
    same_beside,
    shop_of,
    take_out,
)
from scantling.shop.editing.lines import KINDS, Line, lines_of, with_defects, with_word
from scantling.shop.editing.naming import heading_meant, name_for
from scantling.shop.editing.written import BY, defects_listed, line_words, size_words, word_value


@dataclass(frozen=True, slots=True)
class Row:
    """`path` leads to the line; `cells` by column key; `shared`: columns its heading says for it."""

    path: Path
    cells: Mapping[str, str]
    shared: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Table:
    section: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def row(self, path: Path) -> Row | None:
        return next((row for row in self.rows if row.path == names_of(path)), None)

    def says(self, cells: Mapping[str, str]) -> Row | None:
        """The row that goes by the name these cells give; fittings go by their kind and name together."""
        kinds = (Sort.NAME, Sort.GROUP) if self.section == "hardware" else (Sort.NAME,)
        keys = [column.key for column in self.columns if column.sort in kinds]
        wanted = [as_name(cells.get(key, "")) for key in keys]
        if not wanted[0]:
            return None
        return next((row for row in self.rows if [as_name(row.cells[key]) for key in keys] == wanted), None)


def table_of(text: str, section: str) -> Table:
    """A section of a shop file as a table, every cell as written there. Raises ReadError."""
    columns = columns_of(section)
    return Table(section, columns, tuple(_row(line, columns) for line in lines_of(text, section)))


def set_cell(text: str, path: Path, column: str, words: str, was: str) -> str:
    """`text` with one cell said anew; "" takes it out.

    Raises Conflict if the cell no longer says `was`, ReadError if the words will not do.
    """
    return change_row(text, path, {column: words}, {column: was})


def change_row(text: str, path: Path, cells: Mapping[str, str], was: Mapping[str, str]) -> str:
    """`text` with several cells of one line said anew at once. Raises Conflict and ReadError."""
    row = _row_as_shown(text, path, cells, was)
    unit = shop_of(text).unit
    section = path[0]
    wanted = {key: cleaned(words, column_named(section, key), unit) for key, words in cells.items()}
    asked = {key: words for key, words in wanted.items() if words != row.cells[key]}
    if not asked:
        return text
    _refuse_unsaying(row, asked)
    changed, new = _changed(text, row, section, asked)
    verified(text, changed, (row.path, new))
    _check_said(changed, new, asked, row)
    return changed


def add_row(text: str, section: str, cells: Mapping[str, str]) -> tuple[str, Path]:
    """`text` with one more line, and the path to it. A name is given to stock that has none.

    Raises ReadError if the line will not do.
    """
    unit = shop_of(text).unit
    clean = {key: cleaned(words, column_named(section, key), unit) for key, words in cells.items()}
    path = _new_path(text, section, clean)
    changed = verified(text, put(text, path, line_words(section, clean)), (names_of(path),))
    _check_said(changed, names_of(path), clean, None)
    return changed, names_of(path)


def remove_row(text: str, path: Path) -> str:
    """`text` without that line; without its heading too, if it was the last under it. Raises ReadError."""
    names = names_of(path)
    return verified(text, take_out(text, names), (names,))


def verified(before: str, after: str, touched: Iterable[Path]) -> str:
    """`after`, if it reads as a shop and says the same as `before` elsewhere. Raises ReadError."""
    shop_of(after)
    if not same_beside(before, after, touched):
        raise ReadError(
            "this would change other lines of the file", Place(FILE, 1, 1), "write it by hand there"
        )
    return after


def _refuse_unsaying(row: Row, asked: Mapping[str, str]) -> None:
    for key, words in asked.items():
        if not words and key in row.shared:
            told = f"the heading says {row.cells[key]} for all that stand under it"
            raise ReadError(told, Place(FILE, 1, 1), "write what holds for this one")


def _check_said(text: str, path: Path, asked: Mapping[str, str], before: Row | None) -> None:
    """Raises ReadError where words would be read as more than the cell they were written for."""
    table = table_of(text, path[0])
    row = table.row(path)
    assert row is not None
    for column in table.columns:
        if column.sort in (Sort.NAME, Sort.GROUP) or column.key in row.shared:
            continue
        was = before.cells[column.key] if before and column.key not in before.shared else ""
        wanted = _plain(asked.get(column.key, was), column)
        if wanted != _plain(row.cells[column.key], column):
            words = "; ".join(filter(None, asked.values()))
            raise ReadError(f'"{words}" says more than belongs here', Place(FILE, 1, 1), _EACH)


def _plain(words: str, column: Column) -> str:
    if column.sort is Sort.DEFECTS:
        return "; ".join(defects_listed(words))
    return "" if column.sort is Sort.FLAG and words == "no" else words


_EACH = "write each thing in its own cell"


def _row_as_shown(text: str, path: Path, cells: Mapping[str, str], was: Mapping[str, str]) -> Row:
    row = table_of(text, path[0]).row(path)
    for key, words in cells.items():
        now = row.cells[key] if row else ""
        if row is None or now != " ".join(was[key].split()):
            raise Conflict(now, was[key], words)
    assert row is not None
    return row


def _row(line: Line, columns: tuple[Column, ...]) -> Row:
    cells = {column.key: _cell(line, column) for column in columns}
    shared = frozenset(c.key for c in columns if c.word in line.shared and c.word not in line.said)
    return Row(line.path, cells, shared)


def _cell(line: Line, column: Column) -> str:
    said = line.words(column.word)
    match column.sort:
        case Sort.NAME:
            return line.label
        case Sort.GROUP:
            return line.group
        case Sort.DEFECTS:
            return "; ".join(line.defects)
        case Sort.SIZE:
            parts = BY.split(said or "")
            return parts[column.part] if column.part < len(parts) else ""
        case Sort.FLAG:
            return "" if said is None else said or "yes"
        case Sort.HOW_MANY:
            return "" if said is None else said or "any"
    return " ".join((said or "").split())


def _changed(text: str, row: Row, section: str, asked: Mapping[str, str]) -> tuple[str, Path]:
    """The text with the cells said, and where the line stands then."""
    line = next(line for line in lines_of(text, section) if line.path == row.path)
    columns = {key: column_named(section, key) for key in asked}
    if any(column.sort is Sort.SIZE for column in columns.values()):
        text = with_word(text, line, "size", size_words({**row.cells, **asked}, section))
    for key, column in columns.items():
        if column.sort is Sort.DEFECTS:
            text = with_defects(text, line, tuple(defects_listed(asked[key])))
        elif column.sort not in (Sort.SIZE, Sort.NAME, Sort.GROUP):
            text = with_word(text, line, column.word, _word_value(asked[key], column, line))
    return _renamed(text, line, {columns[key].sort: words for key, words in asked.items()})


def _word_value(words: str, column: Column, line: Line) -> str | None:
    """What follows the word; a word the heading says can be denied, not left out."""
    value = word_value(words, column)
    denied = column.sort is Sort.FLAG and value is None and column.word in line.shared
    return "no" if denied else value


def _renamed(text: str, line: Line, asked: Mapping[Sort, str]) -> tuple[str, Path]:
    """The line under another name, then under another heading."""
    path = line.path
    if Sort.NAME in asked:
        name = asked[Sort.NAME]
        if not line.label or not name:
            raise ReadError("a name is wanted here", Place(FILE, 1, 1), "write one")
        text, path = rename(text, path, name), (*path[:-1], as_name(name))
    if Sort.GROUP in asked:
        text, path = _moved(text, line, path, asked)
    return text, path


def _moved(text: str, line: Line, path: Path, asked: Mapping[Sort, str]) -> tuple[str, Path]:
    heading = heading_meant(text, line.section, asked[Sort.GROUP])
    if not line.label:
        return rename(text, path, heading), (line.section, as_name(heading))
    label = asked.get(Sort.NAME, line.label)
    moved = move(text, (*path[:-1], label), (line.section, heading))
    return moved, names_of((line.section, heading, label))


def _new_path(text: str, section: str, cells: Mapping[str, str]) -> Path:
    """Where a new line shall stand, as it will be written."""
    by_sort = {c.sort: cells.get(c.key, "") for c in columns_of(section) if c.sort in (Sort.NAME, Sort.GROUP)}
    if Sort.GROUP not in by_sort:
        return (section, _wanted_name(by_sort[Sort.NAME], section))
    heading = heading_meant(text, section, _wanted_name(by_sort[Sort.GROUP], section))
    name = by_sort[Sort.NAME] or name_for(text, section, heading)
    return (section, heading, name) if name else (section, heading)


def _wanted_name(name: str, section: str) -> str:
    if name:
        return name
    kind = KINDS[section]
    raise ReadError(f"{kind.what} wants a name", Place(FILE, 1, 1), f"such as {kind.example}")
