from http import HTTPStatus
from typing import Any, cast
from urllib.parse import quote

import httpx

from ...client import AuthenticatedClient, Client
from ...types import Response, UNSET
from ... import errors

from ...models.list_rack_response_200 import ListRackResponse200
from ...models.problem import Problem
from ...types import UNSET, Unset
from typing import cast



def _get_kwargs(
    *,
    material: None | str | Unset = UNSET,
    free: bool | None | Unset = UNSET,
    limit: int | Unset = 1000,
    after: str | Unset = '',

) -> dict[str, Any]:
    

    

    params: dict[str, Any] = {}

    json_material: None | str | Unset
    if isinstance(material, Unset):
        json_material = UNSET
    else:
        json_material = material
    params["material"] = json_material

    json_free: bool | None | Unset
    if isinstance(free, Unset):
        json_free = UNSET
    else:
        json_free = free
    params["free"] = json_free

    params["limit"] = limit

    params["after"] = after


    params = {k: v for k, v in params.items() if v is not UNSET and v is not None}


    _kwargs: dict[str, Any] = {
        "method": "get",
        "url": "/v1/rack",
        "params": params,
    }


    return _kwargs



def _parse_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> ListRackResponse200 | Problem | None:
    if response.status_code == 200:
        response_200 = ListRackResponse200.from_dict(response.json())



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


def _build_response(*, client: AuthenticatedClient | Client, response: httpx.Response) -> Response[ListRackResponse200 | Problem]:
    return Response(
        status_code=HTTPStatus(response.status_code),
        content=response.content,
        headers=response.headers,
        parsed=_parse_response(client=client, response=response),
    )


def sync_detailed(
    *,
    client: AuthenticatedClient,
    material: None | str | Unset = UNSET,
    free: bool | None | Unset = UNSET,
    limit: int | Unset = 1000,
    after: str | Unset = '',

) -> Response[ListRackResponse200 | Problem]:
    """ 
    Args:
        material (None | str | Unset):
        free (bool | None | Unset):
        limit (int | Unset):  Default: 1000.
        after (str | Unset):  Default: ''.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[ListRackResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        material=material,
free=free,
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
    material: None | str | Unset = UNSET,
    free: bool | None | Unset = UNSET,
    limit: int | Unset = 1000,
    after: str | Unset = '',

) -> ListRackResponse200 | Problem | None:
    """ 
    Args:
        material (None | str | Unset):
        free (bool | None | Unset):
        limit (int | Unset):  Default: 1000.
        after (str | Unset):  Default: ''.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        ListRackResponse200 | Problem
     """


    return sync_detailed(
        client=client,
material=material,
free=free,
limit=limit,
after=after,

    ).parsed

async def asyncio_detailed(
    *,
    client: AuthenticatedClient,
    material: None | str | Unset = UNSET,
    free: bool | None | Unset = UNSET,
    limit: int | Unset = 1000,
    after: str | Unset = '',

) -> Response[ListRackResponse200 | Problem]:
    """ 
    Args:
        material (None | str | Unset):
        free (bool | None | Unset):
        limit (int | Unset):  Default: 1000.
        after (str | Unset):  Default: ''.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        Response[ListRackResponse200 | Problem]
     """


    kwargs = _get_kwargs(
        material=material,
free=free,
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
    material: None | str | Unset = UNSET,
    free: bool | None | Unset = UNSET,
    limit: int | Unset = 1000,
    after: str | Unset = '',

) -> ListRackResponse200 | Problem | None:
    """ 
    Args:
        material (None | str | Unset):
        free (bool | None | Unset):
        limit (int | Unset):  Default: 1000.
        after (str | Unset):  Default: ''.

    Raises:
        errors.UnexpectedStatus: If the server returns an undocumented status code and Client.raise_on_unexpected_status is True.
        httpx.TimeoutException: If the request takes longer than Client.timeout.

    Returns:
        ListRackResponse200 | Problem
     """


    return (await asyncio_detailed(
        client=client,
material=material,
free=free,
limit=limit,
after=after,

    )).parsed
