"""How quickly the pages come, redraw and scroll, in the machine's own Chromium over loopback.

`python -m benchmarks.pages --out FILE.json [--sheets 200]`: bytes and time of each page until it
answers the user, the redraw of a wall as it is typed, and the longest pause while a plan of many
sheets is scrolled from end to end. Needs the development set-up and a Chromium.
"""

from __future__ import annotations

import argparse
import json
import statistics
import tempfile
import time
from functools import partial
from pathlib import Path
from typing import Any

import httpx
from playwright.sync_api import Browser, Page, Request

from api.app import create_app
from api.demo_run import run_demo
from api.demo_store import fill_store
from api.settings import Settings
from api.shell import PAGES
from tests.pages.browsers import a_browser, served
from tests.pages.test_every_page import READY

KEYS = 12
# Frames while the page is scrolled: the longest gap between two of them is the stall.
SCROLL = """() => new Promise((done) => {
  const gaps = [];
  let last = performance.now();
  const step = (now) => {
    gaps.push(now - last);
    last = now;
    scrollBy(0, 400);
    const end = document.documentElement.scrollHeight - 2;
    if (innerHeight + scrollY < end) requestAnimationFrame(step);
    else done({frames: gaps.length, longest: Math.max(...gaps), seen:
      document.querySelectorAll("#diagrams figure:not(.late)").length,
      all: document.querySelectorAll("#diagrams figure").length});
  };
  requestAnimationFrame(step);
})"""


def _first(address: str, path: str) -> str:
    return str(httpx.get(f"{address}{path}").json()["items"][-1]["id"])


def _pages(browser: Browser, address: str) -> list[dict[str, Any]]:
    ids = {"plan_id": _first(address, "/v1/plans"), "wall_id": _first(address, "/v1/walls")}
    rows = []
    for page in (page for page in PAGES if page.name in READY):
        context = browser.new_context(base_url=address, viewport={"width": 1440, "height": 900})
        tab = context.new_page()
        answered: list[Request] = []
        tab.on("requestfinished", partial(answered.append))
        began = time.perf_counter()
        tab.goto(page.paths[-1].format(**ids))
        tab.wait_for_selector(READY[page.name], state="attached")
        seconds = time.perf_counter() - began
        sizes = [request.sizes() for request in answered]
        sent = sum(size["responseBodySize"] + size["responseHeadersSize"] for size in sizes)
        rows.append({"page": page.name, "bytes": sent, "seconds": round(seconds, 3)})
        context.close()
    return rows


def _redraws(tab: Page, address: str) -> dict[str, Any]:
    """Type a depth digit by digit, and read what the page says each redraw took."""
    tab.goto(f"{address}/walls/{_first(address, '/v1/walls')}")
    tab.wait_for_selector("#pictorial-drawing svg")
    times = []
    for number in range(KEYS):
        before = tab.get_attribute("body", "data-drawn")
        tab.fill("#f-wall-depth_mm", str(320 + number))
        tab.wait_for_selector(f"body:not([data-drawn='{before}'])")
        said = tab.inner_text("#state")
        times.append(int(said.split()[2]))
        tab.wait_for_timeout(600)
    return {"median_ms": statistics.median(times), "longest_ms": max(times), "times_ms": times}


def _many_sheets(address: str, sheets: int) -> str:
    """Plan boards that each take most of a sheet, all different, and return the plan."""
    body = {
        "seconds": 1,
        "sheets": [
            {
                "material": "mdf-12",
                "stock": [
                    {"id": "mdf", "width_mm": 1220, "height_mm": 2440, "price": "24.00"},
                ],
                "parts": [
                    {"id": f"A/{n}", "job": "A", "width_mm": 1200 - n, "height_mm": 2000 + n}
                    for n in range(sheets)
                ],
            }
        ],
    }
    return str(httpx.post(f"{address}/v1/plans", json=body, timeout=300).json()["id"])


def main() -> None:
    """Measure, print and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--sheets", type=int, default=200)
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{folder}/store.db"
        fill_store(url, *run_demo(Path(folder) / "demo", seconds=1, seed=1))
        with served(create_app(Settings(store=url))) as address, a_browser() as browser:
            found: dict[str, Any] = {"pages": _pages(browser, address)}
            tab = browser.new_page(viewport={"width": 1440, "height": 900})
            found["redraw"] = _redraws(tab, address)
            plan = _many_sheets(address, arguments.sheets)
            tab.goto(f"{address}/plans/{plan}")
            tab.wait_for_selector("#diagrams figure", timeout=60_000)
            found["scroll"] = tab.evaluate(SCROLL)
    arguments.out.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")
    print(json.dumps(found, indent=1))


if __name__ == "__main__":
    main()
