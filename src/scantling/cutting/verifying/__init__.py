"""The parts of the verifier: cuts replayed, wood looked at, stock and parts counted.

Shares trade allowances (facts) with the planner and no code at all. Each module gives complaints in words.
"""
