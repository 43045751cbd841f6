"""What one run of resolve shares: facts, settings, the chain being worked out, notices, errors."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import TYPE_CHECKING, Protocol, TypeVar, cast

from scantling.errors import ResolveError
from scantling.piece.facts import ShopFacts
from scantling.piece.language.document import Scalar
from scantling.piece.model import Axis, Lean, Material, Notice, Outline, Section, Taper

if TYPE_CHECKING:
    from scantling.piece.language.expressions import Expression
    from scantling.piece.resolve.as_built import AsBuilt
    from scantling.piece.resolve.asker import Asker
    from scantling.piece.resolve.tree import Copy, Family, Reach, Scope, Thing
    from scantling.piece.resolve.values import Value

MOST_PARTS = 5000
Answer = TypeVar("Answer")


class Workings(Protocol):
    """What the tree asks of the modules above it; set once by `whole`."""

    def value(self, asker: Asker, formula: Expression) -> Value: ...

    def expand(self, family: Family) -> tuple[Copy, ...]: ...

    def reach(self, thing: Thing, axis: Axis) -> Reach: ...

    def copy_reach(self, copy: Copy, axis: Axis) -> Reach: ...

    def row_start(self, thing: Thing, axis: Axis | None) -> float | None: ...

    def overall(self, scope: Scope, axis: Axis) -> Reach: ...

    def material(self, thing: Thing) -> Material: ...

    def thing_size(self, scope: Scope, name: str, size: str) -> float | None: ...

    def lean(self, thing: Thing) -> Lean | None: ...

    def taper_axis(self, thing: Thing) -> Axis | None: ...

    def taper(self, thing: Thing) -> Taper | None: ...

    def outline(self, thing: Thing) -> Outline | None: ...

    def section(self, thing: Thing) -> Section: ...

    def grain(self, thing: Thing) -> Axis: ...


@dataclass(eq=False)
class Common:
    """Mutable while one piece is being worked out; thrown away after."""

    facts: ShopFacts
    settings: Mapping[str, str]
    workings: Workings
    notices: dict[Notice, None] = field(default_factory=dict)  # in order, each once
    chain: dict[Hashable, str] = field(default_factory=dict)
    memory: dict[Hashable, object] = field(default_factory=dict)
    built: AsBuilt | None = None

    def once(self, key: Hashable, label: str, scalar: Scalar | None, work: Callable[[], Answer]) -> Answer:
        """The remembered answer for `key`, worked out the first time; going round in a circle is an error."""
        if key in self.memory:
            return cast(Answer, self.memory[key])
        if key in self.chain:
            raise self._circle(key, label, scalar)
        self.chain[key] = label
        try:
            self.memory[key] = answer = work()
        finally:
            del self.chain[key]
        return answer

    def _circle(self, key: Hashable, label: str, scalar: Scalar | None) -> ResolveError:
        keys = list(self.chain)
        names = [self.chain[k] for k in keys[keys.index(key) :]] + [label]
        return ResolveError(
            "this goes round in a circle: " + " -> ".join(names),
            scalar.place if scalar else None,
            "say one of these from something else",
        )

    def notice(self, notice: Notice) -> None:
        self.notices.setdefault(notice)


def nearest(words: str, known: Iterable[str], also: Iterable[str] = ()) -> str:
    """`nearest: "back strip"` for a slip of the pen, else the first few that are known.

    `also`: words that may have been meant too, but are not worth listing.
    """
    names = sorted(set(known))
    close = get_close_matches(words, [*names, *sorted(set(also))], n=1, cutoff=0.6)
    if close:
        return f'nearest: "{close[0]}"'
    if not names:
        return ""
    shown = ", ".join(names[:12]) + (", ..." if len(names) > 12 else "")
    return f"known: {shown}"
