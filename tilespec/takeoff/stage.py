"""The take-off as a whole: survey every surface, then each family of materials in the order in which it is used."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.job.types import Job
from tilespec.practice.lookup import Practice
from tilespec.setout.types import OffcutPlan, SetOut
from tilespec.takeoff import (
    adhesive,
    grout,
    heating,
    impregnation,
    leveller,
    membrane,
    mirror,
    mixing,
    primer,
    sealant,
    tiles,
    trim,
)
from tilespec.takeoff.areas import survey
from tilespec.takeoff.junction import rooms
from tilespec.takeoff.order import gathered
from tilespec.takeoff.pieces import saw_work, saw_work_by_area, surveyed
from tilespec.takeoff.types import TakeOff
from tilespec.takeoff.weight import tiling_weight


def measure(
    job: Job, practice: Practice, setout: SetOut | None = None, offcuts: Sequence[OffcutPlan] = (),
) -> TakeOff:
    """Materials of a job: lines to order, mixing cards, trowels, areas, heating, weight on each surface.

    With a set-out and its plans of offcuts, tiles, joints, tiled areas and saw cuts are those of the real pieces. Without (while
    somebody types, and in checks) they are reckoned from areas, tiles with an allowance for cuts.

    Quantities that a data sheet would settle use planning values of the practice, traced as such; what has no planning
    value is listed in `missing`, never left out silently. Errors in the spec are not looked for here.
    """
    surveys = survey(job) if setout is None else surveyed(survey(job), setout)
    by_room = rooms(surveys)
    beds = adhesive.beds(surveys, practice)
    heated, heating_lines, no_heating = heating.measure(by_room, practice)
    families = (
        leveller.take(surveys, practice), primer.take(surveys, practice), membrane.take(surveys, practice),
        membrane.tape(by_room, practice), membrane.collars(by_room, practice), adhesive.take(beds, surveys, practice),
        grout.take(surveys, practice), sealant.take(by_room, practice), trim.take(surveys, practice),
        mirror.take(surveys, practice), impregnation.take(surveys, practice),
    )
    tiled = tiles.take(surveys, practice) if setout is None else tiles.take_pieces(surveys, offcuts, practice)
    lines = tiled.lines + heating_lines + tuple(line for f in families for line in f.lines)
    mixes, no_mix = mixing.cards(lines, beds, practice)
    missing = gathered([m for f in families for m in f.missing] + list(no_heating) + list(no_mix))
    return TakeOff(
        lines, mixes, adhesive.notches(beds), tuple(s.measure for s in surveys), heated, tiling_weight(beds, practice), missing,
        saw_work_by_area(surveys, practice) if setout is None else saw_work(setout, practice),
    )
