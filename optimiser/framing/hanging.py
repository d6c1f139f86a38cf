"""Checks of the screws that a TV's bracket hangs by.

Each says what clears it: how many screws, and how short a reach would do. None has a TV whose mass
is not given, which only the fitter can weigh.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from optimiser.domain.finding import Change, Finding, Severity
from optimiser.framing.figures import size
from optimiser.framing.loads import (
    FACTORS,
    GAMMA_PERMANENT,
    STRENGTH_CLASSES,
    Shear,
    bracket_pull,
    combined,
    design_resistance,
    effective_diameter,
    effective_screws,
    grade_of,
    percent_up,
    pull_per_screw,
    withdrawal_resistance,
)
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


@dataclass(frozen=True, slots=True)
class Enough:
    """What would hold a bracket: so many top screws (0: not even 12), or so short a reach."""

    screws: int
    reach: int


class BracketUse:
    """What a TV at full reach asks of its bracket's screws, as shares of what those hold.

    The backboard counts as timber of the struts' class: MDF is denser.
    """

    def __init__(self, settings: Settings, tv: TvChoice) -> None:
        assert tv.tv.mass is not None
        density = STRENGTH_CLASSES[grade_of(settings.timber)].density_characteristic
        self._mass, self._arm = tv.tv.mass / 1000, tv.bracket_mass / 1000
        self._reach = tv.bracket_reach
        self.thread = (settings.thick - SCREW_SHORT) / 10
        held = withdrawal_resistance(diameter=SCREW_DIAMETER, thread=self.thread, density=density)
        self._held = design_resistance(held)
        self.mode, shear = Shear(
            diameter=effective_diameter(SCREW_DIAMETER),
            first=settings.backboard.thickness / 10,
            second=self.thread,
            density=density,
        ).resistance()
        self._shear = design_resistance(shear)
        self.pull = bracket_pull(tv=self._mass, reach=self._reach / 10_000, arm=self._arm)
        rows = BRACKET_ROWS / 10_000
        self.each = pull_per_screw(self.pull, rows_apart=rows, top_screws=TOP_SCREWS)
        self.pulled, self.sheared, self.both = self.shares(self._reach, TOP_SCREWS)

    def shares(self, reach: int, screws: int) -> tuple[float, float, float]:
        """Return how much of pull, of shear and of both together is used, by reach and screws."""
        pull = bracket_pull(tv=self._mass, reach=reach / 10_000, arm=self._arm)
        rows = BRACKET_ROWS / 10_000
        each = pull_per_screw(pull, rows_apart=rows, top_screws=screws)
        pulled = each * screws / (self._held * effective_screws(screws))
        sheared = GAMMA_PERMANENT * pull.shear / (2 * screws) / self._shear
        return pulled, sheared, combined(axial=pulled, shear=sheared)

    def _holds(self, reach: int, screws: int, *, sheared: bool) -> bool:
        pulled, _, both = self.shares(reach, screws)
        return percent_up(both if sheared else pulled) <= 100

    def wanted(self, *, sheared: bool) -> Enough:
        """Return the fewest top screws that hold it at this reach, and the longest reach for two.

        Against pull alone, or `sheared` too. The reach is 0 where two screws hold it at none.
        """
        screws = next(
            (n for n in range(TOP_SCREWS, 13) if self._holds(self._reach, n, sheared=sheared)), 0
        )
        least, most = 0, self._reach + 1
        while most - least > 1:
            middle = (least + most) // 2
            if self._holds(middle, TOP_SCREWS, sheared=sheared):
                least = middle
            else:
                most = middle
        return Enough(screws, least)


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
    grade = grade_of(settings.timber)
    use = BracketUse(settings, tv)
    pull, each, thread = use.pull, use.each, use.thread
    used = percent_up(use.pulled)
    reach = size("tv.bracket_reach", tv.tv.bracket_reach, tv.bracket_reach)
    remedy, change = _held(use.wanted(sheared=False)) if used > 100 else ("", [])
    yield finding(
        "check.tv.withdrawal",
        Severity.STOP if used > 100 else Severity.NOTE,
        f"tv.mass {tv.tv.mass / 1000:g} kg at {reach}: {pull.moment:.0f} N·m, {each:.0f} N on each"
        f" of {TOP_SCREWS} top screws of {SCREW_DIAMETER:g} mm with {thread:g} mm of thread in"
        f" {grade}; {used} % of their withdrawal resistance ({FACTORS})",
        remedy or "screw into struts, never into the backboard alone",
        change=change,
    )
    both = percent_up(use.both)
    remedy, change = _held(use.wanted(sheared=True)) if both > 100 else ("", [])
    yield finding(
        "check.tv.shear",
        Severity.STOP if both > 100 else Severity.NOTE,
        f"{pull.shear:.0f} N on {2 * TOP_SCREWS} screws through {mm(settings.backboard.thickness)}"
        f" of backboard: {percent_up(use.sheared)} % of their shear (mode {use.mode}), {both} %"
        f" with the pull, by squares ({FACTORS})",
        remedy or "nothing to do",
        change=change,
    )


def _held(enough: Enough) -> tuple[str, list[Change]]:
    """Say what holds a bracket that its screws do not hold as it is."""
    remedy = "thicker struts, or a bracket that stays nearer the wall"
    if enough.screws:
        remedy = f"{enough.screws} screws at the top of the plate, or {remedy}"
    if enough.reach <= 0:
        return remedy, []
    reach = mm(enough.reach)
    return f"{remedy} (tv.bracket_reach {reach})", [Change("tv.bracket_reach", reach)]
