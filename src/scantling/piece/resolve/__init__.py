"""From a document, the shop's facts and the build record to the piece: names, spans, copies, joints.

Knows phrases and their meaning; knows no shop and never searches. Gives `resolve`.
"""

from scantling.piece.resolve.whole import resolve

__all__ = ["resolve"]
