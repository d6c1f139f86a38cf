"""Integers in, integers out: nothing here knows walls, wood, or whose money it is."""
