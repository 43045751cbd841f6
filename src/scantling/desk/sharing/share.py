"""Sharing with the home network: how one comes in and is sent away. All in memory, new at every start."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from scantling.desk.sharing.addresses import home_addresses
from scantling.desk.sharing.codes import is_code, new_code, shown
from scantling.desk.sharing.devices import Device, Devices, Links
from scantling.desk.sharing.patience import Patience

EVERYONE = ""


@dataclass(frozen=True, slots=True)
class Entered:
    """Let in; `secret` goes into the device's cookie."""

    secret: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Not let in; the next try counts after `wait` [s]. `looked` is false when this one came too soon."""

    wait: float
    looked: bool = True


@dataclass
class Share:
    """`port` is the desk's, `addresses` finds the machine's in the network, `clock` tells the time. [s]"""

    port: int
    addresses: Callable[[], tuple[str, ...]] = home_addresses
    clock: Callable[[], float] = time.time
    code: str = field(default_factory=new_code)
    _devices: Devices = field(default_factory=Devices)
    _links: Links = field(default_factory=Links)
    _each: Patience = field(default_factory=lambda: Patience(free=3, longest=300.0))
    # Short, so that one who guesses from many addresses is slow and others are not kept out for long.
    _all: Patience = field(default_factory=lambda: Patience(free=20, longest=30.0))

    @property
    def cookie(self) -> str:
        """The cookie's name; browsers do not keep the ports of a machine apart."""
        return f"desk-{self.port}"

    @property
    def announcement(self) -> str:
        """What the window says where the desk was started."""
        addresses = [f"  http://{address}:{self.port}/" for address in self.addresses()]
        return "\n".join(
            (
                "It is shared with the home network:",
                *(addresses or ["  (this machine is in none just now)"]),
                f"  pass code {shown(self.code)}; a code to scan is on the desk's page /sharing",
                "What goes over the network is not encrypted: share at home only; end it when you are done.",
            )
        )

    def enter_by_code(self, typed: str, address: str, kind: str) -> Entered | Refused:
        """A try at the pass code from `address`."""
        now = self.clock()
        if wait := self._wait(address, now):
            return Refused(wait, looked=False)
        if is_code(typed, self.code):
            self._each.right(address)
            return Entered(self._devices.admit(kind, address, now))
        self._each.wrong(address, now)
        self._all.wrong(EVERYONE, now)
        return Refused(self._wait(address, now))

    def enter_by_link(self, secret: str, address: str, kind: str) -> Entered | Refused:
        """By a scanned code; never slowed, for its secret is too long to guess."""
        now = self.clock()
        good = self._links.take(secret, now)
        return Entered(self._devices.admit(kind, address, now)) if good else Refused(0.0)

    def new_link(self) -> str:
        """A secret for a code to scan."""
        return self._links.issue(self.clock())

    def device(self, secret: str) -> Device | None:
        """Which device shows this secret, if it is in."""
        return self._devices.known(secret, self.clock())

    def devices(self) -> tuple[Device, ...]:
        """All that are in."""
        return self._devices.inside(self.clock())

    def send_away(self, number: int) -> None:
        """Show one out; pass code and links change, so that it cannot simply come back."""
        self._devices.send_away(number)
        self._links.end_all()
        self.code = new_code()

    def _wait(self, address: str, now: float) -> float:
        return max(self._each.wait(address, now), self._all.wait(EVERYONE, now))
