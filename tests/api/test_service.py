"""The service: plans, batches and checks over HTTP, with drawings and orders to fetch."""

from __future__ import annotations

import csv
import io
from typing import Any
from xml.etree import ElementTree

import pytest

import optimiser as lib
from api.drawings import safe_names
from tests.api.bodies import Caller, a_batch_body, a_request_body, a_service, the_problem

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service())


@pytest.fixture(scope="module")
def batch(service: Caller) -> dict[str, Any]:
    answer = service.post("/v1/batches", a_batch_body(compare=True))
    assert answer.status_code == 201, answer.text
    document = answer.json()
    assert isinstance(document, dict)
    return document


@pytest.fixture(scope="module")
def plan(service: Caller) -> dict[str, Any]:
    answer = service.post("/v1/plans", a_request_body())
    assert answer.status_code == 201, answer.text
    document = answer.json()
    assert isinstance(document, dict)
    return document


def test_the_service_says_that_it_answers(service: Caller) -> None:
    assert service.get("/health").json() == {"status": "ok"}


def test_a_cutting_request_is_answered_with_a_checked_plan(plan: dict[str, Any]) -> None:
    request = lib.request_from_document(plan["request"], name="request")
    made = lib.plan_from_document(plan["plan"], name="plan")

    assert lib.check_plan(request, made) == ()
    assert request == lib.request_from_document(a_request_body(), name="request")
    assert plan["order"] is None


def test_a_plan_is_found_again_by_its_id(service: Caller, plan: dict[str, Any]) -> None:
    assert service.get(f"/v1/plans/{plan['id']}").json() == plan


@pytest.mark.parametrize("made", ["plan", "batch"])
def test_every_diagram_that_is_listed_is_a_drawing(
    service: Caller, request: pytest.FixtureRequest, made: str
) -> None:
    document = request.getfixturevalue(made)

    listed = service.get(f"/v1/plans/{document['id']}/diagrams").json()["diagrams"]

    names = [item["name"] for item in listed]
    assert names
    assert len(set(names)) == len(names)
    for item in listed:
        answer = service.get(item["href"])
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "image/svg+xml"
        assert ElementTree.fromstring(answer.content).tag == f"{SVG}svg"


def test_a_batch_has_drawings_of_its_walls_and_of_its_cutting(
    service: Caller, batch: dict[str, Any]
) -> None:
    listed = service.get(f"/v1/plans/{batch['id']}/diagrams").json()["diagrams"]

    titles = {item["title"] for item in listed}
    assert {"Job A: frame", "Job A: boards"} <= titles
    sheets = batch["plan"]["sheets"]
    layouts = sum(len(item["layouts"]) for item in sheets)
    assert sum(", layout " in title for title in titles) == layouts > 0
    for material in batch["plan"]["lengths"]:
        assert any(title.startswith(f"{material['material']}, page 1") for title in titles)


def test_a_batch_is_answered_with_plan_order_shares_and_comparison(batch: dict[str, Any]) -> None:
    request = lib.request_from_document(batch["request"], name="request")
    made = lib.plan_from_document(batch["plan"], name="plan")
    assert lib.check_plan(request, made) == ()
    (share,) = batch["shares"]
    assert (share["job"], share["cost"]) == ("A", batch["plan"]["net_cost"])
    ways = {"one_by_one", "first_options", "decided_alone", "together", "with_rack"}
    assert set(batch["comparison"]) == ways
    together = batch["comparison"]["together"]
    for poorer in ("one_by_one", "first_options", "decided_alone"):
        assert float(together["net_cost"]) <= float(batch["comparison"][poorer]["net_cost"])
    assert batch["comparison"]["with_rack"]["purchase"] == batch["plan"]["purchase"]
    (wall,) = batch["walls"]
    assert wall["job"] == "A"


def test_a_batch_is_compared_only_when_asked(service: Caller) -> None:
    answer = service.post("/v1/batches", a_batch_body())

    assert (answer.status_code, answer.json()["comparison"]) == (201, None)


def test_the_order_is_the_same_as_values_and_as_csv(service: Caller, batch: dict[str, Any]) -> None:
    order = service.get(f"/v1/plans/{batch['id']}/order").json()
    answer = service.get(f"/v1/plans/{batch['id']}/order.csv")

    assert order == batch["order"]
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    head, *rows = csv.reader(io.StringIO(answer.text))
    lines = [dict(zip(head, row, strict=True)) for row in rows[:-3]]
    assert [(line["item"], int(line["quantity"]), line["line_total"]) for line in lines] == [
        (line["item"], line["quantity"], line["line_total"]) for line in order["lines"]
    ]
    assert [row[5] for row in rows[-3:]] == [order["net"], order["vat"], order["total"]]


def test_a_sound_plan_passes_its_check(service: Caller, plan: dict[str, Any]) -> None:
    answer = service.post("/v1/checks", {"request": plan["request"], "plan": plan["plan"]})

    assert (answer.status_code, answer.json()) == (200, {"sound": True, "faults": []})


def faults_of(service: Caller, request: object, plan: object) -> str:
    answer = service.post("/v1/checks", {"request": request, "plan": plan})
    assert answer.status_code == 200, answer.text
    found = answer.json()
    assert found["sound"] is False
    assert all(fault["where"] and fault["what"] for fault in found["faults"])
    return " ".join(f"{fault['where']} {fault['what']}" for fault in found["faults"])


def test_a_part_that_was_moved_is_found(service: Caller) -> None:
    made = service.post("/v1/plans", a_request_body()).json()
    part = made["plan"]["lengths"][0]["layouts"][0]["parts"][0]
    part["start_mm"] += 1

    assert "A/upright-1" in faults_of(service, made["request"], made["plan"])


def test_a_penny_too_few_is_found(service: Caller) -> None:
    made = service.post("/v1/plans", a_request_body()).json()
    pence = round(100 * float(made["plan"]["net_cost"])) - 1
    made["plan"]["net_cost"] = f"{pence // 100}.{pence % 100:02d}"

    assert faults_of(service, made["request"], made["plan"])


def test_one_plan_never_passes_for_another_request(service: Caller, plan: dict[str, Any]) -> None:
    request = a_request_body()
    request["lengths"][0]["parts"][0]["quantity"] = 5

    assert faults_of(service, request, plan["plan"])


def test_names_with_signs_of_markup_stand_in_drawings_as_plain_text(service: Caller) -> None:
    script = "<script>alert('&\"')</script>"
    body = a_request_body()
    body["lengths"][0]["material"] = script
    for kind in ("lengths", "sheets"):
        body[kind][0]["parts"][0] |= {"id": f"{kind}{script}", "job": script}
        body[kind][0]["stock"][0]["id"] = script
    made = service.post("/v1/plans", body)
    assert made.status_code == 201, made.text

    listed = service.get(f"/v1/plans/{made.json()['id']}/diagrams").json()["diagrams"]

    written = ""
    for item in listed:
        drawing = service.get(item["href"])
        assert drawing.status_code == 200
        assert "<script" not in drawing.text
        root = ElementTree.fromstring(drawing.content)
        assert not list(root.iter(f"{SVG}script"))
        written += "".join(root.itertext())
    assert "<script>" in written


def test_texts_that_look_alike_as_files_are_numbered() -> None:
    # "a 2" has its own name already when the second "a" is numbered.
    named = safe_names(["A", "a 2", "a", "?", "!", "A"])

    assert named == {"A": "a", "a 2": "a-2", "a": "a-3", "?": "unnamed", "!": "unnamed-2"}


def test_materials_whose_names_look_alike_as_files_keep_all_their_diagrams(service: Caller) -> None:
    body = a_request_body(sheets=[])
    first = body["lengths"][0]
    body["lengths"] = [
        {**first, "material": name, "parts": [{**first["parts"][0], "id": f"part {number}"}]}
        for number, name in enumerate(("C16 38×63", "c16-38-63", "木", "材"))
    ]
    made = service.post("/v1/plans", body)
    assert made.status_code == 201, made.text

    listed = service.get(f"/v1/plans/{made.json()['id']}/diagrams").json()["diagrams"]

    for material in body["lengths"]:
        assert [item for item in listed if item["title"].startswith(f"{material['material']}, ")]
    assert len({item["name"].casefold() for item in listed}) == len(listed)


@pytest.mark.parametrize(
    "path",
    [
        "/v1/plans/none",
        "/v1/plans/none/diagrams",
        "/v1/plans/none/diagrams/x.svg",
        "/v1/plans/none/order",
        "/v1/plans/none/order.csv",
        "/nowhere",
    ],
)
def test_what_is_not_there_is_told_as_a_problem(service: Caller, path: str) -> None:
    the_problem(service.get(path), status=404, kind="http-404")


def test_a_diagram_that_a_plan_does_not_have_is_not_found(
    service: Caller, plan: dict[str, Any]
) -> None:
    answer = service.get(f"/v1/plans/{plan['id']}/diagrams/none.svg")

    assert "'none'" in the_problem(answer, status=404, kind="http-404")["title"]


def test_a_plan_of_a_cutting_request_has_no_order(service: Caller, plan: dict[str, Any]) -> None:
    for ending in ("order", "order.csv"):
        the_problem(service.get(f"/v1/plans/{plan['id']}/{ending}"), status=404, kind="http-404")


def test_a_wrong_method_is_told_with_the_right_ones(service: Caller) -> None:
    answer = service.ask("DELETE", "/v1/plans")

    the_problem(answer, status=405, kind="http-405")
    assert answer.headers["allow"] == "GET, POST"
