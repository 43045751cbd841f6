"""The joint methods the language knows, by how they meet. Layout rules live in `joinery/`."""

from __future__ import annotations

from enum import Enum


class Meeting(Enum):
    GOES_IN = "goes in"  # the first part is longer than it shows, by what goes in
    MEETS = "meets"  # butt; fastened across the meeting faces
    RUNS_PAST = "runs on past"  # drawn as an overlap
    RESTS = "rests"  # only touches


METHODS: dict[str, Meeting] = {
    "tenon": Meeting.GOES_IN,
    "through tenon": Meeting.GOES_IN,
    "round tenon": Meeting.GOES_IN,
    "loose tenon": Meeting.MEETS,
    "bridle": Meeting.GOES_IN,
    "dado": Meeting.GOES_IN,
    "groove": Meeting.GOES_IN,
    "rabbet": Meeting.GOES_IN,
    "tongue": Meeting.GOES_IN,
    "sliding dovetail": Meeting.GOES_IN,
    "dovetails": Meeting.GOES_IN,
    "half-blind dovetails": Meeting.GOES_IN,
    "finger joint": Meeting.GOES_IN,
    "mitre": Meeting.GOES_IN,
    "splined mitre": Meeting.GOES_IN,
    "glue": Meeting.MEETS,
    "dowels": Meeting.MEETS,
    "biscuits": Meeting.MEETS,
    "screws": Meeting.MEETS,
    "pocket screws": Meeting.MEETS,
    "nails": Meeting.MEETS,
    "figure eights": Meeting.MEETS,
    "buttons": Meeting.MEETS,
    "clips": Meeting.MEETS,
    "slotted screws": Meeting.MEETS,
    "brackets": Meeting.MEETS,
    "glue blocks": Meeting.MEETS,
    "bed bolts": Meeting.MEETS,
    "cross-dowel bolts": Meeting.MEETS,
    "hanger bolts": Meeting.MEETS,
    "rests": Meeting.RESTS,
    "cross lap": Meeting.RUNS_PAST,
    "notch": Meeting.RUNS_PAST,
}
