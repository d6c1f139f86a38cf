"""A PostgreSQL server for the tests, where the machine has one; and empty databases on it."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psycopg

URL = "postgresql://postgres@/{name}?host={folder}"
HOW = "PostgreSQL is not on this machine: these tests run on SQLite only"


def postgres_programs() -> Path | None:
    """Return the folder of PostgreSQL's server programs, the newest there are."""
    found = shutil.which("initdb")
    homes = [Path(found).parent] if found else []
    homes += sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
    return next((home for home in homes if (home / "initdb").exists()), None)


@contextmanager
def postgres_server(programs: Path) -> Iterator[Path]:
    """Run a server of our own, without a port; yield the folder of its socket."""
    with tempfile.TemporaryDirectory(prefix="pg", ignore_cleanup_errors=True) as name:
        folder = Path(name)
        as_user: list[str] = []
        if os.geteuid() == 0:  # the server refuses to run as root
            user = pwd.getpwnam("postgres")
            os.chown(folder, user.pw_uid, user.pw_gid)
            as_user = ["runuser", "-u", "postgres", "--"]
        cluster = str(folder / "data")
        make = ["initdb", "-D", cluster, "-U", "postgres", "-A", "trust", "--no-sync"]
        options = f"-k {folder} -c listen_addresses='' -c fsync=off -c max_connections=200"
        begin = ["pg_ctl", "-D", cluster, "-w", "-l", str(folder / "log"), "-o", options, "start"]
        for command in (make, begin):
            program = [*as_user, str(programs / command[0]), *command[1:]]
            done = subprocess.run(program, check=False, capture_output=True, cwd="/")
            assert done.returncode == 0, done.stderr.decode()
        try:
            yield folder
        finally:
            end = [*as_user, str(programs / "pg_ctl"), "-D", cluster, "-m", "immediate", "stop"]
            subprocess.run(end, check=False, capture_output=True, cwd="/")


def new_database(folder: Path, name: str, *, template: str = "template1") -> str:
    """Make a database like another, an empty one unless said, and return its URL."""
    with psycopg.connect(f"host={folder} user=postgres", autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}" TEMPLATE {template}'.encode())
    return URL.format(name=name, folder=folder)
