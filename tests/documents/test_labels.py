"""Labels: each part once, codes that a camera reads, each label in its place on the sheet."""

from __future__ import annotations

from collections import Counter

import pytest

from optimiser.documents.labels import RackLabel, part_labels_pdf, rack_labels_pdf
from optimiser.domain.label_sheet import USUAL_SHEET, LabelSheet
from optimiser.errors import InvalidInput
from optimiser.formats.label_sheet import read_label_sheet
from optimiser.units import mm
from tests.documents.builders import Planned
from tests.documents.reading import MM, Pdf

SMALL = """
columns = 5
rows = 13
label_width_mm = 38.1
label_height_mm = 21.2
left_mm = 4.75
top_mm = 10.7
gap_across_mm = 2.5
"""


def the_labels(planned: Planned, sheet: LabelSheet = USUAL_SHEET, first: int = 1) -> Pdf:
    return Pdf(part_labels_pdf(planned.request, planned.plan, sheet, title="x", first=first))


@pytest.fixture(scope="module")
def labels(planned: Planned) -> Pdf:
    return the_labels(planned)


@pytest.fixture(scope="module")
def small_labels(planned: Planned) -> Pdf:
    return the_labels(planned, read_label_sheet(SMALL, name="small.toml"), first=7)


def wanted(planned: Planned) -> Counter[str]:
    return Counter({part.id: part.quantity for part in planned.parts})


def test_each_part_has_a_label_and_each_label_a_code_that_names_it(
    labels: Pdf, planned: Planned
) -> None:
    parts = wanted(planned)

    codes = [code for page in range(len(labels.pages)) for code in labels.codes(page)]

    assert Counter(code.split("\n")[0] for code in codes) == parts
    assert {code.split("\n")[1] for code in codes} == {"job A", "job B"}
    assert len(labels.pages) == -(-parts.total() // USUAL_SHEET.count)


def test_a_label_says_part_size_job_material_and_layout(labels: Pdf, planned: Planned) -> None:
    text = "\n".join(labels.words)
    (length,) = planned.request.lengths

    for part in length.parts:
        assert text.count(mm(part.length)) == part.quantity
        assert text.count(part.name) >= part.quantity
    assert "1500 × 900" in text
    assert "layout 1" in text
    assert "job B" in text


def test_labels_stand_within_half_a_millimetre_of_where_the_sheet_has_them(
    small_labels: Pdf, planned: Planned
) -> None:
    (page, *_) = small_labels.pages

    # The white ground of a code is the largest rectangle of its label.
    grounds = [rect for rect in page.rects if rect["width"] * MM > 10]
    assert len(grounds) == wanted(planned).total()
    for place, ground in enumerate(grounds, start=6):
        row, column = divmod(place, 5)
        left, top = 4.75 + column * (38.1 + 2.5), 10.7 + row * 21.2
        # Two millimetres within the label, as printers feed by a little more or less.
        assert ground["x0"] * MM == pytest.approx(left + 2.0, abs=0.05)
        assert ground["top"] * MM == pytest.approx(top + 2.0, abs=0.05)
        assert ground["bottom"] * MM <= top + 21.2


def test_words_of_a_label_stay_on_it(small_labels: Pdf) -> None:
    (page, *_) = small_labels.pages

    for letter in page.chars:
        x, y = letter["x0"] * MM - 4.75, letter["top"] * MM - 10.7
        column = int(x / (38.1 + 2.5))
        assert x - column * (38.1 + 2.5) >= 0
        assert letter["x1"] * MM - 4.75 - column * (38.1 + 2.5) <= 38.1 + 0.05
        assert int((y + 0.3) / 21.2) == int((letter["bottom"] * MM - 10.7 - 0.3) / 21.2)


def test_codes_of_the_smallest_labels_are_still_read(planned: Planned) -> None:
    sheet = LabelSheet(
        page_width=210, page_height=297, columns=5, rows=15, label_width=35, label_height=16,
        left=10, top=10, gap_across=2, gap_down=2,
    )  # fmt: skip

    assert len(the_labels(planned, sheet).codes(scale=4.0)) == wanted(planned).total()


def test_codes_lead_to_the_layout_at_the_saw_where_an_address_is_given(planned: Planned) -> None:
    labels = Pdf(
        part_labels_pdf(
            planned.request,
            planned.plan,
            USUAL_SHEET,
            title="x",
            saw_address="https://saw.example/7",
        )
    )

    assert set(labels.codes()) <= {f"https://saw.example/7#c16-38x63-{n}" for n in range(1, 9)} | {
        f"https://saw.example/7#{m}-{n}" for m in ("mdf-12", "plasterboard-12.5") for n in range(9)
    }
    assert len(labels.codes()) == 21


def test_a_rack_label_shows_its_offcut_and_its_code_is_the_offcuts_own_label() -> None:
    offcuts = [
        RackLabel(label="R15", material="c16-38x63", size="1130", place="lengths"),
        RackLabel(label="R16", material="mdf-12", size="610 × 900"),
    ]

    labels = Pdf(rack_labels_pdf(offcuts, USUAL_SHEET, title="Rack", first=20))

    assert sorted(labels.codes()) == ["R15", "R16"]
    for words in ("R15", "1130", "place lengths", "610 × 900", "offcut"):
        assert words in labels.words[0]


@pytest.mark.parametrize("first", [0, 22])
def test_a_label_that_the_sheet_does_not_have_is_refused(planned: Planned, first: int) -> None:
    with pytest.raises(InvalidInput, match="Give a number from 1 to 21"):
        the_labels(planned, first=first)


def test_an_empty_rack_has_no_labels() -> None:
    with pytest.raises(InvalidInput, match="nothing to label"):
        rack_labels_pdf([], USUAL_SHEET, title="Rack")
