"""Documents over HTTP: each route answers its file, to its own firm, under a safe name."""

from __future__ import annotations

import io
import json

import openpyxl
import pytest

from api.examples import EXAMPLES
from api.over_time import rack_moments, time_marks
from api.planned_walls import planned_walls
from api.store.history import RackStep
from api.store.refusals import Conflict
from tests.api.bodies import Caller, a_batch_body, a_request_body, a_service, the_problem
from tests.api.test_firms import a_key
from tests.documents.reading import Pdf

FILES = {
    "booklet.pdf": "application/pdf",
    "labels.pdf": "application/pdf",
    "walls.pdf": "application/pdf",
    "order.pdf": "application/pdf",
    "order.xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "delivery-note.pdf": "application/pdf",
    "parts.csv": "text/csv; charset=utf-8",
    "parts.xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "cuts.csv": "text/csv; charset=utf-8",
    "plan.xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "layouts.dxf": "image/vnd.dxf",
    "plots/waste.svg": "image/svg+xml",
    "plots/money.svg": "image/svg+xml",
}
STARTS = {"application/pdf": b"%PDF-1.", "image/svg+xml": b"<svg", "image/vnd.dxf": b"  0\nSECTION"}


@pytest.fixture(scope="module")
def ours() -> Caller:
    return Caller(a_service())


@pytest.fixture(scope="module")
def plan(ours: Caller) -> str:
    return str(ours.post("/v1/batches", a_batch_body()).json()["id"])


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_a_plan_comes_as_what_it_is_under_a_safe_name(
    ours: Caller, plan: str, name: str
) -> None:
    answer = ours.get(f"/v1/plans/{plan}/{name}")

    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == FILES[name]
    assert answer.content.startswith(STARTS.get(FILES[name], b"")), answer.content[:20]
    way, file = answer.headers["content-disposition"].split("; filename=")
    assert way == ("inline" if name.endswith(("pdf", "svg")) else "attachment")
    assert file.strip('"').endswith(name.rsplit(".", 1)[1])
    assert set(file.strip('"')) <= set("abcdefghijklmnopqrstuvwxyz0123456789-.")


def test_the_order_carries_its_number_and_the_sums_of_the_order_that_is_kept(
    ours: Caller, plan: str
) -> None:
    order = ours.get(f"/v1/plans/{plan}/order").json()
    number = plan.replace("plan-", "order-")

    (text,) = Pdf(ours.get(f"/v1/plans/{plan}/order.pdf").content).words
    book = openpyxl.load_workbook(io.BytesIO(ours.get(f"/v1/plans/{plan}/order.xlsx").content))

    assert number in text
    assert f"total, GBP {order['total']}" in text
    assert book["order"].max_row == len(order["lines"]) + 4


def test_walls_and_delivery_note_are_of_the_walls_as_planned(ours: Caller, plan: str) -> None:
    walls = Pdf(ours.get(f"/v1/plans/{plan}/walls.pdf?paper=a3").content)
    note = " ".join(Pdf(ours.get(f"/v1/plans/{plan}/delivery-note.pdf").content).words)
    request = ours.get(f"/v1/plans/{plan}").json()["request"]

    assert walls.papers == {(297, 420)}
    assert walls.words[0].startswith("Set-out sheet, job A")
    assert "screw-80" in note
    for part in request["lengths"][0]["parts"]:
        assert note.count(f" {part['id']} ") == 1


def test_walls_that_would_be_framed_otherwise_are_not_drawn(ours: Caller, plan: str) -> None:
    kept = ours.get(f"/v1/plans/{plan}").json()
    body = a_batch_body()
    body["walls"][0]["wall"]["depth_mm"] = 320
    request, made = json.dumps(kept["request"]), json.dumps(kept["plan"])

    assert planned_walls(json.dumps(a_batch_body()), request=request, plan=made).jobs
    with pytest.raises(Conflict, match="makes other parts"):
        planned_walls(json.dumps(body), request=request, plan=made)


def test_labels_take_the_users_own_sheet_and_begin_where_it_is_still_full(
    ours: Caller, plan: str
) -> None:
    sheet = "columns=2&rows=5&label_width_mm=99&label_height_mm=57&left_mm=5&top_mm=6"
    usual = Pdf(ours.get(f"/v1/plans/{plan}/labels.pdf").content)
    count = sum(words.count("layout ") for words in usual.words)

    own = Pdf(ours.get(f"/v1/plans/{plan}/labels.pdf?{sheet}&first_label=10").content)

    assert len(own.pages) == 1 + -(-(count - 1) // 10)
    assert own.words[0].count("layout ") == 1


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("columns=9", "label_width_mm"),
        ("columns=9&rows=9&label_width_mm=99&label_height_mm=57&left_mm=5&top_mm=6", "columns"),
        ("first_label=22", "first label"),
        ("saw_address=javascript:alert(1)", "saw_address"),
        ("label_width_mm=nan", "label_width_mm"),
    ],
)
def test_a_sheet_of_labels_that_cannot_be_is_refused_by_field(
    ours: Caller, plan: str, query: str, field: str
) -> None:
    answer = ours.get(f"/v1/plans/{plan}/labels.pdf?{query}")

    assert answer.status_code == 422
    assert any(field in problem["field"] for problem in answer.json()["problems"])


def test_a_paper_that_nobody_has_is_refused(ours: Caller, plan: str) -> None:
    assert ours.get(f"/v1/plans/{plan}/booklet.pdf?paper=a0").status_code == 422


def test_a_plan_of_a_cutting_request_has_no_order_walls_or_delivery_note(ours: Caller) -> None:
    bare = ours.post("/v1/plans", a_request_body()).json()["id"]

    for name in ("order.pdf", "order.xlsx", "delivery-note.pdf", "walls.pdf"):
        the_problem(ours.get(f"/v1/plans/{bare}/{name}"), status=404, kind="http-404")
    assert ours.get(f"/v1/plans/{bare}/booklet.pdf").status_code == 200


def test_offcuts_get_labels_all_of_them_or_those_named() -> None:
    here = Caller(a_service())
    the_problem(here.get("/v1/rack/labels.pdf"), status=422, kind="invalid-input")
    put = [*EXAMPLES["rack"], {"id": "R2", "material": "mdf-12", "width_mm": 610, "height_mm": 900}]
    assert here.post("/v1/rack", put).status_code == 201

    every = Pdf(here.get("/v1/rack/labels.pdf").content)
    one = Pdf(here.get("/v1/rack/labels.pdf?offcut=R2").content)

    assert sorted(every.codes()) == ["R1", "R2"]
    assert one.codes() == ["R2"]
    assert "610 × 900" in one.words[0]
    the_problem(here.get("/v1/rack/labels.pdf?offcut=R9"), status=404, kind="http-404")
    the_problem(here.get("/v1/rack/labels.pdf?plan=plan-none"), status=404, kind="http-404")


def test_offcuts_that_a_plan_racked_get_labels_of_their_own(ours: Caller) -> None:
    body = a_request_body()
    body["lengths"][0]["parts"] = [{"id": "P", "job": "A", "length_mm": 800, "quantity": 1}]
    body["lengths"][0]["offcuts"] = []
    made = ours.post("/v1/plans", body).json()["id"]
    racked = ours.post(f"/v1/plans/{made}/confirm").json()["racked"]

    labels = Pdf(ours.get(f"/v1/rack/labels.pdf?plan={made}").content)

    assert racked
    assert sorted(labels.codes()) == sorted(piece["id"] for piece in racked)


def test_plots_of_the_firm_show_its_plans_and_its_rack(ours: Caller, plan: str) -> None:
    batches = ours.get("/v1/plots/batches.svg")
    rack = ours.get("/v1/plots/rack.svg")

    assert plan[-6:] in batches.text
    assert "The rack over time" in rack.text
    assert Caller(a_service()).get("/v1/plots/rack.svg").status_code == 200


def test_files_of_lists_show_nothing_of_another_firm() -> None:
    app = a_service(public=True, rate=1e6)
    ours, theirs = Caller(app, a_key(app, "ours")), Caller(app, a_key(app, "theirs"))
    plan = ours.post("/v1/plans", a_request_body()).json()["id"]
    assert ours.post("/v1/rack", EXAMPLES["rack"]).status_code == 201

    assert plan[-6:] in ours.get("/v1/plots/batches.svg").text
    assert plan[-6:] not in theirs.get("/v1/plots/batches.svg").text
    assert "now 1 length" in ours.get("/v1/plots/rack.svg").text
    assert "now 0 lengths" in theirs.get("/v1/plots/rack.svg").text
    the_problem(theirs.get("/v1/rack/labels.pdf"), status=422, kind="invalid-input")
    the_problem(theirs.get(f"/v1/rack/labels.pdf?plan={plan}"), status=404, kind="http-404")
    nobody = Caller(app, a_key(app, "ours", "plan"))
    the_problem(nobody.get(f"/v1/plans/{plan}/booklet.pdf"), status=403, kind="http-403")


def a_step(at: float, on_rack: int, held: int, *, length: int | None = 10_000) -> RackStep:
    size = None if length is not None else 6_000
    return RackStep(at=at, on_rack=on_rack, held=held, length=length, width=size, height=size)


def test_the_rack_is_the_sum_of_its_steps() -> None:
    moments = rack_moments(
        [a_step(1, 1, 0), a_step(1, 1, 0, length=None), a_step(5, 0, 1), a_step(9, -1, -1)]
    )

    assert [(m.at, m.lengths, m.boards, m.length, m.held_length) for m in moments] == [
        (1, 1, 1, 10_000, 0),
        (5, 1, 1, 10_000, 10_000),
        (9, 0, 1, 0, 0),
    ]
    assert moments[-1].area == 36_000_000


@pytest.mark.parametrize("span", [1.0, 3600.0, 90_000.0, 10 * 86_400.0, 900 * 86_400.0])
def test_marks_of_time_are_few_and_within_the_span(span: float) -> None:
    marks = time_marks(1_700_000_000.0, 1_700_000_000.0 + span)

    assert len(marks) <= 7
    assert all(1_700_000_000.0 <= at <= 1_700_000_000.0 + span for at, _ in marks)
    assert [at for at, _ in marks] == sorted({at for at, _ in marks})
