"""Products: declared in a spec or a stock file, chosen by class where several could serve, generic where none is declared."""

from __future__ import annotations

import re
from dataclasses import replace

from tilespec.job.context import Context
from tilespec.job.parts import take_apart
from tilespec.job.types import Product, WaitData
from tilespec.quantity import Quantity, given
from tilespec.quantity.read import read
from tilespec.quantity.unit import Kind, Unit
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.vocabulary import COLOURS, PRODUCT_WORDS, WAITS

# Designations as their standards write them: EN 12004-1, EN 13888, EN 14891, ISO 11600 and EN 15651-3.
_CLASSES = {
    "adhesive": re.compile(r"(?P<type>[CD][12]|R[12])(?P<options>[FTE]*)(?P<deform>S[12])?"),
    "grout": re.compile(r"(?P<type>CG[12]|RG)(?P<options>F?[WA]*)"),
    "membrane": re.compile(r"(?P<type>CM|DM|RM)(?P<options>(?:O[12])?P?)"),
    "sealant": re.compile(r"(?P<type>X?S[123])?(?P<options>(?:25|20)[LH]M|12\.5[EP]|7\.5P)?"),
}
_EXAMPLES = {"adhesive": "C2TE S1", "grout": "CG2WA", "membrane": "DM", "sealant": "XS1 25LM"}
_OTHER = ("A118.10", "A118.4", "A118.15", "A118.11", "A118.7", "A118.3")
_PACK_KINDS = (Kind.MASS, Kind.VOLUME, Kind.LENGTH, Kind.COUNT, Kind.AREA, Kind.NUMBER)

_NUMBERS = {
    "density": ("density", "density"),
    "matures": ("maturing", "minutes"),
    "pot_life": ("pot_life", "minutes"),
    "open_time": ("open_time", "minutes"),
    "coats": ("coats", "coats"),
    "film": ("film", "film"),
    "notch": ("notch", "notch"),
    "width": ("width", "product-width"),
    "movement": ("movement", "movement"),
    "output": ("output", "output"),
    "voltage": ("voltage", "voltage"),
    "resistance": ("resistance", "resistance"),
    "water": ("water", "water"),
    "consumption": ("consumption", "consumption"),
    "carries": ("carries", "carries"),
    "keeps": ("keeps", "keeps"),
    "height": ("height", "trim-height"),
}


def class_parts(kind: str, text: str) -> tuple[str, ...] | None:
    """A designation in its parts, in the standard's order ("C2FTE S1" gives ("C2", "FTE", "S1")).

    None when there is no such class.

    Options of an adhesive may be written in any order; EN 12004-1 writes them F, T, E.
    """
    pattern = _CLASSES.get(kind)
    joined = re.sub(r"[\s-]+", "", text)
    if joined.upper() in _OTHER:
        return (joined.upper(),)
    if pattern is None:
        return tuple(text.split())
    m = pattern.fullmatch(joined)
    if not m or not joined:
        return None
    if kind == "adhesive":
        options, deform = m["options"], m["deform"] or ""
        if len(set(options)) != len(options) or (deform and m["type"][0] != "C") or ("F" in options and m["type"][0] != "C"):
            return None
        if "E" in options and m["type"][0] == "R":
            return None
        ordered = "".join(o for o in "FTE" if o in options)
        return tuple(p for p in (m["type"], ordered, deform) if p)
    if kind == "grout":
        options = m["options"]
        if m["type"] == "RG" and options or m["type"] == "CG1" and set(options) - {"F"} or len(set(options)) != len(options):
            return None
        return tuple(p for p in (m["type"], "".join(o for o in "FWA" if o in options)) if p)
    return tuple(p for p in (m["type"], m["options"]) if p)


def declare(st: Statement, context: Context, generic: bool) -> Product:
    """Read a product statement."""
    kind, name = st.args[0].text, st.args[1].text
    parts = take_apart(st, context)
    fields: dict[str, Quantity] = {}
    cls: tuple[str, ...] = ()
    flags: list[str] = []
    colour = pack = low = high = note = None
    packed = thick = None
    targets: list[str] = []
    waits: list[WaitData] = []
    head_words = Attribute("words", st.args[2:], 0, 0)
    for a in (head_words, *parts.own):
        first = a.args[0] if a.args else None
        if a.kind == "class":
            cls = _class(st, a, kind, context)
        elif a.kind == "words":
            flags.extend(_flags(st, a, context))
        elif a.kind == "colour" and first:
            if first.text.lower() in COLOURS:
                colour = "grey" if first.text.lower() == "gray" else first.text.lower()
            else:
                context.unknown(
                    "unknown-choice", st.span(first), f"`{first.text}` is no colour that the rules know.", first.text, COLOURS
                )
        elif a.kind == "for" and first:
            if first.kind != "tile" and first.text not in ("floor", "floors", "wall", "walls"):
                context.unknown(
                    "unknown-choice",
                    st.span(first),
                    f"A product is not for `{first.text}`.",
                    first.text,
                    ("floor", "walls"),
                    "Write `for floor`, `for walls` or `for tile NAME`.",
                )
            else:
                targets.append(
                    {"floors": "floor", "wall": "walls"}.get(first.text, first.text) if first.kind != "tile" else first.text
                )
        elif a.kind == "pack" and first:
            pack = _pack(st, first, kind, context)
        elif a.kind == "temperature":
            low = context.number(st, a.args[0], "product-temperature", _unit_of(a.args[1]))
            high = context.number(st, a.args[1], "product-temperature")
            if low and high and low.value >= high.value:
                context.report(
                    "range-reversed", st.span(a), "The range ends before it starts.", help="Write the lower temperature first."
                )
        elif a.kind == "thick":
            thick = thicknesses(st, a, context)
        elif a.kind == "packed" and first:
            packed = context.day(st, first)
        elif a.kind == "note" and first:
            note = context.words(st, first)
        elif a.kind in _NUMBERS and first:
            field, slot = _NUMBERS[a.kind]
            q = context.number(st, first, slot)
            if q is not None:
                fields[field] = q
    if kind == "sealant" and "movement" not in fields and (share := _class_movement(cls, st.span())) is not None:
        fields["movement"] = share
    for item in parts.items_of("wait"):
        if (w := _wait(st, item.opener, item.get("overrun"), context)) is not None:
            waits.append(w)
    if "epoxy" in flags or cls[:1] in (("R1",), ("R2",), ("RG",), ("RM",)):
        flags.append("resin")
    if (
        kind in ("adhesive", "grout", "leveller")
        and not {"resin", "epoxy", "dispersion", "polyurethane"} & set(flags)
        and cls[:1] not in (("D1",), ("D2",))
    ):
        flags.append("cement")
    if cls[:1] == ("CM",):
        flags.append("cement")
    if "F" in "".join(cls[1:2]) and kind in ("adhesive", "grout"):
        flags.append("fast")
    return Product(
        name=name,
        kind=kind,
        cls=cls,
        generic=generic,
        flags=tuple(dict.fromkeys(flags)),
        colour=colour,
        pack=pack,
        temperature_min=low,
        temperature_max=high,
        waits=tuple(waits),
        for_=tuple(targets),
        note=note,
        packed=packed,
        thick=thick,
        span=st.span(),
        **fields,
    )


def _class_movement(cls: tuple[str, ...], span: Span) -> Quantity | None:
    """The share of its width that a sealant may move, as its class of ISO 11600 says it: 25LM by a quarter."""
    found = next((m for part in cls if (m := re.match(r"(25|20|12\.5|7\.5)[LHEP]", part))), None)
    return given(found[1], "%", span) if found else None


def thicknesses(st: Statement, a: Attribute, context: Context, slot: str = "tile-range") -> tuple[Quantity, Quantity] | None:
    """A range "3 to 12 mm", smaller side first."""
    low = context.number(st, a.args[0], slot, _unit_of(a.args[1]))
    high = context.number(st, a.args[1], slot)
    if low is None or high is None:
        return None
    if low.value > high.value:
        context.report("range-reversed", st.span(a), "The range ends before it starts.", help="Write the smaller number first.")
        return None
    return low, high


def _unit_of(atom: Atom) -> Unit | None:
    try:
        return read(atom.text).unit
    except ValueError:
        return None


def _class(st: Statement, a: Attribute, kind: str, context: Context) -> tuple[str, ...]:
    text = " ".join(x.text for x in a.args)
    parts = class_parts(kind, text)
    if parts is None:
        span = st.span(a.args[0]).to(st.span(a.args[-1]))
        upper = class_parts(kind, text.upper())
        first = next((x for x in a.args if x.text.lower() in PRODUCT_WORDS), None)
        before = " ".join(x.text for x in a.args[: a.args.index(first)]) if first is not None else ""
        if first is not None and before and class_parts(kind, before) is not None:
            rest = " ".join(x.text for x in a.args[a.args.index(first) :])
            context.report(
                "unknown-class",
                span,
                f"`{text}` is no class of {'an' if kind[0] in 'aeiou' else 'a'} {kind}: `{rest}` describes the product.",
                help=f"Write `class {before}; {rest}`.",
                fixes=context.write(span, f"{before}; {rest}"),
            )
            return class_parts(kind, before) or ()
        if upper is not None:
            fixed = "".join(upper[:2]) + (f" {upper[2]}" if len(upper) > 2 else "")
            context.report(
                "unknown-class",
                span,
                f"`{text}` is no class of {'an' if kind[0] in 'aeiou' else 'a'} {kind}.",
                help=f"Did you mean `{fixed}`?",
                fixes=context.write(span, fixed),
            )
        else:
            context.report(
                "unknown-class",
                span,
                f"`{text}` is no class of {'an' if kind[0] in 'aeiou' else 'a'} {kind}.",
                help=f"Write it as its standard does, for example `{_EXAMPLES[kind]}`.",
            )
        return ()
    return parts


def _flags(st: Statement, a: Attribute, context: Context) -> list[str]:
    return [w.text.lower() for w in context.described(st, a.args, PRODUCT_WORDS, "a product")]


def _pack(st: Statement, atom: Atom, kind: str, context: Context) -> Quantity | None:
    try:
        reading = read(atom.text)
    except ValueError:
        return context.number(st, atom, "pack")
    u = reading.unit
    if u is None and kind in ("collar",):
        return context.number(st, atom, "box")
    if u is not None and u.kind in (Kind.VOLUME, Kind.LENGTH, Kind.AREA) and reading.number > 0:
        from tilespec.quantity import Given

        return Quantity(reading.number * u.factor, u.kind, u, Given(st.span(atom)))
    return context.number(st, atom, "pack")


def _wait(st: Statement, a: Attribute, overrun: Attribute | None, context: Context) -> WaitData | None:
    times = [x for x in a.args if x.kind == "quantity"]
    word = a.args[-1]
    before = word.text.lower()
    if before not in WAITS:
        context.unknown("unknown-choice", st.span(word), f"No wait is known before `{word.text}`.", word.text, WAITS)
        return None
    low = context.number(st, times[0], "time", _unit_of(times[-1]))
    high = context.number(st, times[1], "time") if len(times) > 1 else None
    if low is None:
        return None
    if high is not None and high.value < low.value:
        context.report(
            "range-reversed",
            st.span(times[0]).to(st.span(times[1])),
            "The longest wait is shorter than the shortest.",
            help="Write the shorter time first.",
        )
        return None
    return WaitData(before, low, high, context.words(st, overrun.args[0]) if overrun else None)


# ---------------------------------------------------------------- choosing

_STRENGTH = {"C1": 1, "C2": 2, "D1": 0, "D2": 1, "R1": 2, "R2": 3, "CG1": 1, "CG2": 2, "RG": 3}

_SANITARY = re.compile(r"(X?)S([123])")


def meets(product: Product, needed: tuple[str, ...]) -> bool:
    """Whether a product's class reaches the needed one: type, options and deformability (a stronger class always passes)."""
    if not needed:
        return True
    if not product.cls:
        return False
    have, want = product.cls, needed
    if (had := _SANITARY.fullmatch(have[0])) and (asked := _SANITARY.fullmatch(want[0])):
        # EN 15651-3: 1 resists growth best, X shrinks least.
        return had[2] <= asked[2] and (bool(had[1]) or not asked[1])
    if have[0][0] == want[0][0] and have[0] in _STRENGTH and want[0] in _STRENGTH:
        if _STRENGTH[have[0]] < _STRENGTH[want[0]]:
            return False
    elif have[0] in ("R2", "RG"):
        return True
    elif have[0] != want[0]:
        return False
    have_deform = max((int(p[1]) for p in have[1:] if p in ("S1", "S2")), default=0)
    want_deform = max((int(p[1]) for p in want[1:] if p in ("S1", "S2")), default=0)
    have_options = set("".join(p for p in have[1:] if p not in ("S1", "S2")))
    want_options = set("".join(p for p in want[1:] if p not in ("S1", "S2")))
    return have_deform >= want_deform and want_options <= have_options


def choose(
    products: tuple[Product, ...], place: str, tile: str | None, needed: tuple[str, ...], flags: tuple[str, ...] = ()
) -> Product | None:
    """Of products of a kind the one for a place: named for it, then the first that meets the class, then the first of all."""
    fitting = [p for p in products if not p.for_ or place in p.for_ or (tile is not None and tile in p.for_)]
    if not fitting:
        return None
    named = [p for p in fitting if tile is not None and tile in p.for_] or [p for p in fitting if place in p.for_] or fitting

    def good(p: Product) -> bool:
        return meets(p, needed) and all(f in p.flags or f == p.colour for f in flags)

    return next((p for p in named if good(p)), None) or next((p for p in fitting if good(p)), None) or named[0]


def with_defaults(product: Product, generic: Product | None) -> Product:
    """A declared product; what its statement leaves out is taken from the generic one of its class (and stays marked as such)."""
    if generic is None:
        return product
    missing = {
        f: getattr(generic, f)
        for f in (
            "pack",
            "consumption",
            "water",
            "maturing",
            "pot_life",
            "open_time",
            "coats",
            "film",
            "width",
            "temperature_min",
            "temperature_max",
            "movement",
        )
        if getattr(product, f) is None and getattr(generic, f) is not None
    }
    waits = product.waits + tuple(w for w in generic.waits if product.wait(w.before) is None)
    return replace(product, waits=waits, **missing)
