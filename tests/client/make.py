"""Generates the client anew from the service's OpenAPI document: `make client`."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from api.app import create_app
from api.settings import Settings

HERE = Path(__file__).parent
DOCUMENT = HERE / "openapi.json"
# The generator writes it beside imports that it must make late; no linter here has that rule.
_SAID_TO_A_LINTER = re.compile(r" *# noqa: PLC0415")
# What is said in words may change without a new client.
_WORDS = ("summary", "example", "examples")


def document() -> dict[str, Any]:
    """Return the OpenAPI document of a service that asks for keys, without its words."""
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(Settings(store=f"sqlite:///{folder}/store.db", public=True))
        found = _without_words(app.openapi())
        app.state.store.close()
    assert isinstance(found, dict)
    return found


def _without_words(node: Any) -> Any:
    if isinstance(node, dict):
        kept = {key: value for key, value in node.items() if key not in _WORDS}
        # OpenAPI asks every answer for a description; a field may be called so, too.
        return {
            key: "" if key == "description" and isinstance(value, str) else _without_words(value)
            for key, value in kept.items()
        }
    return [_without_words(value) for value in node] if isinstance(node, list) else node


def main() -> None:
    """Write the document and the client made of it."""
    DOCUMENT.write_text(json.dumps(document(), indent=1) + "\n", encoding="utf-8")
    command = [str(Path(sys.executable).with_name("openapi-python-client")), "generate"]
    command += ["--path", str(DOCUMENT), "--meta", "none", "--overwrite"]
    command += ["--config", str(HERE / "config.yaml"), "--output-path", str(HERE / "generated")]
    subprocess.run(command, check=True)
    for module in (HERE / "generated").rglob("*.py"):
        # Our linter leaves the generated client alone: what its templates say to one is not needed.
        text = module.read_text(encoding="utf-8")
        module.write_text(_SAID_TO_A_LINTER.sub("", text), encoding="utf-8")


if __name__ == "__main__":
    main()
