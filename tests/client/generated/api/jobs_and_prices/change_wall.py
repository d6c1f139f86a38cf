from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.kept_wall import KeptWall
from ...models.problem import Problem
from ...models.wall import Wall
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    wall_id: str,
    *,
    body: Wall,
    if_match: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_match, Unset):
        headers["if-match"] = if_match



    

    

    _kwargs: dict[str, Any] = {
        "method": "put",
        "url": "/v1/walls/{wall_id}".format(wall_id=quote(str(wall_id), safe=""),),
    }

    _kwargs["json"] = body.to_dict()

    headers["Content-Type"] = "application/json"

    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> KeptWall | Problem | None:
    if response.status_code == 200:
        response_200 = KeptWall.from_dict(response.json())



        return response_200

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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[KeptWall | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    wall_id: str,
    *,
    client: AuthenticatedClient,
    body: Wall,
    if_match: None | str | Unset = UNSET,

) -> Response[KeptWall | Problem]:
    """ 
    Args:
        wall_id (str):
        if_match (None | str | Unset):
        body (Wall):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[KeptWall | Problem]
     """


    kwargs = _get_kwargs(
        wall_id=wall_id,
body=body,
if_match=if_match,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    wall_id: str,
    *,
    client: AuthenticatedClient,
    body: Wall,
    if_match: None | str | Unset = UNSET,

) -> KeptWall | Problem | None:
    """ 
    Args:
        wall_id (str):
        if_match (None | str | Unset):
        body (Wall):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        KeptWall | Problem
     """


    return sync_detailed(
        wall_id=wall_id,
client=client,
body=body,
if_match=if_match,

    ).parsed

async def asyncio_detailed(
    wall_id: str,
    *,
    client: AuthenticatedClient,
    body: Wall,
    if_match: None | str | Unset = UNSET,

) -> Response[KeptWall | Problem]:
    """ 
    Args:
        wall_id (str):
        if_match (None | str | Unset):
        body (Wall):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[KeptWall | Problem]
     """


    kwargs = _get_kwargs(
        wall_id=wall_id,
body=body,
if_match=if_match,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    wall_id: str,
    *,
    client: AuthenticatedClient,
    body: Wall,
    if_match: None | str | Unset = UNSET,

) -> KeptWall | Problem | None:
    """ 
    Args:
        wall_id (str):
        if_match (None | str | Unset):
        body (Wall):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        KeptWall | Problem
     """


    return (await asyncio_detailed(
        wall_id=wall_id,
client=client,
body=body,
if_match=if_match,

    )).parsed
