"""What a fitter wrote is used, refused or told of: none of it is passed over."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import End, ExistingWall
from optimiser.errors import InvalidInput
from optimiser.framing.build import frame_wall
from optimiser.framing.fixing import screw_into_stud
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_price_book,
    a_site,
    a_tv,
    a_wall,
    an_extent,
    framed,
    materials,
)

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


@pytest.mark.parametrize(
    ("stud", "screw"),
    # A ledger from 400 to 962: 25 from its end at the least, 13 aside of a stud's middle at most.
    [(600, 600), (425, 425), (412, 425), (411, None), (400, None), (950, 937), (951, None)],
)
def test_a_screw_into_a_stud_keeps_off_the_end_of_its_ledger(stud: int, screw: int | None) -> None:
    found = screw_into_stud(tenths(stud), tenths(400), tenths(962))

    assert found == (None if screw is None else tenths(screw))


def test_screws_beside_studs_or_at_the_end_of_a_ledger_are_faults() -> None:
    wall = a_wall(site=a_site(kind=ExistingWall.STUDS, stud_positions=(tenths(500), tenths(1_100))))
    frame = replace(frame_wall(wall, a_price_book()), alternatives=(), choices=())
    assert not inspect_frame(frame, wall)
    [one, *_] = [one for one in frame.fixings if one.into == "stud"]
    [ledger] = {
        member.box
        for member in frame.members
        if member.mark == one.member
        and member.box.x <= one.at.x <= member.box.x + member.box.dx
        and member.box.z <= one.at.z <= member.box.z + member.box.dz
    }

    def faults(x: int) -> list[str]:
        moved = replace(one, at=replace(one.at, x=Tenths(x)))
        others = tuple(fixing for fixing in frame.fixings if fixing is not one)
        spoilt = replace(frame, fixings=(*others, moved))
        return [fault.what for fault in inspect_frame(spoilt, wall)]

    assert faults(one.at.x + 130) == []
    assert faults(one.at.x + 140) == ["meets no existing stud"]
    assert "would split the end of its timber" in faults(ledger.x + 100)


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


def test_an_end_board_runs_on_to_the_house_over_a_kept_skirting() -> None:
    site = a_site(skirting=tenths(15))
    free = framed(site=site, extent=an_extent(right=End.FREE, width=tenths(2_600)))

    assert "notch each round the skirting" in said(free, "check.site.skirting")[0].remedy
    assert min(board.box.y for board in free.boards if board.face == "right") == 0
    assert "notch" not in said(framed(site=site), "check.site.skirting")[0].remedy
