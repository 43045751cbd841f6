"""Lets phones and tablets of the home network in, by a pass code, and shows them out again.

Knows addresses, secrets and how long they last; no pieces. Gives `Share` and the gate before the app;
`routes` has its pages.
"""

from scantling.desk.sharing.addresses import home_addresses, home_names
from scantling.desk.sharing.gate import gated
from scantling.desk.sharing.share import Share

__all__ = ["Share", "gated", "home_addresses", "home_names"]
