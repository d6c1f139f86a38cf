"""One browser and one service with the demo's jobs, prices and rack for all pages."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect

from api.app import create_app
from api.demo_store import fill_store
from api.settings import Settings
from tests.pages.browsers import HOW, a_browser, chromium, served
from tests.pages.demo import a_demo_batch

# How long a thing may take to appear on a busy machine; nothing is judged by it.
expect.set_options(timeout=40_000)

# Build output: whoever changes a page looks at these.
SHOTS = Path(__file__).parents[2] / "out" / "pages"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Run Chromium; without one skip and say so, but under .ci/run, which installs it, fail."""
    if chromium() is None and not os.environ.get("SCANTLING_CI"):
        pytest.skip(HOW)
    with a_browser() as browser:
        yield browser


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    with tempfile.TemporaryDirectory(prefix="pages", ignore_cleanup_errors=True) as folder:
        url = f"sqlite:///{folder}/store.db"
        # The README's pictures show the week as `make demo` plans it.
        is_whole = "SCANTLING_PICTURES" in os.environ
        assert fill_store(url, a_demo_batch(is_whole=is_whole))
        with served(create_app(Settings(store=url, workers=1))) as address:
            yield address


def a_page(context: BrowserContext) -> Page:
    """Open a page that fails its test for any error that a browser tells of."""
    context.set_default_timeout(60_000)
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    # A browser also tells of each answer that is a refusal; pages show those to the user.
    page.on(
        "console",
        lambda said: (
            faults.append(said.text)
            if said.type == "error" and "status of 4" not in said.text
            else None
        ),
    )
    page.faults = faults  # type: ignore[attr-defined]  # looked at when the test ends
    return page


@pytest.fixture
def desk(browser: Browser, address: str) -> Iterator[Page]:
    yield from _open(browser, address, width=1440, height=900)


@pytest.fixture
def phone(browser: Browser, address: str) -> Iterator[Page]:
    yield from _open(browser, address, width=390, height=844)


def _open(browser: Browser, address: str, *, width: int, height: int) -> Iterator[Page]:
    size: ViewportSize = {"width": width, "height": height}
    context = browser.new_context(viewport=size, base_url=address, color_scheme="light")
    page = a_page(context)
    yield page
    context.close()
    assert page.faults == []  # type: ignore[attr-defined]  # set by a_page


@pytest.fixture(scope="session")
def shots() -> Path:
    SHOTS.mkdir(parents=True, exist_ok=True)
    return SHOTS
