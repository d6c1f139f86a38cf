"""The cutting booklet: what to know, what to fetch, then every layout in the order of work.

First the cautions, then the summary with stock to fetch and money, then for each material its
layouts with numbered cuts to tick, and for each board its fence settings. The layouts are the
drawings' own pages.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from optimiser.documents.flow import (
    Block,
    Column,
    Figure,
    Heading,
    NewPage,
    Paragraph,
    Table,
    flow,
)
from optimiser.documents.pdf import pdf_bytes
from optimiser.documents.placed import placed_parts
from optimiser.domain.plan import CuttingPlan, LengthLayout, LengthPlan, SheetLayout, SheetPlan
from optimiser.domain.request import Cutting, CuttingRequest
from optimiser.drawing.lengths import length_pages
from optimiser.drawing.letters import plain
from optimiser.drawing.page import KNIFE_CAUTION, SAW_CAUTION
from optimiser.drawing.scene import Area, Item, Page, Paper
from optimiser.drawing.sheet_list import trim_text
from optimiser.drawing.sheets import sheet_pages
from optimiser.drawing.spares import spare_columns
from optimiser.framing.cautions import CAUTIONS
from optimiser.planning.spares import spares_by_risk, usual_breakage
from optimiser.units import mm, pounds

MAKERS_FIRST = (
    "The makers' instructions of saw, boards and appliances come before anything printed here; "
    "so do local codes and the advice of qualified people."
)
# What can hurt whoever stands at the saw; the rest follows for whoever builds.
_AT_THE_SAW = ("Saws", "Dust", "Lifting")
# The chart of spares, and the room beside it for the figures of its scale, in mm.
_CHART = 52.0
_SCALE = 14.0
FOOT = f"{SAW_CAUTION} Sizes in mm, money without VAT."


def booklet_pdf(
    request: CuttingRequest, plan: CuttingPlan, *, title: str, paper: Paper = Paper.A4
) -> bytes:
    """Return the cutting booklet of a plan as one PDF, every page on `paper`.

    Raises KeyError when the plan does not belong to the request.
    """
    return pdf_bytes(tuple(booklet_pages(request, plan, title=title, paper=paper)), title=title)


def booklet_pages(
    request: CuttingRequest, plan: CuttingPlan, *, title: str, paper: Paper = Paper.A4
) -> Iterator[Page]:
    """Yield the pages of the booklet: cautions, summary, layouts, fence settings."""
    jobs = tuple(sorted({part.job for item in request.materials for part in item.parts}))
    label = "job" if len(jobs) == 1 else "jobs"
    facts = (f"{label} {', '.join(plain(job) for job in jobs)}", "cutting booklet")
    blocks = [*_cover(request, plan), NewPage(), *_summary(request, plan), *_spares(request, plan)]
    yield from flow(blocks, title=title, facts=facts, foot=FOOT, paper=paper)
    for lengths, asked in zip(plan.lengths, request.lengths, strict=True):
        if lengths.layouts:
            yield from length_pages(lengths, asked, title=lengths.material, jobs=jobs, paper=paper)
    for sheets, board in zip(plan.sheets, request.sheets, strict=True):
        for number, layout in enumerate(sheets.layouts, start=1):
            yield from sheet_pages(
                layout,
                board,
                number=number,
                of=len(sheets.layouts),
                title=sheets.material,
                jobs=jobs,
                layouts=sheets.layouts,
                paper=paper,
            )
        settings = list(_settings(sheets))
        if settings:
            caution = SAW_CAUTION if board.cutting is Cutting.SAW else KNIFE_CAUTION
            yield from flow(
                settings,
                title=f"{sheets.material}: settings",
                facts=("each setting once, with all cuts made at it", "mm"),
                foot=caution,
                paper=paper,
            )


def _cover(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Block]:
    yield Heading("Before you cut")
    yield Paragraph(MAKERS_FIRST, bold=True)
    first = [text for text in CAUTIONS if text.startswith(_AT_THE_SAW)]
    for text in first:
        yield Paragraph(text, mark="•", bold=True)
    yield Heading("Before you build")
    for text in CAUTIONS:
        if text not in first:
            yield Paragraph(text, mark="•")
    yield Heading("How to use this booklet")
    yield Paragraph(
        "Take the layouts in their order. Make the cuts by their numbers, tick each one, and mark "
        "each part with its name before the next cut. Sheets: the figure is the size of the near "
        "piece, from its left edge (rip) or its lower edge (crosscut). Lengths: the figure is read "
        "on a tape from the left end as bought; the near side of the blade stands on it."
    )
    trims = sorted(_trims(request))
    if trims:
        yield Paragraph(f"Trim before the first cut: {'; '.join(trims)}.")
    equal = any(layout.count > 1 for item in plan.materials for layout in item.layouts)
    if equal:
        yield Paragraph(
            "A layout that is cut more than once (× 2, × 3 …) has a box for each piece, or one "
            "wide box for tally strokes."
        )
    yield Paragraph(
        "When something went wrong, stop, mark the plan by these numbers, and have the rest "
        "planned again: nothing that is not marked counts as cut."
    )


def _trims(request: CuttingRequest) -> Iterator[str]:
    for length in request.lengths:
        if length.end_trim:
            yield f"{plain(length.material)}, {mm(length.end_trim)} off each end"
    for board in request.sheets:
        if board.edge_trim.across or board.edge_trim.along:
            yield f"{plain(board.material)}, edges {trim_text(board.edge_trim)}"


def _summary(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Block]:
    yield Heading("Fetch")
    yield Table(
        (
            Column("fetched", 13),
            Column("qty", 7, "end"),
            Column("stock or offcut", 44),
            Column("size", 24, "end"),
            Column("material", 34),
            Column("layouts", 22),
        ),
        list(_stock(request, plan)),
    )
    yield Heading("Parts of each job")
    yield Table(
        (Column("job", 50), Column("lengths", 15, "end"), Column("board parts", 15, "end")),
        _jobs(request, plan),
    )
    yield Heading("Cost and bound")
    yield Table(
        (
            Column("material", 40),
            Column("used", 14, "end"),
            Column("offcut kept", 16, "end"),
            Column("scrap", 13, "end"),
            Column("saw and trim", 16, "end"),
            Column("net cost", 16, "end"),
            Column("proven bound", 17, "end"),
        ),
        [_material(item) for item in plan.materials],
        [("all", "", "", "", "", pounds(plan.money.net), pounds(plan.bound))],
    )
    gap = plan.money.net - plan.bound
    yield Paragraph(
        f"Purchase {pounds(plan.money.purchase)} + rack offcuts {pounds(plan.money.offcuts_used)}"
        f" − kept offcuts {pounds(plan.money.credit)} = net {pounds(plan.money.net)}, without VAT. "
        + (
            "Proven: no plan can cost less."
            if plan.proven
            else f"No plan can cost less than {pounds(plan.bound)}: more thinking could save at "
            f"most {pounds(gap)}."
        )
        + " The plan was checked: every part once, every cut edge to edge."
    )
    kept = list(_kept(plan))
    if kept:
        yield Heading("Offcuts to keep")
        yield Table(
            (
                Column("racked", 13),
                Column("qty", 7, "end"),
                Column("size", 28, "end"),
                Column("material", 46),
                Column("from layout", 20, "end"),
                Column("label", 30),
            ),
            kept,
        )


def _spares(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Block]:
    """Say what spares cost by the chance of a second trip, at usual rates of breakage."""
    if not any(item.layouts for item in plan.materials):
        return
    table = spares_by_risk(request, plan, usual_breakage(request))

    def chart(room: Area) -> tuple[Item, ...]:
        inner = Area(room.x + _SCALE, room.y, room.width - _SCALE, room.height)
        return tuple(spare_columns(table.levels, inner))

    yield NewPage()
    yield Heading("Spares by risk")
    yield Paragraph(
        "What it costs to keep the chance of a second trip within each level, beside "
        f"{100 * table.chance_without:.0f} % without spares. Rates of breakage are common "
        "practice, no source: weigh your own. Spares are bought beside the plan and are no part of "
        "its cost."
    )
    yield Figure(_CHART, chart)
    yield Table(
        (
            Column("at most", 14, "end"),
            Column("leaves", 14, "end"),
            Column("cost", 16, "end"),
            Column("spares", 90),
        ),
        [
            (
                f"{100 * float(level.level):g} %",
                f"{100 * level.chance:.1f} %" + ("" if level.reached else ", not reached"),
                pounds(level.cost),
                ", ".join(f"{n} × {stock}" for _, stock, n in level.spares) or "no spare",
            )
            for level in table.levels
        ],
    )


def _stock(request: CuttingRequest, plan: CuttingPlan) -> Iterator[tuple[str | int, ...]]:
    sizes: dict[tuple[str, str, bool], str] = {}
    for length in request.lengths:
        for bar in length.stock:
            sizes[length.material, bar.id, False] = mm(bar.length)
        for rest in length.offcuts:
            sizes[length.material, rest.id, True] = mm(rest.length)
    for board in request.sheets:
        for sheet in board.stock:
            sizes[board.material, sheet.id, False] = f"{mm(sheet.width)} × {mm(sheet.height)}"
        for left in board.offcuts:
            sizes[board.material, left.id, True] = f"{mm(left.width)} × {mm(left.height)}"
    for item in plan.materials:
        groups: dict[tuple[str, bool], list[tuple[int, int]]] = {}
        layouts: Sequence[LengthLayout | SheetLayout] = item.layouts
        for number, layout in enumerate(layouts, start=1):
            # A cut-out comes with its part: nobody fetches it.
            if not layout.offcut and not layout.bought:
                continue
            groups.setdefault((layout.stock, layout.offcut), []).append((number, layout.count))
        for (stock, offcut), used in groups.items():
            named = f"{stock}, offcut from the rack" if offcut else stock
            count = sum(times for _, times in used)
            numbers = ranges(number for number, _ in used)
            yield 1, str(count), named, sizes[item.material, stock, offcut], item.material, numbers


def ranges(numbers: Iterable[int]) -> str:
    """Write numbers in rising order with runs of three or more as first–last."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs
    )


def _jobs(request: CuttingRequest, plan: CuttingPlan) -> list[tuple[str, str, str]]:
    counts: dict[str, list[int]] = {}
    for part in placed_parts(request, plan):
        counts.setdefault(part.job, [0, 0])[0 if part.length else 1] += 1
    return [(job, str(lengths), str(boards)) for job, (lengths, boards) in sorted(counts.items())]


def _material(item: LengthPlan | SheetPlan) -> tuple[str, ...]:
    total = max(1, item.usage.total)
    shares = (
        item.usage.part,
        item.usage.offcut,
        item.usage.scrap,
        item.usage.kerf + item.usage.trim,
    )
    return (
        item.material,
        *(f"{100 * share / total:.1f} %" for share in shares),
        pounds(item.money.net),
        pounds(item.bound),
    )


def _kept(plan: CuttingPlan) -> Iterator[tuple[str | int, ...]]:
    for lengths in plan.lengths:
        for number, bar in enumerate(lengths.layouts, start=1):
            for stretch in bar.offcuts:
                yield 1, str(bar.count), mm(stretch.length), lengths.material, str(number), ""
    for sheets in plan.sheets:
        for number, sheet in enumerate(sheets.layouts, start=1):
            for left in sheet.offcuts:
                size = f"{mm(left.width)} × {mm(left.height)}"
                yield 1, str(sheet.count), size, sheets.material, str(number), ""


def _settings(plan: SheetPlan) -> Iterator[Block]:
    """List each setting of the fence with the cuts of all layouts that are made at it."""
    found: dict[tuple[str, int], dict[int, list[int]]] = {}
    for number, layout in enumerate(plan.layouts, start=1):
        for cut in layout.cuts:
            by_layout = found.setdefault((cut.direction, cut.at), {})
            by_layout.setdefault(number, []).append(cut.n)
    if not found:
        return
    rows = [
        (
            direction,
            mm(at),
            str(sum(len(cuts) for cuts in layouts.values())),
            "; ".join(
                f"layout {number}: {', '.join(map(str, cuts))}" for number, cuts in layouts.items()
            ),
        )
        for (direction, at), layouts in sorted(
            found.items(), key=lambda item: (item[0][0] != "rip", -item[0][1])
        )
    ]
    yield Table(
        (
            Column("how", 14),
            Column("set at", 12, "end"),
            Column("cuts", 9, "end"),
            Column("layout: cut numbers", 80),
        ),
        rows,
    )
