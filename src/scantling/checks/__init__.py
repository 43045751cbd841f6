"""What a good maker would ask of a design: fit, movement, strength, standing, room, making.

Knows parts, joints, woods and the shop; knows nothing of boards to cut or pages to print.
Gives findings: what, where, the number, the limit, its source, and the smallest change that mends it.
"""

from scantling.checks.finding import Change, Finding, Mend, Severity
from scantling.checks.rules import Rule, all_rules
from scantling.checks.run import CHECKS, check_piece

__all__ = ["CHECKS", "Change", "Finding", "Mend", "Rule", "Severity", "all_rules", "check_piece"]
