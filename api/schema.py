"""Write the JSON Schema of every document into a folder: `python -m api.schema DIR`."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import optimiser as lib
from api.folder import write_files


def main(folder: Path) -> None:
    """Write one file per document."""
    write_files(
        {
            f"{name}.schema.json": json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
            for name, schema in lib.schemas().items()
        },
        folder,
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
