"""Do shelves, tops and rails bend too far, today and after years?

Sag as `spanning` works it out; lasting loads grow by creep. Mends are found by solving for the thickness,
the span or the load.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from scantling.checks.examined import Examined, grain_axis, panel_of, wood_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.loads import contents_named, known_contents, lands_on_nothing
from scantling.checks.rules import rule
from scantling.checks.spanning import Loaded, loaded_parts
from scantling.wood import bending_stress, planning_stress

DEEPEST_STRIP = 65.0  # mm: a deeper one is a rail, and in the way
_WORTH_LOADING = 0.2  # of what is on it: a load cut further is no mend


def sag(examined: Examined) -> Iterator[Finding]:
    """Findings on every part that carries a load over a span, and on the rails that carry it on."""
    for loaded in loaded_parts(examined):
        yield from _sag_finding(examined, loaded)
        yield from _stress_finding(examined, loaded)
    yield from _assumptions(examined)


def _sag_finding(examined: Examined, loaded: Loaded) -> Iterator[Finding]:
    sag_now = loaded.sag()
    ratio = loaded.judged_span / sag_now if sag_now > 0 else float("inf")
    for code in _codes(examined, loaded):
        limit = rule(code).allowed
        if ratio < limit:
            yield rule(code).found(
                _sag_words(examined, loaded, sag_now, limit),
                (loaded.part.name,),
                ratio,
                mend=_sag_mend(examined, loaded, limit),
                place=loaded.part.place,
            )
            return


def _codes(examined: Examined, loaded: Loaded) -> tuple[str, ...]:
    """The rules that hold for it, strictest consequence first."""
    if not loaded.burden.lasting:
        return () if loaded.burden.bed else ("springs under a person",)
    if loaded.part.name in examined.movement_of:
        return ("drawer bottom too thin",)
    return ("sags past the trade's limit", "sag the eye sees")


def _sag_words(examined: Examined, loaded: Loaded, sag_now: float, limit: float) -> str:
    when = "after years" if loaded.burden.lasting else "while it is there"
    what = f"{_burden_words(examined, loaded)} over {_stretch(loaded)}"
    return (
        f"{loaded.part.name}: {what} of {examined.length(loaded.span.clear)} sags it "
        f"{examined.small(sag_now)} {when}; {examined.small(loaded.judged_span / limit)} is the limit"
    )


def _burden_words(examined: Examined, loaded: Loaded) -> str:
    """`75 lb (34 kg) of books and its own weight`."""
    if not loaded.burden.lasting:
        share = "its share of " if loaded.burden.slats else ""
        return f"{share}{loaded.burden.words}, {examined.weight(loaded.laid_on)},"
    with_wood = " and its own weight" if loaded.burden.wood > 0 else ""
    return f"{examined.weight(loaded.laid_on)} of {loaded.burden.words}{with_wood}"


def _stretch(loaded: Loaded) -> str:
    return "an end that reaches out" if loaded.span.overhang else "a span"


def _sag_mend(examined: Examined, loaded: Loaded, limit: float) -> Mend:
    """Thicker, shorter or lighter: each solved so that it just passes."""
    clear, now = loaded.span.clear, loaded.beam.depth
    may = loaded.judged_span / limit
    thick = solve_least(lambda t: loaded.sag(thickness=t) <= may, now, now * 4)
    short = solve_most(lambda s: loaded.sag(span=s) <= may * s / clear, clear / 8, clear)
    lighter = loaded.laid_on_most(loaded.mass * may / loaded.sag())
    nearer = "let it reach out no more than" if loaded.span.overhang else "support it every"
    ways = [_thicker(examined, loaded, thick), f"{nearer} {examined.length_at_most(short)}"]
    ways += _with_a_strip(examined, loaded, may)
    if loaded.burden.lasting and lighter > _WORTH_LOADING * loaded.laid_on:
        ways.append(f"load it with no more than {examined.weight_at_most(lighter)} of {loaded.burden.words}")
    return Mend(", or ".join(ways))


def _thicker(examined: Examined, loaded: Loaded, thick: float) -> str:
    size = examined.length(examined.step_up(thick))
    if panel_of(loaded.part) is not None:
        named = _next_sheet(examined, loaded.part.material.text.lower(), thick)
        return f"take {named}" if named else f"take a sheet that measures {size} or more"
    return f"make it {size} {'deep' if loaded.beam.depth > loaded.beam.breadth else 'thick'}"


def _next_sheet(examined: Examined, text: str, thick: float) -> str | None:
    """The thinnest sheet of that name in the shop that measures as much: `birch plywood 3/8 (8.8 mm)`."""
    sold = [s for s in examined.shop.sheets if text.startswith(s.name.lower()) and s.thickness >= thick]
    best = min(sold, key=lambda sheet: (sheet.thickness, sheet.id), default=None)
    if best is None:
        return None
    return (
        f"{best.name} sold as {examined.length(best.label)}, which measures {examined.length(best.thickness)}"
    )


def _with_a_strip(examined: Examined, loaded: Loaded, may: float) -> list[str]:
    """A strip of the same stuff on edge under the front of a shelf, where a small one does."""
    beam = loaded.beam
    shelf = loaded.burden.lasting and beam.breadth > 5 * beam.depth and not loaded.span.overhang
    if not shelf or loaded.part.name in examined.movement_of:
        return []
    wanted = (beam.modulus * beam.second_moment + loaded.helped) * (loaded.sag() / may - 1.0)
    deep = examined.step_up((12.0 * wanted / (beam.modulus * beam.depth)) ** (1 / 3))
    if deep > DEEPEST_STRIP:
        return []
    return [f"glue a strip {examined.length(deep)} deep and as thick as the shelf under its front edge"]


def _stress_finding(examined: Examined, loaded: Loaded) -> Iterator[Finding]:
    wood = wood_of(loaded.part)
    if wood is None or grain_axis(loaded.part) != loaded.span.axis:
        return
    stress = bending_stress(loaded.moment, loaded.beam.breadth, loaded.beam.depth)
    allowed = planning_stress(wood.modulus_of_rupture, loaded.burden.lasting)
    if stress > allowed:
        thick = examined.step_up(loaded.beam.depth * (stress / allowed) ** 0.5)
        yield rule("overstressed").found(
            f"{loaded.part.name}: {_burden_words(examined, loaded)} over "
            f"{examined.length(loaded.span.clear)} bends it to {stress:.0f} MPa; "
            f"{wood.name} is planned with {allowed:.0f} MPa",
            (loaded.part.name,),
            stress,
            limit=allowed,
            mend=Mend(f"make it {examined.length(thick)} thick"),
            place=loaded.part.place,
        )


def _assumptions(examined: Examined) -> Iterator[Finding]:
    if not examined.piece.loads and not examined.piece.holds:
        yield rule("no loads written").found(
            "nothing says what it must bear: sag, joints and tipping are looked at for its own weight alone",
            mend=Mend("write `loads: [{fill: shelf, with: books}]`, `{sit: 300 lb, on: seat}` or the like"),
        )
    for load in examined.piece.loads:
        if lands_on_nothing(examined, load):
            yield rule("load lands on nothing").found(
                f"{load.contents or 'what fills it'} finds nothing flat to lie on in what is filled",
                load.on[:4],
                mend=Mend("name the shelf or the bottom that bears it, as in `{fill: shelf, with: books}`"),
                place=load.place,
            )
    words = {load.contents for load in examined.piece.loads if load.kind == "fill" and load.amount is None}
    for word in sorted(w for w in words if w):
        yield _contents_finding(word)


def _contents_finding(word: str) -> Finding:
    contents = contents_named(word)
    unit = {"metre": "kg a metre run", "volume": "kg/m³", "area": "kg/m²"}[contents.basis]
    weighs = f"{contents.amount:g} {unit} ({contents.source})"
    if contents.word == word.lower():
        return rule("contents assumed").found(f"{word} is taken as {weighs}", number=contents.amount)
    known = ", ".join(each for each in known_contents() if each != contents.word)
    return rule("contents assumed").found(
        f"what {word} weighs is not known: a full shelf is taken, {weighs}",
        number=contents.amount,
        mend=Mend(f"write its mass (`{{rest: 40 lb, on: shelf}}`), or one of: {known}"),
    )


def solve_least(passes: Callable[[float], bool], low: float, high: float) -> float:
    """The least value between low and high that passes, where more is better; `high` if none does."""
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (low, middle) if passes(middle) else (middle, high)
    return high


def solve_most(passes: Callable[[float], bool], low: float, high: float) -> float:
    """The greatest value between low and high that passes, where less is better; `low` if none does."""
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (middle, high) if passes(middle) else (low, middle)
    return low
