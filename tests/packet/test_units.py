"""A packet in another unit than the file or the shop."""

from dataclasses import replace

from scantling.packet import context
from scantling.quantity.kinds import LengthUnit


def test_steps_are_said_in_the_packets_unit(bench, monkeypatch):
    heard = []

    def said(machined, cuts, shop):
        heard.append(shop.unit)
        return replace(bench.build_plan, notes=("said again",))

    monkeypatch.setattr(context, "build_plan", said)
    metric = context.context_of(bench, LengthUnit.MM)
    assert heard == [LengthUnit.MM]
    assert metric.plan.build_plan.notes == ("said again",)
    assert metric.plan.shop is bench.shop


def test_nothing_is_said_again_in_the_shops_own_unit(bench, monkeypatch):
    monkeypatch.delattr(context, "build_plan")
    assert context.context_of(bench, None).plan is bench


def test_the_reader_is_told_what_stays_in_the_files_unit(bench_data, bench_data_mm):
    # source: by hand; the bench is written in inches
    assert bench_data["foreign"] == ""
    assert "lead with inches" in bench_data_mm["foreign"]


def test_what_was_taken_is_no_alternative_to_itself(bench_data):
    for row in bench_data["choices"]:
        assert row["taken"] not in row["options"].split(", ")
