"""The commands around the service: serve it, work for it, keep its keys, back it up."""

from __future__ import annotations

import argparse
import gc
import ipaddress
import os
import signal
import socket
import sys
from collections.abc import Callable
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, Any

from api.commands import add_command
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from api.settings import Settings
    from api.store.engine import Store

FINE = 0

_LAST_PORT = 65_535


def add_service_commands(commands: Any) -> None:  # argparse does not name the type of subparsers
    """Add the service's commands to the program's."""
    serve = add_command(
        commands, "serve", "serve pages and API on this machine, from a store that keeps everything"
    )
    serve.add_argument(
        "--host", default="127.0.0.1", help="address to listen on (default 127.0.0.1)"
    )
    serve.add_argument("--port", type=int, default=8000, help="port to listen on (default 8000)")
    serve.add_argument(
        "--workers", type=int, metavar="N", help="runs worked on at a time (default 1)"
    )
    serve.add_argument(
        "--serve-public",
        action="store_true",
        help="ask every caller for a key; needed for any address but this machine's own",
    )
    _add_store(serve)
    serve.set_defaults(run=_serve)

    work = add_command(
        commands, "work", "plan what a store's service was asked for, on one more machine"
    )
    work.add_argument(
        "--workers", type=int, metavar="N", help="runs worked on at a time (default 1)"
    )
    _add_store(work)
    work.set_defaults(run=_work)

    keys = add_command(commands, "keys", "make, list and revoke keys")
    actions = keys.add_subparsers(required=True, metavar="ACTION")
    make = add_command(actions, "create", "make a key for a firm and show it, once")
    make.add_argument("--firm", required=True, help="the firm; made when it is new")
    make.add_argument("--name", required=True, help="who or what uses the key")
    make.add_argument(
        "--roles", default="read,plan", help="some of read, plan, order, admin (default read,plan)"
    )
    _add_store(make)
    make.set_defaults(run=_make_key)
    listing = add_command(actions, "list", "list all keys, never the keys themselves")
    _add_store(listing)
    listing.set_defaults(run=_list_keys)
    revoke = add_command(actions, "revoke", "make a key worthless from now on")
    revoke.add_argument("id", help="its id, as listed")
    _add_store(revoke)
    revoke.set_defaults(run=_revoke_key)

    backup = add_command(
        commands, "backup", "write the whole store into one file, while it is in use too"
    )
    backup.add_argument("file", type=Path, help="file to write; never over one that is there")
    _add_store(backup)
    backup.set_defaults(run=_backup)
    restore = add_command(commands, "restore", "fill an empty store from a backup")
    restore.add_argument("file", type=Path, help="file that backup wrote")
    _add_store(restore)
    restore.set_defaults(run=_restore)


def _add_store(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--store",
        metavar="URL",
        help="database: sqlite:///FILE or postgresql://… (default $SCANTLING_STORE, else a file "
        "in your own data folder)",
    )


def _settings(arguments: argparse.Namespace) -> Settings:
    from api.settings import settings_from

    return settings_from(
        os.environ,
        store=arguments.store,
        public=getattr(arguments, "serve_public", False),
        workers=getattr(arguments, "workers", None),
    )


def _open(arguments: argparse.Namespace) -> Store:
    from api.store.engine import Store
    from api.store.migrate import migrate

    store = Store(_settings(arguments).store)
    migrate(store)
    return store


def _serve(arguments: argparse.Namespace) -> int:
    settings = _settings(arguments)
    if not settings.public and not _is_this_machine(arguments.host):
        trouble = f"{arguments.host} can be reached by others, who would need no key"
        remedy = "Add --serve-public, and make keys with: scantling keys create"
        raise InvalidInput((Problem("--host", trouble, remedy),))
    _require_free(arguments.host, arguments.port)
    # Loading makes a few hundred thousand objects that all stay: looking through them for rubbish,
    # while they are made and ever after, would only take time.
    gc.disable()
    import uvicorn

    from api.app import create_app
    from api.logs import log_lines

    log_lines()
    app = create_app(settings, warms=True)
    gc.freeze()
    gc.enable()
    uvicorn.run(
        app,
        host=arguments.host,
        port=arguments.port,
        server_header=False,
        log_config=None,
        timeout_graceful_shutdown=10,
    )
    return FINE


def _is_this_machine(host: str) -> bool:
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def _require_free(host: str, port: int) -> None:
    """Refuse an address that cannot be listened on, before anything is started."""
    if not 0 <= port <= _LAST_PORT:
        remedy = f"Give a number from 0 to {_LAST_PORT}, such as 8000"
        raise InvalidInput((Problem("--port", f"{port} is no port", remedy),))
    try:
        kind, _, _, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(kind) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(address)
    except OSError as trouble:
        remedy = "Stop what listens there, or give another with --port or --host"
        said = f"{host}:{port} cannot be listened on ({trouble.strerror})"
        raise InvalidInput((Problem("--port", said, remedy),)) from None


def _work(arguments: argparse.Namespace) -> int:
    from api.logs import log_lines
    from api.runner import Runner

    log_lines()
    store = _open(arguments)
    runner = Runner(store, workers=_settings(arguments).workers or 1)
    stop = Event()
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: stop.set())
    runner.start()
    stop.wait()
    runner.stop()
    return FINE


def _make_key(arguments: argparse.Namespace) -> int:
    from api.store.keys import make_key

    roles = [role.strip() for role in arguments.roles.split(",") if role.strip()]
    with _open(arguments).write() as connection:
        key = make_key(connection, firm=arguments.firm, name=arguments.name, roles=roles)
    print(key)
    print("scantling: keep the key; it cannot be shown again", file=sys.stderr)
    return FINE


def _list_keys(arguments: argparse.Namespace) -> int:
    from api.answers import moment
    from api.store.keys import list_keys

    with _open(arguments).read() as connection:
        keys = list_keys(connection)
    if not keys:
        print("There is no key yet. Make one with: scantling keys create --firm NAME --name VAN")
    for key in keys:
        state = "in use" if key.revoked is None else f"revoked {moment(key.revoked)}"
        print(f"{key.id}  {key.firm_name}  {key.name}  {','.join(sorted(key.roles))}  {state}")
    return FINE


def _revoke_key(arguments: argparse.Namespace) -> int:
    from api.store.keys import revoke_key
    from api.store.refusals import Missing

    try:
        with _open(arguments).write() as connection:
            revoke_key(connection, arguments.id)
    except Missing:
        remedy = "Look for its id with: scantling keys list"
        raise InvalidInput((Problem("id", f"there is no key {arguments.id!r}", remedy),)) from None
    print(f"Revoked: {arguments.id}")
    return FINE


def _backup(arguments: argparse.Namespace) -> int:
    from api.store.backup import back_up

    return _told(arguments, back_up, "Written")


def _restore(arguments: argparse.Namespace) -> int:
    from api.store.backup import restore

    return _told(arguments, restore, "Restored from")


def _told(arguments: argparse.Namespace, act: Callable[[Store, Path], int], said: str) -> int:
    rows = act(_open(arguments), arguments.file)
    print(f"{said}: {arguments.file}, {rows} rows")
    return FINE
