"""Whether an answer keeps every rule of its problem, each sheet cut over again from its whole size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from scantling.cutting.solver.guillotine.problem import SheetProblem
from scantling.cutting.solver.guillotine.solution import NOTHING, CutSheet, Piece, SheetAnswer

_Box = tuple[int, int, int, int]  # x, y, length, width


def faults(answer: SheetAnswer) -> Iterator[str]:
    """What is wrong with an answer, in words; nothing where it is sound."""
    problem = answer.problem
    for sheet in answer.sheets:
        kind = problem.sheets[sheet.kind]
        whole = (*kind.corner(problem.kerf), *kind.size(problem.kerf))
        yield from _cut_faults(sheet.whole, whole, problem.kerf)
        yield from _stage_faults(sheet, problem)
        for leaf in sheet.whole.leaves():
            if leaf.wanted != NOTHING:
                yield from _piece_faults(leaf, sheet.kind, problem)
    yield from _count_faults(answer)
    if answer.bound > answer.value and not answer.unmet:
        yield "the bound is above the value"


def _cut_faults(piece: Piece, box: _Box, kerf: int) -> Iterator[str]:
    x, y, length, width = box
    if (piece.x, piece.y, piece.length, piece.width) != box or min(length, width) <= 0:
        yield f"{piece} should be {box}"
    if not piece.parts:
        return
    if piece.wanted != NOTHING:
        yield f"{piece} is cut up"
    at = piece.at + kerf
    low = (x, y, piece.at - x, width) if piece.across else (x, y, length, piece.at - y)
    high = (at, y, x + length - at, width) if piece.across else (x, at, length, y + width - at)
    if len(piece.parts) == 1 and min(high[2:]) > 0:
        yield f"{high} is lost beyond the cut of {piece}"
    for part, expected in zip(piece.parts, (low, high), strict=False):
        yield from _cut_faults(part, expected, kerf)


def _stage_faults(sheet: CutSheet, problem: SheetProblem) -> Iterator[str]:
    """`todo`: pieces with the stage they were cut in and whether that ran across."""
    if sheet.whole.parts and problem.first and sheet.whole.across != (problem.first == "across"):
        yield f"the first cuts of {sheet.whole} do not run {problem.first}"
    todo: list[tuple[Piece, int, bool | None]] = [(sheet.whole, 0, None)]
    while problem.stages is not None and todo:
        piece, stage, across = todo.pop()
        if not piece.parts:
            continue
        deeper = stage + (piece.across != across)
        if deeper > problem.stages + problem.trimming:
            yield f"{piece} is cut in stage {deeper}"
        if deeper == problem.stages + 1 and sum(part.wanted != NOTHING for part in piece.leaves()) > 1:
            yield f"{piece} is parted, not trimmed, in stage {deeper}"
        todo += [(part, deeper, piece.across) for part in piece.parts]


def _piece_faults(piece: Piece, kind: int, problem: SheetProblem) -> Iterator[str]:
    want = problem.wanted[piece.wanted]
    size = (want.width, want.length) if piece.turned else (want.length, want.width)
    if (piece.length, piece.width) != size or (piece.turned and not want.turns):
        yield f"{piece} is not {want}"
    for flaw in problem.sheets[kind].flaws:
        along = piece.x < flaw.x1 and piece.x + piece.length > flaw.x0
        if along and piece.y < flaw.y1 and piece.y + piece.width > flaw.y0:
            yield f"{piece} lies over {flaw}"


def _count_faults(answer: SheetAnswer) -> Iterator[str]:
    problem, unmet = answer.problem, dict(answer.unmet)
    made = Counter(leaf.wanted for sheet in answer.sheets for leaf in sheet.whole.leaves())
    for number, want in enumerate(problem.wanted):
        if made[number] + unmet.get(number, 0) != want.demand:
            yield f"{made[number]} made of {want}"
    used = Counter(sheet.kind for sheet in answer.sheets)
    for number, kind in enumerate(problem.sheets):
        if kind.supply is not None and used[number] > kind.supply:
            yield f"{used[number]} used of {kind}"
