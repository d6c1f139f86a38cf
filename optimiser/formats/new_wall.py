"""A wall to start from: every field a fitter may write, with its unit and what is taken without it.

What must be given is given, for an invented room; what may be left out is commented, and shows the
value that is taken then, or an example where nothing is.
"""

from __future__ import annotations

NEW_WALL = """\
# A wall. Sizes in mm, masses in kg, the TV's diagonal in inches. Lines that begin with "# " and a
# name may be left out; take the # away to set them. Not a structural, electrical or fire design.
job = "NEW"                       # must be given, and differ from every other job of a batch
# client = ""                     # who it is for
# needed = "2026-12-07"           # date it is needed; without: open

[site]                            # the room, as surveyed; x runs from the left side wall
clear_width_mm = 3600             # between the side walls
height_left_mm = 2400             # floor to ceiling at the left side wall
# height_middle_mm = 2400         # default: as at the left
# height_right_mm = 2400          # default: as at the left
# floor_fall_mm = 0               # how much lower the floor is at the right; below 0: higher
# kind = "solid"                  # the default; or "studs", and then:
# stud_positions_mm = [300, 900]  # middles of the existing studs
# floor = "timber"                # the default: boards on joists; or "solid": concrete and the like
# lean_left_mm = 0                # how far the side wall leans in at the ceiling; below 0: away
# lean_right_mm = 0
# skirting_mm = 18                # thickness of a skirting that stays; without: removed
# plug_spacing_mm = 600           # most between plugs in a solid wall
# levels = [                      # instead of the heights and the fall: two places or more
#   { x_mm = 0, height_mm = 2400, floor_mm = 0 },
#   { x_mm = 3600, height_mm = 2396, floor_mm = -4 },
# ]
# projections = [{ x_mm = 900, width_mm = 1500, depth_mm = 300 }]   # chimney breast or pier
# accessories = [{ x_mm = 1800, z_mm = 450 }]   # sockets and switches: no screws near their cables

[wall]                            # the feature wall
depth_mm = 350                    # existing wall to the face of the boards
# height_mm = 1200                # where it stops short of the ceiling; without: to the ceiling
# offset_mm = 0                   # from the left side wall to its left end
# width_mm = 3600                 # default: up to the right side wall
# left = "abuts"                  # or "free"; default: abuts where it meets a side wall
# right = "abuts"

[fire]                            # take the whole part away where there is none
body_width_mm = 1270              # by the fire's manual, as all that follows
body_height_mm = 480
body_depth_mm = 200
# opening_width_mm = 1270         # hole in the facing board; default: the body
# opening_height_mm = 480
# base_height_mm = 300            # its underside above the floor
# clearance_top_mm = 0            # to timber, by the manual
# clearance_side_mm = 0
# clearance_back_mm = 0
# mass_kg = 28
# power_w = 2000                  # what it draws
# glass = "front"                 # or "left", "right", "both": it returns round a free end
# centre_mm = 1800                # from the wall's left end; default: the middle
# return_depth_mm = 200           # glass at the end of the wall; default: the body's depth
# lining = "calcium-silicate-12"  # where the manual asks for a board that does not burn

[tv]                              # take the whole part away where there is none
diagonal_in = 55                  # or width_mm and height_mm as measured
# width_mm = 1230
# height_mm = 710
# depth_mm = 60
# mass_kg = 20
# centre_mm = 1800                # default: the middle, or over the fire
# centre_height_mm = 1100         # default: over the fire, else 1100
# above_fire_mm = 300             # fire to TV
# finger_gap_mm = 30              # round the TV
# recess_width_mm = 1290          # default: the TV and its gaps
# recess_height_mm = 770
# recess_depth_mm = 120           # default: the TV's depth and 60 for a folded bracket
# bracket_reach_mm = 500
# bracket_mass_kg = 8
# bracket_width_mm = 450
# bracket_height_mm = 300
# eye_height_mm = 1060
# viewing_distance_mm = 2700
# sockets = [{ x_mm = 1700, z_mm = 1200, width_mm = 140, height_mm = 80 }]   # holes in its back

# [soundbar]
# width_mm = 900
# height_mm = 70
# depth_mm = 110
# gap_mm = 10                     # round it
# x_mm = 1350                     # lower left corner of its slot; default: under the TV
# z_mm = 900

# [[niches]]                      # one part for each
# name = "left niche"
# x_mm = 150                      # lower left corner, clear
# z_mm = 1000
# width_mm = 350
# height_mm = 900
# depth_mm = 180
# shelves = 0
# lit = false

# [[steps]]                       # a part of the front at another depth; 0 leaves it open
# name = "centre"
# x_mm = 600
# width_mm = 2400
# depth_mm = 450
# z_mm = 0
# height_mm = 2400                # default: up to the top

[materials]                       # ids of the price book; default: its first fitting one
# timber = "c16-38x63"
# board = "plasterboard-12.5"
# backboard = "mdf-12"
# corner_bead = "corner-bead"
# stop_bead = "stop-bead"
# layers = 1                      # of board on the front
# centres_mm = 400                # of the uprights
# skim = true
# fit_mm = 1                      # what uprights are cut short
"""


def new_wall() -> str:
    """Return the text of a wall file to start from; it frames as it stands."""
    return NEW_WALL
