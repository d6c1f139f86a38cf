"""What must be printed with every document, because no plan of parts can promise it.

The maker's instructions, the local codes and a qualified person come before anything said here.
"""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "Not a structural, electrical or fire design. At a loadbearing wall, a chimney breast or a"
    " flue: stop and ask an engineer or building control.",
    "The appliance's manual governs the opening, air gaps, vents, non-combustible zone and the"
    " distance to the TV. Enter its figures, not a rule of thumb, and keep it on site.",
    "Electrics: isolated and proved dead, by a qualified electrician, to the local code (in the UK"
    " BS 7671 and, in England and Wales, Part P: in England a new circuit is notifiable, a spur on"
    " the living room's circuit is not). Accessories stay reachable; no joint is buried.",
    "Hidden cables and pipes: detect before drilling or screwing, and keep out of the zones"
    " straight up, down and across from accessories and within 150 mm of corners and ceilings.",
    "Asbestos: homes built or refurbished before 2000 may have it in textured coatings, insulating"
    " board, fireplace panels and fillers. Do not drill, sand or scrape until it has been sampled.",
    "Dust: limits over 8 h are 5 mg/m³ for softwood, 3 mg/m³ for hardwood and for mixtures such as"
    " MDF, and 0.1 mg/m³ for respirable silica (HSE). Extraction on the saw, FFP3 or better.",
    "Saws: guard and riving knife on, blade stopped before clearing, work supported both sides of"
    " the cut, no freehand ripping, eyes and ears protected; unplug to change a blade.",
    "Lifting: 25 kg is a guideline and not a safe limit. Two people for anything over 25 kg and for"
    " each sheet over 20 kg; carry boards on edge.",
    "TV and bracket: check the TV's mass and hole pattern and the bracket's rating at full reach;"
    " screw into timber, never board alone; two people to hang it; check again after a week.",
    "Fire stopping: do not cut through a party wall or a ceiling lining; put cavity barriers and"
    " fire stops back as found.",
    "Smoke alarms still work and are not boxed in; no escape route becomes narrower.",
    "Plasterboard waste is kept apart from other waste.",
    "Cure damp in an old wall first; damp-proof strip under a sole plate on a concrete floor.",
    "No screw into a floor with heating pipes or cables without their plan.",
    "Old joinery may carry lead paint. Use steps or a platform for high work.",
)
