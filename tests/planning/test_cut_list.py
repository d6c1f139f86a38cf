"""The cut list: an order that can be cut, few settings, named edges, what is sawn and snapped.

The rules of what is sawn are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.parts import CutOut
from optimiser.domain.plan import CutOutWork, SheetCut, SheetLayout, SheetPlan
from optimiser.domain.request import Cutting, SheetMaterial
from optimiser.domain.stock import EdgeTrim
from optimiser.planning.cut_list import described, how_made, listed
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths
from optimiser.verify.sheets import check_sheet_layouts
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_sheet,
)
from tests.drawing.builders import Divide, a_sheet_layout, t


def material_of(
    layout: SheetLayout, *, kerf: int = 30, trim: EdgeTrim | None = None, knife: bool = False
) -> SheetMaterial:
    parts = {
        placed.part: a_board_part(
            placed.part,
            placed.width,
            placed.height,
            sum(placed.part == other.part for other in layout.parts),
            job=placed.job,
        )
        for placed in layout.parts
    }
    return replace(
        a_sheet_material(
            *parts.values(),
            stock=[a_stock_sheet("mdf-12-sheet", 12_200, 24_400)],
            kerf=kerf,
            cutting=Cutting.KNIFE if knife else Cutting.SAW,
        ),
        edge_trim=trim or EdgeTrim.all_round(Tenths(50)),
    )


def faults_of(layout: SheetLayout, material: SheetMaterial) -> list[str]:
    plan = plan_cutting(a_request(material, seconds=0.05)).sheets[0]
    checked, _, _, _ = check_sheet_layouts(replace(plan, layouts=(layout,)), material, a_keep())
    return [fault.what for fault in checked]


def changes(layout: SheetLayout) -> int:
    made = [(cut.direction, cut.at) for cut in layout.cuts]
    return sum(1 for n, one in enumerate(made) if n == 0 or made[n - 1] != one)


def strips(*widths: float) -> Divide | str:
    """Rips side by side, each strip crosscut at 700 and again at 500."""
    if not widths:
        return "scrap"
    strip = Divide("crosscut", 700, "A/p", Divide("crosscut", 500, "A/q", "scrap"))
    return Divide("rip", widths[0], strip, strips(*widths[1:]))


def test_waiting_pieces_are_cut_at_one_setting_before_the_fence_moves() -> None:
    layout = a_sheet_layout(strips(300, 300, 300))

    ordered = listed(layout, material_of(layout))

    assert [(cut.direction, cut.at / 10) for cut in ordered.cuts] == [
        *[("rip", 300)] * 3,
        *[("crosscut", 700)] * 3,
        *[("crosscut", 500)] * 3,
    ]
    assert [cut.of for cut in ordered.cuts] == [
        "sheet", "1b", "2b", "1a", "2a", "3a", "4b", "5b", "6b"
    ]  # fmt: skip


def test_long_rips_come_first_where_both_are_free() -> None:
    tree = Divide(
        "crosscut",
        1000,
        Divide("crosscut", 400, "A/a", "A/b"),
        Divide("rip", 500, "A/c", "A/d"),
    )
    layout = a_sheet_layout(tree)

    ordered = listed(layout, material_of(layout))

    assert [cut.direction for cut in ordered.cuts] == ["crosscut", "rip", "crosscut"]


def test_a_snapped_board_is_finished_before_the_next() -> None:
    layout = a_sheet_layout(strips(300, 300), kerf=0, trim=0)

    ordered = listed(layout, material_of(layout, kerf=0, trim=EdgeTrim(), knife=True))

    assert [cut.of for cut in ordered.cuts] == [cut.of for cut in layout.cuts]


@st.composite
def trees(
    draw: st.DrawFn, width: float = 1210, height: float = 2430, deep: int = 4
) -> Divide | str:
    if deep == 0 or min(width, height) < 250 or draw(st.integers(0, 4)) == 0:
        return "A/p"
    rip = draw(st.booleans())
    extent = width if rip else height
    at = draw(
        st.sampled_from([size for size in (100, 150, 200, extent // 2) if size < extent - 50])
    )
    near = (at, height) if rip else (width, at)
    far = (extent - at - 3, height) if rip else (width, extent - at - 3)
    return Divide(
        "rip" if rip else "crosscut",
        at,
        draw(trees(near[0], near[1], deep - 1)),
        draw(trees(far[0], far[1], deep - 1)),
    )


def pieces(layout: SheetLayout) -> list[tuple[int, int, int, int]]:
    return sorted((p.x, p.y, p.width, p.height) for p in layout.parts)


def fewest(layout: SheetLayout) -> int:
    """Try every order of the cuts by plain depth-first search."""
    best = len(layout.cuts)

    def go(there: frozenset[str], left: tuple[SheetCut, ...], last: object, made: int) -> None:
        nonlocal best
        if made >= best and left:
            return
        if not left:
            best = min(best, made)
            return
        for n, cut in enumerate(left):
            if cut.of in there:
                now = (cut.direction, cut.at)
                after = there - {cut.of} | {f"{cut.n}a", f"{cut.n}b"}
                go(after, (*left[:n], *left[n + 1 :]), now, made + (now != last))

    go(frozenset({"sheet"}), layout.cuts, None, 0)
    return best


@settings(max_examples=60)
@given(trees())
def test_the_order_can_be_cut_keeps_every_piece_and_has_the_fewest_settings(
    tree: Divide | str,
) -> None:
    layout = a_sheet_layout(tree)
    ordered = listed(layout, replace(material_of(layout), parts=()))

    assert pieces(ordered) == pieces(layout)
    there = {"sheet"}
    for place, cut in enumerate(ordered.cuts, start=1):
        assert cut.n == place
        assert cut.of in there
        there = there - {cut.of} | {f"{place}a", f"{place}b"}
    assert there == {part.piece for part in ordered.parts}
    assert changes(ordered) <= changes(layout)
    if len(layout.cuts) <= 6:
        assert changes(ordered) == fewest(layout)


@pytest.mark.parametrize("seed", range(3))
def test_hundreds_of_cuts_are_put_in_order_too(seed: int) -> None:
    luck = Random(seed)

    def row() -> Divide | str:
        # The widest first, as the solver's rows are.
        widths = sorted(luck.choices(range(30, 90), k=15))
        tree: Divide | str = "scrap"
        for width in widths:
            tree = Divide("rip", width, "A/p", tree)
        return tree

    tree: Divide | str = "scrap"
    for _ in range(25):
        tree = Divide("crosscut", luck.randrange(40, 90), row(), tree)
    layout = a_sheet_layout(tree)
    ordered = listed(layout, replace(material_of(layout), parts=()))

    assert len(layout.cuts) > 200
    assert changes(ordered) < 0.6 * changes(layout)


def test_each_cut_names_the_edge_it_is_measured_from() -> None:
    tree = Divide(
        "rip", 600, "A/a", Divide("crosscut", 1000, "A/b", Divide("rip", 200, "A/c", "A/d"))
    )
    layout = a_sheet_layout(tree, trim=0)

    plain = described(layout, material_of(layout, trim=EdgeTrim()))
    trimmed = described(layout, material_of(layout, trim=EdgeTrim(left=Tenths(50))))

    assert [cut.edge for cut in plain.cuts] == ["factory", "factory", "cut 1"]
    assert [cut.edge for cut in trimmed.cuts] == ["trimmed", "factory", "cut 1"]


def test_a_rack_offcut_has_edges_as_they_lie_unless_they_are_trimmed() -> None:
    layout = replace(
        a_sheet_layout(Divide("rip", 600, "A/a", "A/b"), trim=0), stock="R", offcut=True
    )
    rack = a_sheet_offcut("R", 12_200, 24_400)
    material = replace(material_of(layout), offcuts=(rack,))

    assert described(layout, material).cuts[0].edge == "offcut"
    sawn_off = replace(rack, edge_trim=EdgeTrim(left=Tenths(10)))
    assert described(layout, replace(material, offcuts=(sawn_off,))).cuts[0].edge == "trimmed"


@pytest.mark.parametrize(
    ("at", "tool"), [(49.9, "saw"), (50, "snap"), (1170, "snap"), (1170.1, "saw")]
)
def test_a_strip_under_fifty_is_sawn_and_not_snapped(at: float, tool: str) -> None:
    layout = a_sheet_layout(Divide("rip", at, "A/a", "A/b"), kerf=0, trim=0)

    knife = described(layout, material_of(layout, kerf=0, trim=EdgeTrim(), knife=True))

    assert knife.cuts[0].tool == tool


BOARD = a_board_part("F", t(600), t(900))


@pytest.mark.parametrize(
    ("hole", "shape", "saw", "snap"),
    [
        ((0, 0, 200, 100), "corner notch", {"right"}, {"top"}),
        ((0, 0, 100, 200), "corner notch", {"top"}, {"right"}),
        ((400, 800, 200, 100), "corner notch", {"left"}, {"bottom"}),
        ((100, 0, 200, 100), "U-notch", {"left", "right"}, {"top"}),
        ((100, 800, 50, 100), "U-notch", {"left", "right"}, {"bottom"}),
        ((0, 300, 100, 200), "U-notch", {"bottom", "top"}, {"right"}),
        ((100, 100, 50, 50), "window", {"left", "right", "bottom", "top"}, set()),
    ],
)
def test_notches_are_sawn_along_their_short_sides_and_snapped_along_the_last(
    hole: tuple[int, ...], shape: str, saw: set[str], snap: set[str]
) -> None:
    work = how_made(BOARD, 0, a_cut_out(*(t(size) for size in hole)))

    assert (work.shape, set(work.saw), set(work.snap)) == (shape, saw, snap)


def knife_plan(*holes: CutOut) -> tuple[SheetLayout, SheetMaterial]:
    layout = a_sheet_layout(
        Divide("rip", 600, "A/a", Divide("rip", 40, "A/b", "A/c")), kerf=0, trim=0
    )
    material = material_of(layout, kerf=0, trim=EdgeTrim(), knife=True)
    parts = (replace(material.parts[0], cut_outs=holes), *material.parts[1:])
    material = replace(material, parts=parts)
    return listed(layout, material), material


NOTCH = a_cut_out(0, 0, 1000, 2000)
LEGS = a_cut_out(2000, 0, 1000, 2000)


def test_the_checker_passes_what_is_said_of_edges_tools_and_notches() -> None:
    layout, material = knife_plan(NOTCH, LEGS, a_cut_out(2000, 9000, 1000, 1000))

    assert [cut.tool for cut in layout.cuts] == ["snap", "saw"]
    assert len(layout.cut_outs) == 3
    assert faults_of(layout, material) == []


def spoilt(layout: SheetLayout, n: int, **change: Any) -> SheetLayout:
    return replace(
        layout,
        cuts=tuple(replace(cut, **change) if cut.n == n else cut for cut in layout.cuts),
    )


@pytest.mark.parametrize(
    ("n", "change"),
    [(1, {"edge": "cut 1"}), (2, {"edge": "factory"}), (2, {"tool": "snap"}), (1, {"tool": "saw"})],
)
def test_the_checker_refuses_a_wrong_edge_or_tool(n: int, change: dict[str, Any]) -> None:
    layout, material = knife_plan()

    assert any(f"cut {n}" in what for what in faults_of(spoilt(layout, n, **change), material))


WORKS: dict[str, tuple[CutOut, dict[str, Any]]] = {
    "a window snapped": (
        a_cut_out(2000, 9000, 1000, 1000),
        {"snap": ("top",), "saw": ("left", "right", "bottom")},
    ),
    "the long leg sawn": (NOTCH, {"saw": ("right",), "snap": ("top",)}),
    "a side forgotten": (NOTCH, {"snap": ()}),
    "a side too many": (NOTCH, {"saw": ("top", "left")}),
    "nothing snapped": (NOTCH, {"saw": ("top", "right"), "snap": ()}),
    "a leg snapped": (LEGS, {"saw": ("left", "top"), "snap": ("right",)}),
    "another shape": (LEGS, {"shape": "corner notch"}),
    "a cut-out not asked for": (LEGS, {"cut_out": 1}),
    "another part": (LEGS, {"part": "A/b"}),
}


@pytest.mark.parametrize("name", WORKS)
def test_the_checker_refuses_a_cut_out_that_is_not_freed_so(name: str) -> None:
    hole, change = WORKS[name]
    layout, material = knife_plan(hole)
    assert faults_of(layout, material) == []
    wrong = (replace(layout.cut_outs[0], **change),)

    assert any("cut-out" in what for what in faults_of(replace(layout, cut_outs=wrong), material))


def test_the_checker_refuses_an_order_in_which_a_piece_is_cut_before_it_exists() -> None:
    layout = a_sheet_layout(strips(300, 300))
    material = material_of(layout)
    ordered = listed(layout, material)
    assert faults_of(ordered, material) == []
    for n in range(1, len(ordered.cuts)):
        moved = [*ordered.cuts]
        moved[0], moved[n] = replace(moved[n], n=1), replace(moved[0], n=n + 1)
        early = replace(ordered, cuts=tuple(moved))

        assert any("does not lie there" in what for what in faults_of(early, material))


def test_a_plan_that_says_nothing_of_edges_is_still_read_and_checked() -> None:
    layout, material = knife_plan(NOTCH)
    silent = replace(
        layout, cut_outs=(), cuts=tuple(replace(cut, edge="", tool="") for cut in layout.cuts)
    )

    assert faults_of(silent, material) == []
    assert described(silent, material) == layout


def test_every_plan_says_it() -> None:
    material = a_sheet_material(
        a_board_part("a", 600, 900, 2, cut_outs=(a_cut_out(0, 0, 60, 80),)),
        a_board_part("b", 30, 900, 2),
        stock=[a_stock_sheet("s", 1200, 2400)],
        cutting=Cutting.KNIFE,
    )

    plan: SheetPlan = plan_cutting(a_request(material)).sheets[0]

    assert all(cut.edge and cut.tool for layout in plan.layouts for cut in layout.cuts)
    works = {work for layout in plan.layouts for work in layout.cut_outs}
    assert works == {
        CutOutWork(part="a", cut_out=0, shape="corner notch", saw=("top",), snap=("right",))
    }
