"""Building: from a machined piece and its cut plan to steps, waits, a shopping list and money.

Knows the order of work and how long it takes; decides no joint, no size and no cut.
Gives `build_plan`.
"""

from scantling.building.build_plan import BuildPlan, Cost, ShoppingLine, Slot, Stage, Step
from scantling.building.plan import build_plan

__all__ = ["BuildPlan", "Cost", "ShoppingLine", "Slot", "Stage", "Step", "build_plan"]
