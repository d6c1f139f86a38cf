"""One PDF of a wall: its set-out sheet to tick, then every drawing, on the paper asked for."""

from __future__ import annotations

import pytest

from optimiser.documents.walls import walls_pdf
from optimiser.domain.frame import Frame
from optimiser.drawing.scene import Paper
from optimiser.drawing.wall_set import wall_set
from optimiser.formats.set_out import set_out
from tests.documents.reading import Pdf
from tests.drawing.builders import a_frame, a_front_board, a_member, an_opening
from tests.drawing.reading import Drawing


def a_wall() -> Frame:
    return a_frame(
        openings=[an_opening("tv", (1000, 1100), (1500, 850))],
        members=[
            a_member("U1", "upright", (0, 200, 38), (38, 63, 2300)),
            a_member("U2", "upright", (962, 200, 38), (38, 63, 2300)),
            a_member("P1", "sole plate", (0, 200, 0), (3600, 63, 38)),
            a_member("S1", "sill", (1000, 200, 1062), (1500, 63, 38)),
        ],
        boards=[
            a_front_board("B1", (0, 0), (1200, 2390)),
            a_front_board("B2", (1200, 0), (900, 900)),
        ],
    )


@pytest.mark.parametrize(("paper", "size"), [(Paper.A4, (210, 297)), (Paper.A3, (297, 420))])
def test_every_drawing_of_a_wall_is_in_its_pdf_on_the_paper_asked_for(
    paper: Paper, size: tuple[int, int]
) -> None:
    pdf = Pdf(walls_pdf([a_wall()], title="Walls", paper=paper))

    drawings = [drawing.page.title for drawing in wall_set(a_wall(), paper=paper)]
    assert pdf.papers == {size}
    assert len(drawings) == 6
    for title in drawings:
        assert sum(words.startswith(title) for words in pdf.words) == 1, title


def test_a_plan_at_a_height_that_is_asked_for_is_added() -> None:
    pdf = Pdf(walls_pdf([a_wall()], title="Walls", cut_at=[12_345]))

    assert any(
        words.startswith("Job A: plans at ") and "1234.5 mm above the floor datum" in words
        for words in pdf.words
    )


def test_the_set_out_sheet_has_every_line_with_a_box_to_tick() -> None:
    pdf = Pdf(walls_pdf([a_wall()], title="Walls"))
    steps = set_out(a_wall())

    for number, step in enumerate(steps, start=1):
        assert f"{number}. {step.title}" in " ".join(pdf.words)
        for line in step.lines:
            assert line in " ".join(pdf.words)
    pages = [p for p, t in zip(pdf.pages, pdf.words, strict=True) if t.startswith("Set-out")]
    boxes = [
        rect
        for page in pages
        for rect in page.rects
        if abs(rect["width"] - 3 * 72 / 25.4) < 0.05 and abs(rect["height"] - rect["width"]) < 0.05
    ]
    assert len(boxes) == sum(len(step.lines) for step in steps)


def test_nothing_of_a_drawing_leaves_its_page_on_any_paper() -> None:
    for paper in Paper:
        for drawing in wall_set(a_wall(), paper=paper):
            assert Drawing(drawing.svg).outside() == [], drawing.page.title
