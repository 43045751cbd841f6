"""What a page can offer where something is added, and first words that work at once."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.editing.adding import Said
from scantling.piece.editing.finding import tree_of
from scantling.piece.editing.rows import option_words
from scantling.piece.editing.writes import Question
from scantling.piece.language import (
    Document,
    Entry,
    MappingNode,
    Scalar,
    house_kit,
    house_kit_names,
    parse_size,
)
from scantling.piece.language.document import as_name
from scantling.piece.language.phrases import Within
from scantling.piece.methods import METHODS
from scantling.piece.model import Axis, Box, Piece
from scantling.piece.resolve import materials
from scantling.piece.resolve.materials import GIVEN
from scantling.piece.resolve.names import callable_names
from scantling.piece.resolve.tree import SPACE
from scantling.quantity import LengthUnit

EDGE_WORK = ("round-over", "chamfer", "bevel", "rabbet")
LOADS = ("fill", "rest", "sit", "stand", "push")


@dataclass(frozen=True, slots=True)
class Offers:
    """Names to choose from. `parts` are keys, as a joint line may name them; `spaces` those to be filled."""

    parts: tuple[str, ...]
    spaces: tuple[str, ...]
    materials: tuple[str, ...]
    methods: tuple[str, ...]
    kits: tuple[str, ...]
    hardware: tuple[str, ...]
    edge_work: tuple[str, ...]
    details: tuple[str, ...]
    poses: tuple[str, ...]
    loads: tuple[str, ...] = LOADS


@dataclass(frozen=True, slots=True)
class KitSetting:
    """What a use of a kit may say. `group`: "sizes", "choices" or "materials".

    `words` stand if it says nothing, in the unit of the kit; `must`: it has to be said; `options` of a
    choice.
    """

    name: str
    group: str
    words: str
    unit: LengthUnit
    must: bool = False
    options: tuple[str, ...] = ()


def offers(question: Question) -> Offers:
    """What may be added to the piece, and to what. Raises ResolveError."""
    root = tree_of(question).root
    piece = question.piece()
    spaces = [family.name for family in root.families.values() if family.kind == SPACE]
    divided = [space.name for space in piece.spaces if space.name not in spaces]
    able = question.facts.methods
    return Offers(
        tuple(name for name in dict.fromkeys(callable_names(root)) if name not in spaces),
        (*spaces, *divided),
        tuple(materials.names(root)),
        (*able, *(method for method in METHODS if method not in able)),
        tuple(sorted({*question.document.kits, *house_kit_names()})),
        tuple(sorted({fact.kind for fact in question.facts.hardware})),
        EDGE_WORK,
        _keys(question.document, "details"),
        tuple(pose.name for pose in piece.poses),
    )


def kit_settings(document: Document, name: str) -> tuple[KitSetting, ...]:
    """The settings of a kit, from its own file: what must be said first. Raises KeyError for no such kit."""
    kit = document.kits.get(as_name(name)) or house_kit(as_name(name))
    found = [
        _setting(kit, group, entry.name, entry.value)
        for group in ("materials", "choices", "sizes")
        for entry in _entries(kit, group)
        if isinstance(entry.value, Scalar)
    ]
    return tuple(sorted(found, key=lambda one: not one.must))


def _setting(kit: Document, group: str, name: str, scalar: Scalar) -> KitSetting:
    must = group == "materials" and as_name(scalar.text) == GIVEN
    options = option_words((group, name), scalar) if group == "choices" else ()
    words = "" if must else scalar.text
    if group == "sizes":
        size = parse_size(scalar)
        words = _alone(scalar.text, size) if isinstance(size, Within) else words
    return KitSetting(name, group, words, kit.unit, must, options)


def _alone(text: str, size: Within) -> str:
    """The size without its range."""
    taken = size.value or size.low
    return text[taken.offset : taken.offset + taken.length]


def suggest_part(question: Question, space: str = "") -> Said:
    """A board that fills a space; or one that lies at the bottom of the whole piece."""
    piece = question.piece()
    box = next((one.box for one in piece.spaces if one.name == as_name(space)), None)
    of = {"of": piece.materials[0].name} if piece.materials and piece.materials[0].name else {}
    if space:
        return {**of, "in": as_name(space), "grain": _grain(box or piece.overall)}
    thick = "thick" if piece.materials and piece.materials[0].thick is not None else _usual(piece)
    spans = {"wide": "left to right", "deep": "front to back", "high": f"{thick} up from bottom"}
    return {**of, **spans, "grain": "wide"}


def suggest_kit(question: Question, kit: str, space: str) -> Said:
    """A kit in a space, with the first material of the piece for each that must be said."""
    listed = materials.names(tree_of(question).root)
    first = listed[0] if listed else "pine 3/4"
    given = {one.name: first for one in kit_settings(question.document, kit) if one.must}
    return {"kit": as_name(kit), "in": as_name(space), **given}


def suggest_method(question: Question) -> str:
    """The joint method the shop likes best, dowels where it says none."""
    return question.facts.methods[0] if question.facts.methods else "dowels"


def suggest_work(question: Question, kind: str) -> Said:
    """Edge work of that kind on the top, small; or a detail of the piece by its name."""
    small = "1/8" if question.document.unit is LengthUnit.INCHES else "3"
    if kind in _keys(question.document, "details"):
        return {"detail": kind}
    size = {"rabbet": f"{small} x {small}"}.get(kind, small)
    return {kind: "top", "size": size}


def suggest_hold(question: Question, on: str) -> Said:
    """A thing to be held on a part: small, light, and to be changed."""
    inches = question.document.unit is LengthUnit.INCHES
    size, mass = ("8", "5 lb") if inches else ("200", "2 kg")
    return {"wide": size, "deep": size, "high": size, "mass": mass, "on": on}


def suggest_load(question: Question, kind: str, on: str) -> Said:
    """A load of that kind on a part, of a usual amount (common practice, no source)."""
    inches = question.document.unit is LengthUnit.INCHES
    if kind == "fill":
        return {"fill": on, "with": "books"}
    pounds = {"rest": 40, "sit": 250, "stand": 250, "push": 30}[kind]
    amount = f"{pounds} lb" if inches else f"{round(pounds * 0.45359237)} kg"
    toward = {"toward": "bottom"} if kind == "push" else {}
    return {kind: amount, "on": on, **toward}


def _usual(piece: Piece) -> str:
    return "3/4" if piece.unit is LengthUnit.INCHES else "18"


def _grain(box: Box) -> str:
    return max(Axis, key=box.size).word


def _keys(document: Document, section: str) -> tuple[str, ...]:
    return tuple(entry.name for entry in _entries(document, section))


def _entries(document: Document, section: str) -> tuple[Entry, ...]:
    node = document.root.get(section)
    return node.entries if isinstance(node, MappingNode) else ()
