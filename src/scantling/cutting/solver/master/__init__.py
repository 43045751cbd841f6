"""All bins at once: the least cost, by a linear program over patterns, and whole plans from it.

Ways to make a thing are chosen together with the bins it comes from: see `Choice`.
"""

from scantling.cutting.solver.master.merged import Merged, merged
from scantling.cutting.solver.master.relaxed import Aim, attainable
from scantling.cutting.solver.master.solve import Root, improved, root
from scantling.cutting.solver.master.whole import Plan, plan_of

__all__ = ["Aim", "Merged", "Plan", "Root", "attainable", "improved", "merged", "plan_of", "root"]
