"""Diagnostics of the language: text (T00xx), syntax (T01xx), words and names (T02xx), numbers and units (T03xx),
geometry (T04xx), files and `use` (T05xx), records, steps and deviations (T06xx)."""

from __future__ import annotations

from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Severity

E, W, N = Severity.ERROR, Severity.WARNING, Severity.NOTE


# Why it matters and what to do, by name.
_WHY = {
    "hidden-character": "A character that cannot be seen makes a spec read differently from how it looks. Take it out.",
    "control-character": "Control characters come from other programs and mean nothing here. Put a blank.",
    "foreign-digit": "Only the digits 0 to 9 are read, so that no number is mistaken.",
    "foreign-x": "The Cyrillic letter looks like x but is another one. Write x or ×.",
    "open-text": "A text in quotes stands on one line and ends with a quote.",
    "unknown-statement": "A line at the margin starts with a statement word: job, room, floor, wall, tile and so on.",
    "attribute-at-margin": (
        "What says something about a statement stands on an indented line below it, or behind it after a "
        "semicolon."
    ),
    "nothing-above": "An attribute needs a statement above it that it belongs to.",
    "statement-indented": "Statements start at the margin; an indented line belongs to the statement above it.",
    "indented-below-several": "Below a line with several statements nobody can tell which one an indented line belongs to.",
    "cannot-read": (
        "A piece between semicolons is read alone. The message points at the first word that does not fit and"
        " says what can stand there."
    ),
    "unknown-word": "The word is not one of those that can stand here; the nearest known one is offered.",
    "misplaced-attribute": (
        "Each attribute belongs to certain statements or things on a line, such as a weight to a tile and a "
        "door to a wall."
    ),
    "said-twice": "Two statements of the same thing could differ. Keep one.",
    "unknown-tile": "A tile is declared once, with its size, and then called by its name on the surfaces.",
    "unknown-product": "A product named at a surface must be declared in the spec, in a stock file, or be a generic one.",
    "duplicate-name": "A name stands for one thing. Two of the same name cannot be told apart.",
    "unknown-wall": "Walls are called by their letters, clockwise seen from above.",
    "unknown-room": "Rooms are called by their names exactly as in their `room` line.",
    "unknown-substrate": "What is tiled on decides primer, adhesive, load and waits, so it must be one of the known bases.",
    "unknown-description": "Plain words describe a tile, a base or a product; only those that the rules know are taken.",
    "unknown-class": (
        "Classes are written as their standards do: C2TE S1 (EN 12004-1), CG2WA (EN 13888), DM O1 (EN 14891),"
        " XS1 25LM (EN 15651-3, ISO 11600)."
    ),
    "unknown-family": "The practice family decides whose limits apply: EN, DE, UK, US or AU.",
    "no-tile": "Each floor or wall that is described is tiled: say with which tile.",
    "unknown-choice": "Only certain words can stand here; the message lists them.",
    "place-needed": "With several rooms a step, record or deviation names its room.",
    "missing-detail": "Something cannot be worked out without this. The message says how to write it.",
    "nothing-tiled": "A method statement needs at least one surface with a tile.",
    "unknown-limit": "A firm's limit names a limit of the practice.",
    "limit-looser": "A firm may be stricter than the practice, never looser.",
    "stock-only": "A file with tiles, products and limits only is a firm's stock: other specs use it.",
    "decimal-comma": "Numbers take a decimal point. A comma between digits could also separate two numbers.",
    "wrong-unit": "Each number measures something certain; a unit of another kind cannot be meant.",
    "implausible-value": (
        "The value is far outside what such a thing can be: mostly metres were written for millimetres, or "
        "the other way round."
    ),
    "bad-date": "Dates are written year-month-day.",
    "bad-hours": "Working hours are written as days and a span of time, such as mon-fri 07:30-16:00.",
    "bad-number": "Numbers are written with digits, a point, and fractions such as 10 1/2.",
    "range-reversed": "A range goes from the smaller to the larger value.",
    "walk-open": (
        "Walking round the room must lead back to the start: each internal corner turns right, each external "
        "one left. What is missing is said in millimetres."
    ),
    "wall-size-differs": "The wall as measured and the wall as the floor gives it differ by more than a tape explains.",
    "outside-surface": "It would reach beyond the surface or the room: size or place is wrong.",
    "openings-overlap": "Openings and niches cannot take the same place, and nothing comes out of the wall where there is none.",
    "walk-crosses": "The walls of a room meet only at its corners; a length or the turn at a corner is wrong.",
    "not-a-corner": "A corner is named by two walls that meet.",
    "shower-wall-left-out": "A shower wets every wall it stands against. A wall left out would stay without membrane.",
    "drain-outside-shower": "Outlet and drain belong in one wet area; otherwise water runs where nothing is sealed.",
    "tile-larger-than-surface": "The tile does not fit the surface at all: one of the two sizes is wrong.",
    "joint-wider-than-tile": "Joints are in millimetres and narrower than the tile.",
    "finished-floor-differs": "The height of the finished floor and the sum of its build-up differ.",
    "diagonals-impossible": "No room with these sides has such a diagonal: measure again.",
    "file-unreadable": "The file is missing, may not be read, or is no plain UTF-8 text.",
    "use-outside": "Only files in the spec's folder, or in a library folder that is named on the command line, are read.",
    "use-circle": "Two files that use each other can never be read to the end.",
    "not-stock": "A stock file holds tiles, products and limits; rooms belong in the spec.",
    "too-many-files": "A job that uses so many files is a mistake more often than not.",
    "record-out-of-order": (
        "Work that is covered is signed before its cover. A later date for the earlier work means a wrong "
        "date, or a signature given blind."
    ),
    "unknown-record": "Records are of certain kinds; each signs one hold point or gives one reading.",
    "step-circle": "A step would have to come after itself.",
    "unknown-stage": "A step is put before or after a stage of the work that is known.",
    "basket-size": "Basket weave needs a tile whose length with its joint is a whole number of widths with theirs.",
    "pattern-impossible": "Not every tile can make every pattern: some need a tile longer than wide, or two sizes of squares.",
    "start-nowhere": "A set-out starts at something that is there, and there once: a window, a door, a drain, a side.",
    "follow-impossible": (
        "Joints run on from a neighbour that is tiled and set out first; two that follow each other can neither begin."
    ),
    "border-too-wide": "A border runs round the surface; between its two sides a field must be left.",
    "record-unit": "A moisture reading is worth something only with its method: CM% by carbide, %RH by hygrometer.",
}


# A short spec with the fault, and the nearest one without it. Those about files name files that their test holds.
_SAMPLES: dict[str, tuple[str, str]] = {
    "hidden-character": (
        "floor 2.\u200b4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "control-character": (
        "floor 2.4\x0cx 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "foreign-digit": (
        "floor 2.\u0664 x 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "foreign-x": (
        "floor 2.4 \u0445 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "open-text": (
        "job \"Bathroom\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "job \"Bathroom\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-statement": (
        "flor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "attribute-at-margin": (
        "floor 2.4 x 1.8\n"
        "base concrete\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  base concrete\n"
        "tile 300x600 joint 3\n",
    ),
    "nothing-above": (
        "height 2.4\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "room \"Bathroom\"\n"
        "  height 2.4\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "statement-indented": (
        "floor 2.4 x 1.8\n"
        "  wall A\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "wall A\n"
        "tile 300x600 joint 3\n",
    ),
    "indented-below-several": (
        "floor 2.4 x 1.8; wall A\n"
        "  base concrete\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "wall A\n"
        "  base concrete\n"
        "tile 300x600 joint 3\n",
    ),
    "cannot-read": (
        "floor 2.4 by 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-word": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joitn 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "misplaced-attribute": (
        "floor 2.4 x 1.8\n"
        "  window 0.6 x 0.9; 0.6 from left, 1.2 up\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "wall A\n"
        "  window 0.6 x 0.9; 0.6 from left, 1.2 up\n"
        "tile 300x600 joint 3\n",
    ),
    "said-twice": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3; joint 2\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-tile": (
        "tile white 300x600x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile wihte\n",
        "tile white 300x600x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile white\n",
    ),
    "unknown-product": (
        "adhesive flex class C2TE S1\n"
        "floor 2.4 x 1.8\n"
        "  adhesive felx\n"
        "tile 300x600 joint 3\n",
        "adhesive flex class C2TE S1\n"
        "floor 2.4 x 1.8\n"
        "  adhesive flex\n"
        "tile 300x600 joint 3\n",
    ),
    "duplicate-name": (
        "tile white 300x600x9 porcelain\n"
        "tile white 200x200x8 ceramic\n"
        "floor 2.4 x 1.8\n"
        "  tile white\n",
        "tile white 300x600x9 porcelain\n"
        "tile cream 200x200x8 ceramic\n"
        "floor 2.4 x 1.8\n"
        "  tile white\n",
    ),
    "unknown-wall": (
        "floor 2.4 x 1.8; wall E\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8; wall D\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-room": (
        "room \"Bathroom\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Fit screen\" by glazier; after sealing; in \"Bathrom\"\n",
        "room \"Bathroom\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Fit screen\" by glazier; after sealing; in \"Bathroom\"\n",
    ),
    "unknown-substrate": (
        "floor 2.4 x 1.8\n"
        "  base bamboo\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  base concrete\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-description": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 porcelian joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 porcelain joint 3\n",
    ),
    "unknown-class": (
        "adhesive flex class C3TE\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "adhesive flex class C2TE\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-family": (
        "job \"Bathroom\"\n"
        "  practice FR\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "job \"Bathroom\"\n"
        "  practice EN\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "no-tile": (
        "tile white 300x600x9 porcelain\n"
        "tile cream 200x200x8 ceramic\n"
        "floor 2.4 x 1.8\n",
        "tile white 300x600x9 porcelain\n"
        "tile cream 200x200x8 ceramic\n"
        "floor 2.4 x 1.8\n"
        "  tile white\n",
    ),
    "unknown-choice": (
        "grout fine class CG2WA; colour mauve\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "grout fine class CG2WA; colour grey\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "place-needed": (
        "tile 300x600 joint 3\n"
        "room \"Bathroom\"; floor 2.4 x 1.8\n"
        "room \"Toilet\"; floor 1.2 x 0.9\n"
        "record membrane on floor 2026-03-11 by \"J. Rook\"\n",
        "tile 300x600 joint 3\n"
        "room \"Bathroom\"; floor 2.4 x 1.8\n"
        "room \"Toilet\"; floor 1.2 x 0.9\n"
        "record membrane on \"Toilet\" floor 2026-03-11 by \"J. Rook\"\n",
    ),
    "missing-detail": (
        "floor 2.4 x 1.8\n"
        "  drain 0.45 from wall A\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  drain 0.45 from wall A, 0.45 from wall D\n"
        "tile 300x600 joint 3\n",
    ),
    "nothing-tiled": (
        "job \"Bathroom\"\n"
        "room \"Bathroom\" height 2.4\n",
        "job \"Bathroom\"\n"
        "room \"Bathroom\" height 2.4\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "stock-only": (
        "grout fine class CG2WA\n",
        "grout fine class CG2WA\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "unknown-limit": (
        "limit joint-min-flor 3 mm\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "limit joint-min-floor 3 mm\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "limit-looser": (
        "limit joint-min-floor 1 mm\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "limit joint-min-floor 3 mm\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "decimal-comma": (
        "floor 2,4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "wrong-unit": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3; weight 3.6 kg\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3; weight 20 kg/m2\n",
    ),
    "implausible-value": (
        "floor 2400 x 1800\n"
        "tile 300x600 joint 3\n",
        "floor 2400 x 1800 mm\n"
        "tile 300x600 joint 3\n",
    ),
    "bad-date": (
        "job \"Bathroom\"\n"
        "  date 02.03.2026\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "job \"Bathroom\"\n"
        "  date 2026-03-02\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "bad-hours": (
        "job \"Bathroom\"\n"
        "  hours mon-fri 16:00-07:30\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "job \"Bathroom\"\n"
        "  hours mon-fri 07:30-16:00\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "bad-number": (
        "floor 2.4.0 x 1.8\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "range-reversed": (
        "grout fine class CG2WA; temperature 30 to 5 C\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "grout fine class CG2WA; temperature 5 to 30 C\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "walk-open": (
        "floor walk A 2.4, B 1.8, C 2.3, D 1.8\n"
        "tile 300x600 joint 3\n",
        "floor walk A 2.4, B 1.8, C 2.4, D 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "walk-crosses": (
        "floor walk A 3.0, B 2.0, C 1.0, D 2.5, corner external, E 1.0, corner external, F 2.5, G 1.0, H 2.0\n"
        "tile 300x600 joint 3\n",
        "floor walk A 3.0, B 2.0, C 1.0, D 0.5, corner external, E 1.0, corner external, F 0.5, G 1.0, H 2.0\n"
        "tile 300x600 joint 3\n",
    ),
    "wall-size-differs": (
        "floor 2.4 x 1.8; wall A 2.6 x 2.4\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8; wall A 2.4 x 2.4\n"
        "tile 300x600 joint 3\n",
    ),
    "outside-surface": (
        "floor 2.4 x 1.8\n"
        "wall A 2.4 x 2.4\n"
        "  window 0.6 x 0.9; 2.1 from left, 1.2 up\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "wall A 2.4 x 2.4\n"
        "  window 0.6 x 0.9; 1.2 from left, 1.2 up\n"
        "tile 300x600 joint 3\n",
    ),
    "openings-overlap": (
        "wall A 2.4 x 2.4\n"
        "  window 0.6 x 0.9; 0.6 from left, 1.2 up\n"
        "  door 0.8 x 2.0; 0.9 from left\n"
        "tile 300x600 joint 3\n",
        "wall A 2.4 x 2.4\n"
        "  window 0.6 x 0.9; 0.3 from left, 1.2 up\n"
        "  door 0.8 x 2.0; 1.2 from left\n"
        "tile 300x600 joint 3\n",
    ),
    "not-a-corner": (
        "floor 2.4 x 1.8; wall A; wall C\n"
        "shower in corner A C, 0.9 x 0.9; tray\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8; wall A; wall B\n"
        "shower in corner A B, 0.9 x 0.9; tray\n"
        "tile 300x600 joint 3\n",
    ),
    "shower-wall-left-out": (
        "floor 2.4 x 1.8; wall A\n"
        "shower in corner A B, 0.9 x 0.9; tray\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8; wall A; wall B\n"
        "shower in corner A B, 0.9 x 0.9; tray\n"
        "tile 300x600 joint 3\n",
    ),
    "drain-outside-shower": (
        "floor 2.4 x 1.8\n"
        "  fall 1:60; drain 0.45 from wall D, 0.45 from wall A\n"
        "wall A; wall B\n"
        "shower in corner A B, 0.9 x 0.9\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  fall 1:60; drain 0.45 from wall B, 0.45 from wall A\n"
        "wall A; wall B\n"
        "shower in corner A B, 0.9 x 0.9\n"
        "tile 300x600 joint 3\n",
    ),
    "tile-larger-than-surface": (
        "wall A 0.9 x 1.0\n"
        "tile 1200x1200 joint 3\n",
        "wall A 0.9 x 1.0\n"
        "tile 120x120 joint 3\n",
    ),
    "joint-wider-than-tile": (
        "floor 2.4 x 1.8\n"
        "tile 20x20 joint 20\n",
        "floor 2.4 x 1.8\n"
        "tile 20x20 joint 2\n",
    ),
    "finished-floor-differs": (
        "floor 2.4 x 1.8\n"
        "  build-up leveller 6, membrane 1, bed 4; finished floor 25 above structural floor\n"
        "tile 300x600x9 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  build-up leveller 6, membrane 1, bed 4; finished floor 20 above structural floor\n"
        "tile 300x600x9 joint 3\n",
    ),
    "diagonals-impossible": (
        "floor 2.4 x 1.8\n"
        "  diagonals 3.0, 4.5\n"
        "tile 300x600 joint 3\n",
        "floor 2.4 x 1.8\n"
        "  diagonals 2.99, 3.01\n"
        "tile 300x600 joint 3\n",
    ),
    "basket-size": (
        "tile plank 500x120x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile plank; joint 2; basket weave\n",
        "tile plank 486x120x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile plank; joint 2; basket weave\n",
    ),
    "pattern-impossible": (
        "tile brick 200x200x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile brick; joint 2; herringbone\n",
        "tile brick 200x100x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile brick; joint 2; herringbone\n",
    ),
    "start-nowhere": (
        "tile white 300x600x9 porcelain\n"
        "wall A 2.4 x 2.4\n"
        "  tile white; joint 3; tile on window\n",
        "tile white 300x600x9 porcelain\n"
        "wall A 2.4 x 2.4\n"
        "  tile white; joint 3; tile on window\n"
        "  window 0.6 x 0.9; 0.6 from left, 1.2 up\n",
    ),
    "follow-impossible": (
        "tile white 300x300x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile white; joint 3; joints follow wall A\n",
        "tile white 300x300x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile white; joint 3; joints follow wall A\n"
        "wall A\n"
        "  tile white; joint 3\n",
    ),
    "border-too-wide": (
        "tile white 300x300x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile white; joint 3\n"
        "  tile white; joint 3; border 0.9 wide\n",
        "tile white 300x300x9 porcelain\n"
        "floor 2.4 x 1.8\n"
        "  tile white; joint 3\n"
        "  tile white; joint 3; border 0.3 wide\n",
    ),
    "file-unreadable": (
        "use \"house-stok.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "use \"house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "use-outside": (
        "use \"/stock/house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "use \"house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "use-circle": (
        "use \"circle.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "use \"house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "not-stock": (
        "use \"with-a-floor.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "use \"house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "too-many-files": (
        "use \"first-of-many.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
        "use \"house-stock.tilespec\"\n"
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n",
    ),
    "record-out-of-order": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record membrane on floor 2026-03-05 by \"J. Rook\"\n"
        "record substrate on floor 2026-03-06 by \"J. Rook\"\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record substrate on floor 2026-03-04 by \"J. Rook\"\n"
        "record membrane on floor 2026-03-05 by \"J. Rook\"\n",
    ),
    "unknown-record": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record membrain on floor 2026-03-05 by \"J. Rook\"\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record membrane on floor 2026-03-05 by \"J. Rook\"\n",
    ),
    "step-circle": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Mirror\" by glazier; after sealing; before tiling\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Mirror\" by glazier; after sealing\n",
    ),
    "unknown-stage": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Mirror\" by glazier; after sealling\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "step \"Mirror\" by glazier; after sealing\n",
    ),
    "record-unit": (
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record substrate-moisture on floor 2026-03-06 by \"J. Rook\"; reading 1.6; depth 30 mm\n",
        "floor 2.4 x 1.8\n"
        "tile 300x600 joint 3\n"
        "record substrate-moisture on floor 2026-03-06 by \"J. Rook\"; reading 1.6 CM%; depth 30 mm\n",
    ),
}


def _entry(code: str, name: str, severity: Severity, title: str) -> Entry:
    return Entry(code, name, severity, title, _WHY[name], *_SAMPLES[name])


ENTRIES: tuple[Entry, ...] = (
    _entry("T0001", "hidden-character", E, "A character that cannot be seen"),
    _entry("T0002", "control-character", E, "A control character in the text"),
    _entry("T0003", "foreign-digit", E, "A digit of another script"),
    _entry("T0004", "foreign-x", E, "A letter that only looks like x"),
    _entry("T0005", "open-text", E, "A text that is not closed"),
    _entry("T0101", "unknown-statement", E, "A line that starts no statement"),
    _entry("T0102", "attribute-at-margin", E, "An attribute at the margin"),
    _entry("T0103", "nothing-above", E, "An attribute with no statement above"),
    _entry("T0104", "statement-indented", E, "A statement on an indented line"),
    _entry("T0105", "indented-below-several", E, "An indented line below several statements"),
    _entry("T0106", "cannot-read", E, "A piece that cannot be read"),
    _entry("T0107", "unknown-word", E, "A word that is not known here"),
    _entry("T0108", "misplaced-attribute", E, "An attribute of another statement"),
    _entry("T0109", "said-twice", E, "Said twice"),
    _entry("T0201", "unknown-tile", E, "A tile that is not declared"),
    _entry("T0202", "unknown-product", E, "A product that is not declared"),
    _entry("T0203", "duplicate-name", E, "A name used twice"),
    _entry("T0204", "unknown-wall", E, "A wall that the room does not have"),
    _entry("T0205", "unknown-room", E, "A room that is not in the spec"),
    _entry("T0206", "unknown-substrate", E, "A base that is not known"),
    _entry("T0207", "unknown-description", E, "A describing word that is not known"),
    _entry("T0208", "unknown-class", E, "A class that its standard does not have"),
    _entry("T0209", "unknown-family", E, "A practice family that is not known"),
    _entry("T0210", "no-tile", E, "A surface with no tile"),
    _entry("T0211", "unknown-choice", E, "A choice that is not offered"),
    _entry("T0212", "place-needed", E, "The place must be named"),
    _entry("T0213", "missing-detail", E, "Something this needs is missing"),
    _entry("T0214", "nothing-tiled", E, "A spec in which nothing is tiled"),
    _entry("T0217", "stock-only", N, "A file that holds stock only"),
    _entry("T0215", "unknown-limit", E, "A limit that the practice does not hold"),
    _entry("T0216", "limit-looser", E, "A firm's limit that is looser than the practice"),
    _entry("T0301", "decimal-comma", E, "A comma between digits"),
    _entry("T0302", "wrong-unit", E, "A unit of another kind"),
    _entry("T0303", "implausible-value", E, "A value that cannot be meant"),
    _entry("T0304", "bad-date", E, "A date that does not exist"),
    _entry("T0305", "bad-hours", E, "Working hours that cannot be"),
    _entry("T0306", "bad-number", E, "A number that cannot be read"),
    _entry("T0307", "range-reversed", E, "A range that ends before it starts"),
    _entry("T0401", "walk-open", E, "A walk that does not close"),
    _entry("T0402", "wall-size-differs", W, "A wall that does not fit the floor"),
    _entry("T0403", "outside-surface", E, "Something that reaches outside its surface"),
    _entry("T0404", "openings-overlap", E, "Two openings that overlap"),
    _entry("T0405", "not-a-corner", E, "Two walls that do not meet"),
    _entry("T0406", "shower-wall-left-out", E, "A shower with a wall left out"),
    _entry("T0407", "drain-outside-shower", E, "A drain outside the wet area of the outlet"),
    _entry("T0408", "tile-larger-than-surface", E, "A tile larger than its surface"),
    _entry("T0409", "joint-wider-than-tile", E, "A joint wider than the tile"),
    _entry("T0410", "finished-floor-differs", W, "A floor level that does not fit its build-up"),
    _entry("T0412", "diagonals-impossible", E, "Diagonals that no such room can have"),
    _entry("T0413", "basket-size", E, "A tile that does not fit the pattern"),
    _entry("T0414", "pattern-impossible", E, "A pattern that this tile cannot make"),
    _entry("T0415", "start-nowhere", E, "A start at something that is not there"),
    _entry("T0416", "follow-impossible", E, "Joints that follow what cannot be followed"),
    _entry("T0417", "border-too-wide", E, "A border that leaves no field"),
    _entry("T0418", "walk-crosses", E, "A walk that crosses itself"),
    _entry("T0501", "file-unreadable", E, "A file that cannot be read"),
    _entry("T0502", "use-outside", E, "A stock file outside the spec's folder"),
    _entry("T0503", "use-circle", E, "Files that use each other in a circle"),
    _entry("T0504", "not-stock", E, "A statement that does not belong in a stock file"),
    _entry("T0505", "too-many-files", E, "Too many files"),
    _entry("T0601", "record-out-of-order", E, "Records in an order that cannot be"),
    _entry("T0602", "unknown-record", E, "A record of a kind that is not known"),
    _entry("T0603", "step-circle", E, "Steps that wait for each other"),
    _entry("T0604", "unknown-stage", E, "A stage of the work that is not known"),
    _entry("T0605", "record-unit", E, "A reading in the wrong unit"),
)
