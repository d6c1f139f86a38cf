"""The commands around the service: keys, backups, and what serve refuses."""

from __future__ import annotations

import gzip
import json
from pathlib import Path

import pytest
import sqlalchemy as sa

from api.cli import main
from api.logs import LineOfJson
from api.settings import settings_from
from api.store import plans
from api.store.engine import Store
from api.store.migrate import migrate
from api.store.tables import metadata
from optimiser import InvalidInput
from tests.api.databases import HOW, new_database, postgres_programs
from tests.api.store.builders import a_draft, a_length, free, rack_up, require_balance

Shown = pytest.CaptureFixture[str]


def rows_of(store: Store) -> dict[str, list[tuple[object, ...]]]:
    with store.read() as connection:
        return {
            table.name: [
                tuple(row)
                for row in connection.execute(sa.select(table).order_by(*table.primary_key.columns))
            ]
            for table in metadata.sorted_tables
        }


def test_a_key_is_made_listed_and_revoked(store_url: str, capsys: Shown) -> None:
    make = ["keys", "create", "--firm", "Demo Firm", "--name", "van", "--store", store_url]
    assert main([*make, "--roles", "read,order"]) == 0
    key = capsys.readouterr().out.strip()
    assert key.startswith("sk_")

    assert main(["keys", "list", "--store", store_url]) == 0
    listed = capsys.readouterr().out
    assert "Demo Firm  van  order,read  in use" in listed
    assert key not in listed

    assert main(["keys", "revoke", listed.split()[0], "--store", store_url]) == 0
    capsys.readouterr()
    main(["keys", "list", "--store", store_url])
    assert "revoked 20" in capsys.readouterr().out


def test_an_unknown_key_is_not_revoked(store_url: str, capsys: Shown) -> None:
    assert main(["keys", "revoke", "key-none", "--store", store_url]) == 2
    assert "no key 'key-none'" in capsys.readouterr().err


def test_a_role_that_is_none_is_refused_by_name(store_url: str, capsys: Shown) -> None:
    make = ["keys", "create", "--firm", "", "--name", "van", "--store", store_url]

    assert main([*make, "--roles", "read,king"]) == 2

    told = capsys.readouterr().err
    assert "'king' is not a role" in told
    assert "--firm" in told


def test_an_address_that_others_reach_is_not_served_without_keys(
    tmp_path: Path, capsys: Shown
) -> None:
    store = f"sqlite:///{tmp_path}/store.db"

    assert main(["serve", "--host", "0.0.0.0", "--store", store]) == 2  # refused

    assert "--serve-public" in capsys.readouterr().err
    assert not (tmp_path / "store.db").exists()


def test_a_backup_restores_everything(
    store: Store, firm: str, store_url: str, tmp_path: Path, capsys: Shown
) -> None:
    rack_up(store, firm, [a_length("A"), a_length("B")])
    plan, _ = a_draft(store, firm)
    with store.write() as connection:
        plans.confirm(connection, firm, plan, who="fitter")
    file, url = tmp_path / "backup.gz", f"sqlite:///{tmp_path}/new.db"

    assert main(["backup", str(file), "--store", store_url]) == 0
    assert main(["restore", str(file), "--store", url]) == 0

    assert "rows" in capsys.readouterr().out
    restored = Store(url)
    assert rows_of(restored) == rows_of(store)
    # The restored store goes on where the other one was.
    assert free(restored, firm) == {"B", "R1"}
    a_draft(restored, firm)
    require_balance(restored, firm)


def test_a_backup_of_one_database_restores_to_the_other(
    tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    if postgres_programs() is None:
        # Two kinds of database are needed; .ci/run installs the second.
        pytest.skip(HOW)
    small = f"sqlite:///{tmp_path}/small.db"
    large = new_database(request.getfixturevalue("postgres"), "moved")
    store = Store(small)
    migrate(store)
    with store.write() as connection:
        made = "INSERT INTO firms (id, name, created) VALUES ('f', 'f', 1.5)"
        connection.exec_driver_sql(made)
    rack_up(store, "f", [a_length("A")])

    assert main(["backup", str(tmp_path / "b.gz"), "--store", small]) == 0
    assert main(["restore", str(tmp_path / "b.gz"), "--store", large]) == 0

    moved = Store(large)
    assert rows_of(moved) == rows_of(store)
    a_draft(moved, "f")
    require_balance(moved, "f")
    moved.close()


def test_a_store_in_use_is_never_restored_over(
    store: Store, firm: str, store_url: str, tmp_path: Path, capsys: Shown
) -> None:
    file = tmp_path / "backup.gz"
    assert main(["backup", str(file), "--store", store_url]) == 0

    assert main(["restore", str(file), "--store", store_url]) == 2

    assert "is not empty" in capsys.readouterr().err
    assert [row[0] for row in rows_of(store)["firms"]] == [firm]


def test_a_backup_is_never_written_over(store_url: str, tmp_path: Path, capsys: Shown) -> None:
    file = tmp_path / "backup.gz"
    file.write_bytes(b"kept")

    assert main(["backup", str(file), "--store", store_url]) == 2

    assert "is there already" in capsys.readouterr().err
    assert file.read_bytes() == b"kept"


@pytest.mark.parametrize("how", ["cut", "text", "other"])
def test_what_is_no_whole_backup_is_refused(
    store_url: str, tmp_path: Path, capsys: Shown, how: str
) -> None:
    file, url = tmp_path / "backup.gz", f"sqlite:///{tmp_path}/new.db"
    main(["backup", str(file), "--store", store_url])
    lines = gzip.decompress(file.read_bytes()).splitlines(keepends=True)
    if how == "cut":
        file.write_bytes(gzip.compress(b"".join(lines[:-1])))
    elif how == "text":
        file.write_bytes(b"no backup")
    else:
        file.write_bytes(gzip.compress(b"[1]\n"))

    assert main(["restore", str(file), "--store", url]) == 2

    assert "is no whole backup" in capsys.readouterr().err
    assert rows_of(Store(url))["firms"] == []


def test_settings_come_from_the_environment_and_the_command_line_wins() -> None:
    environment = {"SCANTLING_STORE": "sqlite:///a.db", "SCANTLING_WORKERS": "3"}

    assert settings_from(environment).store == "sqlite:///a.db"
    assert settings_from(environment).workers == 3
    assert settings_from(environment, store="sqlite:///b.db", workers=2).store == "sqlite:///b.db"
    assert settings_from(environment, workers=2).workers == 2


def test_settings_that_cannot_be_are_all_named() -> None:
    with pytest.raises(InvalidInput) as refused:
        settings_from(
            {"SCANTLING_WORKERS": "many", "SCANTLING_RATE": "nan", "SCANTLING_MOST_BYTES": "inf"}
        )

    named = {problem.field for problem in refused.value.problems}
    assert named == {"SCANTLING_WORKERS", "SCANTLING_RATE", "SCANTLING_MOST_BYTES"}


def test_a_log_line_is_an_object_with_the_events_fields() -> None:
    import logging

    record = logging.LogRecord(
        "api.runner", logging.INFO, "", 0, "run.begun firm=%s run=%s", ("f", "run-1"), None
    )

    line = json.loads(LineOfJson().format(record))

    assert (line["event"], line["firm"], line["run"]) == ("run.begun", "f", "run-1")
    assert line["level"] == "info"
