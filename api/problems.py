"""Errors as problem details (RFC 9457): each fault with field, trouble, remedy; never a trace."""

from __future__ import annotations

import logging
from typing import Any

import sqlalchemy as sa
from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, JSONResponse, Response
from starlette.exceptions import HTTPException
from starlette.routing import Match

from api.shell import HEADERS, NOWHERE, page_text
from api.store.refusals import Conflict, Missing, Stale, TooMuch
from optimiser import InvalidInput, NoPlan, PlanRefused, Problem

_log = logging.getLogger(__name__)
MEDIA_TYPE = "application/problem+json"

PROBLEM_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["type", "title", "status"],
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
        "problems": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["field", "trouble", "remedy"],
                "properties": {
                    "field": {"type": "string"},
                    "trouble": {"type": "string"},
                    "remedy": {"type": "string"},
                },
            },
        },
    },
}


def problem_response(
    status: int, kind: str, title: str, problems: tuple[Problem, ...] = (), detail: str = ""
) -> JSONResponse:
    """Make one problem details answer."""
    content: dict[str, Any] = {"type": f"/problems/{kind}", "title": title, "status": status}
    if detail:
        content["detail"] = detail
    if problems:
        content["problems"] = [
            {"field": item.field, "trouble": item.trouble, "remedy": item.remedy}
            for item in problems
        ]
    return JSONResponse(content, status_code=status, media_type=MEDIA_TYPE)


def add_problem_handlers(app: FastAPI) -> None:
    """Answer every error of the app as problem details."""
    app.add_exception_handler(InvalidInput, _invalid)
    app.add_exception_handler(NoPlan, _no_plan)
    app.add_exception_handler(PlanRefused, _refused)
    app.add_exception_handler(Missing, _missing)
    app.add_exception_handler(Conflict, _conflict)
    app.add_exception_handler(sa.exc.OperationalError, _store_away)
    app.add_exception_handler(sa.exc.InterfaceError, _store_away)
    app.add_exception_handler(sa.exc.TimeoutError, _store_away)
    app.add_exception_handler(sa.exc.DataError, _unkeepable)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _request)
    app.add_exception_handler(Exception, _unexpected)


async def _invalid(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, InvalidInput)
    return problem_response(
        422, "invalid-input", "The input cannot be used as it stands", fault.problems
    )


async def _no_plan(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, NoPlan)
    return problem_response(422, "no-plan", "No plan can meet this request", fault.problems)


async def _refused(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, PlanRefused)
    _log.error("plan.refused problems=%s", fault)
    return problem_response(500, "plan-refused", "A plan failed its check", fault.problems)


async def _missing(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, Missing)
    return problem_response(404, "http-404", str(fault))


async def _conflict(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, Conflict)
    if isinstance(fault, Stale):
        title = "Somebody else changed it since you read it"
        return problem_response(412, "stale", title, (fault.problem,))
    if isinstance(fault, TooMuch):
        title = "This firm has had its hour's planning"
        answer = problem_response(429, "too-much", title, (fault.problem,))
        answer.headers["Retry-After"] = str(int(fault.wait) + 1)
        return answer
    return problem_response(409, "conflict", "Not as things stand", (fault.problem,))


async def _store_away(_request: Request, fault: Exception) -> JSONResponse:
    _log.error("store.away fault=%s", fault)
    answer = problem_response(
        503, "store-away", "The store does not answer", detail="Nothing was changed; try again."
    )
    answer.headers["Retry-After"] = "5"
    return answer


async def _unkeepable(_request: Request, _fault: Exception) -> JSONResponse:
    # PostgreSQL keeps no NUL in a text, and no number beyond 64 bits.
    remedy = "Leave out control characters, and numbers beyond 64 bits"
    problem = Problem("request", "has a text or a number that cannot be kept", remedy)
    return problem_response(
        422, "invalid-input", "The input cannot be used as it stands", (problem,)
    )


# Where the framework answers that it could not read a body, ours is that of every bad body.
_UNREADABLE: dict[type, tuple[str, str]] = {
    UnicodeDecodeError: ("is not text in UTF-8", "Send JSON in UTF-8"),
    RecursionError: ("is nested too deeply", "Lay it out as the schema says"),
}


async def _http(request: Request, fault: Exception) -> Response:
    assert isinstance(fault, HTTPException)
    if fault.status_code == 404 and _is_for_people(request):
        return HTMLResponse(page_text(NOWHERE), 404, HEADERS)
    wrong = _UNREADABLE.get(type(fault.__cause__)) if fault.status_code == 400 else None
    if wrong is not None:
        title = "The input cannot be used as it stands"
        return problem_response(422, "invalid-input", title, (Problem("body", *wrong),))
    answer = problem_response(fault.status_code, f"http-{fault.status_code}", str(fault.detail))
    answer.headers.update(fault.headers or {})
    if fault.status_code == 405:
        # All that the resource takes (RFC 9110, 15.5.6); the framework names one route's alone.
        answer.headers["Allow"] = ", ".join(_methods_at(request))
    return answer


def _is_for_people(request: Request) -> bool:
    """Return whether a browser asks for a page, not a program for a resource."""
    asks = "text/html" in request.headers.get("accept", "")
    return asks and request.method == "GET" and not request.url.path.startswith("/v1")


def _methods_at(request: Request) -> list[str]:
    """Return the methods that some route takes at this path."""
    scope = dict(request.scope)
    return [
        method
        for method in ("DELETE", "GET", "HEAD", "POST", "PUT")
        if any(
            route.matches({**scope, "method": method})[0] is Match.FULL
            for route in request.app.router.routes
        )
    ]


async def _request(_request: Request, fault: Exception) -> JSONResponse:
    assert isinstance(fault, RequestValidationError)
    problems = tuple(
        Problem(
            ".".join(str(step) for step in error["loc"]),
            str(error["msg"]),
            "Correct it as the OpenAPI document says",
        )
        for error in fault.errors()
    )
    return problem_response(422, "invalid-input", "The input cannot be used as it stands", problems)


async def _unexpected(_request: Request, fault: Exception) -> JSONResponse:
    _log.exception("request.failed", exc_info=fault)
    return problem_response(
        500, "our-fault", "The program failed", detail="The fault is logged; please report it."
    )
