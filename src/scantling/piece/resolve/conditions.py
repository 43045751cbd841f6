"""Whether a condition holds: sizes compared, choices and materials asked for by plain words."""

from __future__ import annotations

from typing import assert_never

from scantling.piece.language.phrases import Both, Compare, Condition, Either, Is, Not
from scantling.piece.model import MaterialKind
from scantling.piece.resolve import choices, materials
from scantling.piece.resolve.asker import Asker
from scantling.piece.resolve.common import nearest
from scantling.piece.resolve.values import Mismatch, compared

_SLACK = 1e-6  # mm: sizes that differ by less are equal


def holds(asker: Asker, condition: Condition) -> bool:
    """The truth of a condition for the one who asks. Raises ResolveError on unknown names."""
    match condition:
        case Compare():
            return _compares(asker, condition)
        case Is():
            return _is(asker, condition) is not condition.negated
        case Both():
            return holds(asker, condition.left) and holds(asker, condition.right)
        case Either():
            return holds(asker, condition.left) or holds(asker, condition.right)
        case Not():
            return not holds(asker, condition.condition)
    assert_never(condition)


def _compares(asker: Asker, condition: Compare) -> bool:
    left, right = asker.value(condition.left), asker.value(condition.right)
    try:
        a, b = compared(left, right)
    except Mismatch as slip:
        raise asker.error(str(slip), condition, slip.remedy) from None
    match condition.sign:
        case ">":
            return a > b + _SLACK
        case "<":
            return a < b - _SLACK
        case ">=":
            return a >= b - _SLACK
        case _:
            return a <= b + _SLACK


def _is(asker: Asker, condition: Is) -> bool:
    home, name, option = asker.scope.home, condition.name.text, condition.option.text
    if choices.is_choice(home, name):
        known = choices.options_of(home, name)
        if option not in known:
            raise asker.error(f'"{name}" has no choice "{option}"', condition.option, nearest(option, known))
        return choices.taken(home, name) == option
    if materials.is_material(home, name):
        return _material_is(asker, condition, materials.named(home, name).kind, option)
    known_names = [*choices.names(home), *materials.names(home)]
    raise asker.error(f'no choice or material is called "{name}"', condition.name, nearest(name, known_names))


def _material_is(asker: Asker, condition: Is, kind: MaterialKind, option: str) -> bool:
    if option in ("solid", "sheet"):
        return (kind is MaterialKind.SHEET) == (option == "sheet")
    raise asker.error(f'a material is `solid` or `sheet`, not "{option}"', condition.option)
