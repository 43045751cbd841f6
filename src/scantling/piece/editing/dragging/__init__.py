"""What a pull at a face of a part writes: ends of spans, terms of formulas, and the trial of each answer.

Knows phrases and resolved pieces; knows no screen. Gives `drag`.
"""

from scantling.piece.editing.dragging.drag import drag, step_of

__all__ = ["drag", "step_of"]
