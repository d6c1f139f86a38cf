"""Which jobs to bring together: asked for on a page, watched, stopped, and read as a table."""

from __future__ import annotations

import base64
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.pages.test_order import post

# Far off, so that the days never come to lie in the past.
NEEDED = {"porch": "2099-12-03", "shelf": "2099-12-04", "far": "2099-12-18"}


@pytest.fixture(scope="module")
def jobs(address: str) -> tuple[str, ...]:
    """Keep three jobs of one timber: two of them are needed in the same week."""
    for name, needed in NEEDED.items():
        rows = "mark,material,length_mm,qty\n" + f"U1,c16-38x63,{900 + 100 * len(name)},3\n"
        content = base64.b64encode(rows.encode()).decode()
        post(
            address,
            "/v1/part-lists",
            {"name": "parts.csv", "job": name, "needed": needed, "content": content},
        )
    return tuple(NEEDED)


def choose(page: Page, jobs: tuple[str, ...]) -> None:
    page.goto("/batch/deliveries")
    page.wait_for_selector("#jobs input")
    for box in page.locator("#jobs input[type=checkbox]").all():
        box.uncheck()
    for job in jobs:
        page.get_by_role("checkbox", name=job).check()


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_jobs_that_may_come_together_do_where_a_delivery_costs_much(
    request: pytest.FixtureRequest, shots: Path, size: str, jobs: tuple[str, ...]
) -> None:
    page: Page = request.getfixturevalue(size)
    choose(page, jobs)
    page.get_by_label("A delivery costs").fill("45,00")
    page.get_by_label("At most").select_option("2")
    page.get_by_role("button", name="Plan deliveries").click()

    found = page.get_by_label("Deliveries found")
    expect(found.get_by_role("heading", level=2)).to_have_text("2 deliveries")
    rows = found.locator("tbody tr")
    expect(rows).to_have_count(2)
    expect(rows.nth(0)).to_contain_text("porch, shelf")
    expect(rows.nth(0)).to_contain_text("£45.00")
    expect(rows.nth(1)).to_contain_text("far")
    expect(found).to_contain_text("less than one delivery for each job")
    page.screenshot(path=shots / f"deliveries-found-{size}.png", full_page=True)
    rows.nth(0).get_by_role("link").click()
    page.wait_for_selector("#jobs input")
    expect(page.locator("#jobs input:checked")).to_have_count(2)


def test_a_long_run_is_watched_and_stopped(desk: Page, shots: Path, jobs: tuple[str, ...]) -> None:
    choose(desk, jobs)
    desk.get_by_label("At most").select_option("600")
    desk.get_by_role("button", name="Plan deliveries").click()
    stop = desk.locator("#run button")
    ended = desk.locator("#run .tag", has_text="finished")
    expect(stop.or_(ended).first).to_be_visible()
    desk.screenshot(path=shots / "deliveries-running-desk.png")
    if stop.is_visible():
        stop.click(force=True)

    expect(desk.locator("#run .tag")).to_have_text(re.compile("finished|stopped"))
    expect(desk.locator("#run button")).to_have_count(0)


def test_what_is_wrong_is_said_beside_its_field(desk: Page, jobs: tuple[str, ...]) -> None:
    choose(desk, jobs)
    desk.get_by_label("A delivery costs").fill("a lot")
    desk.get_by_label("Carries, kg").fill("-3")
    desk.get_by_label("Job far needed on").fill("2001-01-01")
    desk.get_by_role("button", name="Plan deliveries").click()

    expect(desk.locator("#charge-problem")).to_be_visible()
    expect(desk.locator("#van-mass-problem")).to_be_visible()
    desk.get_by_label("A delivery costs").fill("35")
    desk.get_by_label("Carries, kg").fill("")
    desk.get_by_label("At most").select_option("2")
    desk.get_by_role("button", name="Plan deliveries").click()
    expect(desk.locator("#charge-problem")).to_have_count(0)
    expect(desk.locator(".at-field")).to_contain_text("is before today")
