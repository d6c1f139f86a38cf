"""Cutting diagrams of boards: to scale, the cuts in order, cut-outs where they will be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.parts import BoardPart
from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import Cutting, SheetMaterial
from optimiser.drawing.sheet_parts import lying
from optimiser.drawing.sheets import draw_sheet_layout
from optimiser.planning.cut_list import described
from tests.drawing.builders import Divide, a_board, a_board_part, a_sheet_layout, t
from tests.drawing.reading import ALLOWED, Drawing

CutOuts = Mapping[str, Sequence[Sequence[float]]]

STRIPS = Divide(
    "rip",
    40,
    "B/S1",
    Divide("rip", 40, "B/S1", Divide("rip", 40, "B/S2", Divide("crosscut", 900, "~A/F2", "C/K1"))),
)
TOP = Divide(
    "crosscut",
    600,
    Divide(
        "rip",
        600,
        Divide("crosscut", 290, "B/P1", "B/P2"),
        Divide("rip", 30, Divide("crosscut", 30, "A/t1", "scrap"), "C/K9"),
    ),
    Divide("rip", 900, "offcut", Divide("crosscut", 100, "A/sh1", "A/sh3")),
)
MIXED = Divide("crosscut", 1400, Divide("rip", 700, "A/F1", STRIPS), TOP)
MIXED_CUT_OUTS: CutOuts = {
    "A/F1": [(100, 200, 500, 300), (0, 1300, 60, 100)],
    "A/F2": [(50, 60, 300, 120)],
}


def material_for(
    layout: SheetLayout,
    *,
    cut_outs: CutOuts | None = None,
    size: tuple[float, float] = (1220, 2440),
    cutting: Cutting = Cutting.SAW,
) -> SheetMaterial:
    parts: dict[str, BoardPart] = {}
    for placed in layout.parts:
        own = (placed.height, placed.width) if placed.turned else (placed.width, placed.height)
        holes = (cut_outs or {}).get(placed.part, ())
        parts[placed.part] = a_board_part(placed.part, own[0] / 10, own[1] / 10, cut_outs=holes)
    return a_board(parts=list(parts.values()), size=size, offcuts=[("R3", *size)], cutting=cutting)


def mixed() -> Drawing:
    layout = a_sheet_layout(MIXED, count=3)
    material = material_for(layout, cut_outs=MIXED_CUT_OUTS)
    layout = described(layout, material)
    return Drawing(draw_sheet_layout(layout, material, number=2, of=5, title="Boards"))


def drawn(tree: Divide | str, **options: Any) -> Drawing:
    layout = a_sheet_layout(tree, **options)
    material = material_for(layout, **options)
    return Drawing(draw_sheet_layout(layout, material, number=1, of=1, title="Boards"))


def test_every_part_has_its_label_and_its_size_as_it_lies() -> None:
    words = mixed().words

    for name in ("A/F1", "A/F2", "B/S1", "B/S2", "C/K1", "C/K9", "B/P1", "A/t1", "A/sh3"):
        assert name in words
    for size in ("700 × 1400", "378 × 900", "600 × 290", "40 × 1400", "30 × 30"):
        assert size in words


def test_nothing_leaves_the_page_and_no_two_texts_meet() -> None:
    assert mixed().outside() == []
    assert mixed().collisions() == []


def test_a_page_uses_plain_marks_only_and_no_text_below_two_and_a_half_millimetres() -> None:
    assert mixed().tags <= ALLOWED
    assert min(written.size for written in mixed().texts) >= 2.5


def test_sheet_parts_offcuts_and_cut_outs_are_to_the_scale_that_is_written() -> None:
    drawing = mixed()

    assert "scale 1:15" in drawing.words
    for size in ((1220, 2440), (700, 1400), (40, 1400), (900, 424), (500, 300), (120, 300)):
        assert drawing.has_rect(size[0] / 15, size[1] / 15)


def test_the_sheet_stands_with_its_lower_left_corner_at_the_lower_left() -> None:
    drawing = drawn(Divide("crosscut", 1000, "A/low", "A/high"))

    low = next(w for w in drawing.texts if w.text == "A/low")
    high = next(w for w in drawing.texts if w.text == "A/high")
    assert low.area.y > high.area.y


def test_the_table_lists_each_cut_in_order_with_piece_direction_and_setting() -> None:
    layout = a_sheet_layout(MIXED)
    words = mixed().words.splitlines()

    start = words.index("from") + 3  # below the line that asks to trim first
    rows = [tuple(words[start + 5 * n : start + 5 * n + 5]) for n in range(len(layout.cuts))]
    assert rows[:5] == [
        ("1", "sheet", "crosscut", "1400", "lower, trimmed"),
        ("2", "1a", "rip", "700", "left, trimmed"),
        ("3", "2b", "rip", "40", "left, cut 2"),
        ("4", "3b", "rip", "same", "left, cut 3"),
        ("5", "4b", "rip", "same", "left, cut 4"),
    ]
    assert [row[0] for row in rows] == [str(cut.n) for cut in layout.cuts]


def test_a_snapped_board_tells_what_is_sawn_in_the_list_and_in_the_legend() -> None:
    layout = a_sheet_layout(Divide("rip", 600, "A/a", Divide("rip", 40, "A/b", "A/c")), kerf=0)
    material = material_for(
        layout,
        cut_outs={"A/a": [(0, 0, 100, 200), (200, 0, 300, 150), (100, 900, 50, 60)]},
        cutting=Cutting.KNIFE,
    )

    drawing = Drawing(
        draw_sheet_layout(described(layout, material), material, number=1, of=1, title="Boards")
    )

    words = drawing.words.splitlines()
    assert words[words.index("2") : words.index("2") + 3] == ["2", "1b", "saw"]
    assert "strip under 50: saw, do not snap" in words
    said = " ".join(words)
    assert "A/a: corner notch 100 × 200: saw the 100 leg, snap the 200 one" in said
    assert "A/a: U-notch 300 × 150: saw both 150 legs, snap the 300 base" in said
    assert "A/a: window 50 × 60: saw all sides" in said
    assert drawing.collisions() == []


def test_a_cut_that_ends_at_an_edge_is_labelled_outside_the_sheet() -> None:
    drawing = drawn(Divide("rip", 600, "A/a", Divide("crosscut", 1000, "A/b", "A/c")))

    sheet = next(r for r in drawing.rects if abs(float(r["width"]) - 97.6) < 0.01)
    rip = next(w for w in drawing.texts if w.text == "1 | 600")
    crosscut = next(w for w in drawing.texts if w.text == "2 | 1000")
    assert rip.area.bottom < float(sheet["y"])
    assert crosscut.area.x > float(sheet["x"]) + float(sheet["width"])


def test_running_dimensions_start_at_the_corner_as_bought_trim_included() -> None:
    words = drawn(Divide("rip", 600, "A/a", "A/b")).words.splitlines()

    assert "605" in words
    assert "1220" in words
    assert "2440" in words


def test_offcuts_and_scrap_differ_by_more_than_colour() -> None:
    kept = drawn(Divide("rip", 600, "A/a", "offcut"))
    binned = drawn(Divide("rip", 600, "A/a", "scrap"))

    assert "offcut" in kept.words
    assert any("stroke-dasharray" in rect for rect in kept.rects)
    assert "scrap" in binned.words
    assert not any("stroke-dasharray" in rect for rect in binned.rects)
    assert len(binned.root.findall("{*}path")) > len(kept.root.findall("{*}path"))


def test_only_symbols_in_use_are_explained() -> None:
    plain, full = drawn("A/a").words, mixed().words

    for symbol in ("offcut, keep", "scrap", "kerf 3", "quarter turn", "cut-out"):
        assert symbol not in plain
        assert symbol in full


def test_a_turned_part_carries_its_cut_out_a_quarter_turn_anticlockwise() -> None:
    part = a_board_part("A/F2", 900, 381, cut_outs=[(50, 60, 300, 120)])

    hole = lying(part.cut_outs[0], part, turned=True)

    assert (hole.x, hole.y, hole.width, hole.height) == (t(201), t(50), t(120), t(300))
    assert lying(part.cut_outs[0], part, turned=False) == part.cut_outs[0]


@given(st.integers(1, 99), st.integers(1, 99), st.integers(0, 99), st.integers(0, 99))
def test_a_cut_out_stays_inside_its_part_when_turned(w: int, h: int, x: int, y: int) -> None:
    part = a_board_part("A/F", 200, 210, cut_outs=[(x, y, w, h)])

    hole = lying(part.cut_outs[0], part, turned=True)

    assert hole.x >= 0
    assert hole.y >= 0
    assert hole.x + hole.width <= part.height
    assert hole.y + hole.height <= part.width


def test_a_small_part_has_a_letter_that_the_key_explains_once_for_equal_parts() -> None:
    row = Divide("rip", 30, "A/t1", Divide("rip", 30, "A/t1", "scrap"))
    drawing = drawn(Divide("crosscut", 30, row, "A/rest"))

    words = drawing.words.splitlines()
    assert words.count("A/t1 30 × 30") == 1
    assert words.count("a") == 3  # on both parts and in the key
    assert drawing.collisions() == []


def test_a_part_too_small_for_a_letter_is_led_out_to_the_edge() -> None:
    drawing = drawn(Divide("crosscut", 12, Divide("rip", 12, "A/chip", "scrap"), "A/rest"))

    assert "part a" in drawing.words
    assert "A/chip 12 × 12" in drawing.words


def test_a_cut_too_short_for_its_number_has_it_led_to_a_free_place() -> None:
    def chips(count: int) -> Divide | str:
        return "scrap" if count == 0 else Divide("rip", 12, f"A/c{count}", chips(count - 1))

    drawing = drawn(Divide("crosscut", 12, chips(6), "A/rest"))

    words = drawing.words.splitlines()
    for number in range(1, 8):
        assert words.count(str(number)) + words.count(f"{number} | 12") >= 2
    assert drawing.collisions() == []


def test_forty_strips_keep_their_labels_and_settings_apart() -> None:
    def strips(count: int) -> Divide | str:
        return "A/rest" if count == 0 else Divide("crosscut", 40, f"A/s{count}", strips(count - 1))

    drawing = drawn(Divide("rip", 600, strips(40), "A/side"))

    assert drawing.collisions() == []
    assert drawing.outside() == []
    assert "A/s40" in drawing.words
    assert "41 | 40" in drawing.words


def test_a_sheet_with_over_a_hundred_parts_moves_to_a_larger_page_and_stays_whole() -> None:
    def row(level: int, place: int) -> Divide | str:
        name = f"A/g{place}-{level}"
        return name if place == 9 else Divide("rip", 100, name, row(level, place + 1))

    def rows(level: int) -> Divide | str:
        if level == 11:
            return row(level, 0)
        return Divide("crosscut", 100, row(level, 0), rows(level + 1))

    drawing = drawn(rows(0))

    assert (drawing.page.width, drawing.page.height) == (420, 297)
    assert drawing.outside() == []
    for part in a_sheet_layout(rows(0)).parts:
        assert part.part in drawing.words


def test_a_small_offcut_from_the_rack_fills_its_page() -> None:
    tree = Divide("rip", 150, Divide("crosscut", 100, "A/x", "scrap"), "~A/z")
    layout = a_sheet_layout(tree, size=(300, 300), stock="R3", offcut=True)
    material = material_for(layout, size=(300, 300))

    drawing = Drawing(draw_sheet_layout(layout, material, number=1, of=1, title="Boards"))

    assert "scale 1:2" in drawing.words
    assert "offcut R3 from the rack" in drawing.words
    assert "edge trim" not in drawing.words
    assert drawing.collisions() == []


def test_a_wide_sheet_lies_level_on_its_page() -> None:
    drawing = drawn(Divide("rip", 1200, "A/a", "A/b"), size=(2440, 1220))

    assert (drawing.page.width, drawing.page.height) == (297, 210)
    assert drawing.has_rect(244, 122)


def test_a_board_that_is_snapped_has_the_caution_of_the_knife_and_no_kerf() -> None:
    layout = a_sheet_layout(Divide("rip", 600, "A/a", "A/b"), kerf=0)
    material = material_for(layout, cutting=Cutting.KNIFE)

    words = Drawing(draw_sheet_layout(layout, material, number=1, of=1, title="T")).words

    assert "Cut away from hands" in words
    assert "kerf" not in words
    assert "saw maker" not in words


def test_names_are_escaped_and_long_ones_shortened() -> None:
    name = "A/<script>" + "very long name " * 20
    layout = a_sheet_layout(Divide("rip", 300, name, "A/b"))

    svg = draw_sheet_layout(layout, material_for(layout), number=1, of=1, title="T")

    assert "<script" not in svg
    assert "A/<script>very" in Drawing(svg).words
    assert "…" in svg
    assert Drawing(svg).outside() == []


def test_the_same_layout_gives_the_same_text() -> None:
    layout = a_sheet_layout(MIXED)
    material = material_for(layout, cut_outs=MIXED_CUT_OUTS)

    first = draw_sheet_layout(layout, material, number=1, of=1, title="T")

    assert draw_sheet_layout(layout, material, number=1, of=1, title="T") == first


def test_a_sheet_that_the_request_does_not_list_is_refused() -> None:
    layout = a_sheet_layout("A/a", stock="unknown")

    with pytest.raises(KeyError):
        draw_sheet_layout(layout, material_for(layout), number=1, of=1, title="T")
