"""The least thickness range of a surface over all planes, as a linear program. Exact for the points given."""

from __future__ import annotations

from collections.abc import Sequence

Point = tuple[float, float, float]


def range_over_planes(points: Sequence[Point]) -> float:
    """Least over all a, b of the greatest less the least of z - a x - b y. [mm]

    Columns: a, b, top, bottom; each point lies between bottom and top once the tilt is taken out.
    """
    import highspy  # a second to load, and only boards with stations ask for it

    free = highspy.kHighsInf
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    for cost in (0.0, 0.0, 1.0, -1.0):
        solver.addCol(cost, -free, free, 0, [], [])
    for x, y, z in points:
        solver.addRow(z, free, 3, [0, 1, 2], [x, y, 1.0])
        solver.addRow(-free, z, 3, [0, 1, 3], [x, y, 1.0])
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise RuntimeError(f"the flat of {len(points)} points was not found")
    return float(solver.getObjectiveValue())
