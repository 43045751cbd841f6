"""What stops an act on files: someone else was there first."""

from __future__ import annotations

from scantling.errors import Conflict, ScantlingError


class FileConflict(Conflict):
    """The file `file` holds other text than the act counted on; no file was written.

    `now`, `was`, `wanted`: whole texts, "" where there is no file.
    """

    def __init__(self, file: str, now: str | None, was: str | None, wanted: str | None) -> None:
        super().__init__(now or "", was or "", wanted or "")
        self.file = file
        self.gone = now is None

    def __str__(self) -> str:
        what = "is not there any more" if self.gone else "was changed since"
        return f'"{self.file}" {what}, so nothing was written; look at both, then choose'


class Overtaken(ScantlingError):
    """The step a page offered to undo or redo is no longer the next one."""

    def __init__(self) -> None:
        super().__init__("something else was changed since this page was shown; look again, then choose")


class FolderInUse(ScantlingError):
    """Another desk has the folder open."""
