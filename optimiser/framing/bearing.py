"""How much timber a board's edge needs behind it, and screws their distance from an edge.

Published UK project specification 2014: a screw stands 10 from a bound edge, 13 from a cut one, and
6 from the timber's edge. 12 and 25 in MDF: European MDF industry information pages.
"""

from __future__ import annotations

from optimiser.domain.frame import Edge

# Board beyond its timber, at a fire say. Cut edges end over timber but at perimeters: NHBC
# Standards 9.2.4; how far such an edge may pass it unheld is common practice, no source.
MOST_OVERHANG = 500
_FROM_EDGE = {Edge.FACTORY: 100, Edge.CUT: 130}
_FROM_TIMBER = 60
MDF_EDGE = 120
MDF_CORNER = 250
# A noggin behind board, NHBC Standards 6.3.9, table 3.
_NOGGIN = (380, 430)
# Round an opening in a stud wall: Approved Document B.
BARRIER_TIMBER = 380
BARRIER_BOARD = 120


def behind(edge: Edge) -> int:
    """Return the timber in tenths that one edge of a board needs."""
    return _FROM_EDGE[edge] + _FROM_TIMBER


def under_joint(one: Edge, other: Edge) -> int:
    """Return the timber in tenths that a joint of two edges needs: 32, 35 or 38."""
    return behind(one) + behind(other)


def mdf_takes_screw(*, from_edge: int, from_corner: int) -> bool:
    """Return whether a screw may stand there in the face of MDF."""
    return from_edge >= MDF_EDGE and from_corner >= MDF_CORNER


def noggin_takes_board(thickness: int, width: int) -> bool:
    """Return whether a section serves as a noggin behind board."""
    small, large = sorted((thickness, width))
    return small >= _NOGGIN[0] and large >= _NOGGIN[1]


def cavity_barrier(thickness: int, *, timber: bool) -> bool:
    """Return whether timber, or else mineral board, so thick closes a cavity against fire."""
    return thickness >= (BARRIER_TIMBER if timber else BARRIER_BOARD)
