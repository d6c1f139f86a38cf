"""What the bracket of a TV pulls, and what its screws hold.

EN 1995-1-1 (8.38)-(8.40) for axially loaded screws of 6 to 12 mm with 0.6 ≤ core/thread ≤ 0.75,
screwed square to the grain; EN 338:2016 for timber. Newtons and millimetres; floats are allowed
here. This is a check of fixings, not a structural design.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

GRAVITY = 9.81
# Of connections, EN 1995-1-1 table 2.3.
GAMMA_CONNECTION = 1.3
# Permanent action on solid timber in service class 1 or 2, EN 1995-1-1 table 3.1.
K_MOD_PERMANENT = 0.60
# Of permanent actions, EN 1990.
GAMMA_PERMANENT = 1.35


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthClass:
    """A row of EN 338:2016: N/mm² and kg/m³."""

    bending: float
    shear: float
    compression_across: float
    modulus_mean: int
    density_characteristic: int
    density_mean: int


STRENGTH_CLASSES: dict[str, StrengthClass] = {
    "C16": StrengthClass(
        bending=16,
        shear=3.2,
        compression_across=2.2,
        modulus_mean=8_000,
        density_characteristic=310,
        density_mean=370,
    ),
    "C24": StrengthClass(
        bending=24,
        shear=4.0,
        compression_across=2.5,
        modulus_mean=11_000,
        density_characteristic=350,
        density_mean=420,
    ),
}


def effective_screws(count: int) -> float:
    """Return n_ef = n^0.9, EN 1995-1-1 (8.41)."""
    return math.pow(count, 0.9)


def withdrawal_strength(*, diameter: float, thread: float, density: float) -> float:
    """Return f_ax,k in N/mm², EN 1995-1-1 (8.39). `thread` is its length in the far timber."""
    powers = math.pow(diameter, -0.5) * math.pow(thread, -0.1) * math.pow(density, 0.8)
    return 0.52 * powers


def withdrawal_resistance(*, diameter: float, thread: float, density: float) -> float:
    """Return F_ax,Rk in N of one screw square to the grain, EN 1995-1-1 (8.38)."""
    strength = withdrawal_strength(diameter=diameter, thread=thread, density=density)
    return strength * diameter * thread * min(diameter / 8, 1)


def design_resistance(characteristic: float, *, k_mod: float = K_MOD_PERMANENT) -> float:
    """Return a resistance of a connection with k_mod and gamma_M applied."""
    return k_mod * characteristic / GAMMA_CONNECTION


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """A bracket at full reach: moment in N·m, shear in N, both without load factor."""

    moment: float
    shear: float


def bracket_pull(*, tv: float, reach: float, arm: float) -> Pull:
    """Return the static pull of a TV (kg) at `reach` (m), its arm (kg) halfway out."""
    moment = GRAVITY * (tv * reach + arm * reach / 2)
    return Pull(moment=moment, shear=GRAVITY * (tv + arm))


def pull_per_screw(pull: Pull, *, rows_apart: float, top_screws: int) -> float:
    """Return the design pull in N on each top screw, rows `rows_apart` (m), gamma_G included."""
    return GAMMA_PERMANENT * pull.moment / rows_apart / top_screws


@dataclass(frozen=True, slots=True, kw_only=True)
class RailCheck:
    """A rail under an even load: N·mm, N/mm² and mm."""

    inertia: float
    moment: float
    stress: float
    deflection: float


def rail_on_edge(
    *, thickness: float, depth: float, span: float, load: float, modulus: float
) -> RailCheck:
    """Return bending of a rail on edge between simple supports, `load` in N/mm, sizes in mm."""
    inertia = thickness * math.pow(depth, 3) / 12
    moment = load * math.pow(span, 2) / 8
    return RailCheck(
        inertia=inertia,
        moment=moment,
        stress=moment * (depth / 2) / inertia,
        deflection=5 * load * math.pow(span, 4) / (384 * modulus * inertia),
    )


def percent_up(share: float) -> int:
    """Write a share in whole per cent, rounded up: a use is never shown smaller than it is."""
    return math.ceil(share * 100)
