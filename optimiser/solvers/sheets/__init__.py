"""Cutting sheets (2D guillotine): integers in, trees of cuts and a proven bound out."""
