"""A client generated from the OpenAPI document does the main job, with a key, typed throughout."""

from __future__ import annotations

import asyncio
import json
from http import HTTPStatus

import httpx
import pytest

from api.examples import EXAMPLES
from api.store.keys import make_key
from tests.api.bodies import a_service
from tests.client.generated import AuthenticatedClient
from tests.client.generated.api.jobs_and_prices import add_price_book, add_wall, change_wall
from tests.client.generated.api.planning import plan_jobs, plan_request
from tests.client.generated.api.plans import confirm_plan, get_plan, list_orders, undo_plan
from tests.client.generated.api.rack import list_rack, put_up
from tests.client.generated.api.runs import cancel_run, get_run
from tests.client.generated.models import (
    Batch,
    CuttingRequest,
    KeptWall,
    ListOrdersResponse200,
    ListRackResponse200,
    MadePlan,
    MadePlanState,
    PriceBook,
    Problem,
    RackOffcut,
    Run,
    RunState,
    Wall,
)
from tests.client.make import DOCUMENT, document


def test_the_client_is_made_of_the_document_as_it_is_now() -> None:
    kept = json.loads(DOCUMENT.read_text(encoding="utf-8"))

    assert kept == document(), "run `make client` and commit tests/client"


@pytest.fixture
def client() -> AuthenticatedClient:
    app = a_service(public=True, workers=0)
    with app.state.store.write() as connection:
        key = make_key(connection, firm="Firm", name="office", roles=["read", "plan", "order"])
    made = AuthenticatedClient(base_url="http://localhost", token=key)
    transport = httpx.ASGITransport(app=app)
    headers = {"Authorization": f"Bearer {key}"}
    return made.set_async_httpx_client(
        httpx.AsyncClient(transport=transport, base_url="http://localhost", headers=headers)
    )


def test_a_wall_is_planned_ordered_and_taken_back(client: AuthenticatedClient) -> None:
    asyncio.run(_plan_and_order(client))


async def _plan_and_order(client: AuthenticatedClient) -> None:
    wall = await add_wall.asyncio(client=client, body=Wall.from_dict(EXAMPLES["wall"]))
    assert isinstance(wall, KeptWall)
    book = PriceBook.from_dict(EXAMPLES["price-book"])
    assert await add_price_book.asyncio("usual", client=client, body=book)
    offcuts = [RackOffcut.from_dict(one) for one in EXAMPLES["rack"]]
    assert await put_up.asyncio(client=client, body=offcuts)

    body = Batch(wall_ids=[wall.id], price_book="usual", seconds=0.2)
    made = await plan_jobs.asyncio(client=client, body=body, use_rack=True)
    assert isinstance(made, MadePlan)
    await confirm_plan.asyncio(made.id, client=client, if_match=f'"{made.version}"')
    placed = await list_orders.asyncio(client=client, plan=made.id)
    again = await get_plan.asyncio(made.id, client=client)
    stale = await undo_plan.asyncio_detailed(made.id, client=client, if_match=f'"{made.version}"')
    undone = await undo_plan.asyncio_detailed(made.id, client=client)
    rack = await list_rack.asyncio(client=client)

    assert isinstance(placed, ListOrdersResponse200)
    assert isinstance(rack, ListRackResponse200)
    assert [order.state.value for order in placed.items] == ["placed"]
    assert isinstance(again, MadePlan)
    assert again.state is MadePlanState.CONFIRMED
    assert stale.status_code is HTTPStatus.PRECONDITION_FAILED
    assert isinstance(stale.parsed, Problem)
    assert undone.status_code is HTTPStatus.OK
    assert {piece.id for piece in rack.items} == {offcut.id for offcut in offcuts}
    old = await change_wall.asyncio_detailed(
        wall.id, client=client, body=Wall.from_dict(EXAMPLES["wall"]), if_match='"7"'
    )
    assert old.status_code is HTTPStatus.PRECONDITION_FAILED


def test_longer_work_is_watched_and_cancelled(client: AuthenticatedClient) -> None:
    asyncio.run(_watch_and_cancel(client))


async def _watch_and_cancel(client: AuthenticatedClient) -> None:
    body = CuttingRequest.from_dict({**EXAMPLES["cutting-request"], "seconds": 60})

    asked = await plan_request.asyncio(client=client, body=body, idempotency_key="once")
    same = await plan_request.asyncio(client=client, body=body, idempotency_key="once")
    assert isinstance(asked, Run)
    assert isinstance(same, Run)
    looked = await get_run.asyncio(asked.id, client=client)
    ended = await cancel_run.asyncio(asked.id, client=client)

    assert isinstance(looked, Run)
    assert isinstance(ended, Run)
    assert (asked.id, looked.state) == (same.id, RunState.QUEUED)
    assert ended.state is RunState.CANCELLED
    assert [problem.remedy for problem in ended.problems] == ["Ask again"]
