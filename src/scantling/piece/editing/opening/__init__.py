"""A kit opened into the maker's own file: its phrases spelt anew, its parts a group.

Knows phrases, kits and resolved pieces; knows no screen. Gives `open_kit`.
"""

from scantling.piece.editing.opening.opened import open_kit

__all__ = ["open_kit"]
