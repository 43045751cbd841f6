"""Everything a maker changes without writing it: pure edits of piece files and build records, text to text.

Knows the language and what `resolve` makes of it; knows no screen, no shop file and no disk. Gives rows to
show (`rows`, `part_rows`, `dependents`, `offering`) and writes (`set_words`, `choose`, `drag`, `add_part`,
`remove`, `open_kit`, `mend`, `set_record_entry`, ...): new texts with a sentence of what was changed.
"""

from scantling.errors import Conflict
from scantling.piece.editing.adding import (
    add_hardware,
    add_hold,
    add_joint,
    add_load,
    add_material,
    add_part,
    add_size,
    add_work,
)
from scantling.piece.editing.dependents import Dependent, dependents
from scantling.piece.editing.differing import DifferingLine, LineKind, difference
from scantling.piece.editing.dragging import drag, step_of
from scantling.piece.editing.effects import Effects, PartChange, SizeChange, effects
from scantling.piece.editing.mending import Mending, mend
from scantling.piece.editing.naming import Stands, Words, change_words, words_at
from scantling.piece.editing.offering import (
    KitSetting,
    Offers,
    kit_settings,
    offers,
    suggest_hold,
    suggest_kit,
    suggest_load,
    suggest_method,
    suggest_part,
    suggest_work,
)
from scantling.piece.editing.opening import open_kit
from scantling.piece.editing.part_rows import KeyRow, LineRow, PartRows, SpanRow, part_rows
from scantling.piece.editing.recording import (
    clear_record_entry,
    mark_cut,
    record_size,
    set_record_entry,
    set_record_words,
)
from scantling.piece.editing.removing import remove
from scantling.piece.editing.rows import (
    ChoiceRow,
    MaterialRow,
    SizeRow,
    choice_rows,
    material_rows,
    size_rows,
)
from scantling.piece.editing.setting import Where, choose, keep_option, keep_size, set_words
from scantling.piece.editing.writes import Ask, Question, Refused, Steps, Way, Write

__all__ = [
    "Ask",
    "ChoiceRow",
    "Conflict",
    "Dependent",
    "DifferingLine",
    "Effects",
    "KeyRow",
    "KitSetting",
    "LineKind",
    "LineRow",
    "MaterialRow",
    "Mending",
    "Offers",
    "PartChange",
    "PartRows",
    "Question",
    "Refused",
    "SizeChange",
    "SizeRow",
    "SpanRow",
    "Stands",
    "Steps",
    "Way",
    "Where",
    "Words",
    "Write",
    "add_hardware",
    "add_hold",
    "add_joint",
    "add_load",
    "add_material",
    "add_part",
    "add_size",
    "add_work",
    "change_words",
    "choice_rows",
    "choose",
    "clear_record_entry",
    "dependents",
    "difference",
    "drag",
    "effects",
    "keep_option",
    "keep_size",
    "kit_settings",
    "mark_cut",
    "material_rows",
    "mend",
    "offers",
    "open_kit",
    "part_rows",
    "record_size",
    "remove",
    "set_record_entry",
    "set_record_words",
    "set_words",
    "size_rows",
    "step_of",
    "suggest_hold",
    "suggest_kit",
    "suggest_load",
    "suggest_method",
    "suggest_part",
    "suggest_work",
    "words_at",
]
