"""A cut-out that is cut further is nothing to fetch, pays nothing, and is named where it is cut."""

from __future__ import annotations

import pytest

import optimiser as lib
from optimiser.documents.booklet import booklet_pdf
from optimiser.documents.files import cuts_csv
from optimiser.documents.placed import placed_parts
from optimiser.planning.spent import spent_by_job
from tests.documents.builders import Planned
from tests.documents.reading import Pdf


@pytest.fixture(scope="module")
def nested() -> Planned:
    """Plan a frame round an opening, and a shelf that the sheet has no room for beside it."""
    parts = [
        {
            "id": "A/frame", "job": "A", "width_mm": 1200, "height_mm": 2400, "quantity": 1,
            "cut_outs": [{"x_mm": 100, "y_mm": 100, "width_mm": 900, "height_mm": 600}],
        },
        {"id": "B/shelf", "job": "B", "width_mm": 800, "height_mm": 500, "quantity": 1},
    ]  # fmt: skip
    stock = [{"id": "mdf", "width_mm": 1220, "height_mm": 2440, "price": "24.00"}]
    board = {"material": "mdf-12", "kerf_mm": 3, "stock": stock, "parts": parts}
    request = lib.request_from_document(
        {"seconds": 0.1, "sheets": [{**board, "use_cut_outs": True}]}, name="request"
    )
    return Planned(request, lib.plan_cutting(request))


def test_a_part_from_a_cut_out_is_in_every_document_once(nested: Planned) -> None:
    (sheets,) = nested.plan.sheets
    assert any(layout.cut_out is not None for layout in sheets.layouts)

    booklet = Pdf(booklet_pdf(nested.request, nested.plan, title="x")).words

    assert [part.part for part in placed_parts(nested.request, nested.plan)] == [
        "A/frame",
        "B/shelf",
    ]
    assert "cut-out 1 of A/frame" in cuts_csv(nested.plan)
    assert any("from cut-out 1 of A/frame, cut that part first" in page for page in booklet)
    fetched = booklet[1].split("Parts of each job")[0]
    assert "mdf-12" in fetched
    assert "A/frame" not in fetched


def test_the_sheet_pays_for_what_is_cut_out_of_its_parts(nested: Planned) -> None:
    spent = spent_by_job(nested.request, nested.plan)

    assert [item.name for item in spent] == ["A"]
    assert sum(item.total for item in spent) == nested.plan.money.purchase
