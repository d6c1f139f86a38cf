"""Where everything stands in the one table of whole numbers that the search works on.

Rows: row 0 counts, then one row per sheet size, one per part type, then the nodes of all sheets.
Columns mean different things in each kind of row; their names are here and nowhere else. Sizes in
the table are real sizes plus one kerf, so that cuts add up without it.
"""

from __future__ import annotations

from typing import Final

COLUMNS: Final = 18

# Columns of a node. A rip node holds pieces side by side, a crosscut node pieces one above another;
# their sizes add up to the node's own. FREE rows are strung together by NEXT.
KIND: Final = 0
W: Final = 1
H: Final = 2
UP: Final = 3
FIRST: Final = 4
NEXT: Final = 5
PREV: Final = 6
DEPTH: Final = 7  # runs of parallel cuts from the sheet to this piece
PART: Final = 8  # row of its part type
TURNED: Final = 9
ROOT: Final = 10
FORE: Final = 11  # neighbours in the sheet's list of left-over pieces
BACK: Final = 12
LEFT: Final = 13  # of a root: first left-over piece of the sheet
SIZE: Final = 14  # of a root: row of its sheet size
POS: Final = 15  # of a root: place in the list of open sheets; of a type: in the list of waiting

# Two lists run down the table: open sheets (their roots) and part types with copies waiting.
OPEN: Final = 16
WAIT: Final = 17

# Columns of row 0.
N_OPEN: Final = 0
N_WAIT: Final = 1
FREE_ROW: Final = 2
PRICE: Final = 3  # of all open sheets, pence
UNPLACED: Final = 4  # area that waits
CREDIT: Final = 5  # pence that left-over pieces earn

# Columns of a size row and of a type row, beside W and H (and TURNED: may be turned).
COUNT: Final = 4  # sheets in use; copies waiting
COST: Final = 5
AVAILABLE: Final = 6

# Kinds of node.
FREE: Final = 0
LEFTOVER: Final = 1
PLACED: Final = 2
RIP: Final = 3
CROSS: Final = 4

# Settings and counters that no step is taken back for.
LUCK: Final = 0  # state of the generator
CAP: Final = 1  # most that the open sheets may cost together
STAGES: Final = 2
KERF: Final = 3
WINDOW: Final = 4  # sheets looked at in one step
CREDITED: Final = 5  # 1 when the credit counts while searching
TICK: Final = 6  # steps taken since the settings changed
LAST: Final = 7  # the step of the last improvement
PATIENCE: Final = 8  # steps without one before giving up
LOGGED: Final = 9  # entries in the log
SIZES: Final = 10  # number of sheet sizes; their rows are 1 to SIZES
TYPES: Final = 11  # number of part types; their rows follow
RULE: Final = 12  # how a new sheet's size is chosen: see `choose_size`
BLINK: Final = 13  # one in so many places is passed over; 0 for none
KEEP_LONG: Final = 14
KEEP_SHORT: Final = 15
WORK: Final = 16  # places looked at
FRESH: Final = 17  # 1 while a plan is built from nothing, which is never taken back
WAYS: Final = 18  # parts lie either way (0), as listed (1), turned if they may be (2)
ONE_WAY: Final = 19  # WAYS of every step, if above 0
SETTINGS: Final = 20

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
