"""How things of the store are answered: times as ISO 8601, money as decimal text, with ETags."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Annotated, Any

import sqlalchemy as sa
from fastapi import Header, Query
from fastapi.responses import Response

from api.store.papers import MOST_ON_A_PAGE
from api.store.runs import WITHOUT_PLAN
from optimiser import InvalidInput, Problem, pounds

Limit = Annotated[int, Query(ge=1, le=MOST_ON_A_PAGE, description="How many, at most 200.")]
After = Annotated[
    str | None, Query(max_length=60, description="The `next` of the page before this one.")
]
IfNoneMatch = Annotated[
    str | None,
    Header(max_length=2000, description="ETags that the caller has; 304 when one is current."),
]
IfMatch = Annotated[
    str | None,
    Header(description="The ETag the change was made on; 412 when there is a newer version."),
]


def moment(at: float | None) -> str | None:
    """Write a time as ISO 8601 in UTC."""
    return (
        None if at is None else datetime.fromtimestamp(at, UTC).isoformat(timespec="milliseconds")
    )


def money(pence: int | None) -> str | None:
    """Write money as a document does."""
    return None if pence is None else pounds(pence)


def version_from(if_match: str | None) -> int | None:
    """Read an If-Match header; None and * match every version. Raises InvalidInput.

    What follows a dash in an ETag tells apart what is answered with one version.
    """
    if if_match is None or if_match.strip() == "*":
        return None
    found = re.fullmatch(r'"(\d{1,9})(?:-\d{1,9})?"', if_match.strip())
    if found is None:
        trouble = f"{if_match!r} is no ETag of this service"
        raise InvalidInput((Problem("If-Match", trouble, "Send the ETag as it was answered"),))
    return int(found[1])


def tagged(if_none_match: str | None, tag: str | int, text: Callable[[], str]) -> Response:
    """Answer JSON text with its ETag, or 304 when the caller has that version."""
    headers = etag(tag)
    known = {one.strip().removeprefix("W/") for one in (if_none_match or "").split(",")}
    if known & {headers["ETag"], "*"}:
        return Response(status_code=304, headers=headers)
    return Response(text(), media_type="application/json", headers=headers)


def tagged_by_content(if_none_match: str | None, text: str) -> Response:
    """Answer JSON text whose ETag follows from the text itself, or 304."""
    return tagged(if_none_match, hashlib.sha256(text.encode()).hexdigest()[:20], lambda: text)


def etag(tag: str | int) -> dict[str, str]:
    """Return the header that names a version."""
    return {"ETag": f'"{tag}"'}


def listed(rows: list[dict[str, Any]], following: str | None) -> dict[str, Any]:
    """Answer one page of a list; `next` is the `after` of the following one."""
    return {"items": rows, "next": following}


def run_document(row: sa.Row[Any], plan: str | None) -> dict[str, Any]:
    """Write a run. `plan` is named once it can be fetched."""
    return {
        "id": row.id,
        "kind": row.kind,
        "state": row.state,
        "created": moment(row.created),
        "started": moment(row.started),
        "ended": moment(row.ended),
        "deadline": moment(row.deadline),
        "seconds_asked": row.seconds,
        "seconds": row.spent,
        "net_cost": money(row.cost),
        "lower_bound": money(row.bound),
        "layouts": row.layouts,
        "attempt": row.attempt,
        "cancel_asked": row.cancel,
        "plan": plan,
        "result": _result(row),
        "problems": json.loads(row.problem or "[]"),
    }


def _result(row: sa.Row[Any]) -> str | None:
    """Return where to fetch what a run found that is no plan, once it is there."""
    is_there = row.kind == WITHOUT_PLAN and row.ended is not None and row.cost is not None
    return f"/v1/deliveries/{row.id}" if is_there else None


def plan_text(row: sa.Row[Any], order: str | None) -> str:
    """Write a plan with all that is kept of it, from the texts as they are kept."""
    head = json.dumps(
        {
            "id": row.id,
            "run": row.run,
            "state": row.state,
            "version": row.version,
            "created": moment(row.created),
        }
    )
    extra = "" if row.extra == "{}" else f", {row.extra[1:-1]}"
    return (
        f'{head[:-1]}, "request": {row.request}, "plan": {row.plan},'
        f' "order": {order or "null"}{extra}}}'
    )
