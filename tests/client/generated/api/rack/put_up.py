from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.problem import Problem
from ...models.put_up_response_201 import PutUpResponse201
from ...models.rack_offcut import RackOffcut
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    *,
    body: list[RackOffcut],
    place: str | Unset = 'rack',

) -> dict[str, Any]:
    headers: dict[str, Any] = {}


    

    params: dict[str, Any] = {}

    params["place"] = place


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "post",
        "url": "/v1/rack",
        "params": params,
    }

    _kwargs["json"] = []
    for componentsschemasrack_item_data in body:
        componentsschemasrack_item = componentsschemasrack_item_data.to_dict()
        _kwargs["json"].append(componentsschemasrack_item)



    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Problem | PutUpResponse201 | None:
    if response.status_code == 201:
        response_201 = PutUpResponse201.from_dict(response.json())



        return response_201

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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[Problem | PutUpResponse201]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    body: list[RackOffcut],
    place: str | Unset = 'rack',

) -> Response[Problem | PutUpResponse201]:
    """ 
    Args:
        place (str | Unset):  Default: 'rack'.
        body (list[RackOffcut]):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Problem | PutUpResponse201]
     """


    kwargs = _get_kwargs(
        body=body,
place=place,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    *,
    client: AuthenticatedClient,
    body: list[RackOffcut],
    place: str | Unset = 'rack',

) -> Problem | PutUpResponse201 | None:
    """ 
    Args:
        place (str | Unset):  Default: 'rack'.
        body (list[RackOffcut]):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Problem | PutUpResponse201
     """


    return sync_detailed(
        client=client,
body=body,
place=place,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    body: list[RackOffcut],
    place: str | Unset = 'rack',

) -> Response[Problem | PutUpResponse201]:
    """ 
    Args:
        place (str | Unset):  Default: 'rack'.
        body (list[RackOffcut]):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Problem | PutUpResponse201]
     """


    kwargs = _get_kwargs(
        body=body,
place=place,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    *,
    client: AuthenticatedClient,
    body: list[RackOffcut],
    place: str | Unset = 'rack',

) -> Problem | PutUpResponse201 | None:
    """ 
    Args:
        place (str | Unset):  Default: 'rack'.
        body (list[RackOffcut]):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Problem | PutUpResponse201
     """


    return (await asyncio_detailed(
        client=client,
body=body,
place=place,

    )).parsed
