"""The desk: a web app on the maker's own machine, over the same files and the same plan.

Knows pages, tabs and fingers; knows no rule of wood, joint or cut. Gives `desk_app` and `run_desk`.
"""
