"""Where everything stands in the one row of small whole numbers that the search works on.

The row holds records of fixed widths: nodes of the guillotine trees, sheets, sheet sizes, part
types, then two plain lists. A record is known by the place of its first cell, so that `row[node +
W]` is the width of a node; place 0 is nobody's and means "none". Records are narrow and 32 bits a
cell, since the search lives on how many of them the processor keeps near. Sizes in them are real
sizes plus one kerf, so that cuts add up without it.
"""

from __future__ import annotations

from typing import Final

# A node. A rip node holds pieces side by side, a crosscut node pieces one above another; their
# sizes add up to the node's own. Free nodes are strung together by NEXT.
KIND: Final = 0
W: Final = 1
H: Final = 2
UP: Final = 3
NEXT: Final = 4
PREV: Final = 5
DEPTH: Final = 6  # runs of parallel cuts from the sheet to this piece
SHEET: Final = 7
FIRST: Final = 8  # of a divided node: its first piece
PART: Final = 8  # of a part: its type
FORE: Final = 8  # of a left-over piece: its neighbours in the sheet's list of them
BACK: Final = 9
NODE: Final = 10  # cells of a node

# A sheet. Free ones are strung together by SPOT.
TREE: Final = 0  # its outermost node
SIZE: Final = 1
SPOT: Final = 2  # its place in the list of open sheets
LEFT: Final = 3  # first of its left-over pieces
THICK: Final = 4  # largest shorter side of a left-over piece
LARGE: Final = 5  # largest area of one, in units of 2 ** SHIFT
SHEET_CELLS: Final = 6

# A sheet size and a part type, beside W and H.
TURNS: Final = 0  # of a type: whether it may be turned
COST: Final = 3
COUNT: Final = 4  # sheets in use; copies waiting
AVAILABLE: Final = 5
PLACE: Final = 5  # of a type: its place in the list of those that wait
CELLS: Final = 6

# Kinds of node.
FREE: Final = 0
LEFTOVER: Final = 1
PLACED: Final = 2
RIP: Final = 3
CROSS: Final = 4

# Counters of the present state, in `head`; a step that is taken back restores them.
N_OPEN: Final = 0
N_WAIT: Final = 1
FREE_NODE: Final = 2
FREE_SHEET: Final = 3
PRICE: Final = 4  # of all open sheets, pence
UNPLACED: Final = 5  # area that waits
CREDIT: Final = 6  # pence that left-over pieces earn
COUNTERS: Final = 7
# The same as they were when the step began.
BEFORE: Final = 7

# Settings and counters that no step is taken back for.
LUCK: Final = 14  # state of the generator
CAP: Final = 15  # most that the open sheets may cost together
STAGES: Final = 16
KERF: Final = 17
WINDOW: Final = 18  # a step looks at 2 to so many sheets
CREDITED: Final = 19  # 1 when the credit counts while searching
TICK: Final = 20  # steps taken since the settings changed
LAST: Final = 21  # the step of the last improvement
PATIENCE: Final = 22  # steps without one before giving up
LOGGED: Final = 23  # entries in the log
SIZES: Final = 24  # number of sheet sizes
TYPES: Final = 25  # number of part types
RULE: Final = 26  # how a new sheet's size is chosen: see `choose_size`
BLINK: Final = 27  # one in so many places is passed over; 0 for none
KEEP_LONG: Final = 28
KEEP_SHORT: Final = 29
WORK: Final = 30  # places looked at
FRESH: Final = 31  # 1 while a plan is built from nothing, which is never taken back
WAYS: Final = 32  # parts lie either way (0), as listed (1), turned if they may be (2)
ONE_WAY: Final = 33  # WAYS of every step, if above 0
FIRST_CUT: Final = 34  # RIP or CROSS where the first cut of a sheet must be one; else 0
SHIFT: Final = 35
AT_SIZES: Final = 36  # where the records and lists begin
AT_TYPES: Final = 37
AT_OPEN: Final = 38  # list of the open sheets
AT_WAIT: Final = 39  # list of the part types with copies waiting
STEPS: Final = 40  # steps taken since the start
SETTINGS: Final = 41

# Settings that are not whole numbers.
RATE: Final = 0  # pence per square unit of a left-over piece worth keeping
PENALTY: Final = 1  # pence per square unit of parts that wait
NOW: Final = 2  # worth of the present state, less is better
BEST: Final = 3  # least worth since the settings changed
TARGET: Final = 4  # a complete plan must be below this
RATIOS: Final = 5

# What `search` says when it returns.
GO_ON: Final = 0
FOUND: Final = 1
STALLED: Final = 2
