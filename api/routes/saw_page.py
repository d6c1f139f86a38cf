"""The saw view as a page, and the worker that keeps it open without a signal."""

from __future__ import annotations

import hashlib
import json
from functools import cache

from fastapi.responses import HTMLResponse, Response

from api.openapi import Routes
from api.shell import HEADERS, SAW, WEB, page_text

router = Routes(include_in_schema=False)
# All that the page is made of; the worker keeps these together as one version.
_FILES = (
    "icon.svg",
    "style.css",
    "saw.css",
    "scripts/theme.js",
    "scripts/shell.js",
    "scripts/saw.js",
    "scripts/saw-store.js",
    "scripts/api.js",
    "scripts/dom.js",
    "scripts/words.js",
)


@router.get("/saw/worker.js")
def get_worker() -> Response:
    """Return the worker with the version of what it keeps."""
    return Response(_worker(), media_type="text/javascript", headers=HEADERS)


@router.get("/saw/{plan_id}")
def get_page(plan_id: str) -> Response:
    """Return the saw view; it is the same page for every plan."""
    del plan_id
    return HTMLResponse(_page(), headers=HEADERS)


@cache
def _page() -> str:
    style = '<link rel="stylesheet" href="/web/saw.css">'
    return page_text(SAW).replace("</head>", f"{style}\n</head>", 1)


@cache
def _worker() -> str:
    """Write version and files in front of the worker: a changed file makes a new version."""
    text = (WEB / "saw-worker.js").read_text(encoding="utf-8")
    digest = hashlib.sha256(_page().encode() + text.encode())
    for name in _FILES:
        digest.update((WEB / name).read_bytes())
    files = ["/saw/any", *(f"/web/{name}" for name in _FILES)]
    head = f'const VERSION = "{digest.hexdigest()[:16]}";\nconst FILES = {json.dumps(files)};\n'
    return head + text
