"""Hardware fitted, moving parts made to run, loose parts laid in, the piece set in its room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scantling.building.assembling import sets_of
from scantling.building.assembly import in_room
from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.clusters import by_part
from scantling.building.draft import Draft
from scantling.building.jointing import parts_of
from scantling.building.naming import numbered, plural
from scantling.building.tables import cautions_for, minutes
from scantling.piece.model import FLOOR, WALL, Axis, Hardware, Joint, PartName, Slide, face_of
from scantling.quantity import listed
from scantling.shop.model import MachineKind

HANDHELD = 500.0  # mm: what is smaller in every way needs no levelling

_MOVES = ("slide", "hinge", "stay", "strut", "runner", "castor", "lift")


def pin_holes(bench: Bench) -> Iterator[Draft]:
    """Rows of holes that shelf pins ask for, bored while the parts still lie flat."""
    rows = {
        machined.name: found
        for machined in bench.machined.parts
        if (found := [hole for hole in machined.holes if hole.purpose == "pin" and hole.owner != "work"])
    }
    if not rows:
        return
    count = sum(map(len, rows.values()))
    machine = bench.machine(MachineKind.DRILL_PRESS, MachineKind.DRILL)
    same = grouped(rows, lambda name: (len(rows[name]), rows[name][0].diameter, rows[name][0].deep))
    yield Draft(
        Stage.SHAPE,
        f"Drill {numbered(count, 'shelf pin hole')}",
        "One strip with the row drilled in it serves as a jig for all, its same end always to the part's "
        "foot; set the stop. Places are on the part sheets.",
        bench.names.in_order(rows),
        machine=machine.name if machine else "",
        settings=tuple(
            f"{bench.names.counted(names)}: {many} holes {bench.both(diameter)}, {bench.show(deep)} deep"
            + (" in each" if len(names) > 1 else "")
            for (many, diameter, deep), names in same.items()
        ),
        active=minutes("set up") + minutes("hole", count),
        check="A shelf laid on four pins does not rock.",
        cautions=bench.cautions(machine, "drill"),
    )


def fitting(bench: Bench) -> Iterator[Draft]:
    """What makes parts move is fitted before finishing, while the piece can still be eased."""
    movers = [h for h in bench.piece.hardware if _is_mover(h) and WALL not in (h.joins or ())]
    for found in grouped(movers, lambda h: _plain_kind(h.kind)).values():
        yield _fit(bench, found, Stage.FIT)
    yield from _sliders(bench)


def hardware(bench: Bench) -> Iterator[Draft]:
    """After finishing: knobs, catches and pins, and what was taken off goes back on."""
    rest = [h for h in bench.piece.hardware if not _is_mover(h) and WALL not in (h.joins or ())]
    for found in grouped(rest, lambda h: _plain_kind(h.kind)).values():
        yield _fit(bench, found, Stage.HARDWARE)
    movers = [h for h in bench.piece.hardware if _is_mover(h)]
    if movers and bench.piece.finish:
        yield _back_on(bench, movers)


def _is_mover(fitting: Hardware) -> bool:
    return any(word in fitting.kind for word in _MOVES)


def _plain_kind(kind: str) -> str:
    """`butt hinge 2 1/2` -> `butt hinge`."""
    words = [word for word in kind.split() if not word[0].isdigit() and word not in ("mm", "in")]
    return " ".join(words) or kind


def _parts(bench: Bench, found: Iterable[Hardware]) -> tuple[PartName, ...]:
    names = [n for h in found for n in (*(h.joins or ()), h.to, h.under) if n and n not in (WALL, FLOOR)]
    return bench.names.in_order(names)


def _how_many(bench: Bench, fitting: Hardware) -> int:
    """As many as the layout sets: it takes the usual number of hinges where the maker names none."""
    kind = _plain_kind(fitting.kind)
    laid_out = (use for use in bench.machined.hardware if use.owner == fitting.name and use.kind == kind)
    return next((use.count for use in laid_out if use.parts == fitting.joins), fitting.count)


def _fit(bench: Bench, found: Sequence[Hardware], stage: Stage) -> Draft:
    kind = _plain_kind(found[0].kind)
    count = sum(_how_many(bench, fitting) for fitting in found)
    operation = "fit slides" if "slide" in kind else "fit hinge" if "hinge" in kind else "fit fitting"
    times = len(found) if "slide" in kind or "continuous" in kind else count
    operation = "lay in" if "pin" in kind.split() else operation
    verb = "Try" if "stay" in kind else "Fit"
    swings = "hinge" in kind or "stay" in kind
    return Draft(
        stage,
        f"{verb} {numbered(count, kind) if count > 1 else f'the {kind}'}",
        f"{_how(kind)} {_sentence(_places(bench, found))}",
        _parts(bench, found),
        settings=tuple(dict.fromkeys(line for fitting in found for line in _sizes(bench, fitting))),
        active=minutes(operation, times),
        check=_check(bench, kind),
        cautions=cautions_for(*(() if "pin" in kind else ("drill",)), *(("tension",) if swings else ())),
    )


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _how(kind: str) -> str:
    if "slide" in kind:
        return (
            "Screw the outer members first, through their slots only, level and parallel; hang the drawer "
            "or tray, ease it until it runs, then drive the round holes."
        )
    if "continuous" in kind:
        return (
            "Tape the hinge in place with its knuckle on the line, prick the holes, drive three screws, try "
            "the swing, then drive the rest."
        )
    if "hinge" in kind:
        return (
            "Knife round each leaf, cut the recess to its thickness, hang it on one screw a leaf, try the "
            "gap, then drive the rest. Brass screws go in after a steel one has cut the thread."
        )
    if "stay" in kind:
        return "Prop the lid open at its angle, fix the stay as its own sheet shows, and try it with care."
    if "pin" in kind:
        return "Push the pins into their rows at the heights wanted."
    return "Mark from the middle of its place, drill for its screws or bolt, and fix it."


def _check(bench: Bench, kind: str) -> str:
    if "slide" in kind:
        return (
            f"Runs its whole travel by one finger; the gap is equal front and back within {bench.show(0.5)}."
        )
    if "hinge" in kind:
        return "Opens its whole angle without binding and shuts without springing back."
    if "stay" in kind:
        return "The lid stays where it is left and cannot drop."
    return "Sits square and tight."


def _places(bench: Bench, found: Sequence[Hardware]) -> str:
    """`between 2 tray sides and 2 spacers`, `on 6 drawer fronts`."""
    joined = [h.joins for h in found if h.joins]
    if joined:
        firsts = bench.names.counted(first for first, _ in joined if first not in (WALL, FLOOR))
        seconds = bench.names.counted(second for _, second in joined if second not in (WALL, FLOOR))
        return f"between {firsts} and {seconds}"
    return f"on {bench.names.counted(n for h in found for n in (h.to, h.under) if n)}"


def _sizes(bench: Bench, fitting: Hardware) -> Iterator[str]:
    said = ", ".join(f"{name} {bench.both(size)}" for name, size in fitting.sizes)
    at = ", ".join(_place(bench, fitting, Axis[axis.upper()], mm) for axis, mm in fitting.at)
    if said or at:
        yield f"{fitting.name}: {', '.join(words for words in (said, at) if words)}"


def _place(bench: Bench, fitting: Hardware, axis: Axis, at: float) -> str:
    """Where on its part, as the maker measures it there."""
    if fitting.to is None:
        return f"{axis.word} {bench.show(at)}"
    edge = face_of(axis, -1).word
    return f"{bench.show(at - bench.part(fitting.to).box.low[axis])} from the {edge} of {fitting.to}"


def _sliders(bench: Bench) -> Iterator[Draft]:
    """Drawers on wooden runners and lids in grooves: moved by no hardware, eased with a plane."""
    home = by_part(bench.units)
    sliding = [m for m in bench.piece.movements if m.hardware is None and isinstance(m.motion, Slide)]
    if not sliding:
        return
    moved = {name for movement in sliding for name in movement.moves}
    parts = bench.names.in_order(moved | bench.main_unit)
    units_moved = {home[min(movement.moves)] for movement in sliding}
    yield Draft(
        Stage.FIT,
        f"Fit {sets_of(bench, units_moved)}",
        "Try each in its place; shave the sides where they rub, not the place. Leave room for damp months. "
        "Wax the runners and grooves.",
        parts,
        active=minutes("fit drawer", len(sliding)),
        check=f"Slides by one hand; gap {bench.tolerance(0.8)} to {bench.tolerance(1.6)} at each side.",
    )


def _back_on(bench: Bench, movers: Sequence[Hardware]) -> Draft:
    by_kind = grouped(movers, lambda h: _plain_kind(h.kind))
    kinds = [
        f"the {plural(kind)}" if sum(_how_many(bench, fitting) for fitting in found) > 1 else f"the {kind}"
        for kind, found in by_kind.items()
    ]
    return Draft(
        Stage.HARDWARE,
        f"Put {listed(kinds)} back",
        "Every screw in the hole it came from. Wax the threads.",
        _parts(bench, movers),
        active=minutes("fit fitting", len(movers)),
        check="Everything that moves runs as it did before finishing.",
        cautions=cautions_for("tension") if any(w in k for k in kinds for w in ("hinge", "stay")) else (),
    )


def placing(bench: Bench) -> Iterator[Draft]:
    """Bolts, loose parts, level, wall: the last steps, in the room."""
    bolts = in_room(bench.piece)
    if bolts:
        yield _bolt(bench, bolts)
    loose = _loose(bench)
    if loose:
        yield _lay_in(bench, loose)
    if max(bench.piece.overall.sizes) > HANDHELD or _wall_fixings(bench):
        yield _in_place(bench)


def _bolt(bench: Bench, bolts: Sequence[Joint]) -> Draft:
    parts = parts_of(bench, bolts)
    onto = bench.names.counted(joint.second for joint in bolts)
    kinds = listed([f"{m} ({len(js)})" for m, js in grouped(bolts, lambda j: j.method).items()])
    return Draft(
        Stage.PLACE,
        f"Bolt {bench.names.counted(joint.first for joint in bolts)} to {onto}",
        "Carry the parts in and bolt them where they will stand: all bolts in by hand first, then tighten a "
        "little at a time, corner by corner.",
        parts,
        settings=(kinds,),
        active=minutes("bolts", len(bolts)) / 2,
        check="No shoulder opens when it is rocked; tighten again after a month.",
        joined=parts,
        joints=tuple(joint.id for joint in bolts),
    )


def _loose(bench: Bench) -> tuple[PartName, ...]:
    """Parts held by no joint: slats, shelves on pins, a board that rests."""
    moving = {name for movement in bench.piece.movements for name in movement.moves}
    bolted_on = {name for joint in in_room(bench.piece) for name in (joint.first, joint.second)}
    hinged = {name for h in bench.piece.hardware for name in (h.joins or ())}
    alone = [next(iter(unit)) for unit in bench.units if len(unit) == 1]
    if len(bench.piece.parts) == 1:
        return ()
    return bench.names.in_order(n for n in alone if n not in moving | bolted_on | hinged)


def _lay_in(bench: Bench, loose: Sequence[PartName]) -> Draft:
    return Draft(
        Stage.PLACE,
        f"Lay in {bench.names.counted(loose)}",
        "They are held by their own weight or on pins; no glue.",
        tuple(loose),
        active=minutes("lay in", len(loose)),
        check="They do not rock; the gaps are even.",
    )


def _in_place(bench: Bench) -> Draft:
    walls = [j for j in bench.piece.joints if j.second in (WALL, FLOOR)]
    straps = [h for h in bench.piece.hardware if WALL in (h.joins or ())]
    fixed = _wall_fixings(bench)
    onto = "floor" if walls and all(joint.second == FLOOR for joint in walls) and not straps else "wall"
    tall = bench.piece.overall.sizes[2] > 600 and bool(bench.piece.movements)
    words = "Set it in its place and level it; pad or trim a foot that does not touch."
    studs = " at the studs" if onto == "wall" else ""
    to_wall = f" Fix {_wall_words(bench, walls, straps)} to the {onto}{studs}." if fixed else ""
    return Draft(
        Stage.PLACE,
        "Set it in place" + (f" and fix it to the {onto}" if fixed else ""),
        words + to_wall,
        settings=tuple(dict.fromkeys(_wall_lines(bench, walls))),
        active=minutes("place") + minutes("fit fitting", len(walls) + len(straps)),
        check="Stands without rocking" + ("; what moves still runs." if bench.piece.movements else "."),
        cautions=cautions_for(*(("wall",) if fixed else ()), *(("tipping",) if tall or straps else ())),
        joints=tuple(joint.id for joint in walls),
    )


def _wall_fixings(bench: Bench) -> bool:
    """Whether anything of the piece is fixed to the wall or the floor."""
    straps = any(WALL in (fitting.joins or ()) for fitting in bench.piece.hardware)
    return straps or any(joint.second in (WALL, FLOOR) for joint in bench.piece.joints)


def _wall_words(bench: Bench, walls: Sequence[Joint], straps: Sequence[Hardware]) -> str:
    parts = [bench.names.counted(joint.first for joint in walls)] if walls else []
    return listed([*parts, *(fitting.name for fitting in straps)])


def _wall_lines(bench: Bench, walls: Sequence[Joint]) -> Iterator[str]:
    for joint in walls:
        layout = bench.layouts_by_joint.get(joint.id)
        if layout:
            yield layout.text.replace(joint.first, bench.names.noun(joint.first))
