"""Published and calculated figures of loads by EN 1995-1-1, each with its source."""

from __future__ import annotations

import math

import pytest

from optimiser.domain.finding import Severity
from optimiser.framing.loads import (
    Shear,
    bracket_pull,
    combined,
    design_resistance,
    effective_diameter,
    effective_screws,
    embedment,
    head_resistance,
    held_off,
    pull_per_screw,
    withdrawal_resistance,
    withdrawal_strength,
    yield_moment,
)
from optimiser.units import tenths
from tests.framing.builders import (
    a_niche,
    a_tv,
    framed,
)


@pytest.mark.parametrize(
    ("diameter", "thread", "density", "strength", "characteristic", "design"),
    [
        (6, 50, 310, 14.13, 3_179, 1_467),
        (6, 50, 350, 15.57, 3_503, 1_617),
        (8, 60, 310, 12.02, 5_767, 2_662),
    ],
)
def test_withdrawal_of_a_screw(
    diameter: float,
    thread: float,
    density: float,
    strength: float,
    characteristic: float,
    design: float,
) -> None:
    # EN 1995-1-1 (8.38)-(8.40), calculated; k_mod 0.60, gamma_M 1.3.
    one = withdrawal_resistance(diameter=diameter, thread=thread, density=density)

    assert withdrawal_strength(diameter=diameter, thread=thread, density=density) == pytest.approx(
        strength, rel=0.001
    )
    assert one == pytest.approx(characteristic, rel=0.001)
    assert design_resistance(one) == pytest.approx(design, rel=0.001)


def test_several_screws_hold_a_little_less_than_their_sum() -> None:
    # EN 1995-1-1 (8.41): n^0.9.
    assert effective_screws(2) == pytest.approx(1.866, abs=0.001)
    assert effective_screws(4) == pytest.approx(3.482, abs=0.001)


def test_withdrawal_and_head_of_a_5_mm_screw_as_a_published_notebook_computes_them() -> None:
    # Public timber-connection notebook with EC5 formulas: design 395.77 N. Outside 6 to 12 mm:
    # a check of the formula only.
    held = withdrawal_resistance(diameter=5, thread=50, density=350)
    head = head_resistance(head=10, strength=70e-6 * 350**2)

    assert held == pytest.approx(2_665, rel=0.0001)
    assert head == pytest.approx(857.5, rel=0.0001)
    assert design_resistance(min(held, head)) == pytest.approx(395.77, rel=0.0001)


def test_a_5_mm_screw_across_38_and_75_of_c24() -> None:
    # EN 1995-1-1 (8.6), calculated; predrilled mode f, else mode d. The same notebook prints
    # 949.58 N with a rope term of 395.77/4.
    drilled = Shear(diameter=5, first=38, second=75, density=350, predrilled=True)
    plain_ = Shear(diameter=5, first=38, second=75, density=350)

    mode, held = drilled.resistance()
    assert mode == "f"
    assert held == pytest.approx(1_958.5, rel=0.001)
    assert design_resistance(held) == pytest.approx(903.9, rel=0.001)
    assert design_resistance(drilled.resistance(axial=395.77)[1]) == pytest.approx(949.58, abs=0.01)
    mode, held = plain_.resistance()
    assert mode == "d"
    assert held == pytest.approx(1_455.2, rel=0.001)


def test_pull_and_shear_of_one_screw_add_by_squares() -> None:
    # The same notebook prints 0.76, 0.53 and 0.85 for 300 N and 500 N.
    use = combined(axial=300 / 395.77, shear=500 / 949.58)

    assert combined(axial=300 / 395.77, shear=0) == pytest.approx(0.76**2, abs=0.01)
    assert combined(axial=0, shear=500 / 949.58) == pytest.approx(0.53**2, abs=0.01)
    assert use == pytest.approx(0.85, abs=0.01)


def test_a_long_shelf_wants_more_than_four_screws() -> None:
    usual = framed(niches=(a_niche(shelves=1),))
    wide = framed(niches=(a_niche(shelves=1, width=tenths(3_000), x=tenths(300)),))

    found = [
        next(f for f in frame.findings if f.rule == "check.shelf.fixing") for frame in (usual, wide)
    ]

    assert found[0].severity is Severity.NOTE
    assert found[1].severity is Severity.WARNING
    assert "k_mod 0.60, gamma_M 1.3" in found[0].trouble


def test_a_screw_whose_load_hangs_before_its_timber_holds_as_its_balance_of_forces_says() -> None:
    # Calculated: 4 mm with a core of 2.4, d_ef 2.64, in C16: f d 50.2 N/mm, M 2 021 N·mm. Bent:
    # the timber pushes back over x until F = f d x and F (away + x / 2) = M.
    held = held_off(diameter=2.64, away=15.5, thread=25, density=310)
    pressed = embedment(diameter=2.64, density=310, predrilled=False) * 2.64

    assert held == pytest.approx(120.5, rel=0.01)
    assert held * (15.5 + held / pressed / 2) == pytest.approx(yield_moment(diameter=2.64))


def test_a_short_screw_turns_whole_before_it_bends() -> None:
    # Turned: the timber pushes down over a length a, up over the rest; forces and moments balance.
    held = held_off(diameter=2.64, away=28, thread=10, density=310)
    pressed = embedment(diameter=2.64, density=310, predrilled=False) * 2.64
    down = (10 + held / pressed) / 2
    up = 10 - down

    assert pressed * (down - up) == pytest.approx(held)
    # About the face of the timber.
    turning = pressed * (up * (down + up / 2) - down * down / 2)
    assert turning == pytest.approx(held * 28)


def test_of_a_load_at_its_face_a_screw_holds_what_a_thin_plate_lets_it() -> None:
    # EN 1995-1-1 (8.9) a, as 0.41 f t d, and b without the factor of 1.15.
    pressed = embedment(diameter=4, density=350, predrilled=False) * 4

    short = held_off(diameter=4, away=0, thread=8, density=350)
    long = held_off(diameter=4, away=0, thread=60, density=350)

    assert short == pytest.approx((math.sqrt(2) - 1) * pressed * 8)
    assert long == pytest.approx(math.sqrt(2 * yield_moment(diameter=4) * pressed))


@pytest.mark.parametrize(
    ("wider", "screws"),
    [
        # Side by side with the TV's own side, which lies 16 further out, a second board narrows it.
        (0, "4 through 15.5 of board and skim, 40.5 long at least"),
        (1, "2 through 28 of board and skim, 53 long at least"),
    ],
)
def test_screws_of_a_shelf_reach_25_into_timber_through_all_the_board_there_is(
    wider: int, screws: str
) -> None:
    # The TV's upright stands at 1399.5; a niche whose side is 16 short of it is framed wider.
    frame = framed(
        tv=a_tv(centre=tenths(2_208), centre_height=tenths(1_300)),
        niches=(a_niche(x=tenths(950), width=tenths(434 - 16 * wider), shelves=1),),
    )

    said = next(one for one in frame.quantities if one.item == "shelf-screw")
    told = next(one for one in frame.findings if one.rule == "check.shelf.fixing")

    assert said.amount == 4
    assert screws in said.working
    assert f"through {28 if wider else 15.5:g} of board and skim" in told.trouble


def test_a_shelf_of_12_mdf_sags_beyond_its_span() -> None:
    # Calculated from beam theory: 30 kg a metre on 180 × 12 of 2 500 N/mm², 350 and 600 wide.
    short = framed(niches=(a_niche(shelves=1),))
    long = framed(niches=(a_niche(shelves=1, width=tenths(600)),))

    assert not any(f.rule == "check.shelf.sag" for f in short.findings)
    sag = next(f for f in long.findings if f.rule == "check.shelf.sag")
    assert "sags 7.7 over 600" in sag.trouble


def test_a_tv_of_35_kg_at_half_a_metre_pulls_on_its_top_screws() -> None:
    # Calculated with g 9.81: 191.3 N·m, 421.8 N; rows 200 apart, two screws, 1.35: 645.6 N, 0.44.
    pull = bracket_pull(tv=35, reach=0.5, arm=8)
    each = pull_per_screw(pull, rows_apart=0.2, top_screws=2)
    held = design_resistance(withdrawal_resistance(diameter=6, thread=50, density=310))

    assert pull.moment == pytest.approx(191.3, abs=0.1)
    assert pull.shear == pytest.approx(421.8, abs=0.1)
    assert each == pytest.approx(645.6, abs=0.1)
    assert each / held == pytest.approx(0.44, abs=0.01)


def test_the_shear_of_a_brackets_screws_goes_by_their_core() -> None:
    # EN 1995-1-1 8.7.1, from memory: the thread lies at the joint, d_ef = 1.1 x 0.6 x 6 = 3.96.
    # Mode (d) with beta 1, 12 of board, C16; 25 kg and an arm of 8 on four screws, 1.35.
    d, t1, density = 1.1 * 0.6 * 6, 12.0, 310.0
    held = 0.082 * density * d**-0.3
    moment = 0.3 * 540 * d**2.6
    mode_d = 1.05 * held * t1 * d / 3 * (math.sqrt(4 + 12 * moment / (held * d * t1**2)) - 1)
    share = 1.35 * 9.81 * (25 + 8) / 4 / (0.60 * mode_d / 1.3)
    frame = framed(tv=a_tv(mass=25_000))

    [told] = [one.trouble for one in frame.findings if one.rule == "check.tv.shear"]
    assert f"{math.ceil(100 * share)} % of their shear (mode d)" in told
    assert effective_diameter(6) == pytest.approx(3.96)


def test_a_heavy_tv_on_a_long_bracket_stops_the_purchase() -> None:
    frame = framed(tv=a_tv(mass=75_000, bracket_reach=tenths(760)))

    pull = next(f for f in frame.findings if f.rule == "check.tv.withdrawal")

    assert pull.severity is Severity.STOP
