"""Every rule that framing follows, each with its text and where it is from.

A member, board, bead, quantity or finding carries the id of its rule; this is the only list of
them, so that each millimetre can be traced to a source. Sources are published ones by name, or say
plainly "common practice, no source", "from memory" or "calculated".
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from optimiser.domain.finding import Change, Finding, Severity

COMMON = "common practice, no source"
CALCULATED = "calculated"
NHBC_FRAME = "NHBC Standards 6.3.9 and Table 3"
NHBC_BOARD = "NHBC Standards 9.2.4"
SPECIFICATION = "published UK project specification 2014, clauses 590-640"
EC5 = "EN 1995-1-1 (8.38)-(8.40)"
HSE = "HSE INDG143"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """What is done, in one line, and where that is from."""

    text: str
    source: str


def _rule(text: str, source: str) -> Rule:
    return Rule(text=text, source=source)


RULES: dict[str, Rule] = {
    # Members
    "frame.plate.sole": _rule("sole plate level on packing, joined over an upright", NHBC_FRAME),
    "frame.plate.head": _rule("head plate along the ceiling, joined over an upright", NHBC_FRAME),
    "frame.upright.end": _rule("an upright at each end of the wall", COMMON),
    "frame.upright.opening-side": _rule("a full upright each side of an opening", COMMON),
    "frame.upright.joint": _rule(
        "every board joint lands on the middle of a timber", SPECIFICATION
    ),
    "frame.upright.centres": _rule(
        "uprights at the centres chosen, within the board's limit", NHBC_BOARD
    ),
    "frame.upright.return-edge": _rule(
        "an upright behind the glass's edge in the end face", COMMON
    ),
    "frame.upright.end-edge": _rule(
        "an upright behind the back edge of a bare end's board", SPECIFICATION
    ),
    "frame.upright.end-span": _rule(
        "uprights in a bare end, so that its board spans no further than it may", NHBC_BOARD
    ),
    "frame.sill": _rule("a rail under each opening, between its uprights", COMMON),
    "frame.head": _rule("a rail over each opening, between its uprights", COMMON),
    "frame.noggin.joint": _rule("noggins behind each horizontal board joint", NHBC_BOARD),
    "frame.noggin.edge": _rule("noggins behind the back edge of a top or an underside", NHBC_BOARD),
    "frame.noggin.mid-height": _rule(
        "noggins divide each bay into lengths of 1 350 at most", "UK trade wiki, stud walls"
    ),
    "frame.return.end": _rule("front and back joined at the ends of each upright", COMMON),
    "frame.return.spacing": _rule("front and back joined at 1 200 at most", COMMON),
    "frame.return.reveal": _rule("a reveal is held as often as its board's span asks", NHBC_BOARD),
    "frame.return.level": _rule(
        "a return under each stretch of a top or over an underside", NHBC_BOARD
    ),
    "frame.return.end-span": _rule(
        "returns beside glass, so that the board of its end spans no further than it may",
        NHBC_BOARD,
    ),
    "frame.return.flat": _rule(
        "a return on the flat behind a bare end's edge, or under a fire on the sole plates, where"
        " none on edge has room",
        COMMON,
    ),
    "frame.return.strut": _rule("each strut ends on a return, and is propped from behind", COMMON),
    "frame.strut.back": _rule("struts behind the whole width of a recess's back", COMMON),
    "frame.strut.bracket": _rule("two struts 200 apart take the bracket's screws", COMMON),
    "frame.return.shelf": _rule("a return each side of a niche at each shelf", COMMON),
    "frame.ledger": _rule(
        "ledgers screwed into the existing wall's studs, never its board", COMMON
    ),
    # Boards
    "board.front": _rule(
        "boards on end, as wide as a sheet; openings are cut out, not pieced round", COMMON
    ),
    "board.front.second": _rule("second layer with its joints off the first layer's", COMMON),
    "board.end": _rule("a free end is boarded behind the front board's edge", COMMON),
    "board.top": _rule("a top that stops short of the ceiling is boarded over returns", COMMON),
    "board.underside": _rule("the underside of a part built out is boarded", COMMON),
    "board.double-cheek": _rule("a second board narrows a recess to the gap wanted", COMMON),
    "board.fire-lining": _rule("timber round the fire lined as its manual asks", COMMON),
    "board.reveal": _rule("soffit, sill and cheeks from the front board to the back", COMMON),
    "board.back": _rule("a niche is lined at its back", COMMON),
    "board.backboard": _rule("backboard of 12 MDF behind the TV", COMMON),
    "board.shelf": _rule("shelves fixed at both cheeks", COMMON),
    # Beads
    "bead.corner": _rule("corner bead along every outside corner", SPECIFICATION),
    "bead.stop": _rule("stop bead where skim meets another surface", SPECIFICATION),
    # Quantities
    "quantity.screw-70": _rule(
        "uprights flat against each other joined at 600 at most, by screws that stay within both:"
        " 70 through 38 and 38",
        "calculated; spacing: common practice, no source",
    ),
    "quantity.screw-80": _rule(
        "2 screws of 80 at each member end, through one timber",
        f"{NHBC_FRAME}: 2 at each; 80 long: {COMMON}",
    ),
    "quantity.screw-100": _rule(
        "screws of 100 through two timbers, through plates and into existing studs", COMMON
    ),
    "quantity.drywall-screw": _rule(
        "board screws at 300 along each timber, 200 at outside corners", SPECIFICATION
    ),
    "quantity.drywall-screw-long": _rule(
        "board and 25 into timber: a second layer takes longer screws", "web guide to screw length"
    ),
    "quantity.mdf-screw": _rule("backboard screws at 300 along each strut", COMMON),
    "quantity.shelf-screw": _rule(
        "4 screws of 4 mm a shelf, through the cheek and 25 into the returns behind", COMMON
    ),
    "quantity.joint-tape": _rule("tape on each flat joint of the last layer, 10 % more", COMMON),
    "quantity.angle-tape": _rule(
        "paper tape in each inside angle, 10 % more", "clerk-of-works article on tape"
    ),
    "quantity.adhesive": _rule("a 6 mm bead of adhesive along each strut", CALCULATED),
    "quantity.plaster": _rule("skim: 25 kg on 10 m²", "UK plasterers' bag guide (9-12 m²)"),
    "quantity.primer": _rule(
        "a first coat on all that shows, backboard and shelves too: a litre on 10 m²",
        "from memory (10-12 m²)",
    ),
    "quantity.light-strip": _rule("a strip of light under the top and each shelf", COMMON),
    "quantity.packer": _rule(
        "flat packers under each upright, as many as reach from the floor to the plate",
        "from memory (1 to 6 thick); one stack an upright: common practice, no source",
    ),
    "quantity.hammer-fixing": _rule(
        "plates on a solid floor held by hammer fixings at 600 at most",
        "UK trade wiki, stud walls",
    ),
    "quantity.damp-proof-strip": _rule(
        "a damp-proof strip under sole plates and returns on a solid floor",
        "NHBC Standards 6.3 S2 (2011); 100 more for laps: common practice, no source",
    ),
    "quantity.plug-fixing": _rule("plug and screw into masonry each 600 at most", COMMON),
    # Findings
    "check.fire.depth": _rule("the fire's body and back clearance fit the depth", COMMON),
    "check.fire.maker": _rule("the maker's installation manual governs the opening", COMMON),
    "check.fire.overhang": _rule(
        "facing board and lining overhang their timber by 50 at most", COMMON
    ),
    "check.fire.centre": _rule("glass to an end puts the fire at that end", COMMON),
    "check.fire.width": _rule("glass at both ends spans the whole front", COMMON),
    "check.fire.opening": _rule("the facing board's hole is within the body's", COMMON),
    "check.fire.ventilation": _rule(
        "air round the body as its manual asks", "installation guide of a built-in unit"
    ),
    "check.fire.power": _rule(
        "a fuse of 13 A carries the fire; only a new circuit is notifiable",
        "calculated; wiring regulations article on Part P",
    ),
    "check.fire.lining": _rule(
        "a lining that the fire's manual asks for is of class A1 or A2",
        "EN 13501-1, from memory; the manual governs",
    ),
    "check.fire.barrier": _rule(
        "a cavity barrier is timber of 38 or board of 12 at least", "Approved Document B"
    ),
    "check.fire.tv": _rule(
        "300 from a fire with a front heater to a TV", "fire retailer's article"
    ),
    "check.tv.gap": _rule("a finger gap of about 30 all round the TV", COMMON),
    "check.tv.depth": _rule("the TV stands within its recess", COMMON),
    "check.tv.bracket": _rule("the bracket lies on the backboard, clear of sockets", COMMON),
    "check.tv.edge": _rule(
        "screws in MDF 12 from its edge and 25 from its corner", "European MDF industry pages"
    ),
    "check.tv.socket": _rule("a socket lies within the backboard, clear of struts", COMMON),
    "check.tv.withdrawal": _rule("static pull of the bracket at full reach", EC5),
    "check.tv.shear": _rule(
        "pull and shear of the bracket's screws together", "EN 1995-1-1 (8.6), (8.28)"
    ),
    "check.tv.angle": _rule("an upward look of 15° at most", "display set-up guide (40°, 15°)"),
    "check.tv.size": _rule("a diagonal gives the picture, not the case", CALCULATED),
    "check.tv.mass": _rule("the TV's mass must be known for its bracket", COMMON),
    "check.board.centres": _rule("9.5 board at 450, 12.5 and thicker at 600 at most", NHBC_BOARD),
    "check.board.noggins": _rule("12.5 board at 600 has noggins between", NHBC_BOARD),
    "check.board.bearing": _rule("a bound and a cut edge need 35 of timber", SPECIFICATION),
    "check.board.corner": _rule("no joint in line with an opening's corner", "from memory"),
    "check.board.strip": _rule("no strip of board narrower than 150", COMMON),
    "check.timber.section": _rule("studs and plates of 38 × 63 at least", NHBC_FRAME),
    "check.timber.noggin": _rule("noggins behind board of 38 × 43 at least", NHBC_FRAME),
    "check.timber.size": _rule(
        "planed timber within 1 of its size up to 100, 1.5 beyond; 0.25 % a 1 % of moisture",
        "EN 336 class 2; article on softwood sizes",
    ),
    "check.timber.stock": _rule("a member that may not be joined fits a stock length", COMMON),
    "check.mass.sheet": _rule(
        "one person lifts 20 kg of board, nothing over 25 kg", f"{HSE}; 20 kg: board maker's advice"
    ),
    "check.mass.item": _rule("one person lifts nothing over 25 kg", HSE),
    "check.tv.distance": _rule(
        "a screen fills 30° to 40° of the view", "display set-up guide (30°, 40°)"
    ),
    "check.site.studs": _rule("fixings hit the existing wall's studs", COMMON),
    "check.site.level": _rule("floor packed where it is low, never over-wedged", NHBC_FRAME),
    "check.opening.aligned": _rule("sides of openings nearly in line share an upright", COMMON),
    "check.site.lean": _rule("side walls out of plumb are packed and scribed to", COMMON),
    "check.site.skirting": _rule("a skirting that is kept has the frame before it", COMMON),
    "check.site.cables": _rule(
        "no screw where a hidden cable may run", "BS 7671 522.6.202, training company's answer"
    ),
    "check.site.accessory": _rule(
        "accessories stay reachable, no joint is buried", "BS 7671; On-Site Guide"
    ),
    "check.cable.passage": _rule(
        "a hole of 50, or 25, through the back of what is fed, clear of struts and shelves", COMMON
    ),
    "check.cable.route": _rule("cables run between the skeletons; no timber is notched", COMMON),
    "check.niche.light": _rule("a lit niche needs a cable and a place for its driver", COMMON),
    "check.shelf.sag": _rule("a shelf sags 1/200 of its span at most", CALCULATED),
    "check.shelf.fixing": _rule(
        "what the screws at a shelf's ends hold before their timber",
        "calculated by the yield theory of EN 1995-1-1 8.2, with 8.7.1",
    ),
    "check.fit": _rule(
        "uprights are cut 1 short of the space between plates, a closing board 3 narrower", COMMON
    ),
}


def finding(
    rule: str, severity: Severity, trouble: str, remedy: str, *, change: Iterable[Change] = ()
) -> Finding:
    """Make the finding of one rule, with that rule's source."""
    return Finding(
        rule=rule,
        severity=severity,
        trouble=trouble,
        remedy=remedy,
        source=RULES[rule].source,
        change=tuple(change),
    )
