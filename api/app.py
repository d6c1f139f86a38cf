"""The service put together: routes, limits, errors, and a shelf of its own."""

from __future__ import annotations

from fastapi import FastAPI

from api.limits import MOST_BYTES, BodyLimit
from api.openapi import add_openapi
from api.problems import add_problem_handlers
from api.routes import router
from api.shelf import Shelf


def create_app(*, most_bytes: int = MOST_BYTES) -> FastAPI:
    """Make the service; plans are kept in memory for as long as it runs."""
    app = FastAPI(
        title="Scantling",
        version="1",
        summary="Boarded timber walls to parts, one checked cutting plan, one order.",
        description="Not a structural, electrical or fire design. The appliance's manual, the "
        "local codes and qualified people come first.",
    )
    app.state.shelf = Shelf()
    app.include_router(router)
    add_problem_handlers(app)
    app.add_middleware(BodyLimit, most=most_bytes)
    add_openapi(app)
    return app
