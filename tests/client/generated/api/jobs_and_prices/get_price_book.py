from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.price_book_version import PriceBookVersion
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast
import datetime



def _get_kwargs(
    name: str,
    *,
    on: datetime.date | None | Unset = UNSET,
    if_none_match: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_none_match, Unset):
        headers["if-none-match"] = if_none_match



    

    params: dict[str, Any] = {}

    json_on: None | str | Unset
    if isinstance(on, Unset):
        json_on = UNSET
    elif isinstance(on, datetime.date):
        json_on = on.isoformat()
    else:
        json_on = on
    params["on"] = json_on


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/price-books/{name}".format(name=quote(str(name), safe=""),),
        "params": params,
    }


    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Any | PriceBookVersion | Problem | None:
    if response.status_code == 200:
        response_200 = PriceBookVersion.from_dict(response.json())



        return response_200

    if response.status_code == 304:
        response_304 = cast(Any, None)
        return response_304

    if response.status_code == 401:
        response_401 = Problem.from_dict(response.json())



        return response_401

    if response.status_code == 403:
        response_403 = Problem.from_dict(response.json())



        return response_403

    if response.status_code == 404:
        response_404 = Problem.from_dict(response.json())



        return response_404

    if response.status_code == 422:
        response_422 = Problem.from_dict(response.json())



        return response_422

    if response.status_code == 429:
        response_429 = Problem.from_dict(response.json())



        return response_429

    if response.status_code == 503:
        response_503 = Problem.from_dict(response.json())



        return response_503

    if client.raise_on_unexpected_status:
        raise errors.UnexpectedStatus(response.status_code, response.content)
    else:
        return None


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[Any | PriceBookVersion | Problem]:
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
    on: datetime.date | None | Unset = UNSET,
    if_none_match: None | str | Unset = UNSET,

) -> Response[Any | PriceBookVersion | Problem]:
    """ 
    Args:
        name (str):
        on (datetime.date | None | Unset):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Any | PriceBookVersion | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
on=on,
if_none_match=if_none_match,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    name: str,
    *,
    client: AuthenticatedClient,
    on: datetime.date | None | Unset = UNSET,
    if_none_match: None | str | Unset = UNSET,

) -> Any | PriceBookVersion | Problem | None:
    """ 
    Args:
        name (str):
        on (datetime.date | None | Unset):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Any | PriceBookVersion | Problem
     """


    return sync_detailed(
        name=name,
client=client,
on=on,
if_none_match=if_none_match,

    ).parsed

async def asyncio_detailed(
    name: str,
    *,
    client: AuthenticatedClient,
    on: datetime.date | None | Unset = UNSET,
    if_none_match: None | str | Unset = UNSET,

) -> Response[Any | PriceBookVersion | Problem]:
    """ 
    Args:
        name (str):
        on (datetime.date | None | Unset):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Any | PriceBookVersion | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
on=on,
if_none_match=if_none_match,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    name: str,
    *,
    client: AuthenticatedClient,
    on: datetime.date | None | Unset = UNSET,
    if_none_match: None | str | Unset = UNSET,

) -> Any | PriceBookVersion | Problem | None:
    """ 
    Args:
        name (str):
        on (datetime.date | None | Unset):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Any | PriceBookVersion | Problem
     """


    return (await asyncio_detailed(
        name=name,
client=client,
on=on,
if_none_match=if_none_match,

    )).parsed
