"""Coming in and being sent away, by a clock that the test turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from scantling.desk.sharing.devices import LINK_LASTS, MOST_DEVICES, MOST_LINKS, STAYS, kind_of
from scantling.desk.sharing.share import Entered, Refused, Share

if TYPE_CHECKING:
    from tests.desk.sharing.conftest import Clock

WRONG = "33333333"


def entered(share: Share, address: str = "192.168.1.33") -> str:
    outcome = share.enter_by_code(share.code, address, "phone")
    assert isinstance(outcome, Entered)
    return outcome.secret


def guess(share: Share, address: str) -> Refused:
    outcome = share.enter_by_code(WRONG, address, "phone")
    assert isinstance(outcome, Refused)
    return outcome


def test_every_start_has_its_own_code() -> None:
    assert Share(8123).code != Share(8123).code


def test_the_code_lets_in_and_the_secret_is_known_until_the_day_is_over(share: Share, clock: Clock) -> None:
    secret = entered(share)
    assert share.device(secret)
    clock.now += STAYS - 1
    assert share.device(secret)
    clock.now += 1
    assert share.device(secret) is None
    assert share.devices() == ()


@pytest.mark.parametrize("secret", ["", "guessed"])
def test_no_other_secret_is_known(share: Share, secret: str) -> None:
    entered(share)
    assert share.device(secret) is None


def test_wrong_codes_are_slowed_and_tries_that_come_too_soon_are_not_looked_at(
    share: Share, clock: Clock
) -> None:
    assert [guess(share, "a").wait for _ in range(4)] == [0, 0, 0, 2]
    assert share.enter_by_code(share.code, "a", "phone") == Refused(2, looked=False)
    clock.now += 2
    assert isinstance(share.enter_by_code(share.code, "a", "phone"), Entered)


def test_being_right_forgives_what_was_wrong(share: Share) -> None:
    for _ in range(3):
        guess(share, "a")
    entered(share, "a")
    assert guess(share, "a").wait == 0


def test_guessing_from_many_addresses_is_slowed_too(share: Share, clock: Clock) -> None:
    looked_at = 0
    for number in range(10_000):
        looked_at += guess(share, f"address {number}").looked
        clock.now += 0.1
    # source: by hand; 20 free, then waits of 2, 4, 8, 16, 30 s: 25 in the first minute, then one each 30 s
    assert looked_at <= 25 + 940 / 30 + 1


def test_one_who_guesses_does_not_keep_others_out_for_long(share: Share, clock: Clock) -> None:
    for number in range(500):
        guess(share, f"address {number}")
        clock.now += 0.1
    outcome = share.enter_by_code(share.code, "honest", "phone")
    assert isinstance(outcome, Refused)
    assert outcome.wait <= 30
    assert isinstance(share.enter_by_link(share.new_link(), "honest", "phone"), Entered)


def test_a_link_lets_one_in_once(share: Share) -> None:
    link = share.new_link()
    assert isinstance(share.enter_by_link(link, "a", "phone"), Entered)
    assert share.enter_by_link(link, "b", "phone") == Refused(0)


def test_a_link_ends_after_a_while(share: Share, clock: Clock) -> None:
    link = share.new_link()
    clock.now += LINK_LASTS
    assert share.enter_by_link(link, "a", "phone") == Refused(0)


def test_old_links_end_when_there_are_many(share: Share) -> None:
    links = [share.new_link() for _ in range(MOST_LINKS + 1)]
    outcomes = [isinstance(share.enter_by_link(link, "a", "phone"), Entered) for link in links]
    assert outcomes == [False] + [True] * MOST_LINKS


def test_one_sent_away_is_out_and_knows_no_way_back(share: Share) -> None:
    code, link = share.code, share.new_link()
    gone, stays = entered(share, "a"), entered(share, "b")
    share.send_away(share.devices()[0].number)
    assert share.device(gone) is None
    assert share.device(stays)
    assert isinstance(share.enter_by_code(code, "a", "phone"), Refused)
    assert isinstance(share.enter_by_link(link, "a", "phone"), Refused)


def test_sending_away_one_that_left_changes_nobody(share: Share) -> None:
    stays = entered(share)
    share.send_away(77)
    assert share.device(stays)


def test_the_oldest_leaves_when_too_many_are_in(share: Share) -> None:
    secrets = [entered(share, str(number)) for number in range(MOST_DEVICES + 1)]
    assert share.device(secrets[0]) is None
    assert len(share.devices()) == MOST_DEVICES


def test_nothing_kept_holds_a_secret(share: Share) -> None:
    secret, link = entered(share), share.new_link()
    assert secret not in repr(share)
    assert link not in repr(share)


@pytest.mark.parametrize(
    ("agent", "kind"),
    [
        ("Mozilla/5.0 (Linux; Android 16; K) Mobile Safari/537.36", "phone"),
        ("Mozilla/5.0 (Linux; Android 16; K) Safari/537.36", "tablet"),
        ("Mozilla/5.0 (iPad; CPU OS 19_0 like Mac OS X) Mobile/15E148", "tablet"),
        ("Mozilla/5.0 (X11; Linux x86_64)", "computer"),
        ("", "computer"),
    ],
)
def test_kinds_of_devices(agent: str, kind: str) -> None:
    assert kind_of(agent) == kind


def test_the_window_says_where_and_how_and_what_it_exposes(share: Share) -> None:
    told = share.announcement
    assert "http://192.168.1.20:8123/" in told
    assert f"{share.code[:4]}-{share.code[4:]}" in told
    assert "not encrypted" in told
    assert "in none just now" in Share(8123, tuple).announcement
