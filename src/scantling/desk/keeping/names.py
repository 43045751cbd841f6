"""Names of files: which are taken from a folder, and what a page calls them."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

ENDING = ".yaml"
RECORD_ENDING = ".build.yaml"
SHOP_FILE = "shop.yaml"
LONGEST_NAME = 120
_ENDINGS = (ENDING, ".yml")
# Control and unseen characters, halves of characters, line and paragraph ends.
_UNFIT = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_DEVICES = {"con", "prn", "aux", "nul", *(f"{word}{n}" for word in ("com", "lpt") for n in range(10))}


def slug_of(file: str) -> str:
    """What pages call a file: its name without `.yaml`."""
    return file.removesuffix(ENDING)


def scope_of(file: str) -> str:
    """The scope a file's changes stand in: that of its page, and of a build record that of its piece."""
    return file.removesuffix(RECORD_ENDING).removesuffix(ENDING)


def record_file_of(slug: str) -> str:
    """The build record that lies beside a piece."""
    return slug + RECORD_ENDING


@lru_cache(maxsize=4096)
def trouble_with(file: str) -> str:
    """Why a name is not taken from a folder, nor given to a new file; "" for one that is."""
    if file.startswith((".", "~")):
        return "it is hidden"
    if not file.lower().endswith(_ENDINGS):
        return f"it does not end in {ENDING}"
    if len(file) > LONGEST_NAME:
        return f"it is longer than {LONGEST_NAME} characters"
    if "/" in file or "\\" in file:
        return "a slash stands in it"
    if any(unicodedata.category(character) in _UNFIT for character in file):
        return "a character that cannot be seen stands in it"
    if file.split(".", 1)[0].lower() in _DEVICES:
        return "some systems keep this name for themselves"
    return ""
