"""Names from outside: other alphabets, emoji, formulas, long words; nothing lost without a sign."""

from __future__ import annotations

import pytest

import optimiser as lib
from optimiser.documents.booklet import booklet_pdf
from optimiser.documents.flow import Paragraph, broken, flow
from optimiser.documents.labels import part_labels_pdf
from optimiser.documents.pdf import pdf_bytes, shown
from optimiser.domain.label_sheet import USUAL_SHEET
from optimiser.drawing.letters import text_width
from optimiser.drawing.scene import Page, Text
from tests.documents.builders import Planned
from tests.documents.reading import Pdf

ODD = (
    "Фасад/Стойка",
    "Τοίχος/Γ1",
    "=1+1",
    "<b>&amp;",
    "Żółć½×",
    "Wand 🔥",
    "梁/一",
    "קיר",
    "x" * 90,
)


@pytest.fixture(scope="module")
def odd() -> Planned:
    parts = [
        {"id": name, "job": "J", "length_mm": 300 + n, "quantity": 1} for n, name in enumerate(ODD)
    ]
    stock = [{"id": "s", "length_mm": 2400, "price": "3.60"}]
    request = lib.request_from_document(
        {
            "seconds": 0.1,
            "lengths": [{"material": "@timber", "kerf_mm": 3, "stock": stock, "parts": parts}],
        },
        name="request",
    )
    return Planned(request, lib.plan_cutting(request))


@pytest.fixture(scope="module")
def labels(odd: Planned) -> Pdf:
    return Pdf(part_labels_pdf(odd.request, odd.plan, USUAL_SHEET, title="x"))


def test_the_alphabets_that_the_face_has_are_printed_as_they_are(labels: Pdf) -> None:
    for name in ("Фасад/", "Τοίχος/Γ1", "=1+1", "<b>&amp;", "Żółć½×"):
        assert name in labels.words[0]


def test_what_the_face_lacks_is_marked_and_still_whole_in_the_code(labels: Pdf) -> None:
    assert "Wand �" in labels.words[0]
    assert "�/�" in labels.words[0]
    assert "���" in labels.words[0]
    assert {code.removesuffix("\njob J") for code in labels.codes()} == set(ODD)


def test_the_booklet_of_odd_names_can_be_made(odd: Planned) -> None:
    booklet = Pdf(booklet_pdf(odd.request, odd.plan, title="Wand 🔥"))

    assert booklet.words[0].startswith("Wand �")
    assert any("@timber" in words for words in booklet.words)


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Ärger", "Ärger"),
        ("a\u0308", "ä"),  # two characters with one glyph in one
        ("q\u0308", "q�"),  # two without
        ("שלום a", "���� a"),
        ("٣ مرحبا", "� �����"),
        ("a🔥b", "a�b"),
    ],
)
def test_only_what_can_be_set_letter_beside_letter_is_shown(text: str, printed: str) -> None:
    # Every code point of the two-byte range that is no letter of the scripts above.
    face = frozenset(range(0x2000)) | {ord("�")}

    assert shown(text, face) == printed


def test_text_in_the_pdf_takes_no_more_room_than_drawings_reckon_with() -> None:
    lines = ("The quick brown fox × 0123456789", "WWWWWW mmmmm", "layout 3 of 7 · × 2 – 610.5")
    items = tuple(
        Text(10, 20 + 10 * n, line, 4.0, bold=bold)
        for n, (line, bold) in enumerate((line, bold) for line in lines for bold in (False, True))
    )

    (page,) = Pdf(pdf_bytes([Page(210, 297, "x", items)], title="x")).pages

    for item, line in zip(items, page.extract_text_lines(), strict=True):
        took = (line["x1"] - line["x0"]) * 25.4 / 72
        assert took <= 1.003 * text_width(item.text, 4.0, bold=item.bold)


def test_a_word_longer_than_its_line_is_broken_and_not_cut_short() -> None:
    word = "plasterboard-12.5-2400x1200-" * 4

    lines = broken(word, 40.0)

    assert "".join(lines) == word
    assert len(lines) > 2
    assert all(text_width(line, 3.0) <= 40.0 for line in lines)


def test_a_long_text_runs_over_pages_and_keeps_every_word() -> None:
    words = [f"word{n}" for n in range(1600)]
    blocks = [Paragraph(" ".join(words[n : n + 50])) for n in range(0, 1600, 50)]

    pages = flow(blocks, title="Long", facts=("x",), foot="foot")
    text = " ".join(Pdf(pdf_bytes(pages, title="Long")).words)

    assert len(pages) > 1
    assert all(f"page {n} of {len(pages)}" in text for n in range(1, len(pages) + 1))
    assert [word for word in text.split() if word.startswith("word")] == words
