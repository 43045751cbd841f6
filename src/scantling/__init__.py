"""Scantling: from a maker's description of a piece to a checked, buildable plan."""

__version__ = "0.1.0"
