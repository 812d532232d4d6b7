"""The language's own words by where they may stand. A test holds them against the grammar."""

PRODUCTS = (
    "adhesive", "grout", "primer", "membrane", "tape", "collar", "sealant", "backer", "heating", "trim", "mirror-adhesive",
    "impregnator", "sealer", "leveller",
)

# Words that only start a statement.
STATEMENTS = (
    "job", "language", "conditions", "use", "limit", "room", "datum", "floor", "wall", "shower", "bath", "basin", "boxing", "step",
    "deviation", "record",
)

# Words that start a statement at the margin and an attribute on an indented line.
BOTH = ("tile", *PRODUCTS)

# First words of attributes.
ATTRIBUTES = (
    "crew", "build-up", "closed", "diagonals", "heights", "walk",
    "ref", "revision", "date", "site", "client", "firm", "author", "practice", "begin", "hours", "rooms", "sizes", "built", "paper",
    "notice", "air", "humidity", "surface", "height", "bottom", "in", "on", "along", "at", "out", "joint", "full", "start", "run",
    "weight", "box", "barefoot", "slip", "dcof", "pendulum", "absorption", "chips", "work", "band", "panel", "tiled", "base",
    "thickness", "laid", "joists", "boards", "span", "carries", "window", "door", "opening", "reveal", "niche", "untiled", "splash",
    "pipe", "diameter", "valve", "outlet", "socket", "mirror", "fitting", "fixture", "hall", "finished", "fall", "drain", "channel",
    "sensor", "head", "rim", "class", "for", "colour", "pack", "consumption", "density", "water", "matures", "pot", "open", "coats",
    "film", "notch", "width", "movement", "output", "voltage", "temperature", "wait", "overrun", "note", "by", "after", "before",
    "takes", "because", "reading", "depth", "result",
)

# Statement words that start an attribute when this word follows.
WITH_ZONE = ("shower", "bath")


def starts_statement(first: str, second: str) -> bool:
    """Whether a piece at the margin starts a statement."""
    if first in WITH_ZONE and second == "zone":
        return False
    return first in STATEMENTS or first in BOTH


def starts_attribute(first: str, second: str) -> bool:
    return first in ATTRIBUTES or first in BOTH or (first in WITH_ZONE and second == "zone")
