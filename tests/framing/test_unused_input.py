"""What a fitter wrote is used, refused or told of: none of it is passed over."""

from __future__ import annotations

from fractions import Fraction

import pytest

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import End, ExistingWall
from optimiser.errors import InvalidInput
from optimiser.units import tenths
from tests.framing.builders import a_site, a_tv, an_extent, framed, materials

AT_400 = tuple(tenths(x) for x in range(400, 3_600, 400))


def said(frame: Frame, rule: str) -> list[Finding]:
    return [one for one in frame.findings if one.rule == rule]


def test_studs_behind_uprights_are_warned_of_as_nothing_is_fixed_to_them() -> None:
    site = a_site(kind=ExistingWall.STUDS, stud_positions=AT_400)
    frame = framed(site=site, materials=materials(centres=tenths(400)))
    warned = [one for one in said(frame, "check.site.studs") if one.severity is Severity.WARNING]

    assert not [one for one in frame.fixings if one.into == "stud"]
    assert "400, 800, 1200" in warned[0].trouble.replace(" 200", "200")
    assert "no existing stud takes fixings" in [one.trouble for one in warned]


def test_studs_of_a_solid_wall_and_plugs_of_a_stud_wall_are_told_of() -> None:
    solid = framed(site=a_site(kind=ExistingWall.SOLID, stud_positions=AT_400[:2]))
    studs = framed(
        site=a_site(
            kind=ExistingWall.STUDS, stud_positions=(tenths(500),), plug_spacing=tenths(400)
        )
    )

    assert "site.stud_positions 400, 800 is not used" in said(solid, "check.site.studs")[0].trouble
    told = [one.trouble for one in said(studs, "check.site.studs")]
    assert any(one.startswith("site.plug_spacing 400 is not used") for one in told)


def test_a_case_smaller_than_the_picture_of_its_diagonal_is_refused() -> None:
    # 85 in at 16:9 is 1 881.7 by 1 058.5, from the definition of the diagonal.
    with pytest.raises(InvalidInput) as refused:
        framed(tv=a_tv(diagonal=Fraction(85)))
    assert [one.field for one in refused.value.problems] == ["tv.width", "tv.height"]
    # 65 in is 1 439.0 by 809.4: a case of 1 450 by 830 holds it.
    fits = framed(tv=a_tv(diagonal=Fraction(65)))
    assert [one.kind for one in fits.openings] == ["tv"]


def test_a_kept_skirting_leaves_a_gap_at_a_free_end_that_is_told_of() -> None:
    site = a_site(skirting=tenths(15))
    free = framed(site=site, extent=an_extent(right=End.FREE, width=tenths(2_600)))

    assert "close the 15 between" in said(free, "check.site.skirting")[0].remedy
    assert "close" not in said(framed(site=site), "check.site.skirting")[0].remedy
