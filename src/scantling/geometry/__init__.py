"""Solids, contacts, sweeps, hidden lines and shaded regions of a machined piece.

Knows shapes and where they stand; knows nothing of strength, boards or screens.
Gives scenes, answers in mm, mm² and mm³ in the piece's frame, and pictures as SVG and GLB.
"""

from scantling.geometry.contacts import found_contacts, overlaps
from scantling.geometry.drawing import Colour, LineDrawing, Region, Segment, ShadedPicture
from scantling.geometry.glb import glb
from scantling.geometry.lines import line_drawing
from scantling.geometry.mass import density_of, mass_of
from scantling.geometry.motions import after, inverse, motion_placement
from scantling.geometry.poses import carried_by, pose_placements, pose_steps
from scantling.geometry.scene import FoundContact, Hit, Mass, Overlap, Scene, Solid, scene_of
from scantling.geometry.shading import shaded_picture
from scantling.geometry.step import StepFailed, write_step
from scantling.geometry.sweep import first_hit, hits_of
from scantling.geometry.tones import TONES, tone_named, wood_tone
from scantling.geometry.view import View

__all__ = [
    "TONES",
    "Colour",
    "FoundContact",
    "Hit",
    "LineDrawing",
    "Mass",
    "Overlap",
    "Region",
    "Scene",
    "Segment",
    "ShadedPicture",
    "Solid",
    "StepFailed",
    "View",
    "after",
    "carried_by",
    "density_of",
    "first_hit",
    "found_contacts",
    "glb",
    "hits_of",
    "inverse",
    "line_drawing",
    "mass_of",
    "motion_placement",
    "overlaps",
    "pose_placements",
    "pose_steps",
    "scene_of",
    "shaded_picture",
    "tone_named",
    "wood_tone",
    "write_step",
]
