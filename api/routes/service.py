"""Whether the service lives, whether it can work, and its figures for whoever keeps it."""

from __future__ import annotations

from fastapi.responses import JSONResponse, PlainTextResponse, Response

from api.callers import TheStore
from api.openapi import Routes
from api.problems import problem_response
from api.store.figures import figures

router = Routes(tags=["service"])


@router.get("/health")
def health() -> dict[str, str]:
    """Say that the service answers."""
    return {"status": "ok"}


@router.get("/ready")
def ready(store: TheStore) -> JSONResponse:
    """Say whether the service can work: 503 while its database does not answer."""
    if store.ready():
        return JSONResponse({"status": "ready"})
    return problem_response(503, "store-away", "The store does not answer")


@router.get("/metrics", response_class=PlainTextResponse)
def metrics(store: TheStore) -> Response:
    """Give figures over all firms in Prometheus' text format; none of them names a firm."""
    with store.read() as connection:
        text = "".join(figures(connection))
    return Response(text, media_type="text/plain; version=0.0.4; charset=utf-8")
