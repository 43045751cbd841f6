"""From boards to parts: what blanks the parts ask for, and from which boards, cut by cut, they come.

Knows stock, warp, saws, trade allowances and what the build record says of boards; knows nothing of joints or
of the order of building.
Gives `demand_of`, `cut_plan`, and `verify`, which trusts neither; `routes` and `compare` to choose by;
`board_cut` for the build record; `layout_facts` for drawing; `sequence_of`, the order of sawing and milling,
and `sequence_complaints`, which replays it.
"""

from scantling.cutting.comparing import Difference, Moved, compare, share_used
from scantling.cutting.cut_plan import (
    Areas,
    Blank,
    CutPlan,
    Demand,
    GlueUp,
    Need,
    Piece2D,
    Placed,
    Role,
    SawCut,
    StockLayout,
    Unheeded,
    Unmet,
    Way,
)
from scantling.cutting.demand import demand_of
from scantling.cutting.facts import BlankFacts, CutLine, LayoutFacts, layout_facts, tightest
from scantling.cutting.plan import cut_plan
from scantling.cutting.rack import Rack, rack_left
from scantling.cutting.recording import BoardWords, board_cut, board_left_alone
from scantling.cutting.routes import Flatness, Route, flatness_of, routes
from scantling.cutting.sequence import Sequence, sequence_of
from scantling.cutting.sheet_goods import with_sheets
from scantling.cutting.verify import verify
from scantling.cutting.verifying.sequence import sequence_complaints

__all__ = [
    "Areas",
    "Blank",
    "BlankFacts",
    "BoardWords",
    "CutLine",
    "CutPlan",
    "Demand",
    "Difference",
    "Flatness",
    "GlueUp",
    "LayoutFacts",
    "Moved",
    "Need",
    "Piece2D",
    "Placed",
    "Rack",
    "Role",
    "Route",
    "SawCut",
    "Sequence",
    "StockLayout",
    "Unheeded",
    "Unmet",
    "Way",
    "board_cut",
    "board_left_alone",
    "compare",
    "cut_plan",
    "demand_of",
    "flatness_of",
    "layout_facts",
    "rack_left",
    "routes",
    "sequence_complaints",
    "sequence_of",
    "share_used",
    "tightest",
    "verify",
    "with_sheets",
]
