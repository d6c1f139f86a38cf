"""The service put together: routes, limits, errors, its store, and runners beside it."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI
from starlette.concurrency import run_in_threadpool

from api.callers import Buckets, open_local_firm
from api.hub import Door, Hub
from api.limits import BodyLimit, OwnPagesOnly, SecurityHeaders
from api.openapi import add_openapi, add_routes
from api.problems import add_problem_handlers
from api.routes import (
    dealing,
    deliveries,
    documents,
    frames,
    papers,
    planning,
    plans,
    previews,
    price_files,
    rack,
    runs,
    saw,
    service,
    weighing,
)
from api.routes.pages import add_pages
from api.routes.saw_page import router as saw_page
from api.runner import Runner
from api.settings import Settings
from api.store.engine import Store
from api.store.migrate import migrate
from api.warming import start_warming


def create_app(settings: Settings, *, warms: bool = False) -> FastAPI:
    """Make the service on its store, brought up to date. Runners start and stop with its server.

    `warms`: what plans is loaded soon after the start, and not by the first caller's plan.

    Raises InvalidInput when the store cannot be opened.
    """
    store = Store(settings.store, hourly=settings.hourly)
    migrate(store)

    @asynccontextmanager
    async def lifespan(_app: FastAPI) -> AsyncIterator[None]:
        runner = Runner(store, workers=settings.workers)
        runner.start()
        warming = start_warming() if warms else None
        yield
        if warming is not None:
            warming.cancel()
        # Runs under way go back in the queue; whoever starts next finishes them.
        await run_in_threadpool(runner.stop)
        store.close()

    app = FastAPI(
        title="Scantling",
        version="1",
        summary="Boarded timber walls to parts, one checked cutting plan, one order.",
        description="Not a structural, electrical or fire design. The appliance's manual, the "
        "local codes and qualified people come first.",
        lifespan=lifespan,
    )
    app.state.settings = settings
    app.state.store = store
    app.state.hub = Hub(store)
    app.state.buckets = Buckets(settings.rate)
    app.state.local_firm = open_local_firm(store)
    modules = (
        planning,
        dealing,
        frames,
        plans,
        deliveries,
        documents,
        runs,
        rack,
        papers,
        price_files,
        previews,
        saw,
        weighing,
        service,
    )
    add_routes(app, *(module.router for module in modules), saw_page)
    add_pages(app)
    add_problem_handlers(app)
    app.add_middleware(BodyLimit, most=settings.most_bytes)
    if not settings.public:
        app.add_middleware(OwnPagesOnly)
    app.add_middleware(SecurityHeaders)
    app.add_middleware(Door)
    add_openapi(app, public=settings.public)
    return app
