"""A sheet of labels as its maker cuts it: sizes of paper in mm, as printed on its packet."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet:
    """Labels of `label_width` × `label_height` in columns and rows on a page, all in mm.

    `left` and `top` are from the page's edges to the first label; `gap_across` and `gap_down` lie
    between two labels. Floats, as it is paper and no part: makers give hundredths.
    """

    page_width: float
    page_height: float
    columns: int
    rows: int
    label_width: float
    label_height: float
    left: float
    top: float
    gap_across: float = 0.0
    gap_down: float = 0.0

    @property
    def count(self) -> int:
        """Return how many labels a sheet has."""
        return self.columns * self.rows

    def corner(self, place: int) -> tuple[float, float]:
        """Return the upper left corner of a label, counted from 0 along the rows."""
        row, column = divmod(place, self.columns)
        return (
            self.left + column * (self.label_width + self.gap_across),
            self.top + row * (self.label_height + self.gap_down),
        )


# A common size with three columns of seven on A4; from memory, no source. The user's own counts.
USUAL_SHEET = LabelSheet(
    page_width=210.0,
    page_height=297.0,
    columns=3,
    rows=7,
    label_width=63.5,
    label_height=38.1,
    left=7.2,
    top=15.1,
    gap_across=2.5,
)
