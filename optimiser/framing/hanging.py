"""Checks of what hangs: the screws of a TV's bracket, the screws and the sag of a shelf."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Finding, Severity
from optimiser.framing.loads import (
    GAMMA_PERMANENT,
    GRAVITY,
    STRENGTH_CLASSES,
    Shear,
    bracket_pull,
    combined,
    design_resistance,
    effective_screws,
    percent_up,
    pull_per_screw,
    rail_on_edge,
    withdrawal_resistance,
)
from optimiser.framing.openings import Hole
from optimiser.framing.recesses import TvChoice
from optimiser.framing.returns import BRACKET_ROWS
from optimiser.framing.rules import finding
from optimiser.framing.settings import Settings
from optimiser.units import mm

# Wood screws of 6 mm, two at the top of the plate: common practice, no source.
SCREW_DIAMETER = 6.0
TOP_SCREWS = 2
# A screw stops this far short of a strut's back: common practice, no source.
SCREW_SHORT = 20
# Books weigh 20 to 40 kg a metre: common practice, no source. Four screws of 4 mm a shelf through
# its cheeks, 25 into the returns behind: as the screws are counted.
SHELF_LOAD = 30
SHELF_SCREWS = 4
SHELF_SCREW = 4.0
SHELF_THREAD = 25
# MDF, N/mm², from memory; a sag of 1/200 of the span is seen: common practice, no source.
SHELF_MODULUS = 2_500
SHELF_SAG = 200

_FACTORS = "k_mod 0.60, gamma_M 1.3, gamma_G 1.35"


def _grade(settings: Settings) -> str:
    """Return the timber's strength class, the lowest of all where it has none."""
    grade = settings.timber.grade
    return grade if grade in STRENGTH_CLASSES else "C16"


def _use(
    rule: str, share: float, trouble: str, *, fine: str, short: tuple[Severity, str]
) -> Finding:
    """Return a note where no more is used than there is, else what `short` says."""
    severity, remedy = (Severity.NOTE, fine) if percent_up(share) <= 100 else short
    return finding(rule, severity, trouble, remedy)


def bracket_findings(settings: Settings, tv: TvChoice) -> Iterator[Finding]:
    """Yield what the bracket at full reach asks of its screws: pull, and pull with shear."""
    if tv.tv.mass is None:
        yield finding(
            "check.tv.mass",
            Severity.WARNING,
            "the TV's mass is not given, so its bracket is not checked",
            "give tv.mass_kg",
        )
        return
    grade = _grade(settings)
    density = STRENGTH_CLASSES[grade].density_characteristic
    pull = bracket_pull(
        tv=tv.tv.mass / 1000, reach=tv.bracket_reach / 10_000, arm=tv.bracket_mass / 1000
    )
    each = pull_per_screw(pull, rows_apart=BRACKET_ROWS / 10_000, top_screws=TOP_SCREWS)
    thread = (settings.thick - SCREW_SHORT) / 10
    one = withdrawal_resistance(diameter=SCREW_DIAMETER, thread=thread, density=density)
    pulled = each * TOP_SCREWS / (design_resistance(one) * effective_screws(TOP_SCREWS))
    short = Severity.STOP, "shorter bracket, more screws, or thicker struts"
    yield _use(
        "check.tv.withdrawal",
        pulled,
        f"{tv.tv.mass / 1000:g} kg at {mm(tv.bracket_reach)}: {pull.moment:.0f} N·m,"
        f" {each:.0f} N on each of {TOP_SCREWS} top screws of {SCREW_DIAMETER:g} mm with"
        f" {thread:g} mm of thread in {grade}; {percent_up(pulled)} % of their withdrawal"
        f" resistance ({_FACTORS})",
        fine="screw into struts, never into the backboard alone",
        short=short,
    )

    # The backboard counts as timber of the struts' class: MDF is denser.
    mode, shear = Shear(
        diameter=SCREW_DIAMETER,
        first=settings.backboard.thickness / 10,
        second=thread,
        density=density,
    ).resistance()
    sheared = GAMMA_PERMANENT * pull.shear / (2 * TOP_SCREWS) / design_resistance(shear)
    both = combined(axial=pulled, shear=sheared)
    yield _use(
        "check.tv.shear",
        both,
        f"{pull.shear:.0f} N on {2 * TOP_SCREWS} screws through {mm(settings.backboard.thickness)}"
        f" of backboard: {percent_up(sheared)} % of their shear (mode {mode}), {percent_up(both)} %"
        f" with the pull, by squares ({_FACTORS})",
        fine="none needed",
        short=short,
    )


def shelf_findings(settings: Settings, hole: Hole) -> Iterator[Finding]:
    """Yield what a shelf of books asks of the screws at its ends."""
    if not hole.shelves:
        return
    width = hole.clear.width / 10_000
    own = hole.clear.width * hole.depth * settings.backboard.mass / 100_000_000_000
    load = own + SHELF_LOAD * width
    mode, one = Shear(
        diameter=SHELF_SCREW,
        first=settings.board.thickness / 10,
        second=SHELF_THREAD,
        density=STRENGTH_CLASSES[_grade(settings)].density_characteristic,
    ).resistance()
    share = GAMMA_PERMANENT * GRAVITY * load / (design_resistance(one) * SHELF_SCREWS)
    yield from _sag(settings, hole)
    yield _use(
        "check.shelf.fixing",
        share,
        f"each shelf of {hole.name} with {SHELF_LOAD} kg a metre weighs {load:.1f} kg:"
        f" {percent_up(share)} % of the shear of {SHELF_SCREWS} screws of {SHELF_SCREW:g} mm"
        f" (mode {mode}; {_FACTORS})",
        fine="none needed",
        short=(Severity.WARNING, "more screws, or a bearer under each end"),
    )


def _sag(settings: Settings, hole: Hole) -> Iterator[Finding]:
    span = hole.clear.width / 10
    sag = rail_on_edge(
        thickness=hole.depth / 10,
        depth=settings.backboard.thickness / 10,
        span=span,
        load=SHELF_LOAD * GRAVITY / 1_000,
        modulus=SHELF_MODULUS,
    ).deflection
    if sag > span / SHELF_SAG:
        yield finding(
            "check.shelf.sag",
            Severity.WARNING,
            f"a shelf of {hole.name} with {SHELF_LOAD} kg a metre sags {sag:.1f} over {span:g};"
            f" at most 1/{SHELF_SAG} of it, {span / SHELF_SAG:.1f}",
            "choose a thicker shelf, a lipping on edge, or a narrower niche",
        )
