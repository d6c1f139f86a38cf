"""Cutting lengths (1D): integers in, patterns and a proven bound out."""
