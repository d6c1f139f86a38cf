"""The web pages and their files, and the log-in that keeps a key in a cookie."""

from __future__ import annotations

import os
import time
from collections.abc import Awaitable, Callable
from typing import Annotated, Any

from fastapi import FastAPI, Request
from fastapi.responses import HTMLResponse, JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field
from starlette.exceptions import HTTPException
from starlette.staticfiles import StaticFiles

from api.callers import COOKIE, Reader, TheStore, is_own_page, key_in, slow_down
from api.openapi import Routes, add_routes
from api.shell import HEADERS, PAGES, WEB, Page, page_text

router = Routes(include_in_schema=False)


class _Files(StaticFiles):
    """Files with the headers of pages: a worker among them obeys the policy it was sent with."""

    def file_response(
        self,
        full_path: str | os.PathLike[str],
        stat_result: os.stat_result,
        scope: Any,
        status_code: int = 200,
    ) -> Response:
        answer = super().file_response(full_path, stat_result, scope, status_code)
        answer.headers.update(HEADERS)
        return answer


def add_pages(app: FastAPI) -> None:
    """Answer every page under its paths, and the files they are made of under /web."""
    for page in PAGES:
        for path in page.paths:
            app.add_api_route(path, _answer(page), methods=["GET"], include_in_schema=False)
    add_routes(app, router)
    app.mount("/web", _Files(directory=WEB), name="web")


def _answer(page: Page) -> Callable[[], Awaitable[Response]]:
    async def answer() -> Response:
        return HTMLResponse(page_text(page), headers=HEADERS)

    return answer


class LogIn(BaseModel):
    """A key, as it was given out."""

    model_config = ConfigDict(extra="forbid")

    key: Annotated[str, Field(min_length=1, max_length=200)]


@router.post("/log-in")
def log_in(body: LogIn, request: Request, store: TheStore) -> Response:
    """Keep a key in a cookie that scripts cannot read and other sites' pages do not send."""
    if not is_own_page(request):
        raise HTTPException(403, "Log in from this service's own page")
    address = request.client.host if request.client else "?"
    slow_down(request, f"log-in {address}", time.monotonic())
    if key_in(store, body.key) is None:
        raise HTTPException(401, "This key is not known here, or was revoked")
    answer = JSONResponse({"state": "logged in"})
    is_safe = request.url.scheme == "https"
    # Over TLS only, where there is TLS: a service tried out on a bench has none.
    answer.set_cookie(
        COOKIE,
        body.key,
        httponly=True,
        samesite="strict",
        secure=is_safe,
        path="/",
        max_age=90 * 86_400,
    )
    return answer


@router.post("/log-out")
def log_out(request: Request) -> Response:
    """Forget the key in this browser."""
    if not is_own_page(request):
        raise HTTPException(403, "Log out from this service's own page")
    answer = JSONResponse({"state": "logged out"})
    answer.delete_cookie(COOKIE, path="/")
    return answer


@router.get("/caller")
def get_caller(request: Request, caller: Reader) -> dict[str, Any]:
    """Say who calls and what they may do, so that a page offers no more than that."""
    return {
        "who": caller.who,
        "roles": sorted(caller.roles),
        "public": request.app.state.settings.public,
    }
