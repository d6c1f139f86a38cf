"""What came for an order, written down on its page; and the way on when a piece is missing."""

from __future__ import annotations

import json
import urllib.request
from typing import Any

from playwright.sync_api import Page, expect

from tests.api.bodies import a_batch_body


def post(address: str, path: str, body: object = None) -> Any:
    sent = urllib.request.Request(
        f"{address}{path}",
        data=json.dumps(body).encode(),
        headers={"Content-Type": "application/json"},
        method="POST",
    )
    with urllib.request.urlopen(sent) as answer:
        return json.load(answer)


def test_what_came_is_written_down_and_the_rest_planned_anew(desk: Page, address: str) -> None:
    plan = post(address, "/v1/batches", a_batch_body(rack=[]))["id"]
    post(address, f"/v1/plans/{plan}/confirm?place=van")
    desk.goto(f"/plans/{plan}/order")
    desk.get_by_text("Write down what came").first.click()
    board = desk.locator(".came-line", has_text="Plasterboard 12.5")
    board.get_by_label("came damaged").fill("1")
    desk.get_by_role("button", name="All of it came good").click()
    desk.get_by_role("button", name="Write down what came").click()

    said = desk.locator(".receiving [role=status]")
    expect(said).to_contain_text("The order is")
    expect(said).to_contain_text("1 piece came damaged")
    expect(desk.locator("#state")).to_have_text("part received")
    said.get_by_role("link", name="look at the new plan").click()
    expect(desk.locator("#diagrams figure").first).to_be_visible()

    # Too many: the page says so and the delivery is not there.
    desk.goto(f"/plans/{plan}/order")
    row = desk.locator(".came-line").first
    row.get_by_label("came good").evaluate("field => { field.removeAttribute('max'); }")
    row.get_by_label("came good").fill("999")
    desk.get_by_role("button", name="Write down what came").click()
    expect(desk.locator(".receiving .fault")).to_contain_text("speaks of 999")
    expect(desk.get_by_text("Deliveries so far")).to_be_visible()
    assert desk.locator(".receiving tbody tr").count() == 1
