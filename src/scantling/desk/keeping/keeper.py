"""The one hand that writes in the folder: through the journal, whole, with every step back kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from threading import RLock

from scantling.desk.keeping.conflicts import FileConflict, Overtaken
from scantling.desk.keeping.disk import check_wanted, clear_half_written, put, to_do
from scantling.desk.keeping.folder import Folder
from scantling.desk.keeping.lock import FolderLock
from scantling.desk.keeping.names import ENDING
from scantling.desk.keeping.watch import Watch
from scantling.errors import ReadError, ScantlingError
from scantling.ledger import Change, Going, Ledger, State, Turn

MOST_STEPS = 200


@dataclass(frozen=True, slots=True)
class History:
    """The steps of a scope: `done` newest first, `undone` next to be done again first."""

    done: tuple[Change, ...]
    undone: tuple[Change, ...]

    @property
    def undo_words(self) -> str:
        """What a button says: `Undo: tray drop 1 5/8 → 2`; "" where there is nothing."""
        return f"Undo: {self.done[0].what}" if self.done else ""

    @property
    def redo_words(self) -> str:
        """The same of doing again; "" where there is nothing."""
        return f"Redo: {self.undone[0].what}" if self.undone else ""


class Keeper:
    """Writes files of one folder for all pages and threads, one act at a time.

    Raises FolderInUse where another desk has the folder. What a killed process left half done is finished
    or taken back first; `notices` says what a maker should hear about that.
    """

    def __init__(self, folder: Folder, ledger: Ledger) -> None:
        self.folder = folder
        self.notices: tuple[str, ...] = (ledger.notice,) if ledger.notice else ()
        self._changes = ledger.changes
        self._acting = RLock()
        self._hold = FolderLock.on(folder.path)
        try:
            clear_half_written(folder.path)
            self._tidy_up()
            self._watch = Watch(folder, ledger.changes)
        except BaseException:
            self.close()
            raise

    def close(self) -> None:
        """Leave the folder to others."""
        self._hold.release()

    def write(
        self, scope: str, what: str, texts: Mapping[str, tuple[str | None, str | None]]
    ) -> Change | None:
        """Change files from the text before to the text after; None stands for no file.

        Gives the change put down in the journal, or None where all files held the text after already.
        Raises FileConflict if a file holds other text than before, ReadError for a file that cannot be read
        or a name or text that cannot be, ScantlingError where writing fails. Then no file is changed.
        """
        wanted = {file: Turn(*pair) for file, pair in texts.items()}
        check_wanted(wanted)
        with self._acting:
            self._watch.look_at(tuple(wanted))
            turns = to_do(self.folder, wanted)
            if not turns:
                return None
            return self._carried_out(self._changes.begin(scope, what, turns), turns)

    def take_out(self, scope: str, what: str, files: Iterable[str]) -> Change | None:
        """Take files out of the folder, as one change; a file that is no text leaves no step to undo."""
        texts: dict[str, tuple[str, None]] = {}
        with self._acting:
            for file in files:
                try:
                    texts[file] = (self.folder.text(file).text, None)
                except ReadError:
                    put(self.folder, file, None)
            return self.write(scope, what, texts)

    def undo(self, scope: str, number: int | None = None, *, anyway: bool = False) -> Change | None:
        """Take the newest change of a scope back; None where there is none.

        `number`: the change the page offered; Overtaken is raised if it is not the newest by now.
        Raises FileConflict if a file was changed since; `anyway` puts the old text there all the same, as a
        change of its own.
        """
        return self._step(scope, Going.BACK, number, anyway)

    def redo(self, scope: str, number: int | None = None, *, anyway: bool = False) -> Change | None:
        """Do again what was taken back last; see `undo`."""
        return self._step(scope, Going.AGAIN, number, anyway)

    def pass_over(self, scope: str, number: int) -> None:
        """Leave the files as they are, and go on to the step before (or after) that one."""
        with self._acting:
            if any(change.number == number for change in self._changes.listed(scope, most=MOST_STEPS)):
                self._changes.drop(number)

    def history(self, scope: str, most: int = MOST_STEPS) -> History:
        """The steps of a scope, at most `most` each way (undo itself has no end)."""
        listed = self._changes.listed
        return History(listed(scope, State.DONE, most), listed(scope, State.UNDONE, most))

    def offered(self, slug: str) -> History:
        """The next step each way as a piece's pages offer it: not the one that began the piece, which would
        take the page itself away.
        """
        steps = self.history(slug, most=1)
        return replace(steps, done=tuple(step for step in steps.done if not self._began(slug, step)))

    def _began(self, slug: str, change: Change) -> bool:
        turn = self._changes.turns(change.number).get(slug + ENDING)
        return turn is not None and turn.before is None

    def noticed(self) -> tuple[str, ...]:
        """Names of files that changed outside since the last call, or before the desk was opened.

        Each is put down in the journal, in the scope of its file. A file that is gone is told the second
        time it is missed.
        """
        with self._acting:
            return self._watch.news()

    def _step(self, scope: str, going: Going, number: int | None, anyway: bool) -> Change | None:
        with self._acting:
            change = self._next(scope, going)
            if number is not None and (change is None or change.number != number):
                raise Overtaken
            if change is None:
                return None
            turns = self._turns(change, going)
            try:
                left = to_do(self.folder, turns)
            except FileConflict:
                if anyway:
                    return self._put_anyway(change, turns)
                raise
            self._changes.set_out(change.number, going)
            return self._carried_out(change, left)

    def _next(self, scope: str, going: Going) -> Change | None:
        state = State.DONE if going is Going.BACK else State.UNDONE
        return next(iter(self._changes.listed(scope, state, 1)), None)

    def _turns(self, change: Change, going: Going | None) -> dict[str, Turn]:
        turns = self._changes.turns(change.number)
        return {f: turn.back() if going is Going.BACK else turn for f, turn in turns.items()}

    def _put_anyway(self, change: Change, turns: Mapping[str, Turn]) -> Change | None:
        self._watch.look_at(tuple(turns))
        now = {file: self._changes.known_text(file) for file in turns}
        self._changes.drop(change.number)
        texts = {file: (now[file], turn.after) for file, turn in turns.items()}
        return self.write(change.scope, f"put back over a later change: {change.what}", texts)

    def _carried_out(self, change: Change, turns: Mapping[str, Turn]) -> Change:
        written: dict[str, Turn] = {}
        try:
            for file, turn in turns.items():
                written[file] = turn
                put(self.folder, file, turn.after)
            finished = self._changes.finish(change.number)
        except ScantlingError:
            self._back_out(change, written)
            raise
        self._watch.renew()
        return finished

    def _back_out(self, change: Change, written: Mapping[str, Turn]) -> None:
        """What cannot be done now, for a full disk or a ledger that is shut, is left to the next start."""
        with suppress(ScantlingError):
            for file, turn in to_do(self.folder, {f: turn.back() for f, turn in written.items()}).items():
                put(self.folder, file, turn.after)
            self._changes.give_up(change.number)

    def _tidy_up(self) -> None:
        """Finish what was begun; where a file was changed since, take the rest of it back."""
        for change in self._changes.unfinished():
            turns = self._turns(change, change.going)
            try:
                left = to_do(self.folder, turns)
            except ScantlingError:
                self._take_back(change, turns)
                continue
            if left == turns:  # nobody was told that it is done, and nothing of it is
                self._changes.give_up(change.number)
                continue
            for file, turn in left.items():
                put(self.folder, file, turn.after)
            self._changes.finish(change.number)

    def _take_back(self, change: Change, turns: Mapping[str, Turn]) -> None:
        for file, turn in turns.items():
            try:
                left = to_do(self.folder, {file: turn.back()})
            except ScantlingError:
                continue
            for changed, way_back in left.items():
                put(self.folder, changed, way_back.after)
        self._changes.give_up(change.number)
        self.notices += (f'"{change.what}" was cut short and is not in your files; please look at them',)
