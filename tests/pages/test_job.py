"""The whole job through the pages, as a new user does it: wall, batch, plan, order."""

from __future__ import annotations

import base64
import re
from pathlib import Path

import pytest
from playwright.sync_api import Dialog, Page, expect

from tests.pages.test_order import post

OUTSIDE_ITS_FRAME = """() => {
  const frame = document.documentElement.getBoundingClientRect();
  return [...document.querySelectorAll("text")].filter((text) => {
    const box = text.getBoundingClientRect();
    return box.left < frame.left - 1 || box.right > frame.right + 1
      || box.top < frame.top - 1 || box.bottom > frame.bottom + 1;
  }).map((text) => text.textContent);
}"""
SCRIPT = "<img src=x onerror=document.title='caught'>"


def wait_drawn(page: Page, before: int = 0) -> None:
    """Wait for a drawing newer than one that was counted before."""
    body = page.locator("body")
    expect(body).to_have_attribute("data-drawn", re.compile(r"\d"))
    expect(body).not_to_have_attribute("data-drawn", str(before))


def drawn(page: Page) -> int:
    return int(page.locator("body").get_attribute("data-drawn") or 0)


def fill_and_see(page: Page, label: str, value: str) -> None:
    before = drawn(page)
    page.get_by_label(label).fill(value)
    wait_drawn(page, before)


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_a_new_user_comes_from_a_wall_to_an_order(
    request: pytest.FixtureRequest, shots: Path, size: str
) -> None:
    page: Page = request.getfixturevalue(size)
    page.on("dialog", lambda dialog: dialog.accept())
    job = f"new {size}"

    page.goto("/")
    page.get_by_role("link", name="New wall").click()
    describe_a_wall(page, job)
    page.screenshot(path=shots / f"job-1-wall-{size}.png")
    page.get_by_role("button", name="Save the wall").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Wall of job {job}")

    page.get_by_role("link", name="Plan it").click()
    plan_it(page)
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Plan for {job}")
    see_a_diagram(page)
    page.screenshot(path=shots / f"job-2-plan-{size}.png")
    page.get_by_role("button", name="Confirm and place the order").click()
    expect(page.locator("#state")).to_have_text("confirmed")

    page.locator("#actions").get_by_role("link", name="Order").click()
    expect(page.locator("#state")).to_have_text("placed")
    with page.expect_download() as download:
        page.get_by_role("link", name="CSV").click()
    text = download.value.path().read_text(encoding="utf-8")
    page.screenshot(path=shots / f"job-3-order-{size}.png")
    expect(page.locator("#lines tbody tr").first).to_be_visible()
    items = page.locator("#lines tbody td[data-label=item]").all_inner_texts()
    assert len(items) > 5
    assert [item for item in items if item not in text] == []


def describe_a_wall(page: Page, job: str) -> None:
    """Fill the form as somebody does who gets two things wrong first."""
    wait_drawn(page)
    page.get_by_label("Job *").fill(job)
    page.get_by_label("Client").fill("A client")
    # A value that cannot be is said beside its field; the drawing waits.
    depth = "Depth to the face of the boards"
    page.get_by_label(depth).fill("deep")
    expect(page.locator("#f-wall-depth_mm")).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#f-wall-depth_mm-problem")).to_contain_text("deep")
    fill_and_see(page, depth, "320")
    expect(page.locator("#f-wall-depth_mm-problem")).to_have_count(0)
    # A TV too heavy for its screws stops the wall, says why, and shows where.
    tv = page.locator("#f-tv-mass_kg")
    before = drawn(page)
    tv.fill("150")
    wait_drawn(page, before)
    stop = page.locator(".findings li.stop", has=page.get_by_role("button", name="Show")).first
    stop.get_by_role("button", name="Show").click()
    expect(page.locator(".place.marked[data-mark=tv]").first).to_be_attached()
    before = drawn(page)
    tv.fill("20")
    wait_drawn(page, before)
    expect(page.locator(".findings li.stop")).to_have_count(0)


def plan_it(page: Page) -> None:
    """Watch the plan improve, and stop it as soon as there is one."""
    expect(page.locator("input[name=job]:checked")).to_have_count(1)
    page.get_by_label("At most").select_option("5")
    page.get_by_role("button", name="Plan", exact=True).click()
    expect(page.get_by_text("at most could still be saved")).to_be_visible()
    stop_it = page.get_by_role("button", name="Good enough: stop")
    if stop_it.is_visible():
        stop_it.click()
    page.get_by_role("link", name="See the plan").click()


def see_a_diagram(page: Page) -> None:
    """Scroll to the diagrams: they are drawn when seen, and not before."""
    page.locator("#diagrams figure").first.scroll_into_view_if_needed()
    diagram = page.locator("#diagrams figure img").first
    expect(diagram).to_be_visible()
    expect(diagram).to_have_js_property("complete", True)
    assert diagram.evaluate("(image) => image.naturalWidth") > 100
    assert page.locator("#diagrams figure.late").count() > 0


def test_parts_are_found_by_hover_and_by_list(desk: Page) -> None:
    desk.goto("/jobs")
    desk.get_by_role("link", name="A", exact=True).click()
    wait_drawn(desk)

    desk.locator("#main-drawing .place[data-mark=S1]").first.hover(force=True)
    expect(desk.locator("#pointed")).to_contain_text("S1: sill")
    desk.get_by_role("button", name="U1", exact=True).focus()
    expect(desk.locator("#main-drawing .place.marked[data-mark=U1]").first).to_be_attached()
    desk.get_by_role("button", name="Boards").click()
    expect(desk.locator("#main-drawing .place[data-mark^=B]").first).to_be_attached()


def test_a_part_list_is_looked_through_before_it_is_kept(desk: Page, tmp_path: Path) -> None:
    listed = tmp_path / "shelves.csv"
    listed.write_text("mark,material,length,quantity\nS1,c16-38x63,far,2\n", encoding="utf-8")
    desk.goto("/jobs")
    desk.get_by_role("link", name="From a part list").click()
    desk.get_by_label("File").set_input_files(listed)
    expect(desk.locator("#faults")).to_contain_text("far")
    expect(desk.locator("#keep")).to_be_disabled()

    listed.write_text("mark,material,length,quantity\nS1,c16-38x63,812.5,2\n", encoding="utf-8")
    # The same name again, as whoever puts a file right would choose it.
    with desk.expect_file_chooser() as chooser:
        desk.get_by_label("File").click()
    chooser.value.set_files(listed)
    expect(desk.locator("#parts")).to_contain_text("812.5")
    desk.get_by_label("Job, where no column says so").fill("shelves")
    desk.locator("#keep").click()

    expect(desk.get_by_text("shelves").first).to_be_visible()
    desk.goto("/jobs")
    expect(desk.get_by_role("cell", name="shelves").first).to_be_visible()


def test_a_plan_without_choices_tells_what_planning_together_saved(
    desk: Page, address: str
) -> None:
    """It has no other ways of its choices to compare with, and the page is whole all the same."""
    rows = b"mark,material,length_mm,qty\nU1,c16-38x63,900,3\n"
    listed = {"name": "parts.csv", "job": "gate", "content": base64.b64encode(rows).decode()}
    (job,) = post(address, "/v1/part-lists", listed)["jobs"]
    asked = {"job_ids": [job["id"]], "price_book": "Demo Merchant", "seconds": 0.1}
    plan = post(address, "/v1/batches", {**asked, "compare": True})["id"]

    desk.goto(f"/plans/{plan}")

    expect(desk.locator("#saved tbody tr")).to_have_count(3)
    expect(desk.locator("#diagrams figure").first).to_be_attached()


def test_near_misses_and_plots_of_a_draft_are_shown(desk: Page) -> None:
    desk.goto("/plans")
    desk.locator("#plans a").last.click()
    plot = desk.locator("#plots img").first
    desk.locator("#plots").scroll_into_view_if_needed()
    expect(plot).to_be_visible()
    assert plot.evaluate("(image) => image.naturalWidth") > 100

    desk.get_by_label("Ease every part by up to, mm").fill("2")
    desk.get_by_role("button", name="Look").click()
    expect(desk.locator("#misses")).to_contain_text(re.compile("saves|None within that"))


@pytest.mark.parametrize("width", [1440, 390])
def test_spares_of_a_draft_are_counted_and_drawn(desk: Page, width: int) -> None:
    desk.set_viewport_size({"width": width, "height": 900})
    desk.goto("/plans")
    desk.locator("#plans a").last.click()

    desk.get_by_label("Handling").select_option("rough")
    desk.get_by_role("button", name="Count").click()

    spares = desk.locator("#spares")
    expect(spares).to_contain_text("Without spares a second trip has a chance of")
    expect(spares.locator("tbody tr")).to_have_count(5)
    boxes = [bar.bounding_box() for bar in spares.locator(".bar span").all()]
    assert len(boxes) == 5
    assert all(box is not None and box["width"] > 0 for box in boxes)
    across = desk.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert across <= 0
    Path("out/pages").mkdir(parents=True, exist_ok=True)
    desk.locator("#spare-card").screenshot(path=f"out/pages/spares-{width}.png")


def test_no_text_of_a_cutting_diagram_is_cut_off(desk: Page, address: str) -> None:
    desk.goto("/plans")
    plan = (desk.locator("#plans a").last.get_attribute("href") or "").rsplit("/", 1)[-1]
    listed = desk.request.get(f"{address}/v1/plans/{plan}/diagrams").json()["diagrams"]
    looked = 0
    for diagram in listed[:: max(1, len(listed) // 12)]:
        # A browser parses an SVG on its own as XML: what is no XML is not drawn.
        desk.goto(diagram["href"])
        outside = desk.evaluate(OUTSIDE_ITS_FRAME)
        assert outside == [], diagram["href"]
        looked += desk.evaluate("document.querySelectorAll('text').length")
    assert looked > 100


def test_a_name_with_a_script_in_it_stays_a_name(desk: Page, address: str) -> None:
    made = desk.request.post(f"{address}/v1/jobs", data={"name": SCRIPT, "client": SCRIPT})
    assert made.status == 201
    rack = [{"id": "R<script>1", "material": SCRIPT, "length_mm": 900}]
    assert desk.request.post(f"{address}/v1/rack", data=rack).status == 201

    for path in ("/jobs", "/rack"):
        desk.goto(path)
        expect(desk.get_by_text(SCRIPT).first).to_be_attached()
        assert desk.locator("main img[src=x]").count() == 0
        assert "caught" not in desk.title()


@pytest.mark.parametrize("path", ["/walls/none", "/plans/none", "/plans/none/order"])
def test_a_page_of_something_that_is_not_there_says_so_and_shows_nothing_else(
    desk: Page, path: str
) -> None:
    desk.goto(path)

    expect(desk.locator("#fault")).to_contain_text(re.compile("there is no", re.IGNORECASE))
    expect(desk.locator("main > :visible")).to_have_count(1)


def test_an_address_without_a_page_leads_back_to_the_pages(desk: Page, address: str) -> None:
    answer = desk.goto("/plan")

    assert answer is not None
    assert answer.status == 404
    desk.get_by_role("main").get_by_role("link", name="jobs").click()
    expect(desk).to_have_url(f"{address}/jobs")
    # A program that asks gets its answer as before.
    assert desk.request.get(f"{address}/v1/none").json()["status"] == 404


def test_offcuts_are_put_up_found_and_taken_off(phone: Page) -> None:
    phone.goto("/rack")
    phone.get_by_role("button", name="Add an offcut").click()
    phone.get_by_label("Label on it").fill("T7")
    phone.get_by_label("Material", exact=True).last.fill("c16-38x63")
    phone.get_by_label("Length, mm").fill("far")
    phone.get_by_role("button", name="Put it up").click()
    expect(phone.locator("#new-length")).to_have_attribute("aria-invalid", "true")
    phone.get_by_label("Length, mm").fill("1234,5")
    phone.get_by_role("button", name="Put it up").click()
    expect(phone.locator("#said")).to_have_text("T7: c16-38x63, 1234.5 mm, rack.")

    phone.get_by_label("Label", exact=True).fill("t7")
    phone.get_by_role("button", name="Find").click()
    expect(phone.locator("#piece-T7")).to_have_class(re.compile("found"))
    phone.get_by_role("button", name="Take off T7").click()
    phone.get_by_label("Why").fill("split")
    phone.get_by_role("button", name="Take it off").click()
    expect(phone.locator("#piece-T7")).to_have_count(0)


def test_leaving_a_plan_undone_asks_first(desk: Page) -> None:
    asked: list[str] = []

    def refuse(dialog: Dialog) -> None:
        asked.append(dialog.message)
        dialog.dismiss()

    desk.on("dialog", refuse)
    desk.goto("/plans")
    desk.locator("#plans a").last.click()
    desk.get_by_role("button", name="Drop this draft").click()

    assert asked == ["Drop this draft?"]
    expect(desk.locator("#state")).to_have_text("draft")


def test_colours_can_be_chosen_and_are_kept(desk: Page) -> None:
    desk.goto("/jobs")
    light = desk.evaluate("getComputedStyle(document.body).backgroundColor")
    desk.get_by_label("Colours").select_option("dark")
    dark = desk.evaluate("getComputedStyle(document.body).backgroundColor")
    desk.reload()

    assert desk.evaluate("getComputedStyle(document.body).backgroundColor") == dark != light
