from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.get_walls_paper import GetWallsPaper
from ...models.problem import Problem
from ...types import File, FileTypes
from ...types import UNSET, Unset
from io import BytesIO
from typing import cast



def _get_kwargs(
    plan_id: str,
    *,
    paper: GetWallsPaper | Unset = GetWallsPaper.A4,

) -> dict[str, Any]:
    

    

    params: dict[str, Any] = {}

    json_paper: str | Unset = UNSET
    if not isinstance(paper, Unset):
        json_paper = paper.value

    params["paper"] = json_paper


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/plans/{plan_id}/walls.pdf".format(plan_id=quote(str(plan_id), safe=""),),
        "params": params,
    }


    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> File | Problem | None:
    if response.status_code == 200:
        response_200 = File(
             payload = BytesIO(response.content)
        )



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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[File | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    paper: GetWallsPaper | Unset = GetWallsPaper.A4,

) -> Response[File | Problem]:
    """ 
    Args:
        plan_id (str):
        paper (GetWallsPaper | Unset):  Default: GetWallsPaper.A4.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[File | Problem]
     """


    kwargs = _get_kwargs(
        plan_id=plan_id,
paper=paper,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    paper: GetWallsPaper | Unset = GetWallsPaper.A4,

) -> File | Problem | None:
    """ 
    Args:
        plan_id (str):
        paper (GetWallsPaper | Unset):  Default: GetWallsPaper.A4.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        File | Problem
     """


    return sync_detailed(
        plan_id=plan_id,
client=client,
paper=paper,

    ).parsed

async def asyncio_detailed(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    paper: GetWallsPaper | Unset = GetWallsPaper.A4,

) -> Response[File | Problem]:
    """ 
    Args:
        plan_id (str):
        paper (GetWallsPaper | Unset):  Default: GetWallsPaper.A4.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[File | Problem]
     """


    kwargs = _get_kwargs(
        plan_id=plan_id,
paper=paper,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    paper: GetWallsPaper | Unset = GetWallsPaper.A4,

) -> File | Problem | None:
    """ 
    Args:
        plan_id (str):
        paper (GetWallsPaper | Unset):  Default: GetWallsPaper.A4.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        File | Problem
     """


    return (await asyncio_detailed(
        plan_id=plan_id,
client=client,
paper=paper,

    )).parsed
