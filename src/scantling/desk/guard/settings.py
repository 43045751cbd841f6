"""What the guard is told: the names this machine answers to, and how much may be sent."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

LOCAL_NAMES = ("localhost", "127.0.0.1", "[::1]")
HTTP_PORT = 80


@dataclass(frozen=True, slots=True)
class Limits:
    """The largest bodies taken [bytes], and the longest addresses [characters]."""

    usual: int = 1_000_000
    photo: int = 12_000_000
    address: int = 2_000

    def for_path(self, path: str) -> int:
        """The limit for one path."""
        return self.photo if self.takes_files(path) else self.usual

    @staticmethod
    def takes_files(path: str) -> bool:
        """Whether files may be sent there: to paths whose last step is `photo` or `photos`."""
        return path.rpartition("/")[2] in ("photo", "photos")


@dataclass(frozen=True, slots=True)
class GuardSettings:
    """`hosts`: what may stand in a request's Host header, port included, lower case."""

    hosts: frozenset[str]
    limits: Limits = field(default_factory=Limits)

    @classmethod
    def at(cls, port: int, also: Iterable[str] = ()) -> GuardSettings:
        """For a desk on `port` of this machine; `also` are the names it has on the home network."""
        names = {name.lower() for name in (*LOCAL_NAMES, *also)}
        bare = names if port == HTTP_PORT else set()
        return cls(frozenset({f"{name}:{port}" for name in names} | bare))
