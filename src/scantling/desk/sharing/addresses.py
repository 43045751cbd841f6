"""Addresses of the machine, and where a visitor stands: at it, in the home network, or far away."""

from __future__ import annotations

import contextlib
import socket
from enum import Enum
from ipaddress import IPv4Address, IPv6Address, ip_address

from starlette.types import Scope

# One address of each range used at home, and one that leads out (documentation only, RFC 5737).
_BEARINGS = ("192.0.2.1", "192.168.0.1", "10.0.0.1", "172.16.0.1")


class Whereabouts(Enum):
    """Where a request comes from."""

    HERE = "this machine"
    HOME = "the home network"
    FAR = "elsewhere"


def home_addresses() -> tuple[str, ...]:
    """Those of the machine in home networks, the likeliest first. Nothing is sent to find them."""
    found = dict.fromkeys(_source_towards(bearing) for bearing in _BEARINGS)
    return tuple(address for address in found if address and whereabouts(address) is Whereabouts.HOME)


def home_names() -> tuple[str, ...]:
    """All that others in the home network may call this machine."""
    name = socket.gethostname()
    return (*home_addresses(), name, f"{name.removesuffix('.local')}.local")


def visitor(scope: Scope) -> str:
    """The address a request comes from; empty when that is not known."""
    client = scope.get("client")
    return str(client[0]) if client else ""


def whereabouts(address: str) -> Whereabouts:
    """Where `address` is, seen from here; what cannot be read is far away."""
    try:
        read = _unwrapped(ip_address(address.partition("%")[0]))
    except ValueError:
        return Whereabouts.FAR
    if read.is_loopback:
        return Whereabouts.HERE
    return Whereabouts.HOME if read.is_private and not read.is_unspecified else Whereabouts.FAR


def _unwrapped(address: IPv4Address | IPv6Address) -> IPv4Address | IPv6Address:
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return mapped or address


def _source_towards(address: str) -> str:
    # Connecting a datagram socket only looks up the route; no packet leaves.
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking, contextlib.suppress(OSError):
        asking.connect((address, 9))
        return str(asking.getsockname()[0])
    return ""
