"""A few hundred spoiled piece files: each ends in a document or in an error with its place, and soon."""

from __future__ import annotations

from collections import Counter


def test_every_spoiled_file_is_answered(spoiling):
    answers = [spoiling.answer_of(file, resolving=False) for file in spoiling.spoiled_files(400, seed=1)]
    assert [answer.wrong for answer in answers if answer.wrong] == []
    kinds = Counter(answer.kind for answer in answers)
    assert set(kinds) == {"ReadError", "document"}
    assert min(kinds.values()) > 20


def test_the_same_seed_spoils_the_same_files(spoiling):
    assert list(spoiling.spoiled_files(20, seed=3)) == list(spoiling.spoiled_files(20, seed=3))
    assert list(spoiling.spoiled_files(20, seed=3)) != list(spoiling.spoiled_files(20, seed=4))
