"""Take an entry out of a piece, with the lines that name nothing else, unless others are measured from it."""

from __future__ import annotations

from dataclasses import dataclass, field

from scantling.errors import ReadError
from scantling.piece.editing.dependents import is_inside
from scantling.piece.editing.effects import joints_lost
from scantling.piece.editing.naming import put_words, quoted, steps_to, steps_to_entries, told
from scantling.piece.editing.referring import Reference, part_path, references_of
from scantling.piece.editing.writes import Question, Refused, Steps, Write, refusal
from scantling.piece.language import (
    Document,
    MappingNode,
    Node,
    Scalar,
    SequenceNode,
    add_item,
    read_tree,
    remove_entry,
)
from scantling.piece.language.edits import child_or_none, node_at, start_of
from scantling.piece.language.keys import TOP
from scantling.piece.language.kinds_of_value import Named

_LINES = ("joints", "loads")
_LEAVABLE = tuple(key.name for key in TOP.keys if isinstance(key.value, Named) and key.name != "kits")
_DROPPED_KEYS = ("on", "after", "rides on")  # of a movement that goes on without


@dataclass
class _Plan:
    """What goes, by paths of the merged piece: whole entries, single names and keys; what is in the way."""

    whole: list[Steps]
    items: list[Steps] = field(default_factory=list)
    measured: list[Reference] = field(default_factory=list)


def remove(question: Question, path: Steps) -> Write | Refused:
    """The piece without what stands under `path` of the whole piece, tried on the whole of it.

    Joint lines, loads, fittings and movements that name nothing else go with it; a name in a list goes alone.
    A thing of a followed file is left out. Refused where a span, a size or a space is measured from it.
    """
    try:
        node_at(question.document.root, path)
        plan = _planned(references_of(question), path)
        if plan.measured:
            return _still_measured(path, plan.measured)
        write = _written(question.document, plan, path)
        if dict(write.files)[question.document.file] == question.document.text:
            return Refused(f"{told(path)} stands in a followed file", "take it out there")
        return Write(write.files, write.what, joints_lost(question.piece(), question.after(write)))
    except ReadError as error:
        return refusal(error)


def _planned(references: tuple[Reference, ...], path: Steps) -> _Plan:
    plan = _Plan([path])
    waiting = [path]
    while waiting:
        target = waiting.pop()
        for reference in references:
            if reference.scalar is None or any(is_inside(reference.path, one) for one in plan.whole):
                continue
            gone = _goes_with(reference.path)
            named = [is_inside(to, target) for to in reference.to]
            if gone is None and any(named):
                plan.measured.append(reference)
            elif gone is not None and all(named):
                waiting.extend(_taken(plan, gone))
    return plan


def _taken(plan: _Plan, gone: Steps) -> list[Steps]:
    """Written into the plan; a whole entry that goes may be named in its turn."""
    if len(gone) == 2:
        plan.whole.append(gone)
        return [gone]
    if gone not in plan.items:
        plan.items.append(gone)
    return []


def _goes_with(path: Steps) -> Steps | None:
    """What goes where a name is gone: an item of a list, a whole line, a key; None: it is measured from."""
    section, key = path[0], path[2] if len(path) > 2 else ""
    in_list = len(path) == 4 and path[3].isdigit()
    if section in _LINES and key in ("join", "to", "on", "fill", "tails on"):
        return path if in_list or key == "tails on" else path[:2]
    if section == "hardware" and key in ("joins", "to", "under"):
        return path if in_list and key != "joins" else path[:2]
    if section == "movements":
        return path if in_list else path[:3] if key in _DROPPED_KEYS else path[:2]
    if section == "poses":
        return path if key else path[:2]
    if section == "finish" and key:
        return path
    base = part_path(path)
    return path if base and path[len(base) : len(base) + 1] == ("work",) and path[-1] == "detail" else None


def _still_measured(path: Steps, references: list[Reference]) -> Refused:
    names = list(dict.fromkeys(told(reference.path) for reference in references))
    listed = "; ".join(names[:4]) + ("; ..." if len(names) > 4 else "")
    return Refused(f"{told(path)} is named by others: {listed}", "change those first")


def _written(document: Document, plan: _Plan, path: Steps) -> Write:
    whole = [*plan.whole, *_emptied(document.root, plan.items)]
    single = [item for item in plan.items if not any(is_inside(item, one) for one in whole)]
    text = _cut(document, [*whole, *single])
    for one in whole:
        text = _left_out(document, text, one)
    others = len(whole) + len(single) - 1
    also = {0: "", 1: ", and where it was named"}.get(others, f", and at {others} places where it was named")
    return Write(((document.file, text),), f"{told(path)} is taken out{also}")


def _cut(document: Document, paths: list[Steps]) -> str:
    """The own file without these, the last of them first, so that numbers in lists hold."""
    text = document.text
    own = {steps for path in paths if (steps := _own_steps(document, path)) is not None}
    for steps in sorted(own, key=lambda steps: _start(document.own, steps), reverse=True):
        if child_or_none(read_tree(text, document.file), steps) is not None:
            text = remove_entry(text, document.file, steps)
    return text


def _emptied(root: Node, items: list[Steps]) -> list[Steps]:
    """Lines whose list of names loses all of them, poses that lose all their movements."""
    gone = []
    for names in {item[:-1] for item in items if item[-1].isdigit() or item[0] == "poses"}:
        node = node_at(root, names)
        if not isinstance(node, Scalar) and len(node) == sum(item[:-1] == names for item in items):
            gone.append(names[:2])
    return gone


def _own_steps(document: Document, path: Steps) -> Steps | None:
    """Where a path of the merged piece stands in the own file; None where it stands in a followed one."""
    node = node_at(document.root, path)
    if not any(name.isdigit() for name in path):
        return path if child_or_none(document.own, path) is not None else None
    if node.place.file != document.file:
        return None
    way = steps_to if isinstance(node, Scalar) else steps_to_entries
    return way(document, node.place)


def _start(root: Node, steps: Steps) -> int:
    node = node_at(root, steps[:-1])
    member = node.by_name[steps[-1]] if isinstance(node, MappingNode) else node_at(root, steps)
    return start_of(member)


def _left_out(document: Document, text: str, path: Steps) -> str:
    """The name told under `leave out`, where a followed file has it."""
    followed = document.follows[0].root if document.follows else None
    if followed is None or path[0] not in _LEAVABLE or child_or_none(followed, path) is None:
        return text
    name = " ".join(one for one in path[1:] if one != "parts")
    there = read_tree(text, document.file).get("leave out")
    if isinstance(there, SequenceNode):
        return add_item(text, document.file, ("leave out",), name)
    if isinstance(there, Scalar):
        both = f"[{quoted(there.text)}, {quoted(name)}]"
        return f"{text[: there.raw[0]]}{both}{text[there.raw[1] :]}"
    return put_words(text, document.file, ("leave out",), f"[{quoted(name)}]")
