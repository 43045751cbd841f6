"""The plan as people take it away: print, page, lists and models.

Knows layout and files; decides nothing about the piece. Gives one folder of finished files.
"""

from scantling.packet.writing import write_packet

__all__ = ["write_packet"]
