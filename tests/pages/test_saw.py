"""At the saw with a phone: ticks that outlive a lost signal, two phones, and a mishap."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, Literal

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from tests.pages.conftest import a_page
from tests.pages.test_every_page import AXE, RUN

WOOD = "c16-38x63"
Scheme = Literal["light", "dark"]
PHONE: ViewportSize = {"width": 360, "height": 740}


def a_phone(browser: Browser, address: str, scheme: Scheme = "light") -> BrowserContext:
    context = browser.new_context(viewport=PHONE, base_url=address, color_scheme=scheme)
    context.set_default_timeout(60_000)
    return context


@pytest.fixture
def phone_context(browser: Browser, address: str) -> Any:
    context = a_phone(browser, address)
    yield context
    context.close()


def a_plan(context: BrowserContext) -> str:
    """Confirm a plan of three lengths, each with two parts and an offcut: three cuts apiece."""
    section = {
        "material": WOOD,
        "kerf_mm": 3,
        "stock": [{"id": "2400", "length_mm": 2400, "price": "3.60"}],
        "parts": [{"id": "A/N1", "job": "A", "length_mm": 900, "quantity": 6}],
    }
    keep = {"length_mm": 500, "width_mm": 300, "height_mm": 300, "credit": "0.5"}
    body = {"seconds": 0.1, "keep": keep, "lengths": [section]}
    plan = str(context.request.post("/v1/plans", data=body).json()["id"])
    assert context.request.post(f"/v1/plans/{plan}/confirm").ok
    return plan


def opened(context: BrowserContext, plan: str) -> Page:
    page = a_page(context)
    page.goto(f"/saw/{plan}")
    expect(page.locator("#saw-sync")).to_have_text("all sent")
    # From now on the page comes from the phone itself.
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    return page


def marks(context: BrowserContext, plan: str) -> dict[str, Any]:
    found = context.request.get(f"/v1/plans/{plan}/marks").json()
    assert isinstance(found, dict)
    return found


def tick(page: Page, then: str) -> None:
    """Tick the cut shown, and see what the button says next."""
    page.locator("#saw-tick").click()
    expect(page.locator("#saw-tick")).to_have_text(then)


def test_ticks_made_without_a_signal_are_kept_over_a_reload_and_sent_once(
    phone_context: BrowserContext, shots: Path
) -> None:
    plan = a_plan(phone_context)
    page = opened(phone_context, plan)
    expect(page.locator("#saw-figure")).to_have_text("900 mm")
    page.screenshot(path=shots / "saw-360.png")

    phone_context.set_offline(True)
    tick(page, "Cut 2 made")
    expect(page.locator("#saw-figure")).to_have_text("1803 mm")
    page.locator("#saw-undo").click()
    expect(page.locator("#saw-tick")).to_have_text("Cut 1 made")
    tick(page, "Cut 2 made")
    page.reload()
    expect(page.locator("#saw-tick")).to_have_text("Cut 2 made")
    expect(page.locator("#saw-sync")).to_have_text(re.compile("3 to send"))
    phone_context.set_offline(False)
    expect(page.locator("#saw-sync")).to_have_text("all sent")

    kinds = [one["kind"] for one in marks(phone_context, plan)["ticks"]]
    assert sorted(kinds) == ["cut", "cut", "undo"]
    page.reload()
    expect(page.locator("#saw-sync")).to_have_text("all sent")
    found = marks(phone_context, plan)
    assert len(found["ticks"]) == 3
    assert [(one["piece"], one["cuts"]) for one in found["pieces"]] == [(1, 1)]
    # A browser tells of each call that found no signal; of nothing else.
    assert [fault for fault in page.faults if "DISCONNECTED" not in fault] == []  # type: ignore[attr-defined]  # set by a_page


def test_a_fault_goes_from_the_screen_once_it_is_mended(phone_context: BrowserContext) -> None:
    plan = a_plan(phone_context)
    page = opened(phone_context, plan)
    path = f"**/v1/plans/{plan}/marks"
    away = {"title": "The store does not answer", "status": 503, "detail": "Ask again soon"}

    page.route(path, lambda route: route.fulfill(status=503, json=away))
    tick(page, "Cut 2 made")
    expect(page.locator("#fault .fault")).to_contain_text("does not answer")
    expect(page.locator("#saw-sync")).to_have_text("1 to send")
    page.unroute(path)
    page.evaluate("() => window.dispatchEvent(new Event('online'))")

    expect(page.locator("#saw-sync")).to_have_text("all sent")
    expect(page.locator("#fault .fault")).to_have_count(0)

    # What a planner was refused stays for him to read, until he does the next thing.
    refused = {"title": "Not now", "status": 409, "detail": "Somebody else plans it"}
    replan = f"**/v1/plans/{plan}/replan"
    page.route(replan, lambda route: route.fulfill(status=409, json=refused))
    page.locator("#saw-wrong").click()
    page.get_by_role("button", name="Plan the rest anew").click()
    expect(page.locator("#fault .fault")).to_contain_text("Not now")
    with page.expect_response(path):
        page.evaluate("() => window.dispatchEvent(new Event('online'))")
    expect(page.locator("#fault .fault")).to_contain_text("Not now")
    tick(page, "Cut 1 made")  # of the next piece
    expect(page.locator("#fault .fault")).to_have_count(0)


def test_a_spoiled_part_leads_to_a_plan_that_goes_on(
    phone_context: BrowserContext, shots: Path
) -> None:
    plan = a_plan(phone_context)
    page = opened(phone_context, plan)
    tick(page, "Cut 2 made")
    page.locator("#saw-wrong").click()
    page.get_by_role("button", name="Spoiled: A/N1").click()
    expect(page.locator("#saw-drawing .spoiled")).to_have_count(1)
    page.locator("#saw-wrong").click()
    page.screenshot(path=shots / "saw-wrong-360.png")

    page.get_by_role("button", name="Plan the rest anew").click()

    page.wait_for_url(lambda url: "/saw/" in url and plan not in url)
    expect(page.locator("#saw-figure")).to_have_text(re.compile(r"\d+ mm"))
    new = re.findall(r"/saw/([^#]+)", page.url)[0]
    rest = phone_context.request.get(f"/v1/plans/{new}").json()
    cut = [part["part"] for layout in rest["plan"]["lengths"][0]["layouts"] for part in
           layout["parts"] * layout["count"]]  # fmt: skip
    assert cut == ["A/N1"] * 6
    assert marks(phone_context, plan)["continued_by"] == new

    # What was bought for the first plan is in hand, and not bought again.
    page.goto(f"/plans/{new}")
    row = page.locator("#usage tbody tr").first
    expect(row).to_be_visible()
    heads = page.locator("#usage thead th").all_text_contents()
    cells = dict(zip(heads, row.locator("td, th").all_text_contents(), strict=True))
    assert int(cells["bought"]) == round(float(rest["plan"]["purchase"]) / 3.60)
    assert int(cells["in hand"]) == 2


def test_two_phones_that_say_otherwise_are_both_shown_it(browser: Browser, address: str) -> None:
    one, two = a_phone(browser, address), a_phone(browser, address)
    plan = a_plan(one)
    pages = [opened(context, plan) for context in (one, two)]
    two.set_offline(True)
    tick(pages[0], "Cut 2 made")
    expect(pages[0].locator("#saw-sync")).to_have_text("all sent")
    pages[1].locator("#saw-wrong").click()
    pages[1].get_by_role("button", name="This piece did not come").click()

    two.set_offline(False)

    expect(pages[1].locator("#saw-warn")).to_contain_text("Ticks contradict")
    pages[0].reload()
    expect(pages[0].locator("#saw-warn")).to_contain_text("Ticks contradict")
    assert len(marks(one, plan)["ticks"]) == 2
    one.close()
    two.close()


def test_nobody_cuts_from_a_plan_that_was_undone(phone_context: BrowserContext) -> None:
    plan = a_plan(phone_context)
    page = opened(phone_context, plan)
    expect(page.locator("#saw-next-plan")).to_be_hidden()
    assert phone_context.request.post(f"/v1/plans/{plan}/undo").ok

    page.reload()

    expect(page.locator("#saw-next-plan")).to_contain_text("undone: do not cut from it")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_saw_view_is_accessible_and_within_the_screen(
    browser: Browser, address: str, shots: Path, scheme: Scheme
) -> None:
    context = a_phone(browser, address, scheme)
    page = opened(context, a_plan(context))

    assert page.evaluate(AXE + RUN) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    tick_box = page.locator("#saw-tick").bounding_box()
    assert tick_box is not None
    # As large as a gloved thumb, and on the first screen (common practice, no source).
    assert tick_box["height"] >= 64
    assert tick_box["y"] + tick_box["height"] <= PHONE["height"]
    page.screenshot(path=shots / f"saw-{scheme}-360.png")
    context.close()
