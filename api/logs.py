"""What the service logs: one JSON object a line, with the event's name and its fields."""

from __future__ import annotations

import json
import logging
import re
from datetime import UTC, datetime

_FIELD = re.compile(r"(\w+)=(\S+)")


class LineOfJson(logging.Formatter):
    """Writes "run.begun run=run-1 attempt=1" as an object with those fields."""

    def format(self, record: logging.LogRecord) -> str:
        """Write one record."""
        text = record.getMessage()
        line: dict[str, object] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
            "event": text,
        }
        if record.name.startswith(("api.", "optimiser.", "__main__")):
            event, _, fields = text.partition(" ")
            line |= {"event": event, **dict(_FIELD.findall(fields)), "text": text}
        if record.exc_info:
            line["trace"] = self.formatException(record.exc_info)
        return json.dumps(line)


def log_lines() -> None:
    """Send all logs to standard error in that form."""
    handler = logging.StreamHandler()
    handler.setFormatter(LineOfJson())
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)
    # What is called is told by whoever stands before the service; here it would drown the rest.
    logging.getLogger("uvicorn.access").setLevel(logging.WARNING)
    logging.getLogger("alembic").setLevel(logging.WARNING)
