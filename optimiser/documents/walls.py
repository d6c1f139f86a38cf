"""Set-out sheet and drawings of framed walls in one PDF, the sheet first: it is built from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from optimiser.documents.booklet import MAKERS_FIRST
from optimiser.documents.flow import Block, Heading, Paragraph, flow
from optimiser.documents.pdf import pdf_bytes
from optimiser.domain.frame import Frame
from optimiser.drawing.page import WALL_CAUTION
from optimiser.drawing.scene import Page, Paper
from optimiser.drawing.wall_set import wall_set
from optimiser.formats.set_out import set_out
from optimiser.framing.cautions import CAUTIONS


def walls_pdf(
    frames: Iterable[Frame],
    *,
    title: str,
    paper: Paper = Paper.A4,
    cut_at: Sequence[int] = (),
) -> bytes:
    """Return each wall's set-out sheet and all its drawings as PDF, every page on `paper`.

    `cut_at`: heights in tenths above the floor datum for plans beside those of the openings.
    Raises ValueError without a wall.
    """
    pages = [page for frame in frames for page in _wall(frame, paper, cut_at)]
    return pdf_bytes(pages, title=title)


def _wall(frame: Frame, paper: Paper, cut_at: Sequence[int]) -> Iterator[Page]:
    yield from flow(
        _set_out(frame),
        title=f"Set-out sheet, job {frame.job}",
        facts=("− left and + right of the centre line, up from the floor datum", "mm"),
        foot=WALL_CAUTION,
        paper=paper,
    )
    for drawing in wall_set(frame, cut_at=cut_at, paper=paper):
        yield drawing.page


def _set_out(frame: Frame) -> Iterator[Block]:
    yield Heading("Cautions")
    yield Paragraph(MAKERS_FIRST, bold=True)
    for caution in CAUTIONS:
        yield Paragraph(caution, mark="•")
    for number, step in enumerate(set_out(frame), start=1):
        yield Heading(f"{number}. {step.title}")
        for caution in step.cautions:
            yield Paragraph(caution, mark="!", bold=True, keep=True)
        for line in step.lines:
            yield Paragraph(line, mark="box")
