"""The devices that came in, and the links that let one in; only fingerprints of secrets are kept."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import count

from scantling.desk.sharing.codes import fingerprint, new_secret

STAYS = 12 * 3600.0  # s: a day in the workshop
MOST_DEVICES = 20
LINK_LASTS = 600.0  # s
MOST_LINKS = 8


@dataclass(frozen=True, slots=True)
class Device:
    """One that came in; `kind` is a phone, a tablet or a computer."""

    number: int
    kind: str
    address: str
    entered: float


@dataclass
class Devices:
    """Who is in."""

    _inside: dict[str, Device] = field(default_factory=dict)
    _numbers: count[int] = field(default_factory=lambda: count(1))

    def admit(self, kind: str, address: str, now: float) -> str:
        """Let one in; returns the secret it shows from now on. The oldest leaves when there are too many."""
        secret = new_secret()
        self._inside[fingerprint(secret)] = Device(next(self._numbers), kind, address, now)
        if len(self._inside) > MOST_DEVICES:
            del self._inside[next(iter(self._inside))]
        return secret

    def known(self, secret: str, now: float) -> Device | None:
        """Whose secret this is, if it is still good."""
        device = self._inside.get(fingerprint(secret))
        return device if device and now < device.entered + STAYS else None

    def inside(self, now: float) -> tuple[Device, ...]:
        """All that are in, the first first."""
        return tuple(device for device in self._inside.values() if now < device.entered + STAYS)

    def send_away(self, number: int) -> None:
        """Take one's secret from it; nothing happens if it has left already."""
        self._inside = {key: device for key, device in self._inside.items() if device.number != number}


@dataclass
class Links:
    """Secrets in codes to scan: each lets one device in, once, for a short while."""

    _until: dict[str, float] = field(default_factory=dict)

    def issue(self, now: float) -> str:
        """A new one; the oldest that nobody used ends when there are too many."""
        secret = new_secret()
        self._until[fingerprint(secret)] = now + LINK_LASTS
        if len(self._until) > MOST_LINKS:
            del self._until[next(iter(self._until))]
        return secret

    def take(self, secret: str, now: float) -> bool:
        """Use it up; whether it was good."""
        return now < self._until.pop(fingerprint(secret), now)

    def end_all(self) -> None:
        """None is good any more."""
        self._until.clear()


def kind_of(user_agent: str) -> str:
    """Phone, tablet or computer, by what the browser says of itself."""
    mobile = "Mobi" in user_agent
    if re.search(r"Tablet|iPad", user_agent) or ("Android" in user_agent and not mobile):
        return "tablet"
    return "phone" if mobile else "computer"
