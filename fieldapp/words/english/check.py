"""What the checks are called on the screen, by their names in the job file."""

WORDS = {
    "check.missing": "not read",
    "check.read-back": "read-back",
    "check.off-plan": "off plan",
    "check.spacing": "spacing",
    "check.second-tape": "second tape",
    "check.lean": "lean",
    "check.plumb": "plumb",
    "check.grip": "grip",
    "check.slope": "slope",
    "check.neighbour": "neighbour",
    "check.high-end": "high end",
    "check.rack-line": "line of the glass",
    "check.design-slope": "slope from the drawing",
    "check.closing": "closing",
    "check.closing-rise": "closing of the rises",
    "check.glass-size": "size of the glass",
    "check.glass-mass": "mass of the glass",
    "check.post-height": "height of a post",
    "check.turn": "turn at a post",
    "check.slip": "slip",
}
