"""A sheet of labels is read as its packet says, and refused where it cannot be."""

from __future__ import annotations

import pytest

from optimiser.errors import InvalidInput
from optimiser.formats.label_sheet import read_label_sheet

GOOD = """
columns = 3
rows = 8
label_width_mm = 63.5
label_height_mm = 33.9
left_mm = 7.25
top_mm = 12.9
gap_across_mm = 2.5
"""


def test_sizes_left_out_are_a4_without_gaps() -> None:
    sheet = read_label_sheet(GOOD, name="sheet.toml")

    assert (sheet.page_width, sheet.page_height, sheet.gap_down) == (210.0, 297.0, 0.0)
    assert sheet.count == 24
    assert sheet.corner(4) == (7.25 + 63.5 + 2.5, 12.9 + 33.9)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("columns = 3", "columns = 4"), "columns: with margin and gaps they reach"),
        (("rows = 8", "rows = 9"), "rows: with margin and gaps they reach 318 mm"),
        (("rows = 8", "rows = 0"), "rows"),
        (("rows = 8", "rows = true"), "rows"),
        (("= 63.5", "= 20"), "label_width_mm: 20 mm is too small"),
        (("= 33.9", "= 3.9"), "label_height_mm: 3.9 mm is too small"),
        (("= 63.5", '= "63.5"'), "label_width_mm: '63.5'"),
        (("= 63.5", "= nan"), "label_width_mm"),
        (("= 63.5", "= 1e400"), "label_width_mm"),
        (("= 7.25", "= -1"), "left_mm: -1"),
        (("left_mm", "margin_mm"), "margin_mm is not a field here"),
        (("left_mm = 7.25", ""), "left_mm is left out"),
        (("columns = 3", "columns = "), "is not TOML"),
    ],
)
def test_what_is_no_sheet_of_labels_is_refused_by_field(change: tuple[str, str], says: str) -> None:
    with pytest.raises(InvalidInput) as refused:
        read_label_sheet(GOOD.replace(*change), name="sheet.toml")

    assert says in str(refused.value).replace(": is ", " is ")
    assert "sheet.toml" in str(refused.value)
