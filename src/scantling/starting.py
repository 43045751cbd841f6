"""Starting a new piece from an example."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from scantling.errors import ScantlingError

LONGEST_STEM = 60


def example_names() -> tuple[str, ...]:
    """Names of the examples that come with Scantling, in order."""
    return tuple(sorted(_pieces()))


def begin_piece(name: str, like: str, folder: Path) -> tuple[Path, ...]:
    """Copy the example `like` into `folder` as `name`, with the files it follows and its shop.

    Nothing that exists is overwritten.
    """
    texts = example_texts(name, like, f"{file_name(name)}.yaml")
    return _written({folder / file: text for file, text in texts.items()})


def example_texts(name: str, like: str, file: str) -> dict[str, str]:
    """The example `like` as `name` in `file`, with the files it follows and its shop: texts by file name.

    Raises ScantlingError where there is no such example.
    """
    pieces = _pieces()
    if like not in pieces:
        raise ScantlingError(f'no example is called "{like}"; there are {", ".join(example_names())}')
    text = pieces[like].read_text(encoding="utf-8")
    wanted = {file: _renamed(text, name)}
    for followed in re.findall(r"^follows:\s*(\S+)", text, flags=re.MULTILINE):
        wanted[followed] = (_examples() / followed).read_text(encoding="utf-8")
    wanted["shop.yaml"] = (_examples() / "shops" / f"{like}.yaml").read_text(encoding="utf-8")
    return wanted


def _written(wanted: dict[Path, str]) -> tuple[Path, ...]:
    new = {path: text for path, text in wanted.items() if _is_new(path, text)}
    for path, text in new.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    return tuple(new)


def _is_new(path: Path, text: str) -> bool:
    if not path.exists():
        return True
    if path.read_text(encoding="utf-8") == text:
        return False
    raise ScantlingError(f"{path} exists already and is not overwritten; choose another name or folder")


def file_name(name: str) -> str:
    """A piece's name as the stem of a file's: "Hall bench" -> "hall-bench".

    Raises ScantlingError where no letter is in it.
    """
    plain = re.sub(r"[^\w]+", "-", name.lower())[:LONGEST_STEM].strip("-")
    if not plain:
        raise ScantlingError(f'"{name}" has no letters to make a file name of')
    return plain


def _renamed(text: str, name: str) -> str:
    return re.sub(r"^piece:.*$", lambda _: first_line(name), text, count=1, flags=re.MULTILINE)


def first_line(name: str) -> str:
    """The line a piece file begins with."""
    return f"piece: {json.dumps(name, ensure_ascii=False)}"


def _examples() -> Traversable:
    return files("scantling") / "examples"


def _pieces() -> dict[str, Traversable]:
    return {
        entry.name.removesuffix(".yaml"): entry
        for entry in _examples().iterdir()
        if entry.name.endswith(".yaml") and (_examples() / "shops" / entry.name).is_file()
    }
