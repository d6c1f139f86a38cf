"""The README's worked example is today's: its wall file makes job A, and its pictures show it."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.api.command_line import run

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "api/demo"


def framed(wall: Path, out: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """The frame that the command prints; its drawings stand in `out`."""
    book = DEMO / "price-book.toml"
    assert run("frame", wall, "--prices", book, "--out", out, "--json") == 0
    frame: dict[str, Any] = json.loads(capsys.readouterr().out)
    return frame


@pytest.fixture
def of_the_demo(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    return framed(DEMO / "wall-a.toml", tmp_path / "demo", capsys)


def test_the_wall_file_printed_there_makes_the_parts_of_job_a(
    of_the_demo: dict[str, Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    [printed] = re.findall(r'^```toml\n(job = "A".*?)^```$', text, re.MULTILINE | re.DOTALL)
    (tmp_path / "printed.toml").write_text(printed, encoding="utf-8")

    frame = framed(tmp_path / "printed.toml", tmp_path / "out", capsys)

    made = ("members", "boards", "beads", "quantities")
    assert {name: frame[name] for name in made} == {name: of_the_demo[name] for name in made}
    assert all(frame[name] for name in made)


@pytest.mark.parametrize(
    ("picture", "drawing"), [("job-a-frame", "a-frame"), ("job-a-pictorial", "a-pictorial")]
)
def test_its_pictures_of_the_wall_are_those_drawn_today(
    picture: str, drawing: str, of_the_demo: dict[str, Any], tmp_path: Path
) -> None:
    assert of_the_demo["members"]
    drawn = (tmp_path / "demo" / f"{drawing}.svg").read_bytes()

    # When drawings change: copy these from `scantling frame api/demo/wall-a.toml … --out FOLDER`.
    assert (ROOT / f"docs/pictures/{picture}.svg").read_bytes() == drawn
