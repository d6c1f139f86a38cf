"""Checks of the sockets behind a TV: on the backboard, clear of the bracket's plate and of struts.

Each carries the smallest move that clears all of these at once, where there is a place for it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.domain.wall import Socket
from optimiser.framing.bracket import plate_figures
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import TvChoice
from optimiser.framing.rules import finding
from optimiser.framing.serving import Level
from optimiser.framing.settings import Settings
from optimiser.framing.surfaces import Rect
from optimiser.units import mm

# A double socket's box and the room to get it in: common practice, no source.
LARGEST_SOCKET = 1_600


def socket_findings(
    settings: Settings, tv: TvChoice, hole: Hole, levels: list[Level]
) -> Iterator[Finding]:
    """Yield what is amiss with each socket; `levels` are those of the struts."""
    board = hole.frame
    struts = [Rect(board.x0, z, board.x1, z + settings.wide) for z, _ in levels]
    sockets = tv.tv.sockets
    for i, socket in enumerate(sockets):
        here = f"tv.sockets[{i}]"
        others = [_place(other) for j, other in enumerate(sockets) if j != i]
        moves = _nearest(here, socket, board, [tv.bracket, *struts, *others])
        to = " and ".join(f"{one.field} {one.value}" for one in moves)
        yield from _behind_plate(here, socket, tv, moves, to)
        yield from _on_board(here, socket, board, struts, moves, to)
    for i, socket in enumerate(sockets):
        yield from _too_large(f"tv.sockets[{i}]", socket)


def _place(socket: Socket) -> Rect:
    return Rect(socket.x, socket.z, socket.x + socket.width, socket.z + socket.height)


def _behind_plate(
    here: str, socket: Socket, tv: TvChoice, moves: list[Change], to: str
) -> Iterator[Finding]:
    plate = tv.bracket
    if not _place(socket).meets(plate):
        return
    yield finding(
        "check.tv.bracket",
        Severity.STOP,
        f"{here}.x {mm(socket.x)}, {here}.z {mm(socket.z)} lie behind the bracket's plate"
        f" ({plate_figures(tv)})",
        f"move it outside x {mm(plate.x0)}-{mm(plate.x1)} or z {mm(plate.z0)}-{mm(plate.z1)}: "
        + (f"{to} is nearest" if moves else "the recess has no place for it beside the plate"),
        change=moves,
    )


def _on_board(
    here: str, socket: Socket, board: Rect, struts: list[Rect], moves: list[Change], to: str
) -> Iterator[Finding]:
    place = _place(socket)
    inside = (
        board.x0 <= place.x0
        and place.x1 <= board.x1
        and board.z0 <= place.z0
        and place.z1 <= board.z1
    )
    if not inside:
        yield finding(
            "check.tv.socket",
            Severity.WARNING,
            f"{here}.x {mm(socket.x)}, {here}.z {mm(socket.z)} lie outside the backboard, x"
            f" {mm(board.x0)}-{mm(board.x1)}, z {mm(board.z0)}-{mm(board.z1)}",
            "move it into the recess" + (f", {to}" if moves else ""),
            change=moves,
        )
    elif any(place.meets(strut) for strut in struts):
        yield finding(
            "check.tv.socket",
            Severity.WARNING,
            f"{here}.z {mm(socket.z)} to {mm(place.z1)} meets a strut",
            "move it between the struts" + (f", {to}" if moves else ""),
            change=moves,
        )


def _too_large(here: str, socket: Socket) -> Iterator[Finding]:
    """Yield a hole in the backboard that is larger than a double socket's: none of its edges need
    lie on timber, as a socket's box grips the board round it."""
    over = [
        (side, given)
        for side, given in (("width", socket.width), ("height", socket.height))
        if given > LARGEST_SOCKET
    ]
    if over:
        yield finding(
            "check.tv.socket",
            Severity.STOP,
            " and ".join(f"{here}.{side} {mm(given)}" for side, given in over)
            + f" is more than a double socket's hole, {mm(LARGEST_SOCKET)}: its edges lie on no"
            " timber",
            "give each socket a hole of its own",
            change=[Change(f"{here}.{side}", mm(LARGEST_SOCKET)) for side, _ in over],
        )


def _nearest(here: str, socket: Socket, board: Rect, taken: Sequence[Rect]) -> list[Change]:
    """Return the shortest move that puts a socket on the board and clear of all that is taken.

    Empty where there is no such place, or it has one already.
    """
    wide, high = socket.width, socket.height
    furthest, highest = board.x1 - wide, board.z1 - high
    xs = {min(max(socket.x, board.x0), furthest)}
    xs |= {x for one in taken for x in (one.x0 - wide, one.x1)}
    zs = {min(max(socket.z, board.z0), highest)}
    zs |= {z for one in taken for z in (one.z0 - high, one.z1)}
    free = [
        (abs(x - socket.x) + abs(z - socket.z), x, z)
        for x, z in itertools.product(xs, zs)
        if board.x0 <= x <= furthest
        and board.z0 <= z <= highest
        and not any(Rect(x, z, x + wide, z + high).meets(one) for one in taken)
    ]
    if not free:
        return []
    _, x, z = min(free)
    moved = (("x", socket.x, x), ("z", socket.z, z))
    return [Change(f"{here}.{name}", mm(to)) for name, at, to in moved if to != at]
