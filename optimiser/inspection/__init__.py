"""The inspector of frames: proves a wall from its geometry alone, whoever made it."""
