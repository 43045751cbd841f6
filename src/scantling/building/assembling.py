"""Dry fit, then the steps that put a piece together; equal sub-assemblies are one step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from scantling.building.assembly import Assembly, Manner, manner_of
from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.clamping import clamp_words, clamping
from scantling.building.closing import pinched
from scantling.building.clusters import Cluster, by_part
from scantling.building.directions import ANY_WAY, meeting_axis, side_entered, ways_in
from scantling.building.draft import Draft
from scantling.building.gluing import CURE
from scantling.building.naming import plural
from scantling.building.tables import minutes
from scantling.piece.model import Axis, Joint, MaterialKind, PartName
from scantling.quantity import listed

RAIL_PER_CLAMP = 250.0  # mm of joint a clamp serves; in line with each rail, common practice
DRIVEN = frozenset({"round tenon", "through tenon"})  # driven home with a mallet, held by fit or wedge
MITRED = frozenset({"mitre", "splined mitre"})
UNCLAMPED = DRIVEN | {"sliding dovetail"}
MANY_JOINTS = 6  # more than this in one glue-up wants slow glue or a helper; common practice 4 to 6
TOO_MANY_JOINTS = 2 * MANY_JOINTS  # more than this is two glue-ups; common practice, no source


@dataclass(frozen=True)
class _Batch:
    """Equal assemblies, done in one step."""

    steps: tuple[Assembly, ...]

    @property
    def first(self) -> Assembly:
        return self.steps[0]

    @property
    def parts(self) -> frozenset[PartName]:
        return frozenset(name for step in self.steps for name in step.after)

    @property
    def joints(self) -> tuple[Joint, ...]:
        return tuple(joint for step in self.steps for joint in step.joints)


def dry_fit(bench: Bench) -> Iterator[Draft]:
    """Every unit that will be glued, put together without glue."""
    found = bench.assemblies
    glued = [step for step in found if step.manner is Manner.GLUE]
    whole = [step for step in found if step.last and any(glue.after <= step.after for glue in glued)]
    if not whole:
        return
    batches = [batch for batch in _batches(bench, found) if batch.first in whole]
    main_first = sorted(batches, key=lambda batch: batch.first.after != bench.main_unit)
    words = listed([_unit_words(bench, batch) for batch in main_first])
    yield Draft(
        Stage.DRY_FIT,
        f"Dry fit {words}",
        "Put everything together without glue, in the order it will be glued, and set up clamps and cauls. "
        "Number the joints, ease what binds, and time yourself: a glue-up must be done within "
        f"{bench.glue.open_minutes:.0f} minutes.",
        bench.names.in_order(name for step in whole for name in step.after),
        active=minutes("dry fit", len(whole)),
        check=f"Every shoulder closes; diagonals agree within {bench.tolerance(1.0)}; nothing needs force.",
    )


def assembling(bench: Bench) -> Iterator[Draft]:
    """The piece put together, unit by unit."""
    for batch in _batches(bench, bench.assemblies):
        match batch.first.manner:
            case Manner.GLUE:
                yield _glue(bench, batch)
            case _:
                yield _fasten(bench, batch)


def _batches(bench: Bench, steps: Iterable[Assembly]) -> tuple[_Batch, ...]:
    """Assemblies with the same history on the same kinds of parts, in the order first met."""
    history: dict[Cluster, str] = {}
    found: dict[str, list[Assembly]] = {}
    for step in steps:
        before = sorted(history.get(c) or ", ".join(sorted(_nouns(bench, c))) for c in step.before)
        joints = sorted(f"{_noun_pair(bench, j)} {j.method}" for j in step.joints)
        sign = f"{step.manner.value}({'; '.join(before)} | {'; '.join(joints)})"
        history[step.after] = sign
        found.setdefault(sign, []).append(step)
    return tuple(_Batch(tuple(steps)) for steps in found.values())


def _nouns(bench: Bench, cluster: Cluster) -> list[str]:
    return [bench.names.noun(name) for name in cluster]


def _noun_pair(bench: Bench, joint: Joint) -> str:
    return f"{bench.names.noun(joint.first)}-{bench.names.noun(joint.second)}"


def sets_of(bench: Bench, found: Iterable[Cluster]) -> str:
    """`6 drawers`, `lid`: what these units are called together."""
    names = sorted(unit_name(bench, unit) for unit in found)
    same = grouped(names, _without_number)
    return listed([f"{len(n)} {plural(noun)}" if len(n) > 1 else n[0] for noun, n in same.items()])


def _unit_words(bench: Bench, batch: _Batch) -> str:
    """What finished units are called: `6 drawers`, `2 sets of a side rail and a ledger`."""
    unit, count = batch.first.after, len(batch.steps)
    if count == 1:
        return unit_name(bench, unit)
    if group := _group_of(bench, unit):
        return f"{count} {plural(_without_number(group))}"
    return f"{count} sets of {listed(bench.names.any_counts(unit))}"


def _without_number(name: str) -> str:
    return name.rstrip("0123456789 ")


def unit_name(bench: Bench, unit: Cluster) -> str:
    """Its group, or the main frame if it is the largest, or its parts."""
    if group := _group_of(bench, unit):
        return group
    if unit == bench.main_unit:
        return "the main frame"
    return listed(_made_words(bench, [unit])) if len(unit) > 2 else bench.names.counted(unit)


def _glue(bench: Bench, batch: _Batch) -> Draft:
    step, count = batch.first, len(batch.steps)
    need = clamping(bench, _clamps(bench, step), _across(bench, step))
    rounds = need.rounds(count)
    wait = CURE if step.cures else rounds * bench.glue.clamp_minutes
    until = "the glue to cure before the joint is loaded" if step.cures else f"{bench.glue.name} in clamps"
    return Draft(
        Stage.ASSEMBLE,
        _title(bench, batch),
        " ".join(_glue_sentences(bench, step, rounds)),
        bench.names.in_order(batch.parts),
        settings=(*((clamp_words(bench, need),) if need.wanted else ()), *_joint_lines(bench, step)),
        active=minutes("glue up", count) + 2.0 * len(batch.joints),
        wait=wait,
        wait_for=until,
        check=f"Diagonals agree within {bench.tolerance(1.0)}, no twist seen across two sticks, glue beads "
        "wiped out of inside corners.",
        joined=bench.names.in_order(batch.parts),
        joints=tuple(joint.id for joint in batch.joints),
    )


def _title(bench: Bench, batch: _Batch) -> str:
    """`Glue up 2 sets of 2 legs and a side panel`, `Glue up 6 drawers: ...`."""
    step, count = batch.first, len(batch.steps)
    group = _group_of(bench, step.after)
    if count > 1 and group:
        return f"Glue up {count} {plural(_without_number(group))}: {_inside(bench, step, any_copy=True)} each"
    if count > 1:
        return f"Glue up {count} sets of {_inside(bench, step, any_copy=True)}"
    return f"Glue up {group}: {_inside(bench, step)}" if group else f"Glue up {_inside(bench, step)}"


def _inside(bench: Bench, step: Assembly, *, any_copy: bool = False) -> str:
    """The sub-assemblies and the loose parts that come together in one step."""
    loose = [name for cluster in step.before if len(cluster) == 1 for name in cluster]
    made = [cluster for cluster in step.before if len(cluster) > 1]
    counts = bench.names.any_counts(loose) if any_copy else bench.names.counts(loose)
    return listed([*_made_words(bench, made), *counts])


def _made_words(bench: Bench, made: Sequence[Cluster]) -> list[str]:
    """Sub-assemblies by the group they are, else by their largest part and what is on it."""
    named = grouped(made, lambda cluster: _made_name(bench, cluster))
    return [
        _some(count=len(found), each=each, noun=noun, on_it=_each(on_it, len(found)))
        for (noun, each, on_it), found in named.items()
    ]


def _each(noun: str, sets: int) -> str:
    return plural(noun) if noun and sets > 1 else noun


def _some(*, count: int, each: int, noun: str, on_it: str) -> str:
    """`the lid`, `2 side panels with their legs`, `the 4 legs with their side stretchers`."""
    whole = count * each
    article = f"the {whole}" if count == 1 and each > 1 else "the" if whole == 1 else f"{whole}"
    with_it = f" with {'its' if whole == 1 else 'their'} {on_it}" if on_it else ""
    return f"{article} {noun if whole == 1 else plural(noun)}{with_it}"


def _made_name(bench: Bench, cluster: Cluster) -> tuple[str, int, str]:
    """What a sub-assembly is called: its main part, how many of it, and what is on it."""
    if group := _group_of(bench, cluster):
        return _without_number(group), 1, ""
    largest = max(bench.names.in_order(cluster), key=lambda name: round(bench.part(name).box.volume))
    nouns = bench.names.by_noun(cluster)
    main = bench.names.noun(largest)
    others = [plural(noun) if len(names) > 1 else noun for noun, names in nouns.items() if noun != main]
    return main, len(nouns[main]), others[0] if others else ""


def _group_of(bench: Bench, cluster: Cluster) -> str:
    """The group or kit that is exactly these parts; empty if there is none."""
    return bench.groups.get(cluster, "")


def _glue_sentences(bench: Bench, step: Assembly, rounds: int) -> Iterator[str]:
    glued = [joint for joint in step.joints if is_glued(bench, joint)]
    dry = [joint for joint in step.joints if joint not in glued]
    yield f"Lay the parts out and close them {_AXES[step.axis]}; glue on both faces of each joint."
    yield from _first_of_all(bench, step)
    yield from _pinched_words(bench, step)
    yield from _partly(bench, step.joints)
    panels = _nouns_counted(bench, (j.first for j in dry if j.method == "groove"))
    if panels:
        yield f"No glue on {panels}: free to move, with the edges finished first."
    others = [joint for joint in dry if joint.method not in ("groove", "notch")]
    yield from dict.fromkeys(f"{_named(bench, joint)} goes in dry." for joint in others)
    yield from _many_words(bench, step, glued)
    yield from _method_words({joint.method for joint in step.joints})
    if rounds > 1:
        yield f"With the shop's clamps this takes {rounds} rounds."


def _many_words(bench: Bench, step: Assembly, glued: Sequence[Joint]) -> Iterator[str]:
    """What to do where more joints close at once than two hands and one open time allow."""
    if len(glued) <= MANY_JOINTS:
        return
    many = f"{len(glued)} glued joints close at once"
    low, high = _outermost(bench, step)
    on_them = all(len({joint.first, joint.second} & (low | high)) == 1 for joint in glued)
    if len(glued) > TOO_MANY_JOINTS and on_them:
        first, last = (bench.names.counted(cluster) for cluster in (low, high))
        yield f"{many}, too many for one go: glue {first} on with {last} dry, and {last} once that has set."
        return
    yield f"{many}: slow-set glue, or a helper."


def _outermost(bench: Bench, step: Assembly) -> tuple[Cluster, Cluster]:
    """The clusters at the low and at the high end of the squeeze."""
    axis = min(step.axis, Axis.HIGH)
    low = min(step.before, key=lambda cluster: min(bench.part(name).box.low[axis] for name in cluster))
    high = max(step.before, key=lambda cluster: max(bench.part(name).box.high[axis] for name in cluster))
    return low, high


def _method_words(methods: set[str]) -> Iterator[str]:
    if methods & DRIVEN:
        yield "Drive each tenon home with a mallet into its own hole; wedges go across the grain."
    if "sliding dovetail" in methods:
        yield "Slide each tail home in one go, for it grabs as the glue swells it."
    if methods & MITRED:
        yield "Mitres creep under a squeeze one way: draw them up all round with a band clamp or tape."


def _first_of_all(bench: Bench, step: Assembly) -> Iterator[str]:
    """What sits in grooves that the squeeze does not close must lie in them before it."""
    before = [j for j in step.joints if j.method == "groove" and step.axis not in ways_in(j, bench.piece)]
    for panel, found in grouped(before, lambda joint: joint.first).items():
        holders = _nouns_counted(bench, (joint.second for joint in found))
        grooves = "groove" if len(found) == 1 else "grooves"
        yield f"Start with {bench.names.noun(panel)} in the {grooves} of {holders}."


def _pinched_words(bench: Bench, step: Assembly) -> Iterator[str]:
    """What would have to enter another part from two sides at once, and the way out."""
    for joints in pinched(step.before, step.joints, step.axis, bench.piece):
        first, second = (bench.names.noun(name) for name in (joints[0].first, joints[0].second))
        way = f"spring {second} open, or leave one end of it dry until last"
        if all(joint.method == "dowels" for joint in joints):
            way = "put it in place first, bore through from outside and drive the dowels in from there"
        yield f"{_capital(first)} cannot enter {second} from two sides at once: {way}."


def _nouns_counted(bench: Bench, names: Iterable[PartName]) -> str:
    """`2 drawer sides and drawer front`: copies counted, the copy of a set not said."""
    found = bench.names.by_noun(names).items()
    return listed([noun if len(copies) == 1 else f"{len(copies)} {plural(noun)}" for noun, copies in found])


def _capital(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


_AXES = ("from left and right", "from front and back", "from top and bottom", "joint by joint")


def _named(bench: Bench, joint: Joint) -> str:
    return _capital(f"{bench.names.noun(joint.first)} to {bench.names.noun(joint.second)}")


def _partly(bench: Bench, joints: Iterable[Joint]) -> Iterator[str]:
    """Joints that are glued over a stretch only, said once for each stretch."""
    glued = [(joint.settings.glue, joint) for joint in joints if joint.settings.glue]
    stretches = grouped(
        ((glue, joint) for glue, joint in glued if glue.extent == "part"),
        lambda pair: (pair[0].where, bench.show(pair[0].length)),
    )
    for (where, length), found in stretches.items():
        nouns = dict.fromkeys(bench.names.noun(joint.first) for _, joint in found)
        yield f"Glue only over the {where} {length}: {listed(tuple(nouns))}."


def is_glued(bench: Bench, joint: Joint) -> bool:
    """Whether glue goes in: as the maker says; else never on a solid panel in its groove."""
    if joint.settings.glue is not None:
        return joint.settings.glue.extent != "none"
    if joint.method == "groove" and bench.part(joint.first).material.kind is MaterialKind.SOLID:
        return False
    layout = bench.layouts_by_joint.get(joint.id)
    return manner_of(joint) is Manner.GLUE and (layout is None or layout.glued_area > 0)


def _joint_lines(bench: Bench, step: Assembly) -> tuple[str, ...]:
    """`side panel to leg: dowels (4)`."""
    same = grouped(step.joints, lambda j: (bench.names.noun(j.first), bench.names.noun(j.second), j.method))
    return tuple(
        f"{first} to {second}: {method}{f' ({len(found)})' if len(found) > 1 else ''}"
        for (first, second, method), found in same.items()
    )


def _clamps(bench: Bench, step: Assembly) -> int:
    """Clamps in line with each part or frame squeezed in: one for every stretch of its longest joint."""
    home = by_part(step.before)
    spans: dict[Cluster, float] = {}
    for joint in step.joints:
        if _is_squeezed(bench, joint, step.axis):
            cluster = home[joint.first]
            spans[cluster] = max(spans.get(cluster, 0.0), _joint_length(joint))
    return max(2, sum(max(1, ceil(span / RAIL_PER_CLAMP)) for span in spans.values())) if spans else 0


def _is_squeezed(bench: Bench, joint: Joint, axis: int) -> bool:
    along = ways_in(joint, bench.piece)
    return (axis in along or ANY_WAY in along) and is_glued(bench, joint) and joint.method not in UNCLAMPED


def _joint_length(joint: Joint) -> float:
    return max(joint.area.sizes) if joint.area else 0.0


def _across(bench: Bench, step: Assembly) -> float:
    """What the clamps must open: the size of the whole along the squeeze. [mm]"""
    boxes = [bench.part(name).box for name in step.after]
    axes = list(Axis) if step.axis == ANY_WAY else [Axis(step.axis)]
    return max(max(b.high[axis] for b in boxes) - min(b.low[axis] for b in boxes) for axis in axes)


def _fasten(bench: Bench, batch: _Batch) -> Draft:
    manner = batch.first.manner
    slides = manner is Manner.SLIDE and not _is_all_round(bench, batch)
    return Draft(
        Stage.ASSEMBLE,
        f"{'Fix' if manner is Manner.SLIDE else 'Fasten'} {_onto(bench, batch)}",
        " ".join(_fasten_sentences(bench, batch, slides=slides)),
        bench.names.in_order(batch.parts),
        settings=tuple(dict.fromkeys(line for step in batch.steps for line in _joint_lines(bench, step))),
        active=minutes("screw together", len(batch.steps)) + minutes("screws", len(batch.joints)),
        check=_SLIDES_CHECK
        if slides
        else "Flush where it should be flush, square where it should be square.",
        joined=bench.names.in_order(batch.parts),
        joints=tuple(joint.id for joint in batch.joints),
    )


def _fasten_sentences(bench: Bench, batch: _Batch, *, slides: bool) -> Iterator[str]:
    if not slides:
        yield (
            "Clamp the part in place, check it against its marks, then drive the fasteners from the middle "
            "outward."
        )
        return
    if all(_lies_on_top(bench, joint) for joint in batch.joints):
        yield "Lay it face down on a blanket and centre the rest on it."
    else:
        yield "Hold it on its marks, centred in the place it may swell into."
    yield "Drive the fasteners along the fixed line first."
    methods = {joint.method for joint in batch.joints}
    if "brackets" in methods:
        yield "Turn every slot across the grain."
    if "slotted screws" in methods:
        yield "Each screw in the middle of its slot, snug and no tighter."


def _lies_on_top(bench: Bench, joint: Joint) -> bool:
    return meeting_axis(joint, bench.piece) == Axis.HIGH and side_entered(joint, bench.piece, Axis.HIGH) < 0


def _is_all_round(bench: Bench, batch: _Batch) -> bool:
    """Whether slotted screws have no slot to stand in: nothing there moves."""
    owners = {joint.id for joint in batch.joints}
    slotted = {c.owner for part in bench.machined.parts for c in part.cuts if c.kind == "slot"}
    return all(j.method == "slotted screws" for j in batch.joints) and not owners & slotted


def _onto(bench: Bench, batch: _Batch) -> str:
    firsts = bench.names.counted(joint.first for joint in batch.joints)
    return f"{firsts} to {bench.names.counted(joint.second for joint in batch.joints)}"


_SLIDES_CHECK = "Pushed by hand across the grain it can still creep; along the fixed line it cannot."
