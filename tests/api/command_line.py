"""What tests of the command line share: the demo's files, and calls of the program."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from api.cli import main
from api.demo_run import SCENARIO
from tests.api.bodies import a_request_body

PRICES = SCENARIO / "price-book.toml"
WALL = SCENARIO / "wall-a.toml"
PARTS = SCENARIO / "parts.csv"
RACK = SCENARIO / "rack.csv"
ROOT = Path(__file__).parents[2]


def run(*arguments: object) -> int:
    return main([str(argument) for argument in arguments])


def files_below(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def write(path: Path, text: str) -> Path:
    path.write_text(text, encoding="utf-8")
    return path


def wall_a(folder: Path, old: str, new: str) -> Path:
    """Write the demo's first wall with one line changed."""
    text = WALL.read_text(encoding="utf-8")
    assert text.count(old) == 1
    return write(folder / "wall.toml", text.replace(old, new))


def assert_drawings(folder: Path, names: set[str]) -> None:
    drawings = {name for name in names if name.endswith(".svg")}
    assert drawings
    for name in drawings:
        assert ElementTree.parse(folder / name).getroot().tag.endswith("}svg")


def refusal(capsys: pytest.CaptureFixture[str]) -> str:
    """Return what was said of a refusal; nothing may stand where results are read from."""
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("scantling: ")
    assert "Traceback" not in err
    return err


def planned(*jobs: Path, out: Path, prices: Path = PRICES, rack: Path | None = None) -> int:
    racked = () if rack is None else ("--rack", rack)
    return run("plan", *jobs, "--prices", prices, *racked, "--seconds", 0.2, "--out", out)


def a_request_file(folder: Path, **changes: object) -> Path:
    return write(folder / "request.json", json.dumps(a_request_body(**changes)))
