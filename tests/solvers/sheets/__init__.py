"""The 2D solver."""
