"""The files of one folder: listed and read by name, written through the journal, with every step back.

`Folder` looks, `Keeper` writes. Nothing else on the desk opens a maker's file.
"""

from scantling.desk.keeping.beginning import begin_following, begin_like
from scantling.desk.keeping.conflicts import FileConflict, FolderInUse, Overtaken
from scantling.desk.keeping.folder import Folder, PieceFile
from scantling.desk.keeping.heads import Kind
from scantling.desk.keeping.keeper import History, Keeper
from scantling.desk.keeping.names import SHOP_FILE, scope_of, slug_of
from scantling.desk.keeping.reading import FileText
from scantling.desk.keeping.removing import Removed, remove, removed, restore

__all__ = [
    "SHOP_FILE",
    "FileConflict",
    "FileText",
    "Folder",
    "FolderInUse",
    "History",
    "Keeper",
    "Kind",
    "Overtaken",
    "PieceFile",
    "Removed",
    "begin_following",
    "begin_like",
    "remove",
    "removed",
    "restore",
    "scope_of",
    "slug_of",
]
