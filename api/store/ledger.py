"""The rack's ledger: events are only ever added, and the rack is their sum.

A piece on the rack is free or held by one plan. Each event moves it one step: `on_rack` and `held`
are what it adds. Must not know: how plans are made.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

import sqlalchemy as sa

import optimiser as lib
from api.store.engine import lock_firm, now
from api.store.refusals import Conflict, Missing
from api.store.tables import firms, offcuts, rack_events

# What each kind adds to (on_rack, held). "adjusted" is a correction: found, or lost.
_STEPS = {
    "racked": (1, 0),
    "reserved": (0, 1),
    "released": (0, -1),
    "used": (-1, -1),
    "scrapped": (-1, 0),
    "found": (1, 0),
    "lost": (-1, 0),
}
# Enough for any rack that a yard holds, few enough for one statement's parameters.
_AT_ONCE = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One offcut that is on the rack. `held_by`: the plan that holds it; None when it is free.
    `racked`: when it came onto the rack, for a piece that was read from there."""

    label: str
    material: str
    length: int | None
    width: int | None
    height: int | None
    place: str
    held_by: str | None = None
    racked: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of the ledger."""

    id: int
    label: str
    kind: str
    on_rack: int
    held: int
    plan: str | None
    who: str
    at: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """Who does something to the rack and why; `plan` when it is done for one."""

    who: str
    why: str
    plan: str | None = None


@dataclass(frozen=True, slots=True)
class _Balance:
    seq: int
    on_rack: int
    held: int


def pieces(
    connection: sa.Connection, firm: str, *, labels: Collection[str] | None = None
) -> tuple[Piece, ...]:
    """Return what is on the rack, by label."""
    sums = _sums(firm, labels).subquery()
    own = (rack_events.c.firm == firm, rack_events.c.label == offcuts.c.label)
    # Only "reserved" makes a holder, and no other plan can be in between: the latest one holds it.
    holder = (
        sa.select(rack_events.c.plan)
        .where(*own, rack_events.c.kind == "reserved")
        .order_by(rack_events.c.seq.desc())
        .limit(1)
        .scalar_subquery()
    )
    racked = sa.select(sa.func.max(rack_events.c.at)).where(*own, rack_events.c.on_rack > 0)
    held_by = sa.case((sums.c.held > 0, holder), else_=None).label("held_by")
    rows = connection.execute(
        sa.select(offcuts, held_by, racked.scalar_subquery().label("racked"))
        .join(sums, sums.c.label == offcuts.c.label)
        .where(offcuts.c.firm == firm, sums.c.on_rack > 0)
        .order_by(offcuts.c.label)
    )
    return tuple(
        Piece(
            label=row.label,
            material=row.material,
            length=row.length,
            width=row.width,
            height=row.height,
            place=row.place,
            held_by=row.held_by,
            racked=row.racked,
        )
        for row in rows
    )


def ever(connection: sa.Connection, firm: str, labels: Collection[str]) -> tuple[Piece, ...]:
    """Return pieces by label as they are or were, on the rack or not."""
    return tuple(
        Piece(
            label=row.label,
            material=row.material,
            length=row.length,
            width=row.width,
            height=row.height,
            place=row.place,
        )
        for group in _groups(sorted(labels))
        for row in connection.execute(
            sa.select(offcuts).where(offcuts.c.firm == firm, offcuts.c.label.in_(group))
        )
    )


def racked_by(connection: sa.Connection, firm: str, plan: str) -> set[str]:
    """Return the labels of the offcuts that confirming a plan put on the rack."""
    wanted = sa.select(rack_events.c.label).where(
        rack_events.c.firm == firm, rack_events.c.plan == plan, rack_events.c.kind == "racked"
    )
    return set(connection.execute(wanted).scalars())


def events(
    connection: sa.Connection,
    firm: str,
    *,
    label: str | None = None,
    plan: str | None = None,
    after: int = 0,
    most: int = 1000,
) -> tuple[Event, ...]:
    """Return lines of the ledger, oldest first."""
    wanted = sa.select(rack_events).where(rack_events.c.firm == firm, rack_events.c.id > after)
    if label is not None:
        wanted = wanted.where(rack_events.c.label == label)
    if plan is not None:
        wanted = wanted.where(rack_events.c.plan == plan)
    return tuple(
        Event(
            id=row.id,
            label=row.label,
            kind=row.kind,
            on_rack=row.on_rack,
            held=row.held,
            plan=row.plan,
            who=row.who,
            at=row.at,
            why=row.why,
        )
        for row in connection.execute(wanted.order_by(rack_events.c.id).limit(most))
    )


def put_up(
    connection: sa.Connection, firm: str, found: Iterable[Piece], entry: Entry
) -> tuple[Piece, ...]:
    """Rack new pieces. One without a label gets the firm's next. Raises Conflict for one in use."""
    lock_firm(connection, firm)
    new = list(found)
    taken = _labels_in_use(connection, firm, [piece.label for piece in new if piece.label])
    if taken:
        trouble = f"{', '.join(sorted(taken))} was on the rack before"
        remedy = "Give a label that was never used, or none to get the next free one"
        raise Conflict(lib.Problem("label", trouble, remedy))
    fresh = iter(_next_labels(connection, firm, sum(not piece.label for piece in new)))
    labelled = [piece if piece.label else replace(piece, label=next(fresh)) for piece in new]
    if labelled:
        rows = [
            {
                "firm": firm,
                "label": piece.label,
                "material": piece.material,
                "length": piece.length,
                "width": piece.width,
                "height": piece.height,
                "place": piece.place,
            }
            for piece in labelled
        ]
        connection.execute(sa.insert(offcuts), rows)
        _move(connection, firm, [piece.label for piece in labelled], "racked", entry)
    return tuple(labelled)


def reserve(
    connection: sa.Connection, firm: str, plan: str, materials: Collection[str], who: str
) -> tuple[Piece, ...]:
    """Hold every free piece of these materials for a plan; return all that the plan holds."""
    lock_firm(connection, firm)
    free = [
        piece.label
        for piece in pieces(connection, firm)
        if piece.held_by is None and piece.material in materials
    ]
    _move(connection, firm, free, "reserved", Entry(who=who, why="to be planned", plan=plan))
    return held_by(connection, firm, plan)


def reserve_own(
    connection: sa.Connection, firm: str, plan: str, labels: Collection[str], who: str
) -> None:
    """Hold those of these pieces that are free, for the plan that goes on where they were left."""
    lock_firm(connection, firm)
    free = [
        piece.label
        for group in _groups(sorted(labels))
        for piece in pieces(connection, firm, labels=group)
        if piece.held_by is None
    ]
    _move(connection, firm, free, "reserved", Entry(who=who, why="to be planned anew", plan=plan))


def held_by(connection: sa.Connection, firm: str, plan: str) -> tuple[Piece, ...]:
    """Return the pieces that a plan holds."""
    touched = connection.execute(
        sa.select(rack_events.c.label)
        .distinct()
        .where(rack_events.c.firm == firm, rack_events.c.plan == plan)
    ).scalars()
    return tuple(
        piece
        for group in _groups(sorted(touched))
        for piece in pieces(connection, firm, labels=group)
        if piece.held_by == plan
    )


def release(
    connection: sa.Connection,
    firm: str,
    plan: str,
    *,
    who: str,
    why: str,
    but: Collection[str] = (),
) -> None:
    """Let go of what a plan holds, except the labels it keeps."""
    lock_firm(connection, firm)
    going = [
        piece.label for piece in held_by(connection, firm, plan) if piece.label not in set(but)
    ]
    _move(connection, firm, going, "released", Entry(who=who, why=why, plan=plan))


def use(connection: sa.Connection, firm: str, plan: str, *, who: str) -> tuple[str, ...]:
    """Take the pieces that a plan holds off the rack, to be cut."""
    lock_firm(connection, firm)
    labels = tuple(piece.label for piece in held_by(connection, firm, plan))
    _move(connection, firm, labels, "used", Entry(who=who, why="plan confirmed", plan=plan))
    return labels


def take_back(connection: sa.Connection, firm: str, plan: str, *, who: str) -> None:
    """Reverse what confirming a plan did to the rack. Raises Conflict when it is too late."""
    lock_firm(connection, firm)
    lines = events(connection, firm, plan=plan, most=1_000_000)
    made = [line.label for line in lines if line.kind == "racked"]
    used = [line.label for line in lines if line.kind == "used"]
    why = Entry(who=who, why="plan undone", plan=plan)
    _move(connection, firm, made, "lost", why)
    _move(connection, firm, used, "found", why)


def correct(connection: sa.Connection, firm: str, label: str, kind: str, entry: Entry) -> None:
    """Write one event by hand: "scrapped", "lost" or "found". Raises Missing or Conflict."""
    lock_firm(connection, firm)
    if not _labels_in_use(connection, firm, [label]):
        raise Missing("offcut", label)
    _move(connection, firm, [label], kind, entry)


def as_rack(found: Iterable[Piece]) -> lib.Rack:
    """Return pieces as the rack of a batch."""
    return lib.rack_from_document([piece_document(piece) for piece in found], name="rack")


def piece_document(piece: Piece) -> dict[str, object]:
    """Write a piece as an offcut of the rack document: label, material and sizes in mm."""
    sizes = {"length_mm": piece.length, "width_mm": piece.width, "height_mm": piece.height}
    return {
        "id": piece.label,
        "material": piece.material,
        **{name: size / 10 for name, size in sizes.items() if size is not None},
    }


def _move(
    connection: sa.Connection, firm: str, labels: Collection[str], kind: str, entry: Entry
) -> None:
    """Add one event to each piece. Raises Conflict, with nothing added, when one cannot take it."""
    if not labels:
        return
    on_rack, held = _STEPS[kind]
    at = now(connection)
    lines = []
    for group in _groups(sorted(labels)):
        balances = _balances(connection, firm, group)
        for label in group:
            before = balances.get(label, _Balance(0, 0, 0))
            _require(label, kind, before)
            lines.append(
                {
                    "firm": firm,
                    "label": label,
                    "seq": before.seq + 1,
                    "kind": "adjusted" if kind in ("found", "lost") else kind,
                    "on_rack": on_rack,
                    "held": held,
                    "plan": entry.plan,
                    "who": entry.who,
                    "at": at,
                    "why": entry.why,
                }
            )
    try:
        connection.execute(sa.insert(rack_events), lines)
    except sa.exc.IntegrityError:
        trouble, remedy = "was changed by somebody else just now", "Look again and repeat"
        raise Conflict(lib.Problem("rack", trouble, remedy)) from None


def _require(label: str, kind: str, before: _Balance) -> None:
    on_rack, held = _STEPS[kind]
    wants_held = kind in ("released", "used")
    if on_rack > 0 and before.on_rack:
        raise Conflict(lib.Problem(f"offcut {label}", "is on the rack already", "Leave it there"))
    if on_rack <= 0 and not before.on_rack:
        remedy = "Look at its events for where it went"
        raise Conflict(lib.Problem(f"offcut {label}", "is no longer on the rack", remedy))
    if before.held and not wants_held:
        remedy = "Undo or drop the plan that holds it first"
        raise Conflict(lib.Problem(f"offcut {label}", "is held by a plan", remedy))
    assert held >= 0 or before.held, "only who holds a piece lets go of it"


def _sums(firm: str, labels: Collection[str] | None) -> sa.Select[tuple[str, int, int, int]]:
    wanted = sa.select(
        rack_events.c.label,
        sa.func.max(rack_events.c.seq).label("seq"),
        sa.func.sum(rack_events.c.on_rack).label("on_rack"),
        sa.func.sum(rack_events.c.held).label("held"),
    ).where(rack_events.c.firm == firm)
    if labels is not None:
        wanted = wanted.where(rack_events.c.label.in_(labels))
    return wanted.group_by(rack_events.c.label)


def _balances(connection: sa.Connection, firm: str, labels: Collection[str]) -> dict[str, _Balance]:
    rows = connection.execute(_sums(firm, labels))
    return {row.label: _Balance(int(row.seq), int(row.on_rack), int(row.held)) for row in rows}


def _groups(labels: list[str]) -> list[list[str]]:
    return [labels[start : start + _AT_ONCE] for start in range(0, len(labels), _AT_ONCE)]


def _labels_in_use(connection: sa.Connection, firm: str, labels: list[str]) -> set[str]:
    return {
        label
        for group in _groups(labels)
        for label in connection.execute(
            sa.select(offcuts.c.label).where(offcuts.c.firm == firm, offcuts.c.label.in_(group))
        ).scalars()
    }


def _next_labels(connection: sa.Connection, firm: str, count: int) -> list[str]:
    """Return labels that the firm never used; it may have written such labels by hand."""
    found: list[str] = []
    while wanted := count - len(found):
        last = connection.execute(
            sa.update(firms)
            .where(firms.c.id == firm)
            .values(last_label=firms.c.last_label + wanted)
            .returning(firms.c.last_label)
        ).scalar_one()
        labels = [f"R{number}" for number in range(last - wanted + 1, last + 1)]
        taken = _labels_in_use(connection, firm, labels)
        found += [label for label in labels if label not in taken]
    return found
