"""From a wall to its parts: knows the trade, not the saw, and never a solver."""
