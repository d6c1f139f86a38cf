from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.add_price_file_response_201 import AddPriceFileResponse201
from ...models.price_file_body import PriceFileBody
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    name: str,
    *,
    body: PriceFileBody,
    if_match: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_match, Unset):
        headers["if-match"] = if_match



    

    

    _kwargs: dict[str, Any] = {
        "method": "put",
        "url": "/v1/price-books/{name}/file".format(name=quote(str(name), safe=""),),
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> AddPriceFileResponse201 | Problem | None:
    if response.status_code == 201:
        response_201 = AddPriceFileResponse201.from_dict(response.json())



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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[AddPriceFileResponse201 | Problem]:
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
    body: PriceFileBody,
    if_match: None | str | Unset = UNSET,

) -> Response[AddPriceFileResponse201 | Problem]:
    """ 
    Args:
        name (str):
        if_match (None | str | Unset):
        body (PriceFileBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[AddPriceFileResponse201 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
body=body,
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
    body: PriceFileBody,
    if_match: None | str | Unset = UNSET,

) -> AddPriceFileResponse201 | Problem | None:
    """ 
    Args:
        name (str):
        if_match (None | str | Unset):
        body (PriceFileBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        AddPriceFileResponse201 | Problem
     """


    return sync_detailed(
        name=name,
client=client,
body=body,
if_match=if_match,

    ).parsed

async def asyncio_detailed(
    name: str,
    *,
    client: AuthenticatedClient,
    body: PriceFileBody,
    if_match: None | str | Unset = UNSET,

) -> Response[AddPriceFileResponse201 | Problem]:
    """ 
    Args:
        name (str):
        if_match (None | str | Unset):
        body (PriceFileBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[AddPriceFileResponse201 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
body=body,
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
    body: PriceFileBody,
    if_match: None | str | Unset = UNSET,

) -> AddPriceFileResponse201 | Problem | None:
    """ 
    Args:
        name (str):
        if_match (None | str | Unset):
        body (PriceFileBody):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        AddPriceFileResponse201 | Problem
     """


    return (await asyncio_detailed(
        name=name,
client=client,
body=body,
if_match=if_match,

    )).parsed
