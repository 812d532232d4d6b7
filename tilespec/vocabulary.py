"""The plain words of the trade that a spec may use: bases, descriptions of tiles, bonds, choices."""

from __future__ import annotations

# Words for a base, each with its key. Longest match first; the message offers the nearest.
BASES: dict[str, str] = {
    "cement screed": "cement-screed",
    "sand cement screed": "cement-screed",
    "heated cement screed": "cement-screed",
    "fast cement screed": "cement-screed",
    "calcium sulfate screed": "calcium-sulfate-screed",
    "calcium-sulfate screed": "calcium-sulfate-screed",
    "calcium sulphate screed": "calcium-sulfate-screed",
    "anhydrite screed": "calcium-sulfate-screed",
    "gypsum screed": "calcium-sulfate-screed",
    "concrete": "concrete",
    "concrete slab": "concrete",
    "mortar bed": "cement-screed",
    "gypsum plaster": "gypsum-plaster",
    "plaster": "gypsum-plaster",
    "gypsum plasterboard": "gypsum-plasterboard",
    "plasterboard": "gypsum-plasterboard",
    "gypsum board": "gypsum-plasterboard",
    "moisture-resistant plasterboard": "gypsum-plasterboard",
    "drywall": "gypsum-plasterboard",
    "gypsum fibreboard": "gypsum-fibreboard",
    "gypsum fiberboard": "gypsum-fibreboard",
    "cement render": "cement-render",
    "cement plaster": "cement-render",
    "sand cement render": "cement-render",
    "lime plaster": "cement-render",
    "render": "cement-render",
    "blockwork": "cement-render",
    "brickwork": "cement-render",
    "masonry": "cement-render",
    "brick": "cement-render",
    "cement board": "cement-board",
    "cement-board": "cement-board",
    "cement backer board": "cement-board",
    "fibre-cement sheet": "cement-board",
    "fiber-cement board": "cement-board",
    "tile-backer board": "tile-backer-board",
    "tile backer board": "tile-backer-board",
    "foam board": "tile-backer-board",
    "timber": "timber",
    "timber deck": "timber",
    "timber floor": "timber",
    "floorboards": "timber",
    "chipboard": "timber",
    "plywood": "plywood",
    "old tiles": "old-tiles",
    "existing tiles": "old-tiles",
    "painted plaster": "painted",
    "paint": "painted",
}

# Bases with gypsum in the face that meets the adhesive.
GYPSUM = ("calcium-sulfate-screed", "gypsum-plaster", "gypsum-plasterboard", "gypsum-fibreboard")
FLOOR_BASES = (
    "cement-screed",
    "calcium-sulfate-screed",
    "concrete",
    "timber",
    "plywood",
    "old-tiles",
    "cement-board",
    "tile-backer-board",
)
# What is only ever under a wall, and only ever under a floor.
WALLS_ONLY = ("gypsum-plaster", "gypsum-plasterboard", "cement-render")
FLOORS_ONLY = ("cement-screed", "calcium-sulfate-screed")
# The usual ones first.
WALL_BASES = (
    "cement-render", "gypsum-plaster", "gypsum-plasterboard", "cement-board", "tile-backer-board", "gypsum-fibreboard",
    "concrete", "old-tiles", "painted", "timber", "plywood",
)
# Wood moves and burns: it has rules of its own under heating and water.
TIMBER = ("timber", "plywood")
SCREEDS = FLOORS_ONLY
ABSORBENCY = {
    "cement-screed": "normal",
    "calcium-sulfate-screed": "normal",
    "concrete": "normal",
    "gypsum-plaster": "high",
    "gypsum-plasterboard": "high",
    "gypsum-fibreboard": "high",
    "cement-render": "high",
    "cement-board": "normal",
    "tile-backer-board": "dense",
    "timber": "normal",
    "plywood": "normal",
    "old-tiles": "dense",
    "painted": "dense",
    "not-stated": "normal",
}
# Bases that were there before the job.
EXISTING = ("old-tiles", "painted")
# Slip classes: of the ramp with shoes (R), of the pendulum (P).
SLIP = ("R9", "R10", "R11", "R12", "R13", "P0", "P1", "P2", "P3", "P4", "P5")
BASE_WORDS = ("skim", "skimmed", "unskimmed", "existing", "new")

BODIES = {
    "porcelain": "porcelain",
    "ceramic": "ceramic",
    "earthenware": "ceramic",
    "stoneware": "ceramic",
    "stone": "stone",
    "marble": "stone",
    "limestone": "stone",
    "travertine": "stone",
    "granite": "stone",
    "slate": "stone",
    "sandstone": "stone",
    "glass": "glass",
    "terracotta": "ceramic",
    "cement": "stone",
    "terrazzo": "stone",
    "quarry": "ceramic",
}
POROUS = ("stone", "marble", "limestone", "travertine", "slate", "sandstone", "terracotta", "cement", "terrazzo", "unglazed")
LIME_STONES = ("marble", "limestone", "travertine", "terrazzo")
TILE_WORDS = (
    *BODIES,
    "natural",
    "mosaic",
    "rectified",
    "pressed",
    "translucent",
    "light",
    "dark",
    "glazed",
    "unglazed",
    "landscape",
    "upright",
    "engineered",
    "matt",
    "polished",
    "textured",
)

BONDS = {
    "straight": "straight",
    "grid": "straight",
    "stack": "stack",
    "stacked": "stack",
    "half": "half",
    "third": "third",
    "quarter": "quarter",
    "diagonal": "diagonal",
    "herringbone": "herringbone",
    "basket": "basket",
}
OFFSETS = ("half", "third", "quarter", "run")
BOND_HELP = (
    "Bonds are: straight, stack, half, third, quarter, diagonal, herringbone, basket, modular with another tile; with `stepped`"
    " or `back and forth`, `vertical`, `double`, `landscape` or `upright`."
)
BOND_WORDS = (
    *BONDS, "bond", "weave", "stepped", "back", "and", "forth", "offset", "vertical", "double", "landscape", "upright",
)

CENTRE = ("centre", "center")
STARTS = ("datum", "floor", "finished floor", "door", "left", "right", "top", "ceiling", "drain", "window")
# From where courses can start, and places on a wall be measured.
FROM = ("left", "right", "top", "ceiling", "floor", "finished floor")
# What a tile or a joint can be put on the middle of, and in which direction.
MIDDLES = (*CENTRE, "window", "door", "drain")
WAYS = ("across", "up", "both ways")

PATTERNS_OF_PLANES = ("one", "two", "four", "plane", "planes")

RECORDS = (
    "substrate-moisture", "substrate-flatness", "substrate-strength", "substrate", "pressure-test", "drain", "primer",
    "first-coat", "second-coat", "membrane-thickness", "membrane", "ponding", "tiling", "contact", "lippage", "finished-plane",
    "grouting", "sealing", "heating-cycle", "heating-before", "heating-cover", "heating-after", "insulation-before",
    "insulation-cover", "insulation-after", "heating-start", "leak-test", "asbestos", "lead", "resin-training", "first-use",
    "final",
)
# What can be signed only in this order. The heating has its own: a cable in the leveller lies below the membrane, a mat above it.
RECORD_CHAINS = (
    ("asbestos", "lead", "pressure-test", "drain", "heating-cycle", "substrate-moisture", "substrate", "primer", "first-coat",
     "second-coat", "membrane", "ponding", "tiling", "grouting", "sealing", "leak-test", "final"),
    ("sealing", "first-use"),
    ("heating-before", "heating-cover", "heating-after", "heating-start"),
    ("heating-after", "final"),
    ("insulation-before", "insulation-cover", "insulation-after", "heating-start"),
    ("tiling", "contact", "grouting"),
)

WAITS = ("membrane", "coats", "tiling", "grouting", "walking", "sealing", "water", "priming", "use", "heating", "impregnating")

SIDES = ("left", "right", "top", "bottom", "ceiling", "floor", "datum")
TRIM_PLACES = ("left", "right", "top", "openings", "external corner", "niche", "niches", "boxing", "bottom")
COLOURS = ("white", "grey", "gray", "light", "dark", "black", "beige", "brown", "clear", "yellow", "blue", "green", "red")
# Heating that an electrician connects and tests; pipes are a plumber's.
ELECTRIC = ("mat", "cable")
HEATING = (*ELECTRIC, "pipes")
PRODUCT_WORDS = (
    "cement",
    "dispersion",
    "resin",
    "epoxy",
    "polyurethane",
    "solvent",
    "acetoxy",
    "neutral",
    "fast",
    "mat",
    "cable",
    "pipes",
    "generic",
    "sheet",
    "liquid",
    "string",
    "round",
    "steel",
    "aluminium",
    "plastic",
    "flexible",
    "screened",
    "acrylic",
    "oxime",
    "alkoxy",
    "hybrid",
    "acid",
    "alkaline",
    "bleach",
)

# Ways of cutting tile, each with its key; `outdoors` may follow.
CUTTERS: dict[str, str] = {
    "snap": "snap",
    "score and snap": "snap",
    "wet saw": "wet-saw",
    "wet hand saw": "wet-hand-saw",
    "saw with extraction": "extraction-saw",
    "grinder with extraction": "extraction-grinder",
    "dry saw": "dry-saw",
    "dry grinder": "dry-grinder",
}
OUTDOORS = "outdoors"

# Aids for lifting large tiles, each with its key.
AIDS: dict[str, str] = {
    "suction lifters": "suction-lifters",
    "suction cups": "suction-lifters",
    "lifting frame": "lifting-frame",
}

# Layers of a floor.
LAYERS = (
    "insulation", "screed", "leveller", "primer", "membrane", "bed", "uncoupling", "mat", "board", "heating", "tile", "falls",
)

# What these may be called.
FLOOR_WORDS = ("heated", "sunlit")
SHOWER_WORDS = ("tray", "level", "screen", "walk-in")
BATH_WORDS = ("freestanding", "shower", "screen")
BASIN_WORDS = ("pedestal", "vanity", "wall-hung")
BOXING_WORDS = ("full",)
JOB_WORDS = ("occupied", "empty")
FITTING_WORDS = ("glued", "screwed")
DESCRIBED: dict[str, tuple[str, ...]] = {
    "floor": FLOOR_WORDS, "shower": SHOWER_WORDS, "bath": BATH_WORDS, "basin": BASIN_WORDS, "boxing": BOXING_WORDS,
    "job": JOB_WORDS, "fitting": FITTING_WORDS,
}  # fmt: skip
PLACE_WORDS = tuple(dict.fromkeys((*(word for words in DESCRIBED.values() for word in words), "existing", "open")))
# Every word that describes something, wherever it may stand.
PLAIN_WORDS = (*TILE_WORDS, *BOND_WORDS, *BASE_WORDS, *PRODUCT_WORDS, *COLOURS, *PLACE_WORDS)

# What the height of a finished floor is said above.
STRUCTURE = ("structural floor", "slab", "base")
# Who works; what rooms are measured to, each with how the job has it; paper.
CREW = ("tiler", "helper", "apprentice")
MEASURED = {
    "bare wall": "bare wall", "bare walls": "bare wall",
    "tile face": "tile face", "tile faces": "tile face", "tiles": "tile face",
}  # fmt: skip
PAPERS = ("A4", "Letter")
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")

# Words that cannot both be said of one thing.
_CONTRARY = (
    ("landscape", "upright"), ("rectified", "pressed"), ("glazed", "unglazed"), ("matt", "polished"), ("natural", "engineered"),
    ("skim", "unskimmed"), ("skimmed", "unskimmed"), ("existing", "new"), ("occupied", "empty"), ("tray", "level"),
    ("pedestal", "vanity", "wall-hung"), ("glued", "screwed"), ("mat", "cable", "pipes"), ("sheet", "liquid"),
    ("acetoxy", "neutral"), ("acid", "alkaline"), ("steel", "aluminium", "plastic"),
)


def contrary(one: str, other: str) -> bool:
    """Whether two words cannot both be said of one thing."""
    if one == other:
        return False
    if one in BODIES and other in BODIES:
        # Porcelain is sold as stoneware too.
        return BODIES[one] != BODIES[other] and {one, other} != {"porcelain", "stoneware"}
    return any(one in group and other in group for group in _CONTRARY)


_HOMES = (
    ("the floor", FLOOR_WORDS), ("a shower", SHOWER_WORDS), ("a bath", BATH_WORDS), ("a basin", BASIN_WORDS),
    ("a boxing", BOXING_WORDS), ("the job", JOB_WORDS), ("a fitting", FITTING_WORDS), ("a base", BASE_WORDS),
    ("a tile", TILE_WORDS), ("the way a tile is laid", BOND_WORDS), ("a product", PRODUCT_WORDS), ("`colour`", COLOURS),
)


def home(word: str) -> str:
    """What a describing word says something about: "the floor" for `heated`; "" for a word that describes nothing."""
    found = [what for what, words in _HOMES if word.lower() in words]
    return " or ".join(found[:2])


def elsewhere(word: str) -> str:
    """What to say of a describing word that stands where it says nothing; "" for one that describes nothing."""
    what = home(word)
    return f"It says something about {what}: write it there." if what else ""
