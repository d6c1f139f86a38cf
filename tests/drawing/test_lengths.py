"""Cutting diagrams of lengths: to scale, complete, readable in black and white."""

from __future__ import annotations

import pytest

from optimiser.domain.plan import LengthLayout
from optimiser.drawing.lengths import draw_length_layout, draw_length_plan
from tests.drawing.builders import a_length_layout, a_length_plan, a_section, t
from tests.drawing.reading import ALLOWED, Drawing

LONG = "c16-38x63-4800"
SECTION = a_section(lengths=(2400, 4800), offcuts=(("R14", 1130),))


def twelve_layouts() -> tuple[LengthLayout, ...]:
    lay = a_length_layout
    return (
        lay([("A/U1", 2281.5)], count=3),
        lay([("A/U2", 1130), ("B/N1", 562), ("B/N1", 562)], count=2),
        lay([("A/N1", 562), ("B/U7", 1790)]),
        lay([("A/B1", 45)] * 12 + [("B/N4", 90)] * 5 + [("C/S1", 400)]),
        lay([("B/S2", 700)], stock="R14", length=1130, offcut=True),
        lay([("A/N2", 362)] * 6, count=12),
        lay([("lounge at the back/a long name of a part", 1500), ("lounge at the back/p", 200)]),
        lay([("A/U1", 2281.5), ("A/U1", 2281.5)], stock=LONG, length=4800, count=4),
        lay([("A/P", 4780)], stock=LONG, length=4800),
        lay([(f"A/T{n}", 20 + n) for n in range(60)], stock=LONG, length=4800),
        lay([("B/blk", 45)] * 97, stock=LONG, length=4800),
        lay([(f"{job}/U1", 600) for job in "CDEFAB"], stock=LONG, length=4800),
    )


def pages() -> list[Drawing]:
    plan = a_length_plan(*twelve_layouts())
    return [Drawing(svg) for svg in draw_length_plan(plan, SECTION, title="Lengths")]


def one(layout: LengthLayout, **names: str) -> Drawing:
    return Drawing(draw_length_layout(layout, SECTION, number=1, of=1, title="T", names=names))


def test_every_part_of_every_layout_has_its_label_and_its_length() -> None:
    words = "\n".join(page.words for page in pages())

    parts = {part for layout in twelve_layouts() for part in layout.parts}
    for part in parts:
        assert part.part.replace("lounge at the back/p", "G/p") in words
    for length in ("2281.5", "1130", "562", "4780"):
        assert length in words


def test_nothing_leaves_the_page_and_no_two_texts_meet() -> None:
    for page in pages():
        assert page.outside() == []
        assert page.collisions() == []


def test_pages_use_plain_marks_only_and_no_text_below_two_and_a_half_millimetres() -> None:
    for page in pages():
        assert page.tags <= ALLOWED
        assert min(written.size for written in page.texts) >= 2.5


def test_pages_are_a4_level_in_millimetres() -> None:
    root = pages()[0].root

    assert (root.attrib["width"], root.attrib["height"]) == ("297mm", "210mm")
    assert root.attrib["viewBox"] == "0 0 297 210"


def test_parts_are_drawn_to_the_scale_that_is_written() -> None:
    page = pages()[0]

    assert "scale 1:20" in page.words
    assert page.has_rect(2281.5 / 20, 10)
    assert page.has_rect(2400 / 20, 10)


def test_one_scale_serves_all_pages() -> None:
    assert all("scale 1:20" in page.words for page in pages())


def test_a_layout_alone_fills_its_page_at_its_own_scale() -> None:
    drawing = one(a_length_layout([("A/U1", 2281.5)]))

    assert "scale 1:10" in drawing.words
    assert drawing.has_rect(228.15, 10)
    assert drawing.page.height < 100


def test_cuts_are_numbered_in_order_with_their_place_from_the_left_end() -> None:
    drawing = one(a_length_layout([("A/U2", 1130), ("B/N1", 562)]))

    places = sorted((w.area.middle[0], w.text) for w in drawing.texts if w.text in {"1", "2", "3"})
    assert [text for _, text in places] == ["1", "2", "3"]
    for place in ("7", "1140", "1705", "2400"):
        assert place in drawing.words.splitlines()


def test_an_offcut_is_dashed_and_scrap_is_cross_hatched_each_with_its_length() -> None:
    kept, binned = one(a_length_layout([("A/S1", 1000)])), one(a_length_layout([("A/S1", 2000)]))

    assert "offcut 1377" in kept.words
    assert any("stroke-dasharray" in rect for rect in kept.rects)
    assert not kept.root.findall("{*}path")
    assert "scrap 377" in binned.words
    assert not any("stroke-dasharray" in rect for rect in binned.rects)
    assert binned.root.findall("{*}path")


def test_a_part_too_short_for_its_label_has_it_led_out_below() -> None:
    drawing = one(a_length_layout([("A/B1", 40), ("A/U1", 1500)]))

    label = next(w for w in drawing.texts if w.text == "A/B1")
    strip = next(r for r in drawing.rects if float(r["width"]) == 240 and float(r["height"]) == 10)
    assert label.area.y > float(strip["y"]) + 10


def test_neighbours_too_short_for_their_labels_share_one_with_their_number() -> None:
    drawing = one(a_length_layout([("A/B1", 45)] * 12))

    assert "12 × A/B1" in drawing.words


def test_the_heading_tells_how_often_a_layout_is_cut_and_what_comes_from_the_rack() -> None:
    bought, racked = twelve_layouts()[0], twelve_layouts()[4]

    assert "× 3" in one(bought).words
    assert "offcut from the rack" not in one(bought).words
    assert "offcut from the rack" in one(racked).words


def test_an_offcut_from_the_rack_is_drawn_without_end_trim() -> None:
    assert "end trim" in one(twelve_layouts()[0]).words
    assert "end trim" not in one(twelve_layouts()[4]).words


def test_names_are_escaped_and_control_characters_shown_as_question_marks() -> None:
    layout = a_length_layout([("A/<script>&\"'\x07", 1500)])

    svg = draw_length_layout(layout, SECTION, number=1, of=1, title="<b>\u202e&")

    assert "<script" not in svg
    assert "<b>" not in svg
    drawing = Drawing(svg)
    assert "A/<script>&\"'?" in drawing.words
    assert "<b>?&" in drawing.words


def test_a_name_given_for_a_part_stands_beside_its_mark() -> None:
    assert "A/U1 upright" in one(twelve_layouts()[0], **{"A/U1": "upright"}).words


def test_a_led_out_part_has_its_jobs_letter_for_a_long_job_name() -> None:
    layout = a_length_layout([("lounge at the back/p1", 40), ("lounge at the back/p2", 50)])

    words = one(layout).words.splitlines()

    assert {"A/p1", "A/p2", "job lounge at the back"} <= set(words)


def test_jobs_keep_their_mark_when_the_whole_batch_is_named() -> None:
    layout = a_length_layout([("second job/U1", 1500)])

    alone = draw_length_layout(layout, SECTION, number=1, of=1, title="T")
    batch = draw_length_layout(
        layout, SECTION, number=1, of=1, title="T", jobs=("first job", "second job")
    )

    assert "A" in Drawing(alone).words.splitlines()
    assert "B" in Drawing(batch).words.splitlines()


def test_the_same_plan_gives_the_same_text() -> None:
    plan = a_length_plan(*twelve_layouts())

    first = draw_length_plan(plan, SECTION, title="Lengths")

    assert draw_length_plan(plan, SECTION, title="Lengths") == first


def test_stock_that_the_request_does_not_list_is_refused() -> None:
    layout = a_length_layout([("A/U1", 500)], stock="unknown")

    with pytest.raises(KeyError):
        draw_length_layout(layout, SECTION, number=1, of=1, title="T")


def test_a_plan_without_layouts_is_one_page_without_strips() -> None:
    (page,) = draw_length_plan(a_length_plan(), SECTION, title="Nothing to cut")

    assert "Nothing to cut" in Drawing(page).words


def test_kerfs_and_end_trims_are_drawn_to_scale() -> None:
    drawing = one(a_length_layout([("A/U1", 1500)]))

    assert t(3) == SECTION.kerf
    assert drawing.has_rect(0.3, 10)
    assert drawing.has_rect(1.0, 10)
