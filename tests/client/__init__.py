"""A client generated from the service's own document, kept as a real consumer of it."""
