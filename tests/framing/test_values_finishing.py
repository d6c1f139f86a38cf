"""Published and calculated figures of finishing and fixing, each with its source."""

from __future__ import annotations

import math
from typing import Any

import pytest

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import Accessory, End
from optimiser.framing.appliances import amperes
from optimiser.framing.bearing import cavity_barrier
from optimiser.framing.cautions import CAUTIONS
from optimiser.framing.quantities import (
    ADHESIVE_AREA,
    PLASTER_GRAMS_PER_SQUARE_METRE,
    PRIMER_ML_PER_SQUARE_METRE,
    screws_along,
)
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_site,
    a_tv,
    an_extent,
    framed,
    materials,
)


def power_of(**changes: Any) -> Finding:
    found = framed(fire=a_fire(**changes)).findings
    return next(f for f in found if f.rule == "check.fire.power")


def primer_of(frame: Frame) -> int:
    return next(q.amount for q in frame.quantities if q.item == "primer")


def test_a_cartridge_lays_11_m_of_6_mm_bead() -> None:
    # Calculated: 310 cm³ / 28.27 mm².
    assert pytest.approx(11.0, abs=0.1) == 310_000 / (ADHESIVE_AREA / 100) / 1_000


def test_cables_run_within_150_of_a_corner_or_ceiling() -> None:
    # BS 7671 522.6.202 as training companies quote it.
    accessory = Accessory(x=tenths(1_000), z=tenths(450))
    frame = framed(site=a_site(accessories=(accessory,)))
    bands = {band.name: band.box for band in frame.bands}

    assert bands["below the ceiling"].dz == tenths(150)
    assert bands["at the left corner"].dx == tenths(150)
    # As wide as a double plate and a little more: 146, from memory.
    assert bands["up and down from accessory 1"].dx == tenths(150)
    assert bands["across from accessory 1"].dz == tenths(150)
    for fixing in frame.fixings:
        if fixing.into in ("wall", "stud"):
            assert not any(
                box.x < fixing.at.x < box.x + box.dx and box.z < fixing.at.z < box.z + box.dz
                for box in bands.values()
            )


def test_the_band_below_a_sloping_ceiling_reaches_150_below_its_lowest_place() -> None:
    accessory = Accessory(x=tenths(1_000), z=tenths(450))
    site = a_site(accessories=(accessory,), height_right=tenths(2_300))
    frame = framed(site=site)
    band = next(band.box for band in frame.bands if band.name == "below the ceiling")

    assert (band.z, band.z + band.dz) == (tenths(2_300 - 150), tenths(2_400))


def test_dust_limits_are_those_of_the_hse() -> None:
    # HSE wood dust page: softwood 5, hardwood and mixtures 3 mg/m³; silica 0.1.
    dust = next(text for text in CAUTIONS if text.startswith("Dust"))

    assert "5 mg/m³ for softwood, 3 mg/m³ for hardwood and for mixtures" in dust
    assert "0.1 mg/m³ for respirable silica" in dust


def test_skim_covers_10_square_metres_a_bag() -> None:
    # UK plasterers' bag guide: 9 to 12 m² from 25 kg.
    assert 9 <= 25_000 / PLASTER_GRAMS_PER_SQUARE_METRE <= 12
    assert -(-23 * PLASTER_GRAMS_PER_SQUARE_METRE // 25_000) == 3


def test_a_plain_front_takes_plaster_by_its_area() -> None:
    # 3600 × 2387 is 8.5932 m²: 21 483 g at 25 kg for 10 m², calculated.
    plaster = next(q for q in framed().quantities if q.item == "plaster")

    assert plaster.amount == 21_483


def test_beads_of_two_free_ends_and_a_recess_mouth_run_9510_but_for_skim() -> None:
    # Calculated: 2 × 2387 + 2 × (1499 + 869) = 9 510; each mouth side is 6 longer before skim.
    frame = framed(
        site=a_site(clear_width=tenths(4_000)),
        extent=an_extent(width=tenths(3_600), offset=tenths(200)),
        tv=a_tv(width=tenths(1_439), height=tenths(809)),
    )

    corners = [b.length for b in frame.beads if b.kind == "corner bead"]

    assert sum(corners) - 4 * 60 == tenths(9_510)


def test_tape_is_the_joints_and_a_tenth_more() -> None:
    # Common practice, no source: 5 to 10 % more. Two joints of 2387 and, between side walls, the
    # ceiling line of 3600: as framed, calculated.
    tape = {q.item: q.amount for q in framed().quantities if q.unit == "mm"}

    assert tape["joint-tape"] == -(-2 * 2_387 * 110 // 100)
    assert tape["angle-tape"] == 3_600 * 110 // 100


def test_a_first_coat_takes_a_litre_on_10_square_metres() -> None:
    # From memory: 10 to 12 m² a litre. 3600 × 2387 is 8.5932 m²: 860 ml, calculated.
    amounts = {q.item: q.amount for q in framed().quantities}

    assert 10 <= 1_000 / PRIMER_ML_PER_SQUARE_METRE <= 12
    assert amounts["primer"] == 860


def test_backboard_and_both_sides_of_shelves_are_primed_too() -> None:
    bare = framed(niches=(a_niche(shelves=0),))
    shelved = framed(niches=(a_niche(shelves=2),))
    shelf = next(b for b in shelved.boards if b.rule == "board.shelf")

    more = primer_of(shelved) - primer_of(bare)

    assert more == pytest.approx(4 * shelf.width * shelf.height * 100 / 100_000_000, abs=1)


def test_adhesive_is_a_bead_of_6_mm_along_each_strut_behind_the_tv() -> None:
    # Calculated: 28.27 mm² across.
    frame = framed(tv=a_tv())
    run = sum(m.length for m in frame.members if m.kind == "strut") / 10
    adhesive = next(q for q in frame.quantities if q.item == "adhesive")

    assert adhesive.amount == pytest.approx(run * math.pi * 9 / 1_000, abs=1)


def test_a_fire_of_2000_watts_draws_8_7_amperes_through_a_fuse_of_13() -> None:
    # Calculated: 2 000 W at 230 V.
    assert amperes(2_000) == pytest.approx(8.70, abs=0.01)

    found = power_of(power=2_000)

    assert found.severity is Severity.NOTE
    assert "8.70 A: a fuse of 13 A carries them" in found.trouble


@pytest.mark.parametrize(
    ("watts", "severity", "said"),
    [
        (2_990, Severity.NOTE, "a spur on the living room's own circuit is not notifiable"),
        (2_991, Severity.WARNING, "a new circuit is notifiable in England"),
    ],
)
def test_a_new_circuit_is_notifiable_and_a_spur_is_not(
    watts: int, severity: Severity, said: str
) -> None:
    # Wiring regulations article on Part P since April 2013, England. 2 990 W are 13 A at 230 V.
    found = power_of(power=watts)

    assert (found.severity, said in found.remedy) == (severity, True)
    assert any("a new circuit is notifiable, a spur" in text for text in CAUTIONS)


def test_a_fires_power_that_is_left_out_is_named() -> None:
    # 1 500 to 2 000 W: from memory.
    defaults = {d.field: d.value for d in framed(fire=a_fire()).defaults}

    assert defaults["fire.power"] == "2000 W"


@pytest.mark.parametrize(
    ("thickness", "timber", "serves"),
    [(380, True, True), (379, True, False), (120, False, True), (119, False, False)],
)
def test_a_cavity_barrier_is_timber_of_38_or_board_of_12(
    thickness: int, timber: bool, serves: bool
) -> None:
    # Approved Document B.
    assert cavity_barrier(thickness, timber=timber) is serves


def test_board_of_9_5_is_no_cavity_barrier_round_a_fire() -> None:
    # Approved Document B.
    told = {
        board: next(
            f.trouble
            for f in framed(fire=a_fire(), materials=materials(board=board)).findings
            if f.rule == "check.fire.barrier"
        )
        for board in ("plasterboard-12.5", "plasterboard-9.5")
    }

    assert "timber 38 serves, board 12.5 serves" in told["plasterboard-12.5"]
    assert "timber 38 serves, board 9.5 does not serve" in told["plasterboard-9.5"]


def ends_said(frame: Frame, item: str) -> int:
    [one] = [one for one in frame.quantities if one.item == item]
    return int(one.working.partition("ends ")[2].split()[0].rstrip(","))


def test_second_boards_of_an_end_are_held_by_screws_that_go_through_both() -> None:
    # Two timbers, 2 387 high at 200: 26 (the trade's count of a narrow return), in either layer.
    one_end = an_extent(depth=tenths(350), right=End.FREE, width=tenths(2_600))
    frame = framed(extent=one_end, materials=materials(layers=2))

    assert ends_said(frame, "drywall-screw") == 26
    assert ends_said(frame, "drywall-screw-long") == 26


def test_an_end_over_a_third_upright_is_screwed_to_that_too() -> None:
    deep = framed(extent=an_extent(depth=tenths(900), right=End.FREE, width=tenths(2_600)))
    between = [one for one in deep.members if one.rule == "frame.upright.end-span"]

    assert between
    assert ends_said(deep, "drywall-screw") == 26 + sum(
        screws_along(min(one.length, 23_870 - one.box.z), 3_000) for one in between
    )
