"""A socket that lies badly behind a TV is told the nearest place that is clear of everything."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from optimiser.domain.finding import Finding
from optimiser.domain.frame import Frame
from optimiser.domain.wall import Socket, Wall
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_price_book, a_tv, a_wall

BOOK = a_price_book()


def a_socket(x: float, z: float, *, width: float = 146, height: float = 86) -> Socket:
    return Socket(x=tenths(x), z=tenths(z), width=tenths(width), height=tenths(height))


def told(frame: Frame) -> list[Finding]:
    return [
        one
        for one in frame.findings
        if one.rule in ("check.tv.socket", "check.tv.bracket") and "tv.sockets[" in one.trouble
    ]


def behind_a_tv(*sockets: Socket) -> tuple[Wall, Frame]:
    wall = a_wall(tv=a_tv(centre_height=tenths(1_200), sockets=sockets))
    return wall, frame_wall(wall, BOOK)


def moved(socket: Socket, finding: Finding) -> Socket:
    to = {change.field.rpartition(".")[2]: tenths(change.value) for change in finding.change}
    return replace(socket, **to)


@pytest.mark.parametrize(
    ("x", "z"),
    [*product((950, 1_100, 1_500, 1_760, 2_050, 2_600), (700, 800, 1_000, 1_140, 1_620))],
)
def test_the_place_that_a_socket_is_told_is_clear_of_plate_struts_and_edges(
    x: float, z: float
) -> None:
    socket = a_socket(x, z)
    wall, frame = behind_a_tv(socket)
    found = told(frame)

    assert found or inspect_frame(frame, wall) == ()
    for finding in found:
        assert finding.change
        wall, frame = behind_a_tv(moved(socket, finding))
        assert told(frame) == []
        assert inspect_frame(frame, wall) == ()


def test_a_socket_beside_the_plate_is_not_told_to_stand_on_a_strut() -> None:
    # The nearest place aside of the plate lies before the bracket's lower strut, at 1 068 to 1 131.
    (_, frame) = behind_a_tv(a_socket(2_010, 1_060))

    (finding,) = [one for one in told(frame) if one.rule == "check.tv.bracket"]

    assert {change.field for change in finding.change} == {"tv.sockets[0].x", "tv.sockets[0].z"}


def test_a_socket_is_not_told_to_lie_on_another() -> None:
    # Down by 17.5 it would clear the strut above, and meet the one that ends at 1185.
    on_a_strut, below = a_socket(1_300, 1_200), a_socket(1_300, 1_140, height=45)
    (alone,) = told(behind_a_tv(on_a_strut)[1])
    assert moved(on_a_strut, alone).z == tenths(1_182.5)

    wall, frame = behind_a_tv(on_a_strut, below)

    (finding,) = told(frame)
    there = moved(on_a_strut, finding)
    assert told(behind_a_tv(there, below)[1]) == []
    assert inspect_frame(frame_wall(wall, BOOK), wall) == ()


def test_a_socket_higher_than_any_bay_between_struts_is_told_no_place() -> None:
    _, frame = behind_a_tv(replace(a_socket(1_300, 900), height=Tenths(3_000)))

    assert any("meets a strut" in one.trouble and not one.change for one in told(frame))
