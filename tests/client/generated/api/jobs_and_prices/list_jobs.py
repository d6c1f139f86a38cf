from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.list_jobs_response_200 import ListJobsResponse200
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    *,
    name: None | str | Unset = UNSET,
    limit: int | Unset = 50,
    after: None | str | Unset = UNSET,

) -> dict[str, Any]:
    

    

    params: dict[str, Any] = {}

    json_name: None | str | Unset
    if isinstance(name, Unset):
        json_name = UNSET
    else:
        json_name = name
    params["name"] = json_name

    params["limit"] = limit

    json_after: None | str | Unset
    if isinstance(after, Unset):
        json_after = UNSET
    else:
        json_after = after
    params["after"] = json_after


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/jobs",
        "params": params,
    }


    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> ListJobsResponse200 | Problem | None:
    if response.status_code == 200:
        response_200 = ListJobsResponse200.from_dict(response.json())



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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[ListJobsResponse200 | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    name: None | str | Unset = UNSET,
    limit: int | Unset = 50,
    after: None | str | Unset = UNSET,

) -> Response[ListJobsResponse200 | Problem]:
    """ 
    Args:
        name (None | str | Unset):
        limit (int | Unset):  Default: 50.
        after (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[ListJobsResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
limit=limit,
after=after,

    )

    response = client.get_httpx_client().request(
        **kwargs,
    )

    return _build_response(client=client, response=response)

def sync(
    *,
    client: AuthenticatedClient,
    name: None | str | Unset = UNSET,
    limit: int | Unset = 50,
    after: None | str | Unset = UNSET,

) -> ListJobsResponse200 | Problem | None:
    """ 
    Args:
        name (None | str | Unset):
        limit (int | Unset):  Default: 50.
        after (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        ListJobsResponse200 | Problem
     """


    return sync_detailed(
        client=client,
name=name,
limit=limit,
after=after,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    name: None | str | Unset = UNSET,
    limit: int | Unset = 50,
    after: None | str | Unset = UNSET,

) -> Response[ListJobsResponse200 | Problem]:
    """ 
    Args:
        name (None | str | Unset):
        limit (int | Unset):  Default: 50.
        after (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[ListJobsResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        name=name,
limit=limit,
after=after,

    )

    response = await client.get_async_httpx_client().request(
        **kwargs
    )

    return _build_response(client=client, response=response)

async def asyncio(
    *,
    client: AuthenticatedClient,
    name: None | str | Unset = UNSET,
    limit: int | Unset = 50,
    after: None | str | Unset = UNSET,

) -> ListJobsResponse200 | Problem | None:
    """ 
    Args:
        name (None | str | Unset):
        limit (int | Unset):  Default: 50.
        after (None | str | Unset):

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        ListJobsResponse200 | Problem
     """


    return (await asyncio_detailed(
        client=client,
name=name,
limit=limit,
after=after,

    )).parsed
