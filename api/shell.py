"""The pages as they are sent: one base round the body of each, and what a browser may do in them.

A page is a file in `web/pages` (its body) and mostly one in `web/scripts` (what it does), joined
by its line in `PAGES`. Pages hold no data: their scripts ask the routes, which know the caller. So
a page is the same for everyone, and nothing a user typed is ever written into HTML here.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from string import Template

WEB = Path(__file__).parent / "web"

# No script but our own files, nothing from other hosts, no frame round a page. Blobs are drawings
# and downloads that a script made.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
# A browser asks each time whether a file is still the same; an answer of "it is" has no body.
HEADERS = {"Content-Security-Policy": POLICY, "Cache-Control": "no-cache"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page: the paths it answers, its title, and the names of its body and script."""

    name: str
    title: str
    paths: tuple[str, ...]


PAGES = (
    Page(name="log-in", title="Log in", paths=("/log-in",)),
    Page(name="jobs", title="Jobs", paths=("/jobs", "/")),
    Page(name="job-wall", title="Wall", paths=("/walls/new", "/walls/{wall_id}")),
    Page(name="job-parts", title="Part list", paths=("/jobs/part-list",)),
    Page(name="batch", title="Batch", paths=("/batch",)),
    Page(name="batch-deliveries", title="Deliveries", paths=("/batch/deliveries",)),
    Page(name="plans", title="Plans", paths=("/plans",)),
    Page(name="plan", title="Plan", paths=("/plans/{plan_id}",)),
    Page(name="orders", title="Orders", paths=("/orders",)),
    Page(name="order", title="Order", paths=("/plans/{plan_id}/order",)),
    Page(name="batch-prices", title="Price books", paths=("/price-books",)),
    Page(name="rack", title="Rack", paths=("/rack",)),
)
# Answers every path that has no page.
NOWHERE = Page(name="nowhere", title="No such page", paths=())
# Has a module of routes of its own: a page that opens without a signal.
SAW = Page(name="saw", title="Saw", paths=("/saw/{plan_id}",))


def page_text(page: Page) -> str:
    """Return a page as HTML."""
    base = Template((WEB / "base.html").read_text(encoding="utf-8"))
    body = (WEB / "pages" / f"{page.name}.html").read_text(encoding="utf-8")
    name = f"{page.name}.js"
    has_script = (WEB / "scripts" / name).exists()
    script = f'<script type="module" src="/web/scripts/{name}"></script>' if has_script else ""
    return base.substitute(page=page.name, title=page.title, scripts=script, body=body)
