"""Words of other habits, and what to write here in their place."""

from __future__ import annotations

from collections.abc import Iterable

_PHRASES = {
    "write `centred on`": ("centered", "centred", "center", "centre"),
    "write `up from`": ("above", "over", "atop"),
    "write `down from`": ("below", "under", "beneath", "underneath"),
    "write `back from`": ("behind",),
    "write `forward from`": ("before",),
    "write `top`": ("upper", "ceiling", "upside"),
    "write `bottom`, or `floor`": ("lower", "underside", "ground", "base"),
    "write `front`": ("face", "forward"),
    "write `back`": ("rear",),
    "write `height / 2`, or `middle` for the place": ("half", "midway", "halfway"),
    "write `+`": ("plus",),
    "write `-`": ("minus", "less"),
    "write `*`": ("times",),
    "write `A to B`": ("until", "till"),
}
_MEANT = {word: phrase for phrase, words in _PHRASES.items() for word in words}
_KEYS: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("material", "wood", "species", "made of", "from"), ("of", "join")),
    **dict.fromkeys(("method", "joint", "using", "type"), ("with", "kind")),
    **dict.fromkeys(("number", "qty", "quantity"), ("count", "copies")),
    **dict.fromkeys(("count", "repeat", "mirror"), ("copies",)),
    **dict.fromkeys(("cut", "cuts", "machining", "edges"), ("work",)),
    **dict.fromkeys(("name", "title"), ("piece", "style")),
    **dict.fromkeys(("comment", "remark", "description"), ("note",)),
    **dict.fromkeys(("dimensions", "size"), ("overall", "sizes")),
    "width": ("wide",),
    "depth": ("deep",),
    "height": ("high",),
    "spacing": ("every",),
    "unit": ("units",),
    "weight": ("mass", "rest"),
}


def phrase_meant(words: Iterable[str]) -> str:
    """What to write in place of the first of `words` that is another habit's; empty if none is."""
    return next((_MEANT[word] for word in words if word in _MEANT), "")


def key_meant(name: str, known: Iterable[str]) -> str:
    """The key that somebody who wrote `name` means, if it is one of those known; empty if none is."""
    keys = tuple(known)
    return next((key for key in _KEYS.get(name, ()) if key in keys), "")
