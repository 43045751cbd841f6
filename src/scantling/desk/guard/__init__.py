"""Stands before the desk: who may ask, how much may be sent, what a page may do, how trouble is told.

Knows requests and answers, no pages. Gives `guarded`, its settings, and the pages for trouble.
"""

from scantling.desk.guard.guarding import guarded
from scantling.desk.guard.settings import GuardSettings, Limits
from scantling.desk.guard.trouble import Trouble, told, trouble_handlers

__all__ = ["GuardSettings", "Limits", "Trouble", "guarded", "told", "trouble_handlers"]
