"""Published and calculated figures of finishing and fixing, each with its source."""

from __future__ import annotations

import pytest

from optimiser.domain.wall import Accessory
from optimiser.framing.cautions import CAUTIONS
from optimiser.framing.quantities import ADHESIVE_AREA, PLASTER_GRAMS_PER_SQUARE_METRE
from optimiser.units import tenths
from tests.framing.builders import (
    a_site,
    a_tv,
    an_extent,
    framed,
)


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
    for fixing in frame.fixings:
        if fixing.into in ("wall", "stud"):
            assert not any(
                box.x < fixing.at.x < box.x + box.dx and box.z < fixing.at.z < box.z + box.dz
                for box in bands.values()
            )


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
