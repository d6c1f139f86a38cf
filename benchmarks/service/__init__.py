"""How the service stands up: quick answers, a full queue, killed workers, many watchers."""
