"""Published and calculated figures of boards, each with its source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Edge
from optimiser.domain.wall import Materials
from optimiser.framing.bearing import mdf_takes_screw, noggin_takes_board, under_joint
from optimiser.framing.build import frame_wall
from optimiser.framing.findings import kilograms, sheet_grams
from optimiser.framing.quantities import screws_along
from optimiser.units import tenths
from tests.framing.builders import (
    a_board,
    a_price_book,
    a_section,
    a_wall,
    framed,
    materials,
)


@pytest.mark.parametrize(
    ("mass", "width", "height", "expected"),
    [
        (8_000, 1_200, 2_400, 23.0),  # calculated from 8.0 kg/m²
        (8_600, 1_200, 2_400, 24.8),  # UK trade wiki, plasterboard sizes
        (8_000, 1_200, 3_000, 28.8),
        (8_000, 900, 1_800, 13.0),
        (8_640, 1_220, 2_440, 25.7),  # web guides to MDF mass (680-830 kg/m³)
        (11_520, 1_220, 2_440, 34.3),  # web guide to OSB mass (640 kg/m³)
        (12_960, 1_220, 3_050, 48.2),
    ],
)
def test_a_sheet_weighs_what_its_area_says(
    mass: int, width: int, height: int, expected: float
) -> None:
    item = a_board("board", 12, ((width, height),), mass=mass)

    grams = sheet_grams(item, tenths(width), tenths(height))

    assert grams / 1_000 == pytest.approx(expected, abs=0.1)


def test_masses_are_rounded_up_to_be_lifted() -> None:
    assert kilograms(20_001) == "20.1"


def test_sheets_over_25_kg_warn_and_lighter_ones_do_not() -> None:
    # HSE INDG143: 25 kg is a guideline; 20 kg a sheet is one board maker's advice.
    found = {
        f.trouble.split(" weighs")[0]: f.severity
        for f in framed().findings
        if f.rule == "check.mass.sheet"
    }

    assert found["plasterboard-12.5-3000x1200"] is Severity.WARNING
    assert found["plasterboard-12.5-2400x1200"] is Severity.NOTE
    assert found["mdf-12-2440x1220"] is Severity.WARNING
    thin = framed(materials=materials(board="plasterboard-9.5"))
    assert not any("1800x900" in f.trouble for f in thin.findings)


@pytest.mark.parametrize(
    ("board", "centres", "refused"),
    [
        ("plasterboard-9.5", 450, False),
        ("plasterboard-9.5", 600, True),
        ("plasterboard-12.5", 600, False),
        ("plasterboard-12.5", 610, True),
    ],
)
def test_a_board_spans_no_further_than_its_thickness_allows(
    board: str, centres: int, refused: bool
) -> None:
    # NHBC Standards 9.2.4: 9.5 at 450, 12.5 and thicker at 600.
    frame = framed(materials=materials(board=board, centres=tenths(centres)))

    stops = [f for f in frame.findings if f.rule == "check.board.centres"]

    assert [f.severity for f in stops] == ([Severity.STOP] if refused else [])


def test_board_at_600_centres_has_noggins_and_says_so() -> None:
    # NHBC Standards 9.2.4 (2022): 12.5 board at 600 has noggings between.
    frame = framed(materials=materials(centres=tenths(600)))

    assert any(f.rule == "check.board.noggins" for f in frame.findings)
    assert any(m.rule == "frame.noggin.mid-height" for m in frame.members)


def test_a_joint_of_bound_and_cut_edge_wants_35_of_timber() -> None:
    # Published UK project specification 2014: bound 10, cut 13, timber edge 6; calculated 35.
    book = a_price_book()
    thin = a_section("c16-34x63", 34, 63, grade="C16")
    book = replace(book, lengths=(thin, *book.lengths))

    frame = frame_wall(a_wall(materials=Materials(timber="c16-34x63")), book)

    assert any(f.rule == "check.board.bearing" for f in frame.findings)
    assert not any(f.rule == "check.board.bearing" for f in framed().findings)


def test_half_inch_mdf_of_4_by_8_feet_weighs_26_4_kg() -> None:
    # Web guide to MDF mass, its own working: 26.39 at 700 kg/m³.
    item = a_board("mdf", 12.7, ((1_219.2, 2_438.4),), mass=8_890)

    assert sheet_grams(item, 12_192, 24_384) / 1_000 == pytest.approx(26.4, abs=0.2)


@pytest.mark.parametrize(
    ("one", "other", "timber"),
    [
        (Edge.FACTORY, Edge.FACTORY, 32),
        (Edge.FACTORY, Edge.CUT, 35),
        (Edge.CUT, Edge.CUT, 38),
    ],
)
def test_a_joint_needs_timber_by_its_edges(one: Edge, other: Edge, timber: float) -> None:
    # Published UK project specification 2014: bound 10, cut 13, timber edge 6; sums calculated.
    assert under_joint(one, other) == tenths(timber)


def test_a_noggin_of_38_by_43_takes_board_and_one_of_38_by_38_does_not() -> None:
    # NHBC Standards 6.3.9, table 3.
    assert noggin_takes_board(tenths(43), tenths(38))
    assert not noggin_takes_board(tenths(38), tenths(38))


def test_a_screw_in_mdf_keeps_12_from_an_edge_and_25_from_a_corner() -> None:
    # European MDF industry information pages, screwing.
    assert not mdf_takes_screw(from_edge=tenths(10), from_corner=tenths(40))
    assert mdf_takes_screw(from_edge=tenths(12), from_corner=tenths(25))


@pytest.mark.parametrize(
    ("length", "lines", "screws"), [(2_400, 3, 27), (2_400, 4, 36), (2_700, 3, 30), (3_000, 3, 33)]
)
def test_screws_on_a_board_at_300(length: int, lines: int, screws: int) -> None:
    # Calculated from the centres of a published UK project specification 2014.
    assert lines * screws_along(tenths(length), tenths(300)) == screws
