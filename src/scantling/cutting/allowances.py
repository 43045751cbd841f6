"""Trade allowances between a finished part and the blank it is milled from. All mm.

Sources: the trade's milling allowances (magazine articles on milling rough lumber and sizing parts, where
named); the rest is common practice, no source.
"""

from __future__ import annotations

RIP_WIDTH = 6.0  # first rip, both edges together; magazine article on milling rough lumber, 1/4 in
LENGTH_SHORT = 13.0  # same article, 1/2 in
LENGTH = 25.0  # woodturning guild's advice on sizing parts, 1 in
SHORT_PART = 300.0  # below this a part takes LENGTH_SHORT; common practice, no source
PANEL_WIDTH = 6.0  # a panel of staves, in all, before it is cut to size; common practice, no source
PANEL_LENGTH = 25.0  # common practice, no source
LAYER_THICKNESS = 1.0  # each layer of a laminated part; common practice, no source
LAYER_WIDTH = 3.0  # common practice, no source
ROUGH_FACE = 0.8  # least clean-up of a rough face after flattening, 1/32 in; common practice, no source
SURFACED_FACE = 0.3  # a light pass over a face already surfaced; common practice, no source
STILL_FLAT = 0.8  # a surfaced board this flat is used as it comes, only sanded; common practice, no source
STAVE_LEAST, STAVE_MOST = 40.0, 160.0  # usual widths of staves; common practice, no source
STAVED_FROM, LAYERED_FROM = 100.0, 22.0  # width and thickness from which gluing up is usual; same
TONGUE = 6.0  # width a stave loses in a tongue; common practice, no source
BRICK_OVERLAP = 3.0  # added to a ring segment's width for truing its curve; common practice, no source
SHEET_TRIM = 3.0  # factory edges: straight within 1/16 in by PS 1; trimmed clean, common practice, no source
STICK_TRIM = 10.0  # ends of dressed lumber are seldom square; common practice, no source
GANG_WASTE = 50.0  # once a gang where no snipe is known; common practice, no source (50 to 150 mm)
KERF_UNKNOWN = 3.2  # planning value where a saw's kerf is not known; common practice, no source
KEEP_LENGTH, KEEP_WIDTH = 300.0, 40.0  # an offcut worth putting back; common practice, no source

# Warp to be expected of a board not yet chosen, on 2440 x 200 mm; common practice, no source.
USUAL_BOW, USUAL_CROOK, USUAL_CUP, USUAL_TWIST = 4.5, 3.0, 1.2, 3.0
USUAL_LENGTH, USUAL_WIDTH = 2440.0, 200.0
USUAL_END_WASTE = 25.0
