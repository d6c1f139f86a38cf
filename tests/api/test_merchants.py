"""Several merchants for a batch, by service and command line: one order or two, as CSV and XML."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from api.cli import main
from api.demo_run import SCENARIO
from api.examples import EXAMPLES
from tests.api.bodies import Caller, a_batch_body, a_service, the_problem

VALUE = "{urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2}"


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service())


def two_books() -> tuple[dict[str, Any], dict[str, Any]]:
    """Give two merchants' books, one selling lengths and the other sheets for a fifth."""
    first = copy.deepcopy(EXAMPLES["batch"]["prices"])
    second = copy.deepcopy(first)
    second["merchant"] = "Another"
    for item in (*second["lengths"], *first["sheets"]):
        for stock in item["stock"]:
            stock["price"] = f"{float(stock['price']) / 5:.2f}"
    return first, second


@pytest.fixture(scope="module")
def split(service: Caller) -> dict[str, Any]:
    first, second = two_books()
    body = a_batch_body(merchants=[first, second], split_saves="1.00")
    del body["prices"]
    answer = service.post("/v1/batches", body)
    assert answer.status_code == 201, answer.text
    found = answer.json()
    assert isinstance(found, dict)
    return found


def test_a_batch_split_between_two_merchants_gives_an_order_for_each(
    service: Caller, split: dict[str, Any]
) -> None:
    merchants = [order["merchant"] for order in split["orders"]]
    assert merchants == [EXAMPLES["batch"]["prices"]["merchant"], "Another"]
    total = sum(round(100 * float(order["total"])) for order in split["orders"])
    assert total == round(100 * float(split["merchants"]["total"]))
    assert split["merchants"]["cheapest_split"] == split["merchants"]["total"]

    kept = service.get(f"/v1/orders?plan={split['id']}").json()["items"]
    documents = [service.get(f"/v1/orders/{row['id']}").json()["order"] for row in kept]

    assert sorted(order["merchant"] for order in documents) == sorted(merchants)


def test_both_orders_are_placed_and_withdrawn_with_their_plan(
    service: Caller, split: dict[str, Any]
) -> None:
    def states() -> set[str]:
        rows = service.get(f"/v1/orders?plan={split['id']}").json()["items"]
        assert len(rows) == 2
        return {row["state"] for row in rows}

    assert states() == {"draft"}
    assert service.post(f"/v1/plans/{split['id']}/confirm").status_code == 200
    assert states() == {"placed"}
    assert service.post(f"/v1/plans/{split['id']}/undo").status_code == 200
    assert states() == {"withdrawn"}


def test_an_order_is_answered_as_ubl(service: Caller, split: dict[str, Any]) -> None:
    for row in service.get(f"/v1/orders?plan={split['id']}").json()["items"]:
        answer = service.get(f"/v1/orders/{row['id']}/order.xml?buyer=A%20Fitter")
        assert answer.headers["content-type"] == "application/xml"
        plain = service.get(f"/v1/orders/{row['id']}/order.csv")
        assert plain.text.startswith("line,item,")
        root = ElementTree.fromstring(answer.text)
        assert root.findtext(f"{VALUE}ID") == row["id"]
        assert "A Fitter" in [name.text for name in root.iter(f"{VALUE}Name")]


def test_kept_price_books_serve_as_merchants(service: Caller) -> None:
    for book, name in zip(two_books(), ("one", "two"), strict=True):
        assert service.put(f"/v1/price-books/{name}", book).status_code == 201
    body = a_batch_body(price_books=["one", "two"], split_saves="100000")
    del body["prices"]

    answer = service.post("/v1/batches", body).json()

    assert len(answer["orders"]) == 1
    quoted = {quote["merchant"]: quote["total"] for quote in answer["merchants"]["quotes"]}
    assert answer["orders"][0]["total"] == min(quoted.values(), key=float)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"split_saves": "much"}, "body.split_saves"),
        ({"merchants": {}}, "body.merchants"),
        ({"merchants": [{}] * 11}, "body.merchants"),
        ({"merchants": [{"merchant": 3}]}, "body.merchants[0]"),
    ],
)
def test_bad_merchants_are_refused_by_name(
    service: Caller, changes: dict[str, Any], field: str
) -> None:
    answer = service.post("/v1/batches", a_batch_body(**changes))

    problems = the_problem(answer, status=422, kind="invalid-input")["problems"]
    assert any(problem["field"].startswith(field) for problem in problems)


def test_two_price_books_on_the_command_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (SCENARIO / "price-book.toml").read_text(encoding="utf-8")
    other = text.replace('"Demo Merchant"', '"Another"').replace('"3.58"', '"1.58"')
    terms = '\n[order]\ndelivery = "12.00"\ndelivery_free_over = "2000"\n'
    (tmp_path / "other.toml").write_text(other + terms, encoding="utf-8")
    (tmp_path / "parts.csv").write_text(
        "mark,material,length (mm),qty\na,c16-38x63,2100,12\nb,corner-bead,900,2\n", "utf-8"
    )
    given = [tmp_path / "parts.csv", "--prices", SCENARIO / "price-book.toml"]
    given += ["--prices", tmp_path / "other.toml", "--out", tmp_path / "out", "--buyer", "A Fitter"]

    code = main([str(one) for one in ("plan", *given, "--seconds", 0.3, "--split-saves", 5)])

    assert code == 0
    said = capsys.readouterr().out
    assert "ordered from Another" in said
    order = json.loads((tmp_path / "out" / "order.json").read_text(encoding="utf-8"))
    assert [line["item"] for line in order["lines"]][-1] == "delivery"
    assert (tmp_path / "out" / "order.xml").exists()
    assert not (tmp_path / "out" / "order-2.csv").exists()
