"""Several jobs become one request: equal parts gathered, every material one the merchant sells."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import pytest

from api.examples import BATCH_EXAMPLE
from optimiser.domain.frame import Frame
from optimiser.domain.job import Job
from optimiser.domain.rack import Rack
from optimiser.domain.wall import Step
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.price_book import price_book_from_document
from optimiser.formats.wall import wall_from_document
from optimiser.framing.build import frame_wall
from optimiser.framing.ways import frame_of
from optimiser.inspection.inspect import inspect_frame
from optimiser.planning.jobs import (
    frame_as_planned,
    job_as_planned,
    job_of_frame,
    request_for_jobs,
)
from optimiser.planning.plan import plan_cutting
from optimiser.units import tenths
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_offcut,
    a_length_part,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
)
from tests.framing.builders import a_site, a_wall, an_extent, framed
from tests.planning.jobs_builders import a_book, a_job, a_length_item, a_sheet_item

BOOK = a_book(
    lengths=[
        a_length_item(a_stock_length("t", 24_000)),
        a_length_item(a_stock_length("u", 24_000), material="bead"),
    ],
    sheets=[a_sheet_item(a_stock_sheet("s", 12_200, 24_400))],
)


def problems_of(*jobs: Job, rack: Rack | None = None) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as refusal:
        request_for_jobs(jobs, BOOK, rack or Rack(), keep=a_keep(), seed=1, seconds=1)
    return refusal.value.problems


def a_frame() -> Frame:
    return frame_wall(
        wall_from_document(BATCH_EXAMPLE["walls"][0], name="wall"),
        price_book_from_document(BATCH_EXAMPLE["prices"], name="prices"),
    )


def counted_parts(frame: Frame) -> Counter[tuple[str, int, int]]:
    """Count what a frame is made of by material and size."""
    pieces: Counter[tuple[str, int, int]] = Counter()
    pieces.update((one.material, one.length, 0) for one in frame.members)
    pieces.update((one.material, one.length, 0) for one in frame.beads)
    pieces.update((one.material, one.width, one.height) for one in frame.boards)
    return pieces


def counted_options(job: Job, taken: Sequence[int]) -> Counter[tuple[str, int, int]]:
    """Count what a job cuts when one option of each of its choices is taken."""
    optional = {id_ for choice in job.choices for ids in choice.options for id_ in ids}
    cut = {id_ for one, n in zip(job.choices, taken, strict=True) for id_ in one.options[n]}
    pieces: Counter[tuple[str, int, int]] = Counter()
    for material, part in job.parts.lengths:
        if part.id not in optional or part.id in cut:
            pieces[material, part.length, 0] += part.quantity
    for material, board in job.parts.boards:
        if board.id not in optional or board.id in cut:
            pieces[material, board.width, board.height] += board.quantity
    return pieces


def a_stepped_frame() -> Frame:
    """Frame a wall with a deeper centre, whose three boxes each choose for themselves."""
    step = Step(name="centre", x=tenths(900), width=tenths(1_800), depth=tenths(420))
    return framed(steps=(step,))


@pytest.mark.parametrize("frame", [a_frame(), a_stepped_frame()], ids=["plain", "stepped"])
def test_any_mixture_of_ways_is_cut_whole(frame: Frame) -> None:
    job = job_of_frame(frame)

    open_choices = [choice for choice in frame.choices if len(choice.ways) > 1]
    counts = [len(choice.options) for choice in job.choices]
    assert counts == [len(choice.ways) for choice in open_choices]
    for taken in itertools.product(*map(range, counts)):
        numbers = iter(taken)
        ways = [next(numbers) if choice in open_choices else 0 for choice in frame.choices]
        assert counted_options(job, taken) == counted_parts(frame_of(frame, frame.choices, ways))


def test_the_boxes_of_a_stepped_wall_choose_apart_and_their_plates_apart_from_their_boards() -> (
    None
):
    job = job_of_frame(a_stepped_frame())

    names = [choice.id for choice in job.choices]
    assert {"A/boarding of centre", "A/boarding of box 1", "A/boarding of box 2"} <= set(names)
    plain = job_of_frame(framed())
    assert {choice.id for choice in plain.choices} == {"A/boarding", "A/plates"}


def test_a_frame_with_no_other_way_leaves_nothing_to_choose() -> None:
    assert job_of_frame(replace(a_frame(), alternatives=())).choices == ()


def test_a_plan_says_which_way_the_wall_is_boarded() -> None:
    frame = a_frame()
    book = price_book_from_document(BATCH_EXAMPLE["prices"], name="prices")
    job = job_of_frame(frame)
    request = request_for_jobs((job,), book, Rack(), keep=a_keep(), seed=1, seconds=1)

    plan = plan_cutting(request)

    chosen = {one.choice: one.option for one in plan.chosen}
    as_built = frame_as_planned(frame, plan)
    boarding = next(choice for choice in frame.choices if choice.name == "boarding")
    assert as_built.boarding.startswith(boarding.ways[chosen["A/boarding"]].name)
    assert (as_built.alternatives, as_built.choices) == ((), ())
    planned = job_as_planned(job, frame, plan)
    assert planned.choices == ()
    assert planned.quantities == as_built.quantities
    ids = {part.id for _, part in planned.parts.lengths}
    ids |= {part.id for _, part in planned.parts.boards}
    cut = {part.part for item in plan.lengths for one in item.layouts for part in one.parts}
    cut |= {part.part for item in plan.sheets for one in item.layouts for part in one.parts}
    assert ids == cut


def test_equal_members_of_a_wall_become_one_part_with_their_number() -> None:
    frame = replace(a_frame(), alternatives=())

    job = job_of_frame(frame, client="Mill Cottage", needed="2026-12-07")

    assert (job.name, job.client, job.needed) == ("A", "Mill Cottage", "2026-12-07")
    pieces = [(piece.mark, piece.material, piece.length) for piece in frame.members]
    pieces += [(bead.mark, bead.material, bead.length) for bead in frame.beads]
    listed = {
        (part.id, material, part.length): part.quantity for material, part in job.parts.lengths
    }
    assert listed == {
        (f"A/{mark}", material, length): pieces.count((mark, material, length))
        for mark, material, length in pieces
    }
    assert max(listed.values()) > 1
    boards = [
        (f"A/{board.mark}", board.material, board.width, board.height) for board in frame.boards
    ]
    counted = {
        (part.id, material, part.width, part.height): part.quantity
        for material, part in job.parts.boards
    }
    assert counted == {board: boards.count(board) for board in boards}
    assert job.quantities == frame.quantities


def test_a_part_that_serves_several_places_says_so_in_its_name() -> None:
    frame = replace(a_frame(), alternatives=())

    parts = {part.id: part for _, part in job_of_frame(frame).parts.boards}
    names = {part.name for part in parts.values()}

    for mark, part in ((id_.removeprefix("A/"), part) for id_, part in parts.items()):
        faces = list(
            dict.fromkeys(
                board.face + (", 3 narrower to go in" if board.eased else "")
                for board in frame.boards
                if board.mark == mark
            )
        )
        assert part.name.startswith(faces[0])
        assert (len(faces) > 1) == (part.name != faces[0])
    # The two cheeks of the recess are equal boards, as are its sill and its soffit.
    assert {"tv.left, tv.right"} <= names


def test_parts_of_all_jobs_come_by_material_in_the_order_of_the_price_book() -> None:
    jobs = (
        a_job("A", lengths=[a_length_part("a", 900, job="A")], timber="bead"),
        a_job("B", lengths=[a_length_part("b", 900, job="B")]),
        a_job("C", lengths=[a_length_part("c", 900, job="C")]),
    )
    rack = Rack(
        lengths=(("timber", a_length_offcut("R1", 500)),),
        sheets=(("board", a_sheet_offcut("R2", 500, 500)),),
    )

    request = request_for_jobs(jobs, BOOK, rack, keep=a_keep(), seed=3, seconds=0.5)

    assert [item.material for item in request.lengths] == ["timber", "bead"]
    assert [part.id for part in request.lengths[0].parts] == ["b", "c"]
    assert [offcut.id for offcut in request.lengths[0].offcuts] == ["R1"]
    assert request.lengths[1].offcuts == ()
    # No part is cut from a board, so no board is asked for.
    assert request.sheets == ()
    assert (request.seed, request.seconds) == (3, 0.5)


def test_a_material_the_merchant_does_not_sell_is_refused_with_a_part_that_needs_it() -> None:
    (problem,) = problems_of(
        a_job("A", lengths=[a_length_part("A/upright", 900, job="A")], timber="oak")
    )

    assert "'oak'" in problem.field
    assert "'A/upright'" in problem.field
    assert "Demo Merchant" in problem.trouble


def test_timber_is_not_cut_from_a_board_nor_a_board_from_timber() -> None:
    lengths, boards = problems_of(
        a_job(
            "A",
            lengths=[a_length_part("A/upright", 900, job="A")],
            boards=[a_board_part("A/shelf", 900, 300, job="A")],
            timber="board",
            board="timber",
        )
    )

    assert "is not among the lengths" in lengths.trouble
    assert "is not among the sheets" in boards.trouble


def test_two_jobs_of_one_name_are_refused() -> None:
    part = a_length_part("a", 900, job="A")

    (problem,) = problems_of(a_job("A", lengths=[part]), a_job("A", lengths=[part]))

    assert (problem.field, problem.trouble) == ("job 'A'", "stands twice in the batch")


def test_rack_offcuts_of_unknown_material_are_refused_by_their_ids() -> None:
    rack = Rack(
        lengths=(("oak", a_length_offcut("R1", 900)),),
        sheets=(("cork", a_sheet_offcut("R2", 900, 900)), ("board", a_sheet_offcut("R3", 9, 9))),
    )

    first, second = problems_of(a_job("A", lengths=[a_length_part("a", 900)]), rack=rack)

    assert ("'R1'" in first.field, "'oak'" in first.trouble) == (True, True)
    assert ("'R2'" in second.field, "'cork'" in second.trouble) == (True, True)


def test_all_faults_of_a_batch_are_listed_at_once() -> None:
    jobs = (
        a_job("A", lengths=[a_length_part("a", 900)], timber="oak"),
        a_job("A", boards=[a_board_part("b", 9, 9)], board="cork"),
    )
    rack = Rack(lengths=(("ash", a_length_offcut("R1", 900)),))

    assert len(problems_of(*jobs, rack=rack)) == 4


def an_ended_frame() -> Frame:
    """A wall with a free end, higher than the shorter of its two sheets."""
    return framed(
        site=a_site(clear_width=tenths(3_600), height_left=tenths(2_700)),
        extent=an_extent(width=tenths(3_000), depth=tenths(362.5)),
    )


def test_an_end_joined_in_height_is_chosen_apart_from_the_front_and_the_plates() -> None:
    frame = an_ended_frame()

    job = job_of_frame(frame)

    assert [choice.id for choice in job.choices] == ["A/plates", "A/right end", "A/boarding"]
    (end,) = [choice for choice in frame.choices if choice.name == "right end"]
    tall, joined = end.ways
    assert [board.height for board in tall.boards] == [tenths(2_687)]
    assert sum(board.height for board in joined.boards) == tenths(2_687)
    assert max(board.height for board in joined.boards) <= tenths(2_400)
    # A joint wants a return behind it, tape over it and screws along both of its edges.
    top = min(board.box.z + board.box.dz for board in joined.boards)
    assert any(m.box.z < top < m.box.z + m.box.dz for m in joined.members)
    assert [tape.start.z for tape in joined.tapes] == [top]
    assert {one.item for one in joined.quantities} >= {"joint-tape", "drywall-screw"}


def test_every_mixture_of_ends_plates_and_boards_holds_and_is_counted_as_it_is_cut() -> None:
    frame = an_ended_frame()
    wall = a_wall(
        site=a_site(clear_width=tenths(3_600), height_left=tenths(2_700)),
        extent=an_extent(width=tenths(3_000), depth=tenths(362.5)),
    )

    for ways in itertools.product(*(range(len(choice.ways)) for choice in frame.choices)):
        mixed = frame_of(frame, frame.choices, list(ways))
        assert inspect_frame(mixed, wall) == (), mixed.boarding


def test_an_end_no_higher_than_the_shortest_sheet_leaves_nothing_to_choose() -> None:
    frame = framed(site=a_site(clear_width=tenths(3_000)), extent=an_extent(width=tenths(2_400)))

    assert "right end" not in {choice.name for choice in frame.choices}
