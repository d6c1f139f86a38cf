from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.deal import Deal
from ...models.dealt import Dealt
from ...models.problem import Problem
from ...models.run import Run
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    *,
    body: Deal,
    deadline_seconds: float | None | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(idempotency_key, Unset):
        headers["idempotency-key"] = idempotency_key



    

    params: dict[str, Any] = {}

    json_deadline_seconds: float | None | Unset
    if isinstance(deadline_seconds, Unset):
        json_deadline_seconds = UNSET
    else:
        json_deadline_seconds = deadline_seconds
    params["deadline_seconds"] = json_deadline_seconds


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "post",
        "url": "/v1/deliveries",
        "params": params,
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Dealt | Problem | Run | None:
    if response.status_code == 201:
        response_201 = Dealt.from_dict(response.json())



        return response_201

    if response.status_code == 202:
        response_202 = Run.from_dict(response.json())



        return response_202

    if response.status_code == 401:
        response_401 = Problem.from_dict(response.json())



        return response_401

    if response.status_code == 403:
        response_403 = Problem.from_dict(response.json())



        return response_403

    if response.status_code == 404:
        response_404 = Problem.from_dict(response.json())



        return response_404

    if response.status_code == 409:
        response_409 = Problem.from_dict(response.json())



        return response_409

    if response.status_code == 413:
        response_413 = Problem.from_dict(response.json())



        return response_413

    if response.status_code == 422:
        response_422 = Problem.from_dict(response.json())



        return response_422

    if response.status_code == 429:
        response_429 = Problem.from_dict(response.json())



        return response_429

    if response.status_code == 500:
        response_500 = Problem.from_dict(response.json())



        return response_500

    if response.status_code == 503:
        response_503 = Problem.from_dict(response.json())



        return response_503

    if client.raise_on_unexpected_status:
        raise errors.UnexpectedStatus(response.status_code, response.content)
    else:
        return None


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[Dealt | Problem | Run]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    body: Deal,
    deadline_seconds: float | None | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Response[Dealt | Problem | Run]:
    """ 
    Args:
        deadline_seconds (float | None | Unset):
        idempotency_key (None | str | Unset):
        body (Deal):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Dealt | Problem | Run]
     """


    kwargs = _get_kwargs(
        body=body,
deadline_seconds=deadline_seconds,
idempotency_key=idempotency_key,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    *,
    client: AuthenticatedClient,
    body: Deal,
    deadline_seconds: float | None | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Dealt | Problem | Run | None:
    """ 
    Args:
        deadline_seconds (float | None | Unset):
        idempotency_key (None | str | Unset):
        body (Deal):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Dealt | Problem | Run
     """


    return sync_detailed(
        client=client,
body=body,
deadline_seconds=deadline_seconds,
idempotency_key=idempotency_key,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    body: Deal,
    deadline_seconds: float | None | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Response[Dealt | Problem | Run]:
    """ 
    Args:
        deadline_seconds (float | None | Unset):
        idempotency_key (None | str | Unset):
        body (Deal):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Dealt | Problem | Run]
     """


    kwargs = _get_kwargs(
        body=body,
deadline_seconds=deadline_seconds,
idempotency_key=idempotency_key,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    *,
    client: AuthenticatedClient,
    body: Deal,
    deadline_seconds: float | None | Unset = UNSET,
    idempotency_key: None | str | Unset = UNSET,

) -> Dealt | Problem | Run | None:
    """ 
    Args:
        deadline_seconds (float | None | Unset):
        idempotency_key (None | str | Unset):
        body (Deal):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Dealt | Problem | Run
     """


    return (await asyncio_detailed(
        client=client,
body=body,
deadline_seconds=deadline_seconds,
idempotency_key=idempotency_key,

    )).parsed
