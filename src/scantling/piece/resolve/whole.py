"""The whole of resolve: document, facts, record and settings in; the piece out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language.document import Document, Scalar
from scantling.piece.model import NO_RECORD, Axis, Box, BuildRecord, Contact, Face, Piece
from scantling.piece.resolve import (
    as_built,
    choices,
    contacts,
    crowding,
    hardware,
    joints,
    looking_over,
    materials,
    mends,
    moving,
    named,
    parts,
    setting,
)
from scantling.piece.resolve.build import root_scope
from scantling.piece.resolve.common import Common
from scantling.piece.resolve.standing import Crowd, Standing
from scantling.piece.resolve.tree import Scope
from scantling.piece.resolve.uses import uses_of
from scantling.piece.resolve.workings import PieceWorkings

NO_SETTINGS: Mapping[str, str] = {}


@dataclass(frozen=True, eq=False)
class Worked:
    """One document worked out as far as its parts."""

    document: Document
    common: Common
    root: Scope
    crowd: Crowd


def resolve(
    document: Document,
    facts: ShopFacts = NO_FACTS,
    record: BuildRecord = NO_RECORD,
    settings: Mapping[str, str] = NO_SETTINGS,
) -> Piece:
    """The piece a document describes. A walk with no search in it: the same inputs give the same piece.

    Parameters
    ----------
    document
        As read by `read_piece`.
    facts
        What the shop has: measured sheets and lumber, fittings, joint methods it can make.
    record
        Parts as measured while building; what is not yet cut follows them.
    settings
        Phrases that stand instead of the file's, by the name of a size, a choice or a material;
        the overall sizes are called `overall wide`, `overall deep`, `overall high`.

    Raises
    ------
    ResolveError
        With file, line, character, the part and the chain of names that led there, and what to write.
    """
    return _resolved(_Question(document, facts, record, tuple(sorted(settings.items()))))


def as_planned(
    document: Document, facts: ShopFacts = NO_FACTS, settings: Mapping[str, str] = NO_SETTINGS
) -> Worked:
    """The tree behind the piece as planned, for those who look up what words mean. Raises ResolveError."""
    return _worked(document, facts, settings, None)


@dataclass(frozen=True, eq=False)
class _Question:
    """What a piece is worked out from. Documents are the same only if they are one and the same."""

    document: Document
    facts: ShopFacts
    record: BuildRecord
    settings: tuple[tuple[str, str], ...]

    def __hash__(self) -> int:
        return hash((id(self.document), self.settings))

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, _Question)
            and self.document is other.document
            and self.settings == other.settings
            and self.facts == other.facts
            and self.record == other.record
        )


@lru_cache(maxsize=32)
def _resolved(question: _Question) -> Piece:
    document, facts, record = question.document, question.facts, question.record
    settings = dict(question.settings)
    planned = _worked(document, facts, settings, None)
    if not record.measured:
        return _piece(planned, None, record, settings)
    built = as_built.as_built(planned.root, record)
    if built.is_as_planned:
        return _piece(planned, None, built.record, settings)
    return _piece(_worked(document, facts, settings, built), planned, built.record, settings)


def _worked(
    document: Document, facts: ShopFacts, settings: Mapping[str, str], built: as_built.AsBuilt | None
) -> Worked:
    common = Common(facts, dict(settings), PieceWorkings(), built=built)
    root = root_scope(common, document)
    looking_over.refuse_unknown_settings(root, settings)
    leaves = parts.part_leaves(root)
    looking_over.refuse_same_names(leaves)
    looking_over.refuse_wrong_hand(root)
    crowd = Crowd.of(tuple(Standing(parts.part_of(seen), seen) for seen in leaves))
    looking_over.refuse_giants(crowd, document.unit)
    if built is None:  # parts measured bigger than planned are told of, not refused
        crowding.refuse_rows_in_each_other(crowd, document.unit)
    return Worked(document, common, root, crowd)


def _piece(worked: Worked, planned: Worked | None, record: BuildRecord, settings: Mapping[str, str]) -> Piece:
    root, crowd, document = worked.root, worked.crowd, worked.document
    uses = uses_of(root)
    room = setting.room_of(root)
    overall = _overall(root)
    walls = room.against or (Face.BACK,)
    before = joints.joints_of(uses_of(planned.root), planned.crowd, walls, overall) if planned else ()
    joined = joints.joints_of(uses, crowd, walls, overall, before)
    fittings = hardware.fittings_of(uses, crowd)
    movements = moving.movements_of(uses, crowd, joined, fittings)
    poses = moving.poses_of(uses, movements)
    meant = contacts.intended(planned.crowd if planned else crowd)
    piece = Piece(
        name=_text(document, "piece") or _text(document, "style"),
        unit=document.unit,
        overall=overall,
        parts=tuple(one.part for one in crowd.all),
        joints=joined,
        contacts=meant,
        sizes=named.resolved(root),
        choices=choices.resolved(root),
        materials=materials.resolved(root),
        spaces=setting.spaces_of(root),
        hardware=fittings,
        movements=movements,
        poses=poses,
        holds=setting.holds_of(uses, crowd),
        loads=setting.loads_of(uses, crowd, poses),
        room=room,
        finish=setting.finish_of(uses, crowd),
        note=_text(document, "note"),
        record=record,
    )
    _look_over(worked, piece)
    if planned is not None:
        _compare(worked, planned, piece, record, settings)
    return _with_notices(piece, worked.common)


def _overall(root: Scope) -> Box:
    wide, deep, high = (named.overall(root, axis).size for axis in Axis)
    return Box((0.0, 0.0, 0.0), (wide, deep, high))


def _text(document: Document, key: str) -> str:
    node = document.get(key)
    return node.text if isinstance(node, Scalar) else ""


def _look_over(worked: Worked, piece: Piece) -> None:
    """Notices on what is resolved: overlaps, loose touches, sheets of a number."""
    pairs = tuple(contacts.near_pairs(worked.crowd))
    found = (
        *contacts.unexplained_overlaps(pairs, piece.joints, piece.unit),
        *contacts.loose_touches(worked.crowd, pairs, piece.joints, piece.hardware),
        *looking_over.sheet_thicknesses(worked.crowd, piece.unit),
    )
    for notice in found:
        worked.common.notice(notice)


def _compare(
    worked: Worked, planned: Worked, piece: Piece, record: BuildRecord, settings: Mapping[str, str]
) -> None:
    """Contacts as meant against parts as built."""
    for notice in mends.kept_sizes(record, worked.crowd, planned.crowd, piece.unit):
        worked.common.notice(notice)
    trials = _Trials(worked, planned, record, settings)
    for contact, gap in mends.gaps(worked.crowd, piece.contacts):
        part = worked.crowd.by_name[contact.part].part
        mend = mends.closing_size(
            piece.sizes, partial(trials.planned_size, contact), partial(trials.open_by, contact), piece.unit
        )
        worked.common.notice(mends.gap_notice(contact, gap, piece.unit, part, mend))


class _Trials:
    """The piece with one size changed, as planned and as built; each worked out once for all gaps."""

    def __init__(
        self, worked: Worked, planned: Worked, record: BuildRecord, settings: Mapping[str, str]
    ) -> None:
        self._record, self._settings = record, settings
        self._planned: dict[tuple[tuple[str, str], ...], Worked] = {(): planned}
        self._built: dict[tuple[tuple[str, str], ...], Worked] = {(): worked}

    def planned_size(self, contact: Contact, changed: Mapping[str, str]) -> float | None:
        """How big the part is along the gap, as planned. [mm]"""
        one = self._as_planned(changed).crowd.by_name.get(contact.part)
        return one.part.size(contact.face.axis) if one else None

    def open_by(self, contact: Contact, changed: Mapping[str, str]) -> float | None:
        """How far the gap stands open with all that is measured. [mm]"""
        key = tuple(changed.items())
        if key not in self._built:
            planned = self._as_planned(changed)
            built = as_built.as_built(planned.root, self._record)
            self._built[key] = self._again(planned, changed, built)
        return mends.gap_at(self._built[key].crowd, contact)

    def _as_planned(self, changed: Mapping[str, str]) -> Worked:
        key = tuple(changed.items())
        if key not in self._planned:
            self._planned[key] = self._again(self._planned[()], changed, None)
        return self._planned[key]

    def _again(self, like: Worked, changed: Mapping[str, str], built: as_built.AsBuilt | None) -> Worked:
        return _worked(like.document, like.common.facts, {**self._settings, **changed}, built)


def _with_notices(piece: Piece, common: Common) -> Piece:
    return replace(piece, notices=tuple(common.notices))
