"""Where visitors stand, and what this machine is called at home."""

from __future__ import annotations

import socket

import pytest

from scantling.desk.sharing.addresses import Whereabouts, home_addresses, home_names, visitor, whereabouts


@pytest.mark.parametrize(
    ("address", "where"),
    [
        ("127.0.0.1", Whereabouts.HERE),
        ("127.8.8.8", Whereabouts.HERE),
        ("::1", Whereabouts.HERE),
        ("::ffff:127.0.0.1", Whereabouts.HERE),
        ("192.168.1.33", Whereabouts.HOME),
        ("10.1.2.3", Whereabouts.HOME),
        ("172.16.9.9", Whereabouts.HOME),
        ("169.254.3.3", Whereabouts.HOME),
        ("fe80::1%eth0", Whereabouts.HOME),
        ("fd12::1", Whereabouts.HOME),
        ("::ffff:192.168.1.33", Whereabouts.HOME),
        ("8.8.4.4", Whereabouts.FAR),
        ("::ffff:8.8.4.4", Whereabouts.FAR),
        ("2606:4700::1", Whereabouts.FAR),
        ("0.0.0.0", Whereabouts.FAR),
        ("", Whereabouts.FAR),
        ("somewhere", Whereabouts.FAR),
    ],
)
def test_where_an_address_is(address: str, where: Whereabouts) -> None:
    assert whereabouts(address) is where


def test_a_visitor_of_unknown_address_has_none() -> None:
    assert visitor({"client": None}) == visitor({}) == ""


def test_own_addresses_are_of_this_machine() -> None:
    for address in home_addresses():
        with socket.socket() as trying:
            trying.bind((address, 0))  # only possible for an own address
            assert trying.getsockname()[0] == address


def test_addresses_are_found_without_sending_anything(monkeypatch: pytest.MonkeyPatch) -> None:
    sent: list[object] = []
    for name in ("send", "sendto", "sendmsg"):
        monkeypatch.setattr(socket.socket, name, lambda *words: sent.append(words))
    monkeypatch.setattr(socket, "getaddrinfo", lambda *words: sent.append(words))
    home_addresses()
    assert sent == []


def test_names_include_the_address_and_the_name_said_in_the_network() -> None:
    names = home_names()
    assert set(home_addresses()) < set(names)
    assert names[-1].endswith(".local")
    assert not names[-1].endswith(".local.local")
