"""Money, wood and gaps of the cutting plan on generated racks.

    python -m benchmarks.cutting.run [--cases 3] [--racks 10x30 20x60] [--seconds 0.6 10]

Time is processor time. Weight: wood used up and what gluing up must save, as `CutPlan.weight`; its gap is
over the proven least for the same money. Every plan is replayed by the verifier.
"""

from __future__ import annotations

import argparse
import time
from statistics import mean

from benchmarks.cutting.racks import case

from scantling.cutting import cut_plan, verify


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--cases", type=int, default=3)
    ask.add_argument("--racks", nargs="+", default=["10x30", "20x60"])
    ask.add_argument("--seconds", type=float, nargs="+", default=[0.6])
    asked = ask.parse_args()
    print(
        "rack     seed  asked  time s  boards  bought    money    bound   weight    least  gap % unmet faults"
    )
    for rack in asked.racks:
        for seconds in asked.seconds:
            gaps = [row(rack, seed, seconds) for seed in range(asked.cases)]
            proven = [gap for gap in gaps if gap is not None]
            if proven:
                print(f"{rack}, {seconds:g} s: mean gap {mean(proven):.1f} % of {len(proven)}", flush=True)


def row(rack: str, seed: int, seconds: float) -> float | None:
    """Print one plan; its gap in weight, where one is proven."""
    boards, parts = map(int, rack.split("x"))
    made = case(seed, boards, parts)
    start = time.process_time()
    plan = cut_plan(made.machined, made.shop, seconds=seconds)
    taken = time.process_time() - start
    faults = verify(plan, made.machined, made.shop)
    bought = sum(layout.bought for layout in plan.layouts)
    gap = 100 * (plan.weight / plan.weight_bound - 1) if plan.weight_bound else None
    told = "" if gap is None else f"{gap:.1f}"
    print(
        f"{rack:8} {seed:4} {seconds:6g} {taken:7.2f} {len(plan.layouts):7} {bought:7} {plan.money:8.2f}"
        f" {plan.bound:8.2f} {plan.weight:8.2f} {plan.weight_bound:8.2f} {told:>6}"
        f" {len(plan.unmet):5} {len(faults):6}",
        flush=True,
    )
    for fault in faults[:3]:
        print("   ", fault)
    return gap


if __name__ == "__main__":
    main()
