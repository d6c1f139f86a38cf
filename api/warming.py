"""Loads what plans shortly after the start, so that nobody's first small plan waits for it.

A start needs none of it and would take twice as long; the first plan of 30 parts took 2.1 s of a
core's time where the next took 0.04.
"""

from __future__ import annotations

import json
import logging
from threading import Timer

_log = logging.getLogger(__name__)
# Whoever waits for the service to be ready is answered first.
AFTER_SECONDS = 1.0


def start_warming() -> Timer:
    """Begin soon, in a thread of its own; cancel the timer when the service stops before that."""
    timer = Timer(AFTER_SECONDS, warm)
    timer.daemon = True
    timer.start()
    return timer


def warm() -> None:
    """Plan a small request of lengths and boards, as a caller's first would be."""
    import optimiser as lib
    from api.examples import REQUEST_EXAMPLE

    text = json.dumps({**REQUEST_EXAMPLE, "seconds": 0.1})
    try:
        lib.plan_cutting(lib.read_request(text, name="warming"))
    except Exception as fault:
        # Whatever it is, a caller's plan meets it too and answers for it; nothing waits for this.
        _log.warning("service.not_warm fault=%r", fault)
        return
    _log.info("service.warm")
