"""The booklet says what the plan says: every cut, every running dimension, on paper that prints."""

from __future__ import annotations

import re

import pytest

from optimiser.documents.booklet import booklet_pdf, ranges
from optimiser.domain.plan import LengthLayout, SheetLayout
from optimiser.domain.request import SheetMaterial
from optimiser.drawing.scene import Paper
from optimiser.framing.cautions import CAUTIONS
from optimiser.planning.spares import spares_by_risk, usual_breakage
from optimiser.units import mm, pounds
from tests.documents.builders import Planned
from tests.documents.reading import Pdf

CUT = re.compile(r"(\d+) (sheet|\d+[ab]) (rip|crosscut|saw) (same|[\d.]+) ")


@pytest.fixture(scope="module")
def booklet(planned: Planned) -> Pdf:
    return Pdf(booklet_pdf(planned.request, planned.plan, title="Week 49"))


def of_layout(booklet: Pdf, material: str, number: int, of: int) -> str:
    """Return the text of a sheet layout's page."""
    (page,) = (
        text
        for text in booklet.texts
        if text.startswith(material) and f"layout {number} of {of} · " in text
    )
    return page


def boards(planned: Planned) -> list[tuple[str, int, int, SheetLayout]]:
    return [
        (sheets.material, number, len(sheets.layouts), layout)
        for sheets in planned.plan.sheets
        for number, layout in enumerate(sheets.layouts, start=1)
    ]


def bars(planned: Planned) -> list[LengthLayout]:
    return [layout for lengths in planned.plan.lengths for layout in lengths.layouts]


def running(layout: SheetLayout, planned: Planned) -> list[int]:
    """Work out where the cuts that start at the lower or the left edge lie from the corner."""
    sizes: dict[str, tuple[SheetMaterial, int, int]] = {}
    for item in planned.request.sheets:
        sizes |= {stock.id: (item, stock.width, stock.height) for stock in item.stock}
        sizes |= {left.id: (item, left.width, left.height) for left in item.offcuts}
    board, width, height = sizes[layout.stock]
    edge = 0 if layout.offcut else int(board.edge_trim.left)
    corners = {"sheet": (edge, edge)}
    places = [0, width, height]
    for cut in layout.cuts:
        x, y = corners.pop(cut.of)
        corners[f"{cut.n}a"] = x, y
        if cut.direction == "rip":
            corners[f"{cut.n}b"] = x + cut.at + board.kerf, y
            places += [x + cut.at] if y == edge else []
        else:
            corners[f"{cut.n}b"] = x, y + cut.at + board.kerf
            places += [y + cut.at] if x == edge else []
    return places


def test_every_cut_of_every_sheet_is_listed_with_its_piece_and_its_figure(
    booklet: Pdf, planned: Planned
) -> None:
    assert len(boards(planned)) >= 4
    for material, number, of, layout in boards(planned):
        # A list that stands in columns is read across: its numbers say the order.
        found = CUT.findall(of_layout(booklet, material, number, of))
        rows = sorted(found, key=lambda row: int(row[0]))

        figures: list[str] = []
        for *_, figure in rows:
            figures.append(figures[-1] if figure == "same" else figure)
        assert [(n, piece) for n, piece, *_ in rows] == [(str(c.n), c.of) for c in layout.cuts]
        assert figures == [mm(cut.at) for cut in layout.cuts]


def test_every_cut_of_a_length_stands_where_a_tape_reads_it_from_the_left_end(
    booklet: Pdf, planned: Planned
) -> None:
    text = "\n".join(page for page in booklet.texts if page.startswith("c16-38x63\n"))
    found = re.findall(r"(\d+) \| ([\d.]+)", text)

    wanted = []
    for layout in bars(planned):
        at = 0
        for cut in layout.cuts:
            # The tape runs on: a cut lies behind all parts and kerfs before it.
            before = [p for p in layout.parts if p.start + p.length <= cut.at]
            assert cut.at >= at + (0 if not before else before[-1].length)
            at = cut.at
            wanted.append((str(cut.n), mm(cut.at)))
    # The legend shows one too.
    assert sorted(found) == sorted([*wanted, *[("3", "610")] * text.count("3 | 610")])
    for length in {layout.stock for layout in bars(planned)}:
        assert length in text


def test_running_dimensions_of_a_sheet_are_the_places_of_its_cuts_from_the_corner(
    booklet: Pdf, planned: Planned
) -> None:
    for material, number, of, layout in boards(planned):
        words = of_layout(booklet, material, number, of).split()

        for place in running(layout, planned):
            assert mm(place) in words, (material, number, mm(place))


def test_each_cut_has_a_box_for_each_piece_that_it_is_made_on(
    booklet: Pdf, planned: Planned
) -> None:
    (material, number, of, layout) = next(
        item for item in boards(planned) if item[3].count == 1 and not item[3].offcut
    )
    (page,) = (
        page
        for page, text in zip(booklet.pages, booklet.texts, strict=True)
        if text.startswith(material) and f"layout {number} of {of} · " in text
    )

    small = [r for r in page.rects if abs(r["width"] - 2.4 * 72 / 25.4) < 0.05]
    square = [r for r in small if abs(r["height"] - r["width"]) < 0.05]
    trimmed = 1 if "trim first" in page.extract_text() else 0
    assert len(square) == len(layout.cuts) + trimmed


def test_the_cover_has_every_caution_and_puts_the_makers_first(booklet: Pdf) -> None:
    first = " ".join(booklet.texts[0].replace("•", "").split())

    for caution in CAUTIONS:
        assert caution in first
    assert "makers' instructions of saw, boards and appliances come before anything" in first
    assert first.index("Saws: guard") < first.index("Asbestos")


def test_the_summary_says_what_to_fetch_what_it_costs_and_the_bound(
    booklet: Pdf, planned: Planned
) -> None:
    text = booklet.texts[1]
    bought = sum(layout.count for layout in bars(planned) if not layout.offcut)

    assert re.search(rf"^{bought} c16-38x63-2400 2400 c16-38x63 ", text, re.MULTILINE)
    assert re.search(r"^1 R14, offcut from the rack 1130 ", text, re.MULTILINE)
    assert f"net {pounds(planned.plan.money.net)}, without VAT" in booklet.flat
    assert pounds(planned.plan.bound) in text


def test_each_boards_settings_stand_once_with_all_their_cuts(
    booklet: Pdf, planned: Planned
) -> None:
    sheets = planned.plan.sheets[0]
    (page,) = (text for text in booklet.texts if text.startswith(f"{sheets.material}: settings"))
    wanted = {(cut.direction, mm(cut.at)) for layout in sheets.layouts for cut in layout.cuts}

    rows = re.findall(r"^(rip|crosscut) ([\d.]+) (\d+) layout", page, re.MULTILINE)

    assert {(how, at) for how, at, _ in rows} == wanted
    assert len(rows) == len(wanted)
    cuts = sum(len(layout.cuts) for layout in sheets.layouts)
    assert sum(int(count) for *_, count in rows) == cuts


@pytest.mark.parametrize(("paper", "size"), [(Paper.A4, (210, 297)), (Paper.A3, (297, 420))])
def test_every_page_is_on_the_paper_asked_for(
    planned: Planned, paper: Paper, size: tuple[int, int]
) -> None:
    booklet = Pdf(booklet_pdf(planned.request, planned.plan, title="x", paper=paper))

    assert booklet.papers == {size}


def test_fonts_are_embedded_and_nothing_is_told_by_colour(booklet: Pdf) -> None:
    fonts = dict(booklet.fonts())

    assert fonts
    assert all(fonts.values()), fonts
    assert all("DejaVu" in name for name in fonts)
    for colour in booklet.colours():
        assert max(colour) - min(colour) < 0.01, colour


def test_the_same_plan_prints_the_same_bytes(planned: Planned) -> None:
    once, again = (booklet_pdf(planned.request, planned.plan, title="x") for _ in range(2))

    assert once == again


def test_spares_stand_in_the_summary_with_what_each_level_costs(
    booklet: Pdf, planned: Planned
) -> None:
    table = spares_by_risk(planned.request, planned.plan, usual_breakage(planned.request))
    (page,) = (text for text in booklet.texts if "Spares by risk" in text)

    assert "common practice, no source" in " ".join(page.split())
    assert f"{100 * table.chance_without:.0f} % without spares" in " ".join(page.split())
    for level in table.levels:
        assert f"at most {100 * float(level.level):g} %" in page
        assert page.count(pounds(level.cost)) >= 2  # in the chart and in the table


def test_numbers_of_layouts_are_written_as_runs() -> None:
    assert ranges([1, 2, 3, 4, 7, 9, 10]) == "1–4, 7, 9, 10"
    assert ranges([]) == ""
