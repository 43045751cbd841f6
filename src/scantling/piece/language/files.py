"""Piece files from disk or text, with what they follow and the kits they use: where files are read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from functools import lru_cache
from importlib.resources import files as package_files
from os.path import relpath
from pathlib import Path

from scantling.errors import Place, ReadError
from scantling.piece.language.checking import check_entries
from scantling.piece.language.document import (
    Document,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    as_name,
    items_of,
)
from scantling.piece.language.keys import TOP
from scantling.piece.language.merging import merged, without
from scantling.piece.language.tree import MOST_CHARACTERS, read_tree, says_units
from scantling.quantity import LengthUnit

MOST_FOLLOWED = 8
MOST_KITS_DEEP = 4
_SUFFIXES = (".yaml", ".yml")


def read_piece(path: Path | str) -> Document:
    """A piece, style or kit file with all it follows and uses. Raises ReadError."""
    path = Path(path)
    return read_piece_text(text_of(path, None), path.name, path.parent)


def read_piece_text(text: str, name: str, folder: Path | str | None = None) -> Document:
    """The same from text; `name` stands for the file in places.

    `folder` is where the files it follows and its own kits are looked for; None: it may name none.
    Raises ReadError.
    """
    if folder is None:
        return _document(text, name, None, _Trail(None))
    home = Path(folder).resolve()
    return _document(text, name, home, _Trail.from_(home, name))


def reread(document: Document, texts: Mapping[str, str]) -> Document:
    """The same piece with other texts in some of its files, by their names. Raises ReadError.

    What was read from disk before is not read again.
    """
    text = texts.get(document.file, document.text)
    if document.path is None:
        return _document(text, document.file, None, _Trail(None))
    known = {one.path: texts.get(name, one.text) for name, one in document.files.items() if one.path}
    home = document.path.parent
    return _document(text, document.file, home, replace(_Trail.from_(home, document.file), texts=known))


@lru_cache(maxsize=64)
def house_kit(name: str) -> Document:
    """A kit that comes with Scantling. Raises KeyError for one that does not."""
    text = _house_kits()[name]
    kit = _document(text, f"kits/{name.replace(' ', '-')}.yaml", None, _Trail(None))
    return replace(kit, of_house=True)


def house_kit_names() -> tuple[str, ...]:
    """The kits that come with Scantling, by name."""
    return tuple(sorted(_house_kits()))


@lru_cache(maxsize=1)
def _house_kits() -> dict[str, str]:
    folder = package_files("scantling.piece") / "kits"
    found = [file for file in folder.iterdir() if file.name.endswith(".yaml")]
    return {f.name.removesuffix(".yaml").replace("-", " "): f.read_text(encoding="utf-8") for f in found}


@dataclass(frozen=True)
class _Trail:
    """The way to the file being read, from `home`. `within`: no file outside this folder is read.

    `texts`: of files that are not to be read from disk.
    """

    home: Path | None
    within: Path | None = None
    paths: tuple[Path, ...] = field(default=())
    texts: Mapping[Path, str] = field(default_factory=dict)

    @staticmethod
    def from_(home: Path, name: str) -> _Trail:
        at_root = home.parent == home.parent.parent
        return _Trail(home, home if at_root else home.parent, (home / name,))

    def text_of(self, path: Path, said: Scalar) -> str:
        known = self.texts.get(path)
        return text_of(path, said) if known is None else known

    def further(self, path: Path, said: Scalar) -> _Trail:
        """One file further. Raises ReadError for a circle, or too long a way."""
        if path in self.paths:
            chain = tuple(p.name for p in (*self.paths[self.paths.index(path) :], path))
            raise ReadError(
                f"files follow each other in a circle: {' -> '.join(chain)}",
                said.place,
                "take out one `follows`",
            )
        if len(self.paths) >= MOST_FOLLOWED:
            raise ReadError(f"more than {MOST_FOLLOWED} files follow one another", said.place)
        return replace(self, paths=(*self.paths, path))


def _document(text: str, name: str, folder: Path | None, trail: _Trail) -> Document:
    own = read_tree(text, name)
    check_entries(own, TOP, "the file")
    if "piece" not in own and "style" not in own:
        raise ReadError("the file does not say what it is", own.place, "begin with `piece: its name`")
    followed = _followed(own, folder, trail)
    if not says_units(own):
        own = _in_followed_unit(own, followed, text, name)
    dropped = tuple(n for n in items_of(own.get("leave out") or _NOTHING) if isinstance(n, Scalar))
    root = merged(own, without(followed.root, dropped)) if followed else own
    document = Document(
        root,
        own,
        name,
        _unit_of(own),
        text,
        (followed, *followed.follows) if followed else (),
        {},
        tuple(as_name(n.text) for n in dropped),
        folder / Path(name).name if folder else None,
    )
    return replace(document, kits=_kits(document, folder, trail, followed))


_NOTHING = SequenceNode((), Place("", 1, 1))


def _unit_of(own: MappingNode) -> LengthUnit:
    return next(entry.key.unit for entry in own.entries)


def _in_followed_unit(own: MappingNode, followed: Document | None, text: str, name: str) -> MappingNode:
    """A file that does not say its unit takes that of the file it follows."""
    if followed is None:
        raise ReadError("the file does not say its unit", own.place, "write `units: inches` or `units: mm`")
    return own if followed.unit is _unit_of(own) else read_tree(text, name, followed.unit)


def _followed(own: MappingNode, folder: Path | None, trail: _Trail) -> Document | None:
    said = own.get("follows")
    if not isinstance(said, Scalar):
        if "leave out" in own:
            raise ReadError(
                "`leave out` without `follows` has nothing to drop", own.by_name["leave out"].key.place
            )
        return None
    path = _path(said, folder, trail)
    text = trail.text_of(path, said)
    return _document(text, _shown_name(path, trail), path.parent, trail.further(path, said))


def _kits(
    document: Document, folder: Path | None, trail: _Trail, followed: Document | None
) -> dict[str, Document]:
    """Every kit by name: own and followed ones, and those of the house that are used."""
    kits = dict(followed.kits) if followed else {}
    named = document.own.get("kits")
    for entry in named.entries if isinstance(named, MappingNode) else ():
        assert isinstance(entry.value, Scalar)
        path = _path(entry.value, folder, trail)
        text = trail.text_of(path, entry.value)
        kits[entry.name] = _document(
            text, _shown_name(path, trail), path.parent, trail.further(path, entry.value)
        )
    for said in _kits_used(document.root):
        name = as_name(said.text)
        if name not in kits:
            kits[name] = _house_kit_for(name, said, kits)
    return kits


def _house_kit_for(name: str, said: Scalar, own: dict[str, Document]) -> Document:
    if name in _house_kits():
        return house_kit(name)
    known = sorted({*own, *_house_kits()})
    near = get_close_matches(name, known, 1, 0.6)
    guess = f'nearest: "{near[0]}"; ' if near else ""
    raise ReadError(f'no kit is called "{name}"', said.place, f"{guess}known: {', '.join(known)}")


def _kits_used(root: MappingNode) -> list[Scalar]:
    """The value of every `kit` key of parts, also inside groups."""
    used: list[Scalar] = []
    waiting: list[Node | None] = [root.get("parts")]
    while waiting:
        node = waiting.pop()
        for entry in node.entries if isinstance(node, MappingNode) else ():
            if isinstance(entry.value, MappingNode):
                kit = entry.value.get("kit")
                used.extend([kit] if isinstance(kit, Scalar) else [])
                waiting.append(entry.value.get("parts"))
    return sorted(used, key=lambda scalar: scalar.place)


def _path(said: Scalar, folder: Path | None, trail: _Trail) -> Path:
    """The file that `said` names, beside or near the file that says it."""
    name = said.text.strip()
    if folder is None or trail.within is None:
        raise ReadError(f'"{name}" cannot be looked for: this text lies in no folder', said.place)
    if not name.lower().endswith(_SUFFIXES):
        raise ReadError(f'"{name}" is no file of pieces', said.place, "name a file that ends in .yaml")
    if Path(name).is_absolute() or "\\" in name or ":" in name or name.startswith("~"):
        raise ReadError(f'"{name}" is no place near this file', said.place, "name a file beside it, with `/`")
    path = (folder / name).resolve()
    if not path.is_relative_to(trail.within):
        raise ReadError(
            f'"{name}" lies too far from this file', said.place, "keep it beside it or one folder up"
        )
    return path


def _shown_name(path: Path, trail: _Trail) -> str:
    """A file's name in places: its way from the folder of the first file."""
    return Path(relpath(path, trail.home)).as_posix()


def text_of(path: Path, said: Scalar | None) -> str:
    """A file's characters. Raises ReadError where it is not there, too long, or no text."""
    place = said.place if said else Place(path.name, 1, 1)
    try:
        if path.exists() and not path.is_file():
            raise IsADirectoryError
        with path.open("rb") as file:
            data = file.read(4 * MOST_CHARACTERS + 1)
    except (OSError, ValueError) as error:
        raise _not_there(path, place, error) from None
    if len(data) > 4 * MOST_CHARACTERS:
        raise ReadError(f'"{path.name}" is too long to be a piece', place)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8", "ignore")
        where = Place(path.name, before.count("\n") + 1, len(before) - before.rfind("\n"))
        raise ReadError("the file is not plain text here", where, "save it as UTF-8 text") from None


def _not_there(path: Path, place: Place, error: Exception) -> ReadError:
    near: list[str] = []
    if path.parent.is_dir():
        beside = sorted(p.name for p in path.parent.glob("*.y*ml"))
        near = get_close_matches(path.name, beside, 1, 0.6)
    if isinstance(error, FileNotFoundError):
        return ReadError(f'there is no file "{path.name}"', place, f'nearest: "{near[0]}"' if near else "")
    return ReadError(f'the file "{path.name}" cannot be opened', place)
