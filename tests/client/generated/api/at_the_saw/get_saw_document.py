from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.problem import Problem
from ...models.saw_document import SawDocument
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    plan_id: str,
    *,
    if_none_match: None | str | Unset = UNSET,

) -> dict[str, Any]:
    headers: dict[str, Any] = {}
    if not isinstance(if_none_match, Unset):
        headers["if-none-match"] = if_none_match



    

    

    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/plans/{plan_id}/saw".format(plan_id=quote(str(plan_id), safe=""),),
    }


    _kwargs["headers"] = headers
    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Any | Problem | SawDocument | None:
    if response.status_code == 200:
        response_200 = SawDocument.from_dict(response.json())



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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[Any | Problem | SawDocument]:
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
    if_none_match: None | str | Unset = UNSET,

) -> Response[Any | Problem | SawDocument]:
    """ 
    Args:
        plan_id (str):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Any | Problem | SawDocument]
     """


    kwargs = _get_kwargs(
        plan_id=plan_id,
if_none_match=if_none_match,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    if_none_match: None | str | Unset = UNSET,

) -> Any | Problem | SawDocument | None:
    """ 
    Args:
        plan_id (str):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Any | Problem | SawDocument
     """


    return sync_detailed(
        plan_id=plan_id,
client=client,
if_none_match=if_none_match,

    ).parsed

async def asyncio_detailed(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    if_none_match: None | str | Unset = UNSET,

) -> Response[Any | Problem | SawDocument]:
    """ 
    Args:
        plan_id (str):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[Any | Problem | SawDocument]
     """


    kwargs = _get_kwargs(
        plan_id=plan_id,
if_none_match=if_none_match,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    plan_id: str,
    *,
    client: AuthenticatedClient,
    if_none_match: None | str | Unset = UNSET,

) -> Any | Problem | SawDocument | None:
    """ 
    Args:
        plan_id (str):
        if_none_match (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Any | Problem | SawDocument
     """


    return (await asyncio_detailed(
        plan_id=plan_id,
client=client,
if_none_match=if_none_match,

    )).parsed
