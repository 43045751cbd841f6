"""From boards to parts: what blanks the parts ask for, and from which boards, cut by cut, they come.

Knows stock, warp, saws and trade allowances; knows nothing of joints or of the order of building.
Gives `demand_of`, `cut_plan`, and `verify`, which trusts neither.
"""

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
    Unmet,
    Way,
)
from scantling.cutting.demand import demand_of
from scantling.cutting.plan import cut_plan
from scantling.cutting.verify import verify

__all__ = [
    "Areas",
    "Blank",
    "CutPlan",
    "Demand",
    "GlueUp",
    "Need",
    "Piece2D",
    "Placed",
    "Role",
    "SawCut",
    "StockLayout",
    "Unmet",
    "Way",
    "cut_plan",
    "demand_of",
    "verify",
]
