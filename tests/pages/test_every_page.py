"""Every page, light and dark, wide and narrow: accessible, within the screen, and kept to look at.

The rules are those of axe-core (WCAG 2.2 A and AA among them), an independent checker.
"""

from __future__ import annotations

import json
import os
import urllib.request
from pathlib import Path
from typing import Literal

import axe_playwright_python
import pytest
from playwright.sync_api import Browser, ViewportSize

from api.shell import PAGES
from tests.pages.conftest import a_page

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
RUN = """;axe.run(document, {resultTypes: ["violations"]}).then((found) =>
  found.violations.map((one) => [one.id, one.nodes.map((node) => node.html.slice(0, 200))]))"""
# What is on a page once its script has asked for all it shows.
READY = {
    "log-in": "#key:focus",
    "jobs": "#jobs table",
    "job-wall": "#pictorial-drawing svg",
    "job-parts": "#file",
    "batch": "#jobs input",
    "batch-prices": "#books table",
    "batch-deliveries": "#jobs input",
    "plans": "#plans table",
    "plan": "#diagrams figure",
    "orders": "#orders table",
    "order": "#lines table",
    "rack": "#rack .piece",
}
# The screenshots that the README shows.
PICTURED = {f"{name}-light-1440.png" for name in ("jobs", "job-wall", "plan", "rack")}
# Text of a drawing beyond the drawing's own frame would be cut off.
OUTSIDE = """() => [...document.querySelectorAll(".drawing svg")].flatMap((svg) => {
  const [x, y, width, height] = svg.dataset.whole.split(" ").map(Number);
  return [...svg.querySelectorAll("text")].filter((text) => {
    const box = text.getBBox();
    const upright = text.getAttribute("transform")?.startsWith("rotate");
    if (upright) {
      const [, , cx, cy] = text.getAttribute("transform").match(/rotate\\((\\S+) (\\S+) (\\S+)\\)/);
      const top = Number(cy) - (box.x + box.width - Number(cx));
      return top < y - 0.1 || Number(cy) - (box.x - Number(cx)) > y + height + 0.1;
    }
    return box.x < x - 0.1 || box.x + box.width > x + width + 0.1
      || box.y < y - 0.1 || box.y + box.height > y + height + 0.1;
  }).map((text) => text.textContent);
})"""


PICTURES = Path(__file__).parents[2] / "docs" / "pictures"


def picture(shot: Path) -> None:
    """Keep a screenshot for the README, when asked to."""
    if os.environ.get("SCANTLING_PICTURES"):
        name = f"page-{shot.name.partition('-light')[0].removeprefix('job-')}.png"
        (PICTURES / name).write_bytes(shot.read_bytes())


def first(address: str, path: str) -> str:
    with urllib.request.urlopen(f"{address}{path}") as answer:
        return str(json.load(answer)["items"][-1]["id"])


def test_every_page_is_looked_at() -> None:
    assert set(READY) == {page.name for page in PAGES} - {"saw"}


@pytest.mark.parametrize("width", [1440, 390])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_page_is_accessible_and_within_the_screen(
    browser: Browser, address: str, shots: Path, scheme: Literal["light", "dark"], width: int
) -> None:
    ids = {"plan_id": first(address, "/v1/plans"), "wall_id": first(address, "/v1/walls")}
    size: ViewportSize = {"width": width, "height": 900}
    context = browser.new_context(viewport=size, base_url=address, color_scheme=scheme)
    page = a_page(context)
    found = {}
    for item in PAGES:
        if item.name not in READY:
            continue
        page.goto(item.paths[-1].format(**ids) if item.name != "jobs" else "/")
        page.wait_for_selector(READY[item.name], state="attached")
        # The top of the page as it opens; pages can be long.
        shot = shots / f"{item.name}-{scheme}-{width}.png"
        page.screenshot(path=shot)
        if shot.name in PICTURED:
            picture(shot)
        faults = page.evaluate(AXE + RUN)
        beyond = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        outside = page.evaluate(OUTSIDE)
        if faults or beyond > 0 or outside:
            found[item.name] = (faults, beyond, outside)
    context.close()

    assert found == {}
    assert page.faults == []  # type: ignore[attr-defined]  # set by a_page
