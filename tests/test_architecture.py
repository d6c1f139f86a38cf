"""How the code is laid out: short modules that say why they exist, and a library that is silent.

Which package may import which is held by the contracts in pyproject.toml.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = sorted(
    path
    for package in ("optimiser", "api", "benchmarks")
    for path in (ROOT / package).rglob("*.py")
)
LIBRARY = [path for path in MODULES if path.relative_to(ROOT).parts[0] == "optimiser"]
MOST_LINES = 400


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def test_all_packages_are_looked_at() -> None:
    names = {name_of(path).split("/")[0] for path in MODULES}

    assert names == {"optimiser", "api", "benchmarks"}


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_every_module_says_why_it_exists(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_every_module_is_short_enough_to_be_read_at_one_sitting(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) < MOST_LINES


@pytest.mark.parametrize("path", LIBRARY, ids=name_of)
def test_the_library_prints_nothing(path: Path) -> None:
    calls = (
        node.func
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
    )

    assert not [call.lineno for call in calls if isinstance(call, ast.Name) and call.id == "print"]
