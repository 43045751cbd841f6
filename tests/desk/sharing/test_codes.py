"""Secrets: new each time, easy to type, hard to guess."""

from __future__ import annotations

import pytest

from scantling.desk.sharing.codes import ALPHABET, fingerprint, is_code, new_code, new_secret, shown


def test_codes_are_made_of_letters_that_cannot_be_mistaken() -> None:
    codes = [new_code() for _ in range(200)]
    assert {len(code) for code in codes} == {8}
    assert set("".join(codes)) <= set(ALPHABET)
    assert not set(ALPHABET) & set("0O1IL2Z5S8BUAE")
    assert len(set(codes)) == 200


def test_a_code_is_shown_in_two_halves() -> None:
    assert shown("CDFGHJKM") == "CDFG-HJKM"


@pytest.mark.parametrize("typed", ["CDFGHJKM", "cdfg-hjkm", " cd fg hj km ", "CDFG–HJKM"])
def test_however_it_is_typed(typed: str) -> None:
    assert is_code(typed, "CDFGHJKM")


@pytest.mark.parametrize("typed", ["", "CDFGHJK", "CDFGHJKMM", "CDFGHJKN", "ÄÖ", "-" * 5000 + "CDFGHJKM"])
def test_anything_else_is_wrong(typed: str) -> None:
    assert not is_code(typed, "CDFGHJKM")


def test_of_a_secret_only_its_fingerprint_is_kept() -> None:
    secret = new_secret()
    assert len(secret) >= 43
    assert secret not in fingerprint(secret)
    assert fingerprint(secret) == fingerprint(secret)
    assert fingerprint(secret) != fingerprint(new_secret())
