"""Random but sound specs as text, from a seed: what a tiler might write, in the language itself."""

from __future__ import annotations

from random import Random

PRODUCTS = {
    "adhesive": (
        "adhesive bed class C2TE S1; colour white; pack 25 kg; density 1.3 kg/L; water 0.26 L/kg; pot life 45 min",
        "adhesive quick-bed class C2FT S1; colour white; pack 25 kg; density 1.3 kg/L; water 0.26 L/kg; wait 4 h before grouting",
        "",
    ),
    "membrane": (
        "membrane film class DM; pack 14 kg; coats 2; consumption 0.7 kg/m2; film 0.5 mm\n"
        "  wait 1.5 h between coats; wait 4 h before tiling",
        "membrane film-three class DM; pack 14 kg; coats 3; consumption 0.5 kg/m2",
        "membrane lacquer class RM; polyurethane; pack 10 kg; coats 2; consumption 0.7 kg/m2",
        "membrane slurry class CM; pack 20 kg; consumption 1.7 kg/m2; water 0.25 L/kg",
        "",
    ),
    "primer": ("primer base-primer pack 5 kg; consumption 0.15 kg/m2; wait 4 h to 24 h before membrane", ""),
    "grout": (
        "grout fine class CG2WA; pack 5 kg; density 1.6 kg/L; water 0.24 L/kg; matures 3 min",
        "grout resin-fill class RG; epoxy; temperature 5 to 30 C; pack 5 kg; density 1.7 kg/L",
        "",
    ),
    "impregnator": ("impregnator proofer pack 1 kg; consumption 0.1 kg/m2",),
    "sealer": ("sealer stone-seal solvent; pack 1 kg; consumption 0.1 kg/m2", ""),
}
TILES = (
    "tile field 300x300x9 porcelain rectified; weight 20 kg/m2; box of 11",
    "tile white 200x200x7 ceramic; weight 14 kg/m2; box of 25",
    "tile slab 600x600x10 porcelain rectified; weight 23 kg/m2; box of 3",
    "tile marble 400x400x10 marble; weight 27 kg/m2; box of 6",
    "tile pebble 305x305x8 mosaic stone translucent; weight 21 kg/m2; box of 10",
)
NAMES = ("field", "white", "slab", "marble")
FLOORS = (
    "base cement screed; thickness 65 mm; laid 2025-12-08", "base cement screed; thickness 50 mm; laid 2026-02-20",
    "base concrete; laid 2024-05-06", "base calcium sulfate screed; thickness 40 mm; laid 2025-10-01",
    "base cement screed; thickness 65 mm; laid 2026-03-12", "base timber; joists 400 mm; boards 22 mm", "base old tiles",
)
WALLS = (
    "base tile-backer board", "base cement board", "base gypsum plasterboard", "base cement render; laid 2025-11-03",
    "base gypsum plaster; laid 2025-11-03", "base old tiles", "base painted plaster",
)
STEPS = ("after sealing", "before grouting", "after tiling", "after membrane", "before first fix", "after second fix")


def spec(seed: int) -> str:
    """One spec. Errors are never meant; warnings may be."""
    rng = Random(seed)
    crew = rng.choice(("tiler 1", "tiler 1, helper 1", "tiler 2, helper 1"))
    built = rng.choice(("", "; built 1968", "; built 1968", "; built 2026"))
    family = rng.choice(("EN", "DE", "UK", "US", "AU"))
    lines = [
        'job "Generated"',
        f"  practice {family}; date 2026-03-02; begin 2026-03-09{built}",
        f"  crew {crew}",
        f"conditions air 19 C; humidity 60 %; surface {rng.choice((11, 17, 21))} C",
    ]
    lines += [line for kind in PRODUCTS.values() if (line := rng.choice(kind))]
    lines += TILES
    rooms = ("Shower room", "Toilet", "Bathroom")[: rng.choice((1, 1, 2, 3))]
    for name in rooms:
        lines += _room(rng, name, "1:48" if family == "US" else "1:60")
    if rng.random() < 0.5:
        where = f' on "{rooms[0]}"' if len(rooms) > 1 else ""
        lines.append(f'step "Other work"{where} by glazier; {rng.choice(STEPS)}; takes 2 h')
    if rng.random() < 0.3:
        where = f'"{rooms[0]}" floor' if len(rooms) > 1 else "floor"
        lines.append(f'record substrate-moisture on {where} 2026-03-06 by "J. Rook"; reading {rng.choice(("0.2 CM%", "72 %RH"))}')
    return "\n".join(lines) + "\n"


def _room(rng: Random, name: str, fall: str) -> list[str]:
    wet = name != "Toilet"
    width, depth = rng.choice((2.0, 2.4, 3.0)), rng.choice((1.8, 2.2))
    level = wet and rng.random() < 0.5
    heated = rng.choice(("", "", "mat", "cable", "pipes"))
    lines = [f'room "{name}" height 2.4', "datum 1.0 above finished floor"]
    lines.append(f"floor {width} x {depth}" + (" heated" if heated else ""))
    stony = FLOORS[:5]
    # A calcium sulfate screed is kept out of the wet.
    soaked = tuple(b for b in stony if "calcium" not in b)
    base = rng.choice(FLOORS[:2] if heated == "pipes" else soaked if wet else stony if heated else FLOORS)
    lines.append("  " + base)
    if rng.random() < 0.4 or heated == "cable":
        lines.append("  build-up leveller 6, membrane 1, bed 4" if level else "  build-up leveller 6, bed 4")
    if heated:
        lines.append(f"  heating {heated}" + ("; sensor at wall B" if heated != "pipes" else ""))
    lines.append(f"  tile {rng.choice(NAMES[:2] if level else NAMES)}; joint 3; straight")
    if level:
        lines.append(f"  fall {fall} four planes; drain 0.45 from wall D, 0.45 from wall A")
    if rng.random() < 0.2:
        lines.append("  movement joint 1.0 from wall D; width 8")
    if rng.random() < 0.2:
        lines.append("  impregnator proofer")
    if rng.random() < 0.3:
        lines.append('  fixture "WC" 0.4 x 0.6; 0.2 from wall B, 0.1 from wall C')
    if wet:
        lines.append(_wet(rng, level))
    for letter in "ABCD":
        if letter in "AD" or rng.random() < 0.7:
            lines += _wall(rng, letter, wet and letter in "AD")
    return lines


def _wet(rng: Random, level: bool) -> str:
    if level or rng.random() < 0.5:
        tray = "" if level else " tray"
        return f"shower in corner D A, 0.9 x 0.9{tray}; head at height 2.1; valve on wall A 0.45 from left, 1.1 up"
    return "bath in corner D A, 0.7 x 1.7; rim 0.56"


def _wall(rng: Random, letter: str, wet: bool) -> list[str]:
    base = rng.choice(WALLS[:2] if wet else WALLS)
    # Light tiles where the base carries little.
    light = "gypsum plaster;" in base or "painted" in base
    tile = "white" if light else rng.choice(NAMES[:2] if "plasterboard" in base else NAMES)
    lines = [f"wall {letter}", "  " + base, f"  tile {tile}; joint 3; straight"]
    if rng.random() < 0.2 and not light:
        lines.append("  tile pebble; band 0.305 high, bottom 1.5 up")
    if rng.random() < 0.1:
        lines.append("  impregnator proofer")
    if letter == "A" and rng.random() < 0.2:
        lines.append("  niche 0.3 x 0.3; 1.2 from left, 0.9 up; 90 mm deep")
    if letter == "B" and rng.random() < 0.4:
        lines.append("  window 0.5 x 0.6; 0.3 from left, 1.2 up")
    if letter == "C":
        lines.append("  door 0.8 x 2.0; 0.5 from left")
    if letter == "B" and rng.random() < 0.3:
        lines.append("  mirror 0.5 x 0.5; 1.0 from left, 1.2 up")
    if letter == "D" and rng.random() < 0.3:
        lines.append('  fitting "rail" 0.5 x 0.1; 1.0 from left, 0.6 up' + rng.choice(("", "; glued")))
    if rng.random() < 0.15 and not wet:
        # Beside a bath or a shower no socket may stand.
        lines.append("  socket 1.4 from left, 1.1 up")
    if rng.random() < 0.15:
        lines.append("  untiled 0.2 x 0.2; 1.2 from left, 0.0 up")
    return lines
