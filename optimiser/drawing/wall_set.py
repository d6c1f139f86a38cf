"""All drawings of one framed wall, in the order in which they are looked at on site."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from optimiser.domain.frame import Frame
from optimiser.drawing.boarding import boarding_page, front_layers
from optimiser.drawing.box_page import box_page
from optimiser.drawing.elevation import elevation_page
from optimiser.drawing.fixings import fixings_page
from optimiser.drawing.pictorial import pictorial_page
from optimiser.drawing.scene import Page, Paper
from optimiser.drawing.sections import plan_sections_page, upright_sections_page
from optimiser.drawing.svg import svg_text
from optimiser.drawing.wall_page import called
from optimiser.units import mm

# More on a page than these would be too small to read.
_PLANS, _UPRIGHTS = 4, 5
# A plan near a shelf is cut so much over it, in tenths.
_OVER_SHELF = 300


@dataclass(frozen=True, slots=True)
class WallDrawing:
    """One drawing of a wall: its kind, which of its kind, and the page."""

    kind: str
    which: str
    page: Page

    @property
    def svg(self) -> str:
        """Return the page as SVG text."""
        return svg_text(self.page)


def wall_set(
    frame: Frame, *, cut_at: Sequence[int] = (), paper: Paper | None = None
) -> Iterator[WallDrawing]:
    """Yield frame, boards of each layer, fixings, sections, the frame in space, and its boxes.

    Cut are the middles of the openings (of a plain wall its middle), and plans at the heights
    `cut_at`, in tenths above the floor datum. `paper` None: each drawing chooses its own.
    """
    job = f"Job {frame.job}"
    large = Paper.A3 if paper is None else paper
    yield WallDrawing("frame", "", elevation_page(frame, title=f"{job}: frame", paper=paper))
    layers = front_layers(frame)
    for layer in layers:
        title = f"{job}: boards" + (f", layer {layer}" if len(layers) > 1 else "")
        page = boarding_page(frame, title=title, layer=layer, paper=paper)
        yield WallDrawing("boards", str(layer), page)
    if frame.fixings:
        title = f"{job}: what holds it to the house"
        yield WallDrawing("fixings", "", fixings_page(frame, title=title, paper=paper))
    middles = {opening.z + opening.height // 2 for opening in frame.openings} or {10_000}
    heights = _telling(frame, (_clear_of_shelves(frame, int(middle)) for middle in middles))
    places = {opening.x + opening.width // 2 for opening in frame.openings} or {frame.width // 2}
    for number, some in enumerate(_dealt(heights | set(cut_at), _PLANS), start=1):
        plans = "plan" if len(some) == 1 else "plans"
        title = f"{job}: {plans} at {', '.join(map(mm, some))} mm above the floor datum"
        page = plan_sections_page(frame, heights=some, title=title, paper=large)
        yield WallDrawing("plan", str(number), page)
    for number, some in enumerate(_dealt(places, _UPRIGHTS), start=1):
        cuts = "upright section" if len(some) == 1 else "upright sections"
        title = f"{job}: {cuts} {', '.join(map(mm, some))} mm from the left end"
        page = upright_sections_page(frame, places=some, title=title, paper=large)
        yield WallDrawing("section", str(number), page)
    title = f"{job}: pictorial view of the frame"
    yield WallDrawing("pictorial", "", pictorial_page(frame, title=title, paper=large))
    for group in dict.fromkeys(member.group for member in frame.members):
        title = f"{job}: {called(group) or 'every part marked'}"
        yield WallDrawing("box", group, box_page(frame, group, title=title, paper=large))


def _clear_of_shelves(frame: Frame, height: int) -> int:
    """Return a height for a plan, higher where it would run through the thickness of a shelf."""
    shelves = sorted((b.box.z, b.box.z + b.box.dz) for b in frame.boards if ".shelf" in b.face)
    for low, high in shelves:
        if low - _OVER_SHELF < height < high + _OVER_SHELF:
            height = high + _OVER_SHELF
    return height


def _telling(frame: Frame, heights: Iterable[int]) -> set[int]:
    """Return one height for each set of openings that plans run through: that with most timbers."""
    best: dict[tuple[str, ...], tuple[int, int]] = {}
    for height in sorted(heights):
        through = tuple(o.name for o in frame.openings if o.z <= height < o.z + o.height)
        met = sum(m.box.z <= height < m.box.z + m.box.dz for m in frame.members)
        best[through] = max(best.get(through, (0, 0)), (met, height))
    return {height for _, height in best.values()}


def _dealt(places: Iterable[int], most: int) -> list[list[int]]:
    """Deal places in their order to pages of about equal numbers, `most` at the most."""
    ordered = sorted(places)
    each = -(-len(ordered) // -(-len(ordered) // most))
    return [ordered[start : start + each] for start in range(0, len(ordered), each)]
