"""Time, yield and gap of the cutting plan on generated racks: `python benchmarks/cutting/run.py [cases]`.

Time is processor time. Yield: blanks over stock used less offcuts. Gap: money over the proven bound.
"""

from __future__ import annotations

import sys
import time
from statistics import median

from racks import case

from scantling.cutting import cut_plan, verify


def main(cases: int) -> None:
    print("rack   seed  time s  boards  bought  yield %   money   bound  unmet  faults")
    times: list[float] = []
    yields: list[float] = []
    for boards, parts in ((10, 30), (20, 60), (40, 120)):
        for seed in range(cases):
            made = case(seed, boards, parts)
            start = time.process_time()
            plan = cut_plan(made.machined, made.shop, seconds=0.6)
            times.append(time.process_time() - start)
            areas = plan.areas
            yields.append(100 * areas.blanks / max(areas.stock - areas.offcuts, 1))
            faults = verify(plan, made.machined, made.shop)
            bought = sum(layout.bought for layout in plan.layouts)
            print(
                f"{boards:2}x{parts:<3} {seed:4} {times[-1]:7.2f} {len(plan.layouts):7} {bought:7}"
                f" {yields[-1]:8.1f} {plan.money:7.2f} {plan.bound:7.2f} {len(plan.unmet):6} {len(faults):7}"
            )
            for fault in faults[:3]:
                print("   ", fault)
    print(f"median time {median(times):.2f} s, median yield {median(yields):.1f} %")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
