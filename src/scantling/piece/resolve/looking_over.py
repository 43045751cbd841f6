"""Checked over a whole tree: settings known, names unlike, pairs on the hand they say, sheets by `thick`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scantling.errors import ResolveError
from scantling.piece.language.document import Scalar
from scantling.piece.language.parse import parse_span
from scantling.piece.language.phrases import Number
from scantling.piece.model import TOUCH, Axis, MaterialKind, Notice
from scantling.piece.resolve import choices, materials, named
from scantling.piece.resolve.asker import place_for
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.steps import Mirror
from scantling.piece.resolve.tree import SIDES, SPACE, Scope, Seen, Thing
from scantling.quantity.kinds import LengthUnit

LONGEST = 10_000.0  # mm; no piece of furniture, and no board, is longer: common practice, no source


def refuse_unknown_settings(root: Scope, settings: Mapping[str, str]) -> None:
    """A setting must name a size, a choice, a material or an overall size."""
    overall = [f"overall {axis.word}" for axis in Axis]
    known = [*named.size_names(root), *choices.names(root), *materials.names(root), *overall]
    for name in settings:
        if name not in known:
            raise ResolveError(f'the piece has no setting "{name}"', None, nearest(name, known))


def refuse_same_names(leaves: tuple[Seen, ...]) -> None:
    """Two parts of one name could not be told apart."""
    taken: dict[str, Seen] = {}
    for seen in leaves:
        other = taken.setdefault(seen.name, seen)
        if other is not seen:
            line = other.thing.family.key.place.line
            raise ResolveError(
                f'two parts are called "{seen.name}" (the other stands at line {line})',
                seen.thing.family.key.place,
                "call one of them otherwise",
            )


def refuse_giants(crowd: Crowd, unit: LengthUnit) -> None:
    """A part longer than any house is a slip of the pen, and so is one that stands far off."""
    for one in crowd.all:
        box = one.part.box
        far = max(max(map(abs, box.low)), max(map(abs, box.high)))
        longest = max(box.sizes)
        if longest > LONGEST or far > 2 * LONGEST:
            what = (
                f"is {shown(longest, unit)} long" if longest > LONGEST else f"stands {shown(far, unit)} off"
            )
            raise ResolveError(
                f"{one.name} {what}; {shown(LONGEST, unit)} is the most for a piece",
                one.part.place,
                "look for a slip in its spans, or in the sizes that they name",
            )


def refuse_wrong_hand(scope: Scope) -> None:
    """What is written for a pair is its left or front one."""
    for family in scope.families.values():
        for thing in family.things:
            if family.kind != SPACE:
                _refuse_wrong_hand(thing)
            if thing.contents is not None:
                refuse_wrong_hand(thing.contents)


def _refuse_wrong_hand(thing: Thing) -> None:
    mirrored = {step.axis for copy in thing.copies for step in copy.steps if isinstance(step, Mirror)}
    if thing.contents is not None:
        return
    for axis in sorted(mirrored):
        word = next(w for w in thing.copies[0].words if SIDES[w][0] is axis)
        middle = _about(thing, axis)
        if thing.reach(axis).middle > middle + TOUCH:
            other = "right" if word == "left" else "back"
            raise ResolveError(
                f"as written this is the {other} one of the pair; its copy comes out {word}",
                thing.family.key.place,
                f"write the {word} one: swap {word} and {other} in its `{axis.word}`",
                (thing.label, axis.word),
            )


def _about(thing: Thing, axis: Axis) -> float:
    for copy in thing.copies:
        for step in copy.steps:
            if isinstance(step, Mirror) and step.axis is axis:
                return step.about()
    return place_for(thing, axis).middle


def sheet_thicknesses(crowd: Crowd, unit: LengthUnit) -> Iterator[Notice]:
    """Sheet parts that no such sheet makes, and those whose bare number will not follow it as measured."""
    told: set[int] = set()
    for one in crowd.all:
        key = id(one.seen.thing.family.key)
        if one.part.material.kind is not MaterialKind.SHEET or key in told:
            continue
        notice = _another_thickness(one, unit) or _bare_number(one, unit)
        if notice is not None:
            told.add(key)
            yield notice


def _another_thickness(one: Standing, unit: LengthUnit) -> Notice | None:
    """A part that is neither one sheet thick nor so many glued on each other."""
    thing, part, sheet = one.seen.thing, one.part, one.part.material
    if sheet.thick is None or part.built is not None or part.shape.outline is not None:
        return None
    axis = _thin_axis(thing)
    size = thing.reach(axis).size
    layers = max(1, round(size / sheet.thick))
    if abs(size - layers * sheet.thick) <= layers * TOUCH:
        return None
    node = thing.family.node.get(axis.word)
    return Notice(
        "sheet of another thickness",
        f"{thing.label} is {shown(size, unit)} thick, but {sheet.text} is {shown(sheet.thick, unit)}",
        thing.scope.shown_place(node.place) if node else part.place,
        (one.name,),
        size - sheet.thick,
        "write `thick` for that size; for a kit leave its setting out, or say `thick of` the material",
        must=True,
    )


def _bare_number(one: Standing, unit: LengthUnit) -> Notice | None:
    thing = one.seen.thing
    axis = _thin_axis(thing)
    node = thing.family.node.get(axis.word)
    span = parse_span(node) if isinstance(node, Scalar) else None
    if node is None or not isinstance(getattr(span, "size", None), Number):
        return None
    size = thing.reach(axis).size
    return Notice(
        "sheet part of bare number",
        f"{thing.label} says {shown(size, unit)} {axis.word} for a sheet whose thickness is measured",
        thing.scope.shown_place(node.place),
        (one.name,),
        size,
        "write `thick` in place of the number",
    )


def _thin_axis(thing: Thing) -> Axis:
    return min(Axis, key=lambda axis: thing.reach(axis).size)
