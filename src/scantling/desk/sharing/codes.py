"""Secrets: a pass code that people read and type, and long ones that only machines carry."""

from __future__ import annotations

import secrets
from hashlib import sha256

# No vowels, so no words; nothing that is read as something else (0 O, 1 I L, 2 Z, 5 S, 8 B, U V).
ALPHABET = "CDFGHJKMNPQRTVWXY34679"
LENGTH = 8
LONGEST_TYPED = 64


def new_code() -> str:
    """A pass code: 8 of 22 characters, 5e10 possible."""
    return "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))


def shown(code: str) -> str:
    """In two halves, easier to read across the room."""
    return f"{code[: LENGTH // 2]}-{code[LENGTH // 2 :]}"


def is_code(typed: str, code: str) -> bool:
    """Whether `typed` is the code, however it is spaced; takes as long for a near miss as for a far one."""
    plain = "".join(letter for letter in typed[:LONGEST_TYPED].upper() if letter.isalnum())
    return secrets.compare_digest(plain.encode(), code.encode())


def new_secret() -> str:
    """One for machines: 256 bits, fit for an address."""
    return secrets.token_urlsafe(32)


def fingerprint(secret: str) -> str:
    """What is kept of a secret, so that it cannot be read back."""
    return sha256(secret.encode()).hexdigest()
