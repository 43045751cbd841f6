"""From a document, the shop's facts and the build record to the piece: names, spans, copies, joints.

Knows phrases and their meaning; knows no shop and never searches.
Gives `resolve`, and `range_notices` on what a re-fit may run into.
"""

from scantling.piece.resolve.ranges import range_notices
from scantling.piece.resolve.whole import resolve

__all__ = ["range_notices", "resolve"]
