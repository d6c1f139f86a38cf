"""Published and calculated figures of screens and timber, each with its source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from optimiser.domain.finding import Severity
from optimiser.framing.loads import (
    STRENGTH_CLASSES,
    rail_on_edge,
)
from optimiser.framing.screen import distance_for_field, picture_size, upward_look
from optimiser.framing.timber import Finish, allowed, dried, grams, metres_per_cubic_metre
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_tv,
    framed,
)


@pytest.mark.parametrize(
    ("inches", "width", "height"),
    [
        (43, 951.9, 535.5),
        (50, 1106.9, 622.6),
        (55, 1217.6, 684.9),
        (65, 1439.0, 809.4),
        (75, 1660.4, 933.9),
        (85, 1881.7, 1058.5),
        (98, 2169.5, 1220.4),
        (100, 2213.8, 1245.3),
    ],
)
def test_a_picture_at_16_to_9_follows_from_its_diagonal(
    inches: int, width: float, height: float
) -> None:
    # Calculated: W = 25.4 D·16/√337.
    got = picture_size(Fraction(inches))

    assert got[0] / 10 == pytest.approx(width, abs=0.11)
    assert got[1] / 10 == pytest.approx(height, abs=0.11)


def test_a_60_inch_picture_is_about_1330_wide() -> None:
    # A published guide's text: "52.3 in (133 cm)".
    assert picture_size(Fraction(60))[0] / 10 == pytest.approx(1_330, abs=5)


def test_fields_of_view_give_the_published_distances() -> None:
    # SMPTE 30°: 1.6264 of the diagonal; cinema certification 36°: 1.54 of the width.
    width = 16 / 337**0.5

    assert distance_for_field(width, 30) == pytest.approx(1.626, abs=0.001)
    assert distance_for_field(width, 40) == pytest.approx(1.197, abs=0.01)
    assert distance_for_field(1, 36) == pytest.approx(1.539, abs=0.002)


def test_a_65_inch_tv_with_30_a_side_wants_a_recess_of_1499_by_869() -> None:
    # Gap: common practice, no source; rest calculated.
    frame = framed(tv=replace(a_tv(), width=None, height=None, diagonal=Fraction(65)))
    recess = frame.openings[0]

    assert recess.width / 10 == pytest.approx(1_499, abs=1)
    assert recess.height / 10 == pytest.approx(869, abs=1)


def test_the_look_up_at_a_65_inch_tv_over_a_fire() -> None:
    # Calculated: base 300 + opening 450 + gap 300 + half of 809.4; 15° by a display set-up guide.
    fire = a_fire(base_height=tenths(300), opening_height=tenths(450))
    tv = replace(a_tv(), width=None, height=None, diagonal=Fraction(65))
    frame = framed(fire=fire, tv=tv)
    recess = next(opening for opening in frame.openings if opening.kind == "tv")
    centre = (2 * recess.z + recess.height) / 20
    look = next(f for f in frame.findings if f.rule == "check.tv.angle")

    assert centre == pytest.approx(1_454.7, abs=0.1)
    assert upward_look(14_547, 10_600, 27_000) == pytest.approx(8.32, abs=0.05)
    assert look.severity is Severity.NOTE


def test_strength_classes_are_those_of_en_338_2016() -> None:
    # EN 338:2016; the 2003 edition's shear of 1.8 for C16 must not be used.
    c16, c24 = STRENGTH_CLASSES["C16"], STRENGTH_CLASSES["C24"]

    assert (c16.bending, c16.modulus_mean, c16.density_characteristic) == (16, 8_000, 310)
    assert (c16.density_mean, c16.shear, c16.compression_across) == (370, 3.2, 2.2)
    assert (c24.bending, c24.modulus_mean, c24.density_characteristic) == (24, 11_000, 350)
    assert (c24.density_mean, c24.shear, c24.compression_across) == (420, 4.0, 2.5)


def test_a_rail_of_38_by_63_on_edge_under_an_even_load() -> None:
    # Calculated from beam theory, C16, 1600 span, 0.25 N/mm.
    rail = rail_on_edge(thickness=38, depth=63, span=1_600, load=0.25, modulus=8_000)

    assert rail.inertia == pytest.approx(791_816, rel=0.005)
    assert rail.moment == pytest.approx(80_000, rel=0.005)
    assert rail.stress == pytest.approx(3.18, rel=0.005)
    assert rail.deflection == pytest.approx(3.37, rel=0.005)


def test_a_rail_of_38_by_89_on_edge_under_an_even_load() -> None:
    rail = rail_on_edge(thickness=38, depth=89, span=2_000, load=0.30, modulus=8_000)

    assert rail.stress == pytest.approx(2.99, rel=0.005)
    assert rail.deflection == pytest.approx(3.50, rel=0.005)


@pytest.mark.parametrize(
    ("size", "finish", "least", "most"),
    [
        (89, Finish.PLANED, 88, 90),
        (140, Finish.PLANED, 138.5, 141.5),
        (75, Finish.SAWN, 74, 78),
        (125, Finish.SAWN, 123, 129),
    ],
)
def test_a_section_may_differ_from_its_size_by_its_class(
    size: float, finish: Finish, least: float, most: float
) -> None:
    # EN 336, tolerance classes 1 and 2, as Building Construction Handbook, 8th ed., has them.
    assert allowed(tenths(size), finish) == (tenths(least), tenths(most))
    assert not allowed(tenths(89), Finish.PLANED)[0] <= tenths(87.9)


def test_timber_shrinks_a_quarter_per_cent_for_each_per_cent_it_dries() -> None:
    # Rule of an article on an information sheet of softwood sizes; 89 at 20 % is 87.22 at 12 %.
    assert float(dried(tenths(89), 12)) / 10 == pytest.approx(87.22, abs=0.01)


def test_a_cubic_metre_holds_so_many_metres_and_a_metre_weighs_so_much() -> None:
    # Calculated; mean density of C24 by EN 338:2016.
    assert float(metres_per_cubic_metre(380, 630)) == pytest.approx(417.7, abs=0.1)
    assert float(metres_per_cubic_metre(380, 890)) == pytest.approx(295.7, abs=0.1)
    density = STRENGTH_CLASSES["C24"].density_mean
    assert float(grams(380, 890, 10_000, density)) / 1_000 == pytest.approx(1.42, abs=0.01)
