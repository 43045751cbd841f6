"""Joints in words on a part's own sheet, each kind said once however many partners it has."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import repeat

from scantling.joinery.features import MachinedPart
from scantling.packet.context import Context
from scantling.piece.model import PartName

ARTICLE = re.compile(r"\bthe (?=this part|the other)")
OPPOSITES = ({"left", "right"}, {"front", "back"}, {"top", "bottom"})


def joint_notes(machined: MachinedPart, context: Context) -> list[str]:
    """One line for each kind of joint this part takes part in, partners alike named together."""
    return [
        f"{method.capitalize()}, with {', '.join(dict.fromkeys(names))}{': ' + text if text else ''}"
        for method, names, text in merged_notes(_said_joints(machined.name, context))
    ]


Said = tuple[str, str, str]  # method, mark and name of the partner, words


def _said_joints(name: PartName, context: Context) -> list[Said]:
    """Each joint of a part as said on its own sheet: "this part" and "the other" for the two names."""
    said = []
    for joint in context.plan.piece.joints:
        if name in (joint.first, joint.second):
            other = joint.second if joint.first == name else joint.first
            layout = context.layout_by_joint.get(joint.id)
            text = renamed(layout.text, name, other, context.any_part_name) if layout else ""
            said.append((joint.method, context.named(other), text))
    return said


def renamed(text: str, name: PartName, other: PartName, any_name: re.Pattern[str]) -> str:
    """A layout's words with "this part" and "the other" for the two names, no second article before them."""

    def stand_in(match: re.Match[str]) -> str:
        return {name: "this part", other: "the other"}.get(match.group(), match.group())

    return ARTICLE.sub("", any_name.sub(stand_in, text))


def merged_notes(said: Iterable[Said]) -> list[tuple[str, list[str], str]]:
    """Equal words once; words that differ by sides only once too, with the other sides in brackets."""
    merged: list[tuple[str, list[str], list[str], list[str]]] = []
    for method, partner, text in said:
        words = text.split(" ")
        for known, names, plain, shown in merged:
            if known == method and _alike(plain, words):
                names.append(partner)
                shown[:] = map(_with_side, shown, plain, words, repeat(partner.split(" ")[0]))
                break
        else:
            merged.append((method, [partner], words, list(words)))
    return [(method, names, " ".join(shown)) for method, names, _, shown in merged]


def _alike(first: list[str], second: list[str]) -> bool:
    """Equal but for sides: "from the left" and "from the right"."""
    pairs = zip(first, second, strict=True) if len(first) == len(second) else ()
    return len(first) == len(second) and all(a == b or {_bare(a), _bare(b)} in OPPOSITES for a, b in pairs)


def _with_side(shown: str, plain: str, word: str, mark: str) -> str:
    """The word, with the other side added where the partner `mark` has it: "right (4R: left)"."""
    if word == plain:
        return shown
    stop = plain[len(_bare(plain)) :]
    return f"{shown.removesuffix(stop)} ({mark}: {_bare(word)}){stop}"


def _bare(word: str) -> str:
    return word.rstrip(";,.:")
