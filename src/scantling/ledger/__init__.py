"""What the desk remembers about a folder: changes, drafts, builds, photos and summaries, in SQLite.

Knows no wood and no file's meaning. What a call has answered is on disk: no killed process loses it.
"""

from scantling.ledger.builds import Builds, Note, Timer, TimerState
from scantling.ledger.changes import Change, Changes, Going, State, Turn
from scantling.ledger.drafts import Draft, Drafts
from scantling.ledger.opening import Ledger, open_ledger
from scantling.ledger.photos import Corners, Photo, Photos
from scantling.ledger.store import LedgerTrouble
from scantling.ledger.summaries import Summaries, Summary
from scantling.ledger.texts import digest_of

__all__ = [
    "Builds",
    "Change",
    "Changes",
    "Corners",
    "Draft",
    "Drafts",
    "Going",
    "Ledger",
    "LedgerTrouble",
    "Note",
    "Photo",
    "Photos",
    "State",
    "Summaries",
    "Summary",
    "Timer",
    "TimerState",
    "Turn",
    "digest_of",
    "open_ledger",
]
