"""Planning away from the pages: a warm process that runs pure jobs, asked by content, killed to cancel."""

from scantling.desk.working.asked import Asked, Trouble
from scantling.desk.working.planner import Cancelled, Planner

__all__ = ["Asked", "Cancelled", "Planner", "Trouble"]
