"""What is heavy, and from how far a screen is looked at: findings about the things themselves."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.finding import Finding, Severity
from optimiser.framing.findings import GUIDELINE_GRAMS, kilograms
from optimiser.framing.fires import FireChoice
from optimiser.framing.recesses import TvChoice
from optimiser.framing.rules import finding
from optimiser.framing.screen import distance_for_field
from optimiser.units import mm

# A screen fills 30° of the view from 1.63 and 40° from 1.2 times its diagonal: guidance of a
# society of film and television engineers, and of a cinema certification, as guides quote them.
NEAR, FAR = 40, 30


def lift_findings(fire: FireChoice | None, tv: TvChoice | None) -> Iterator[Finding]:
    """Yield each thing over 25 kg that is lifted into the wall; what no mass is given for is not.

    The guideline of 25 kg is no safe limit (HSE INDG143).
    """
    for name, grams in (
        ("fire", None if fire is None else fire.fire.mass),
        ("TV", None if tv is None else tv.tv.mass),
    ):
        if grams is not None and grams > GUIDELINE_GRAMS:
            yield finding(
                "check.mass.item",
                Severity.WARNING,
                f"the {name} weighs {kilograms(grams)} kg, over the 25 kg guideline",
                "two people lift it, with a lifter or a rest at the height where it goes in",
            )


def seat_findings(tv: TvChoice) -> Iterator[Finding]:
    """Yield whether the seat lies where the screen fills between 30° and 40° of the view."""
    width = tv.screen.x1 - tv.screen.x0
    # Whole millimetres are more than a seat is set to.
    near, far = (10 * round(distance_for_field(width, at) / 10) for at in (NEAR, FAR))
    where = "nearer than" if tv.viewing_distance < near else "further than"
    fits = near <= tv.viewing_distance <= far
    said = "between" if fits else where
    yield finding(
        "check.tv.distance",
        Severity.NOTE,
        f"the seat at {mm(tv.viewing_distance)} is {said} the {mm(near)} ({NEAR}° of the view) to"
        f" {mm(far)} ({FAR}°) of a screen {mm(width)} wide",
        "nothing to do" if fits else "try it with a card of that size before the frame is cut",
    )
