"""Sums that leave something out say so."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.packet.data import packet_data
from scantling.packet.tables import shopping_csv

UNKNOWN = {"price_each": 0.0, "cost": 0.0}


def words_of(data, rows):
    return next(row["words"] for row in data[rows] if row["label"] == "To spend")


@pytest.fixture
def unpriced(bench):
    """The bench's packet with the price of so many of its lines not known."""

    def data(count):
        lines = bench.build_plan.shopping
        shopping = tuple(replace(line, **UNKNOWN) for line in lines[:count]) + lines[count:]
        return packet_data(replace(bench, build_plan=replace(bench.build_plan, shopping=shopping)))

    return data


@pytest.mark.parametrize(("count", "words"), [(1, "1 line of the shopping list has no price"),
                                              (2, "2 lines of the shopping list have no price")])  # fmt: skip
def test_lines_without_a_price_are_counted(unpriced, count, words):
    data = unpriced(count)  # source: by hand: as many as were made unknown
    assert words_of(data, "summary").endswith(f"; {words}")
    assert words_of(data, "costs").endswith(f"; {words}")
    first = data["shopping"][0]["lines"][0]
    assert (first["each"], first["cost"]) == ("not known", "")


def test_a_list_with_all_its_prices_says_nothing(bench_data):
    assert "no price" not in words_of(bench_data, "summary") + words_of(bench_data, "costs")


def test_a_spreadsheet_leaves_an_unknown_price_empty(bench):
    line = replace(bench.build_plan.shopping[0], **UNKNOWN)
    plan = replace(bench, build_plan=replace(bench.build_plan, shopping=(line,)))
    row = shopping_csv(plan).decode("utf-8-sig").splitlines()[1]
    # source: by hand: price each and cost are the two cells before the currency
    assert ",,,USD," in row
