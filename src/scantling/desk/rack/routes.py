"""Every address of the rack."""

from __future__ import annotations

from scantling.desk.rack import lists, one, photos, tops, walls

routes = [*walls.routes, *one.routes, *photos.routes, *lists.routes, *tops.routes]
