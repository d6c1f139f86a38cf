"""Timings of the hot functions; run with pytest benchmarks/timings."""
