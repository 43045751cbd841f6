"""Send the desk thousands of requests that are a little wrong, and see that each is answered or told why not.

    python -m benchmarks.fuzz_desk [how many] [seed] [how many seeds]

The desk runs in this process under its guard. No answer may be a failure of the desk or tell of a place of
this machine; no file outside the folder may change; every file holds what was acknowledged; at the end the
journal steps back to the beginning. Reports the answers by kind, the slowest, and every fault.
"""

from __future__ import annotations

import sys
import time

from tests.desk.hostile.rounds import attacked


def main() -> None:
    count, seed, seeds = (int(word) for word in (*sys.argv[1:], *("3000", "1", "1")[len(sys.argv) - 1 :]))
    for each in range(seed, seed + seeds):
        start = time.monotonic()
        report = attacked(count, each)
        took = time.monotonic() - start
        print(f"seed {each}: {report.asked} requests in {took:.0f} s, {len(report.faults)} faults")
        print(f"  answers {dict(sorted(report.answers.items()))}, {len(report.reached)} addresses")
        for seconds, words in report.slowest[:3]:
            print(f"  {seconds:.1f} s {words[:200]}")
        for fault in report.faults:
            print(f"  {fault}")


if __name__ == "__main__":
    main()
