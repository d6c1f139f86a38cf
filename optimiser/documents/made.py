"""The date that files carry where their format asks for one: always the same, as the library reads
no clock, and the same plan shall give the same file. When it was printed stands on the paper.
"""

from __future__ import annotations

from datetime import UTC, datetime

MADE = datetime(2000, 1, 1, tzinfo=UTC)
