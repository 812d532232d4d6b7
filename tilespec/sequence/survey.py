"""Before work starts: survey, services isolated, asbestos and lead in old buildings, strip-out."""

from __future__ import annotations

from tilespec.quantity import counted
from tilespec.sequence import features
from tilespec.sequence.site import Chain, Site, ids, looked_at
from tilespec.sequence.types import Operation, Point


def begin(chain: Chain) -> None:
    """Steps for the whole job, once."""
    site, job = chain.site, chain.site.job
    rooms = tuple(r.name for r in job.rooms)
    facts = []
    if job.questions:
        facts.append("questions")
    if any(r.not_stated for r in job.rooms):
        facts.append("walls-not-stated")
    if any(r.diagonals is None for r in job.rooms):
        facts.append("measure-diagonals")
    if features.refurbished(job):
        facts.append("old-building")
    survey = chain.make(
        "survey", "survey", rooms, facts=tuple(facts),
        labour=site.timed("time-survey", counted(len(rooms), "rooms", *(r.span for r in job.rooms if r.span))),
    )
    chain.pass_through(survey)
    if _services(site):
        chain.pass_through(chain.make(
            "isolate-services", "isolation", rooms, trade="plumber", labour=site.timed("time-isolate"),
            facts=tuple(f for f, here in (("water", _wet(site)), ("power", _powered(site) or features.refurbished(job))) if here),
        ))
    for kind, key, who in (("asbestos", "asbestos-year", "asbestos surveyor"), ("lead", "lead-year", "lead assessor")):
        year = site.limit(key)
        if features.old_fabric(job, year):
            chain.pass_through(_hold(chain, kind, rooms, who))


def _hold(chain: Chain, kind: str, rooms: tuple[str, ...], who: str) -> Operation:
    site, job = chain.site, chain.site.job
    return chain.make(
        f"{kind}-hold", "old-materials", rooms, trade=who,
        values=(("year", site.limit(f"{kind}-year")), ("built", job.built)),
        facts=() if job.built else ("age-not-stated",),
        point=Point("hold", who, looked_at(f"{kind}-report"), site.signed(kind, None, rooms)),
        labour=site.timed(f"time-{kind}-hold"),
    )


def strip_out(chain: Chain) -> None:
    """A room's old finishes come off, and what stays is sounded."""
    site, room = chain.site, chain.room
    if room is None or not features.refurbished(site.job):
        return
    tiled = features.surfaces(room)
    stays = tuple(s for s in tiled if s.base.existing)
    facts = ["old-finishes-stay"] if stays else []
    facts += [k for k in ("old-tiles", "painted") if any(s.base.kind == k for s in stays)]
    if site.job.occupied:
        facts.append("occupied")
    chain.pass_through(chain.make(
        "strip-out", "strip-out", ids(tiled), facts=tuple(facts), labour=site.rated(site.area(tiled), "rate-strip-out"),
    ))


def _wet(site: Site) -> bool:
    return any(features.plumbing(r) or features.heating_pipes(r) for r in site.job.rooms)


def _powered(site: Site) -> bool:
    return any(features.sockets(r) or features.electric_heating(r) for r in site.job.rooms)


def _services(site: Site) -> bool:
    return _wet(site) or _powered(site) or features.refurbished(site.job)
