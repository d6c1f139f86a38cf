from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.add_price_book_response_201 import AddPriceBookResponse201
from ...models.price_book import PriceBook
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast
import datetime



def _get_kwargs(
    name: str,
    *,
    body: PriceBook,
    valid_from: datetime.date | None | Unset = UNSET,
    if_match: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_match, Unset):
        headers["if-match"] = if_match



    

    params: dict[str, Any] = {}

    json_valid_from: None | str | Unset
    if isinstance(valid_from, Unset):
        json_valid_from = UNSET
    elif isinstance(valid_from, datetime.date):
        json_valid_from = valid_from.isoformat()
    else:
        json_valid_from = valid_from
    params["valid_from"] = json_valid_from


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "put",
        "url": "/v1/price-books/{name}".format(name=quote(str(name), safe=""),),
        "params": params,
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> AddPriceBookResponse201 | Problem | None:
    if response.status_code == 201:
        response_201 = AddPriceBookResponse201.from_dict(response.json())



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

    if response.status_code == 412:
        response_412 = Problem.from_dict(response.json())



        return response_412

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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[AddPriceBookResponse201 | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    name: str,
    *,
    client: AuthenticatedClient,
    body: PriceBook,
    valid_from: datetime.date | None | Unset = UNSET,
    if_match: None | str | Unset = UNSET,

) -> Response[AddPriceBookResponse201 | Problem]:
    """ 
    Args:
        name (str):
        valid_from (datetime.date | None | Unset):
        if_match (None | str | Unset):
        body (PriceBook):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[AddPriceBookResponse201 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
body=body,
valid_from=valid_from,
if_match=if_match,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    name: str,
    *,
    client: AuthenticatedClient,
    body: PriceBook,
    valid_from: datetime.date | None | Unset = UNSET,
    if_match: None | str | Unset = UNSET,

) -> AddPriceBookResponse201 | Problem | None:
    """ 
    Args:
        name (str):
        valid_from (datetime.date | None | Unset):
        if_match (None | str | Unset):
        body (PriceBook):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        AddPriceBookResponse201 | Problem
     """


    return sync_detailed(
        name=name,
client=client,
body=body,
valid_from=valid_from,
if_match=if_match,

    ).parsed

async def asyncio_detailed(
    name: str,
    *,
    client: AuthenticatedClient,
    body: PriceBook,
    valid_from: datetime.date | None | Unset = UNSET,
    if_match: None | str | Unset = UNSET,

) -> Response[AddPriceBookResponse201 | Problem]:
    """ 
    Args:
        name (str):
        valid_from (datetime.date | None | Unset):
        if_match (None | str | Unset):
        body (PriceBook):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[AddPriceBookResponse201 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
body=body,
valid_from=valid_from,
if_match=if_match,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    name: str,
    *,
    client: AuthenticatedClient,
    body: PriceBook,
    valid_from: datetime.date | None | Unset = UNSET,
    if_match: None | str | Unset = UNSET,

) -> AddPriceBookResponse201 | Problem | None:
    """ 
    Args:
        name (str):
        valid_from (datetime.date | None | Unset):
        if_match (None | str | Unset):
        body (PriceBook):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        AddPriceBookResponse201 | Problem
     """


    return (await asyncio_detailed(
        name=name,
client=client,
body=body,
valid_from=valid_from,
if_match=if_match,

    )).parsed
