"""Any order of writing, undoing, redoing, outside edits, restarts and kills against a model in memory."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from scantling.desk.keeping import FileConflict, Folder, Keeper
from scantling.desk.keeping import keeper as keeping
from scantling.ledger import open_ledger

IN_MEMORY = "/dev/shm" if Path("/dev/shm").is_dir() else None  # thousands of writings, none worth a disk
FILES = ("bench.yaml", "stool.yaml", "shop.yaml")
SCOPES = ("bench", "stool", "shop")
texts = st.sampled_from([None, "piece: A\n", "piece: B\r\n", "piece: Ç\n", ""])
scopes = st.sampled_from(SCOPES)
some_texts = st.dictionaries(st.sampled_from(FILES), texts, min_size=1)


class Killed(BaseException):
    """The process is gone here."""


class Model:
    """What the folder should hold and which steps there should be, as plainly as can be said."""

    def __init__(self) -> None:
        self.disk: dict[str, str | None] = dict.fromkeys(FILES)
        self.known: dict[str, str | None] = dict.fromkeys(FILES)
        self.done = {scope: [] for scope in SCOPES}
        self.undone = {scope: [] for scope in SCOPES}

    def notice(self, files) -> None:
        for file in files:
            was, now = self.known[file], self.disk[file]
            if was == now:
                continue
            self.known[file] = now
            if was is not None:
                self._new(file.removesuffix(".yaml"), {file: (was, now)})

    def write(self, scope, wanted) -> None:
        turns = {f: (self.disk[f], text) for f, text in wanted.items() if text != self.disk[f]}
        if turns:
            self._new(scope, turns)
            self._put({file: after for file, (_, after) in turns.items()})

    def fits(self, turns) -> bool:
        return all(self.disk[file] in turn for file, turn in turns.items())

    def step(self, source, target, *, back) -> None:
        turns = source.pop()
        target.append(turns)
        self._put({file: turn[0 if back else 1] for file, turn in turns.items()})

    def _new(self, scope, turns) -> None:
        self.done[scope].append(turns)
        self.undone[scope].clear()

    def _put(self, texts) -> None:
        self.disk |= texts
        self.known |= texts


class Desk(RuleBasedStateMachine):
    @initialize()
    def begin(self) -> None:
        self.home = Path(tempfile.mkdtemp(prefix="scantling-model-", dir=IN_MEMORY))
        self.model = Model()
        self._open()

    def _open(self) -> None:
        self.ledger = open_ledger(self.home / ".scantling" / "ledger.sqlite3")
        self.keeper = Keeper(Folder(self.home), self.ledger)

    def _close(self) -> None:
        self.keeper.close()
        self.ledger.close()

    def teardown(self) -> None:
        self._close()
        shutil.rmtree(self.home)

    @rule(scope=scopes, wanted=some_texts)
    def write(self, scope, wanted) -> None:
        self.model.notice(wanted)
        pairs = {file: (self.model.disk[file], text) for file, text in wanted.items()}
        changed = self.keeper.write(scope, "a change", pairs)
        assert (changed is None) == all(before == after for before, after in pairs.values())
        self.model.write(scope, wanted)

    @rule(scope=scopes, wanted=some_texts)
    def write_over_what_is_not_there(self, scope, wanted) -> None:
        self.model.notice(wanted)
        stale = {file: ("never was there", text) for file, text in wanted.items()}
        if all(self.model.disk[file] == text for file, text in wanted.items()):
            assert self.keeper.write(scope, "a change", stale) is None
            return
        with pytest.raises(FileConflict):
            self.keeper.write(scope, "a change", stale)

    @rule(scope=scopes)
    def undo(self, scope) -> None:
        self._step(self.keeper.undo, scope, self.model.done[scope], self.model.undone[scope], back=True)

    @rule(scope=scopes)
    def redo(self, scope) -> None:
        self._step(self.keeper.redo, scope, self.model.undone[scope], self.model.done[scope], back=False)

    def _step(self, act, scope, source, target, *, back) -> None:
        if not source:
            assert act(scope) is None
        elif self.model.fits(source[-1]):
            act(scope)
            self.model.step(source, target, back=back)
        else:
            with pytest.raises(FileConflict):
                act(scope)

    @rule(scope=scopes)
    def pass_over(self, scope) -> None:
        if done := self.keeper.history(scope).done:
            self.keeper.pass_over(scope, done[0].number)
            self.model.done[scope].pop()

    @rule(file=st.sampled_from(FILES), text=texts, seen=st.booleans())
    def edit_outside(self, file, text, seen) -> None:
        if text is None:
            (self.home / file).unlink(missing_ok=True)
        else:
            (self.home / file).write_bytes(text.encode())
        self.model.disk[file] = text
        if seen:
            self.notice()

    @rule()
    def notice(self) -> None:
        self.keeper.noticed()
        self.keeper.noticed()
        self.model.notice(sorted(FILES, key=lambda file: self.model.disk[file] is None))

    @rule()
    def restart(self) -> None:
        self._close()
        self._open()

    @rule(scope=scopes, wanted=some_texts, moment=st.integers(0, 2))
    def kill_while_writing(self, scope, wanted, moment) -> None:
        self.model.notice(wanted)
        pairs = {file: (self.model.disk[file], text) for file, text in wanted.items()}
        if self._dying(moment, lambda: self.keeper.write(scope, "a change", pairs)):
            self.model.write(scope, wanted)

    @rule(scope=scopes, moment=st.integers(0, 2))
    def kill_while_undoing(self, scope, moment) -> None:
        done = self.model.done[scope]
        fits = done and self.model.fits(done[-1])
        if fits and self._dying(moment, lambda: self.keeper.undo(scope)):
            self.model.step(done, self.model.undone[scope], back=True)

    def _dying(self, moment, act) -> bool:
        """Kill before the given file is written, then start again; whether anything was done by then."""
        written, killed = [], False

        def put(*given) -> None:
            if len(written) == moment:
                raise Killed
            written.append(given)
            whole(*given)

        whole, keeping.put = keeping.put, put
        try:
            act()
        except Killed:
            killed = True
        finally:
            keeping.put = whole
        self.restart()
        return bool(written) or not killed

    @invariant()
    def all_is_as_the_model_says(self) -> None:
        for file in FILES:
            path = self.home / file
            assert (path.read_bytes().decode() if path.exists() else None) == self.model.disk[file]
        for scope in SCOPES:
            history = self.keeper.history(scope)
            assert self._turns(reversed(history.done)) == self.model.done[scope]
            assert self._turns(reversed(history.undone)) == self.model.undone[scope]
        assert self.ledger.changes.unfinished() == ()
        assert not list(self.home.glob(".scantling-*"))

    def _turns(self, changes) -> list[dict[str, tuple[str | None, str | None]]]:
        return [self.ledger.changes.turns(change.number) for change in changes]


Desk.TestCase.settings = settings(
    max_examples=15, stateful_step_count=20, deadline=None, suppress_health_check=list(HealthCheck)
)
TestDesk = Desk.TestCase
