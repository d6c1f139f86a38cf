"""What the bracket of a TV and a shelf ask of their screws, and what those hold.

EN 1995-1-1 (8.38)-(8.40) for axially loaded screws of 6 to 12 mm with 0.6 ≤ core/thread ≤ 0.75,
screwed square to the grain; EN 338:2016 for timber. Newtons and millimetres; floats are allowed
here. This is a check of fixings, not a structural design.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from optimiser.domain.price_book import LengthItem

GRAVITY = 9.81
# Of the wood screws taken, N/mm²: as a published connection notebook takes it.
SCREW_TENSILE = 540
# Core to thread of the screws that these rules hold for, at the least.
LEAST_CORE = 0.6
# Of connections, EN 1995-1-1 table 2.3.
GAMMA_CONNECTION = 1.3
# Permanent action on solid timber in service class 1 or 2, EN 1995-1-1 table 3.1.
K_MOD_PERMANENT = 0.60
# Of permanent actions, EN 1990.
GAMMA_PERMANENT = 1.35
# As findings name them beside a share of what screws hold.
FACTORS = f"k_mod {K_MOD_PERMANENT:.2f}, gamma_M {GAMMA_CONNECTION}, gamma_G {GAMMA_PERMANENT}"


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


def grade_of(timber: LengthItem) -> str:
    """Return a timber's strength class, the lowest of all where it has none."""
    return timber.grade if timber.grade in STRENGTH_CLASSES else "C16"


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


def head_resistance(*, head: float, strength: float) -> float:
    """Return in N what a head of diameter `head` holds in a board, EN 1995-1-1 (8.40b)."""
    return strength * head * head


def embedment(*, diameter: float, density: float, predrilled: bool) -> float:
    """Return f_h,k in N/mm² of screws up to 6 mm, which follow the nails, EN 1995-1-1 (8.15-16)."""
    if predrilled:
        return 0.082 * (1 - 0.01 * diameter) * density
    return 0.082 * density * math.pow(diameter, -0.3)


def effective_diameter(diameter: float) -> float:
    """Return d_ef in mm of a screw whose thread lies at the joint: 1.1 times its core.

    EN 1995-1-1 8.7.1 (3) to (5), from memory: a smooth shank counts only where it reaches 4 d into
    the far timber. The core is the least that (8.38) to (8.40) hold for, 0.6 of the thread.
    """
    return 1.1 * LEAST_CORE * diameter


def yield_moment(*, diameter: float, tensile: float = SCREW_TENSILE) -> float:
    """Return M_y,Rk in N·mm, EN 1995-1-1 (8.14)."""
    return 0.3 * tensile * math.pow(diameter, 2.6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shear:
    """One screw across two timbers: `first` and `second` are the lengths it has in each, mm."""

    diameter: float
    first: float
    second: float
    density: float
    predrilled: bool = False

    def modes(self) -> dict[str, float]:
        """Return the resistance in N of each way to fail, without rope effect, (8.6) a to f."""
        d, t1, t2 = self.diameter, self.first, self.second
        strength = embedment(diameter=d, density=self.density, predrilled=self.predrilled)
        moment = yield_moment(diameter=d)
        ratio = t2 / t1
        # Both pieces are taken as one kind of timber: beta is 1.
        tilted = math.sqrt(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - (1 + ratio)
        return {
            "a": strength * t1 * d,
            "b": strength * t2 * d,
            "c": strength * t1 * d / 2 * tilted,
            "d": 1.05 * strength * t1 * d / 3 * _bent(moment, strength, d, t1),
            "e": 1.05 * strength * t2 * d / 3 * _bent(moment, strength, d, t2),
            "f": 1.15 * math.sqrt(2 * moment * strength * d),
        }

    def resistance(self, *, axial: float = 0) -> tuple[str, float]:
        """Return the mode that governs and F_v,Rk in N.

        A quarter of the axial resistance is added as rope effect, no more than the mode itself.
        """
        modes = self.modes()
        whole = {
            mode: held + (0 if mode in "ab" else min(axial / 4, held))
            for mode, held in modes.items()
        }
        return min(whole.items(), key=lambda entry: entry[1])


def _bent(moment: float, strength: float, diameter: float, length: float) -> float:
    return math.sqrt(4 + 12 * moment / (strength * diameter * length**2)) - 1


def held_off(*, diameter: float, away: float, thread: float, density: float) -> float:
    """Return F_v,Rk in N of a screw whose load hangs `away` mm before the timber it is in.

    What lies between, plasterboard say, counts for nothing. `thread` is its length in the timber.
    The least of two ways to fail, calculated from the same yield theory as EN 1995-1-1 (8.6): the
    screw turns whole in the timber, or bends at one place in it. Of a load at its face they leave
    (8.9) a, and b without its factor of 1.15.
    """
    strength = embedment(diameter=diameter, density=density, predrilled=False) * diameter
    arm = 2 * away + thread
    turned = strength * (math.hypot(arm, thread) - arm)
    moment = yield_moment(diameter=diameter)
    bent = strength * (math.sqrt(away**2 + 2 * moment / strength) - away)
    return min(turned, bent)


def combined(*, axial: float, shear: float) -> float:
    """Return the use of a screw both pulled and sheared, of each its share, EN 1995-1-1 (8.28)."""
    return axial**2 + shear**2


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
