"""Joints cut, grouped by method: one tool, its settings, every part it is used on."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence, Set
from functools import cache
from importlib.resources import files

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.features import feature_count, settings_of
from scantling.building.naming import numbered
from scantling.building.tables import minutes
from scantling.joinery.features import JointLayout
from scantling.piece.model import FLOOR, WALL, Joint, PartName
from scantling.quantity import listed
from scantling.shop.model import Machine, MachineKind

UNCUT = frozenset({"glue", "rests", "nails", "glue blocks"})  # nothing is cut for these
HOUSED = frozenset({"groove", "dado", "rabbet"})  # cut in the second part alone
FEW = 4  # joints whose parts are told one by one
BY_THE_CUT = frozenset({"groove"})  # operations whose minutes go by the cut, not by the joint

_KINDS = {kind.value: kind for kind in MachineKind}


def is_cut(joint: Joint) -> bool:
    """Whether something is cut or drilled for the joint in the shop."""
    return joint.method not in UNCUT and joint.second not in (WALL, FLOOR)


def jointing(bench: Bench) -> Iterator[Draft]:
    """One step for each method, in the order the methods first occur; holes that show come last."""
    by_method = grouped((j for j in bench.piece.joints if is_cut(j)), lambda joint: joint.method)
    for method in sorted(by_method, key=lambda name: list(_table()).index(name)):
        yield _draft(bench, method, by_method[method])


def _draft(bench: Bench, method: str, joints: Sequence[Joint]) -> Draft:
    row = _table()[method]
    parts = parts_of(bench, joints)
    owners = frozenset(joint.id for joint in joints)
    machine = bench.machine(*(_KINDS[k.strip()] for k in row["machines"].split("|")))
    cuts = feature_count(bench, owners, parts)
    times = cuts if row["operation"] in BY_THE_CUT else len(joints)
    return Draft(
        Stage.JOINTS,
        f"{row['title']}: {numbered(len(joints), 'joint')}",
        f"{row['text']} {_pairs(bench, joints)}",
        parts,
        machine=machine.name if machine else "",
        settings=(*settings_of(bench, owners, parts), *_layout_lines(bench, joints)),
        active=minutes("set up") + minutes(row["operation"], times),
        check=row["check"],
        cautions=_cautions(bench, machine),
        joints=tuple(joint.id for joint in joints),
    )


def _cautions(bench: Bench, machine: Machine | None) -> tuple[str, ...]:
    return bench.cautions(machine, "changing") if machine else ()


def parts_of(bench: Bench, joints: Sequence[Joint]) -> tuple[PartName, ...]:
    """The parts these joints tie, in the order of the piece."""
    names = (name for joint in joints for name in (joint.first, joint.second))
    return bench.names.in_order(name for name in names if name not in (WALL, FLOOR))


def _pairs(bench: Bench, joints: Sequence[Joint]) -> str:
    """`Side panels to legs (4), back panel to legs (2).`"""
    pairs = grouped(joints, lambda j: (bench.names.noun(j.first), bench.names.noun(j.second)))
    words = [f"{a} to {b}{f' ({len(js)})' if len(js) > 1 else ''}" for (a, b), js in pairs.items()]
    sentence = listed(words)
    return f"{sentence[:1].upper()}{sentence[1:]}."


def _layout_lines(bench: Bench, joints: Sequence[Joint]) -> tuple[str, ...]:
    """What the layout of each joint decided; said once for equal joints."""
    layouts = bench.layouts_by_joint
    said = [(joint, _plain_text(bench, joint, layouts[joint.id])) for joint in joints if joint.id in layouts]
    lines = grouped(said, lambda pair: pair[1])
    sizes = grouped(said, lambda pair: _nouns(bench, pair[0]))
    differ = {nouns for nouns, same in sizes.items() if len({text for _, text in same}) > 1}
    return tuple(
        f"{_who(bench, [joint for joint, _ in same], differ)}: {text}" for text, same in lines.items() if text
    )


def _nouns(bench: Bench, joint: Joint) -> tuple[str, str]:
    return bench.names.noun(joint.first), bench.names.noun(joint.second)


def _who(bench: Bench, joints: Sequence[Joint], differ: Set[tuple[str, str]]) -> str:
    """`tray bottom to tray front, tray back and tray side; lid lip to lid board`.

    Pairs of parts whose copies `differ` in this are called by their own names, not too many of them.
    """
    named = [joint for joint in joints if _nouns(bench, joint) in differ]
    if named and len(named) <= FEW:
        firsts, seconds = (
            listed(bench.names.in_order(names))
            for names in ((joint.first for joint in named), (joint.second for joint in named))
        )
        return f"{firsts} to {seconds}"
    by_first = grouped(joints, lambda joint: bench.names.noun(joint.first))
    return "; ".join(
        f"{first} to {listed(tuple(dict.fromkeys(bench.names.noun(joint.second) for joint in same)))}"
        for first, same in by_first.items()
    )


def _plain_text(bench: Bench, joint: Joint, layout: JointLayout) -> str:
    """The layout's line with copies called by what they are, so that equal joints read alike."""
    text = layout.text
    for name in sorted((joint.first, joint.second), key=len, reverse=True):
        text = text.replace(name, bench.names.noun(name))
    return text.removesuffix(f" in {bench.names.noun(joint.second)}") if joint.method in HOUSED else text


@cache
def _table() -> Mapping[str, dict[str, str]]:
    text = files("scantling.building").joinpath("methods.csv").read_text(encoding="utf-8")
    return {row["method"]: row for row in csv.DictReader(text.splitlines())}
