"""Every contradiction of what lies in a wall, fire to niche, names its fields and a remedy."""

from __future__ import annotations

from typing import Any

import pytest

from optimiser.domain.wall import End, Glass, Niche, Socket, Wall
from optimiser.units import tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_site,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
    materials,
)
from tests.framing.contradicted import Contradiction, a_step, assert_told, breast


def glass(depth: float, **fire: Any) -> Wall:
    return a_wall(
        extent=an_extent(depth=tenths(depth), left=End.FREE, offset=tenths(300)),
        fire=a_fire(glass=Glass.LEFT, **fire),
    )


def four_niches() -> tuple[Niche, ...]:
    """Two above two, so close side by side that none can be widened to come in line."""
    places = {"a": (115.5, 269, 300), "b": (453.5, 200, 300), "c": (115.5, 289, 1_000)}
    places["d"] = (473.5, 200, 1_000)
    return tuple(
        a_niche(name=n, x=tenths(x), width=tenths(w), z=tenths(z), height=tenths(400), shelves=0)
        for n, (x, w, z) in places.items()
    )


CASES: dict[str, Contradiction] = {
    "a fire wider than the wall": (
        a_wall(fire=a_fire(body_width=tenths(3_700))),
        ("fire.body_width 3700", "fire.clearance_side 5", "site.clear_width 3600"),
        "186 narrower",
    ),
    "a niche too far to the right": (
        a_wall(niches=(a_niche(x=tenths(3_240)),)),
        ("niches.niche.x 3240", "niches.niche.width 350", "site.clear_width 3600"),
        "move it 43.5 to the left",
    ),
    "a niche in the sole plate": (
        a_wall(niches=(a_niche(z=tenths(60)),)),
        ("niches.niche.z 60", "materials.timber"),
        "raise it 31.5",
    ),
    "a niche through the ceiling": (
        a_wall(niches=(a_niche(z=tenths(1_450)),)),
        ("niches.niche.z 1450", "niches.niche.height 900", "site.height_left 2400"),
        "42.5 less high",
    ),
    "a niche through the wall's top": (
        a_wall(extent=an_extent(height=tenths(1_700)), niches=(a_niche(),)),
        ("niches.niche.z 900", "niches.niche.height 900", "wall.height 1700"),
        "less high",
    ),
    "a base too low for the fire's short uprights": (
        a_wall(fire=a_fire(base_height=tenths(100))),
        ("fire.base_height 100", "materials.timber"),
        "make it 76, or at least 136",
    ),
    "a niche no deeper than its boards": (
        a_wall(niches=(a_niche(depth=tenths(25)),)),
        ("niches.niche.depth 25", "materials.board", "materials.layers 1"),
        "at least 32.5 deep",
    ),
    "a recess deeper than the wall": (
        a_wall(tv=a_tv(recess_depth=tenths(280))),
        ("wall.depth 300", "tv.recess_depth 280", "materials.timber"),
        "make wall.depth 330, or tv 30 shallower",
    ),
    "a slot deeper than what is before a breast": (
        a_wall(
            site=a_site(projections=breast(0, 3_600, 100), skirting=tenths(15)),
            extent=an_extent(depth=tenths(350)),
            niches=(a_niche(depth=tenths(250)),),
        ),
        (
            "wall.depth 350",
            "niches.niche.depth 250",
            "site.projections[0].depth 100",
            "site.skirting 15",
        ),
        "make wall.depth 415.5",
    ),
    "shelves too near one another": (
        a_wall(niches=(a_niche(height=tenths(300), shelves=4),)),
        ("niches.niche.shelves 4", "niches.niche.height 300", "materials.timber"),
        "make it 2 at the most",
    ),
    "a TV and a niche in one another": (
        a_wall(tv=a_tv(), niches=(a_niche(x=tenths(900)),)),
        ("tv.width 1450", "tv.finger_gap 30", "niches.niche.x 900", "niches.niche.width 350"),
        "or niche",
    ),
    "glass round an end that abuts": (
        a_wall(fire=a_fire(glass=Glass.LEFT)),
        ('fire.glass "left"', 'wall.left "abuts"'),
        'wall.left to "free"',
    ),
    "glass round an end that a step hides": (
        a_wall(
            steps=(a_step(),),
            extent=an_extent(depth=tenths(420), left=End.FREE, offset=tenths(300)),
            fire=a_fire(glass=Glass.RIGHT),
        ),
        ('fire.glass "right"', "steps.deep.x 900", "steps.deep.width 1800"),
        "front",
    ),
    "no upright at the glass's edge": (
        glass(270, body_depth=tenths(220), clearance_back=tenths(25)),
        (
            "wall.depth 270",
            "fire.body_depth 220",
            "fire.clearance_back 25",
            "fire.return_depth 220",
        ),
        "make wall.depth 283",
    ),
    "no upright near the glass's edge": (
        glass(340, body_depth=tenths(220), clearance_back=tenths(80)),
        ("wall.depth 340", "fire.return_depth 220", "fire.clearance_back 80"),
        "at least 250",
    ),
    "no room over a fire whose glass returns": (
        glass(400, base_height=tenths(1_800)),
        ('fire.glass "left"', "fire.base_height 1800", "site.height_left 2400"),
        "lower fire.base_height",
    ),
    "a TV of no size": (
        a_wall(tv=a_tv(height=None)),
        ("tv.height", "tv.diagonal"),
        "tv.diagonal_in",
    ),
    "two sockets in one another": (
        a_wall(
            tv=a_tv(
                sockets=(
                    Socket(x=tenths(1_100), z=tenths(1_000), width=tenths(146), height=tenths(86)),
                    Socket(x=tenths(1_200), z=tenths(1_050), width=tenths(146), height=tenths(86)),
                )
            )
        ),
        ("tv.sockets[1].x 1200", "tv.sockets[0].x 1100", "tv.sockets[1].z 1050"),
        "make tv.sockets[1].x 1246",
    ),
    "a TV hung twice": (
        a_wall(fire=a_fire(), tv=a_tv(centre_height=tenths(1_700), above_fire=tenths(300))),
        ("tv.centre_height 1700", "tv.above_fire 300"),
        "one of the two",
    ),
    "above a fire that is not there": (
        a_wall(tv=a_tv(above_fire=tenths(300))),
        ("tv.above_fire 300", "fire"),
        "add the fire",
    ),
    "a soundbar without a TV": (
        a_wall(soundbar=a_soundbar()),
        ("soundbar.x", "soundbar.z", "tv"),
        "soundbar.x_mm",
    ),
    "an opening across the side of a step": (
        a_wall(steps=(a_step(),), tv=a_tv(centre=tenths(900))),
        ("tv.width 1450", "tv.centre 900", "steps.deep.x 900"),
        "move the side of the step",
    ),
    "an opening where nothing is built": (
        a_wall(
            steps=(a_step(depth=0, z=0),), niches=(a_niche(x=tenths(1_500), depth=tenths(150)),)
        ),
        ("niches.niche.x", "niches.niche.z", "steps.deep.x 900"),
        "move it",
    ),
    "a niche of no width": (
        a_wall(niches=(a_niche(width=tenths(0)),), materials=materials(skim=False)),
        ("niches.niche.x 200", "niches.niche.width 0", "niches.niche.height 900"),
        "a size above 0",
    ),
    "no room for what holds a fire's lining": (
        a_wall(
            extent=an_extent(depth=tenths(420)),
            fire=a_fire(lining="silicate", base_height=tenths(300)),
            niches=(a_niche(x=tenths(1_050), z=tenths(900), height=tenths(400), shelves=0),),
            materials=materials(timber="c24-38x89"),
        ),
        ('fire.lining "silicate"', "fire.base_height 300", "niches.niche.z 900"),
        "more over the fire",
    ),
    "uprights in one another": (
        a_wall(niches=four_niches()),
        (
            "niches.a.x 115.5",
            "niches.a.width 269",
            "niches.c.width 289",
            "materials.timber",
            "neither opening can be widened",
        ),
        "in line or 38 apart",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_contradiction_names_its_fields_their_values_and_a_remedy(name: str) -> None:
    assert_told(*CASES[name])
