"""Values to SVG: cutting diagrams and elevations, to scale, safe in black and white."""
