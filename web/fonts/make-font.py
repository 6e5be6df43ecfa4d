"""Makes arcminute-text.woff2 from Atkinson Hyperlegible Next. See README.md beside this file for how to run it.

The published web font has the letters and a weight axis but not the signs that optics needs, so:
  1. keep weights 400 to 700 of the Latin web font, and drop what no page here uses;
  2. add the signs that the family has only in its full static fonts (≤ ≥ ≈ ≠ Δ Ω π μ √ ∞ ℓ);
  3. draw the few that the family lacks (′ ″ arrows ✓ φ τ) from its own stroke width and its own letter o;
  4. name the result Arcminute Text, since it is a modified version.
"""

import math
import sys

from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.TupleVariation import TupleVariation
from fontTools.varLib.instancer import OverlapMode, instantiateVariableFont

LIGHT, BOLD = 400, 700
FROM_STATIC = "≤≥≈≠ΔΩπμ√∞ℓ"
LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x100)]
PUNCTUATION = [ord(c) for c in "–—‘’“”‚„•…‹›⁄€™−Œœ"]


def main(variable, light, bold, target):
    font = TTFont(variable)
    masters = {LIGHT: TTFont(light), BOLD: TTFont(bold)}
    font = instantiateVariableFont(font, {"wght": (LIGHT, LIGHT, BOLD)}, overlap=OverlapMode.KEEP_AND_SET_FLAGS)
    # The instancer leaves out glyphs that do not vary; the subsetter wants them all.
    for name in font.getGlyphOrder():
        font["gvar"].variations.setdefault(name, [])
    # Widths then come from gvar's phantom points; HVAR and MVAR would only repeat them.
    for table in ("HVAR", "MVAR"):
        if table in font:
            del font[table]
    subset(font)
    added = {}
    for sign in FROM_STATIC:
        added[sign] = {w: from_static(m, sign) for w, m in masters.items()}
    for sign, draw in DRAWN.items():
        added[sign] = {w: draw(m) for w, m in masters.items()}
    for sign, outlines in added.items():
        add(font, sign, outlines)
    cmap_everywhere(font, 0xB5, font.getBestCmap()[ord("μ")])
    cmap_everywhere(font, 0x2206, font.getBestCmap()[ord("Δ")])
    rename(font)
    font["head"].modified = font["head"].created
    font.recalcTimestamp = False
    font.flavor = "woff2"
    font.save(target)
    print(f"{len(font.getBestCmap())} characters, {len(font.getGlyphOrder())} glyphs")


def subset(font):
    options = Options()
    options.layout_features = ["kern", "tnum", "pnum", "ccmp"]
    options.hinting = False
    options.name_IDs = ["*"]
    options.notdef_outline = True
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=LATIN + PUNCTUATION)
    subsetter.subset(font)


def from_static(master, sign):
    """Contours and advance width of a glyph that the full static font has."""
    name = master.getBestCmap()[ord(sign)]
    coordinates, ends, flags = master["glyf"][name].getCoordinates(master["glyf"])
    return list(coordinates), list(ends), list(flags), master["hmtx"][name][0]


def polygons(contours, width):
    """The same record from straight-sided contours."""
    points, ends = [], []
    for contour in contours:
        points += [(round(x), round(y)) for x, y in contour]
        ends.append(len(points) - 1)
    return points, ends, [1] * len(points), width


def thickness(master):
    """Height of the minus sign: the family's horizontal stroke."""
    ys = [y for _, y in from_static(master, "−")[0]]
    return max(ys) - min(ys), (max(ys) + min(ys)) / 2


def stroke(path, width):
    """Outline of a polyline of constant width: mitred at corners, square at the ends, clockwise."""
    def offset(side):
        out = []
        for i, (x, y) in enumerate(path):
            normals = []
            for a, b in ((i - 1, i), (i, i + 1)):
                if a >= 0 and b < len(path):
                    dx, dy = path[b][0] - path[a][0], path[b][1] - path[a][1]
                    length = math.hypot(dx, dy)
                    normals.append((-dy / length, dx / length))
            nx = sum(n[0] for n in normals) / len(normals)
            ny = sum(n[1] for n in normals) / len(normals)
            scale = side * width / 2 / (nx * nx + ny * ny)
            out.append((x + nx * scale, y + ny * scale))
        return out

    return offset(1) + offset(-1)[::-1]


def primes(count):
    def draw(master):
        width, _ = thickness(master)
        width *= 0.95
        step, x = width * 1.75, 45.0
        marks = []
        for i in range(count):
            left = x + i * step
            marks.append([(left, 448), (left + 92, 690), (left + 92 + width, 690), (left + width * 0.62, 448)])
        return polygons(marks, round(x + (count - 1) * step + 92 + width + 20))
    return draw


def arrow(turn):
    """Right-pointing arrow, turned by `turn` quarters anticlockwise."""
    def draw(master):
        width, middle = thickness(master)
        head = 190
        tip = 330 - width * 0.7
        shaft = [(-304, 0), (tip, 0)]
        chevron = [(tip - head, head), (tip, 0), (tip - head, -head)]
        contours = [stroke(shaft, width), stroke(chevron, width)]
        for _ in range(turn):
            contours = [[(-y, x) for x, y in c] for c in contours]
        upright = turn % 2 == 1
        centre, height = (250, 330) if upright else (350, middle)
        return polygons([[(x + centre, y + height) for x, y in c] for c in contours], 500 if upright else 700)
    return draw


def tick(master):
    width, _ = thickness(master)
    return polygons([stroke([(70, 300), (235, 90), (560, 640)], width * 1.1)], 620)


def phi(master):
    points, ends, flags, width = from_static(master, "o")
    bar = thickness(master)[0] * 0.95
    centre = width / 2
    bar_points, _, bar_flags, _ = polygons(
        [[(centre - bar / 2, -190), (centre - bar / 2, 690), (centre + bar / 2, 690), (centre + bar / 2, -190)]], width
    )
    return points + bar_points, ends + [len(points) + 3], flags + bar_flags, width


def tau(master):
    width, _ = thickness(master)
    top = 496
    bar = [(30, top - width), (30, top), (430, top), (430, top - width)]
    left, right = 210 - width * 0.55, 210 + width * 0.55
    # The foot keeps it from being read as a small T.
    stem = [(left, 0), (left, top), (right, top), (right, width), (360, width), (360, 0)]
    return polygons([bar, stem], 460)


DRAWN = {
    "′": primes(1), "″": primes(2), "→": arrow(0), "↑": arrow(1), "←": arrow(2), "↓": arrow(3),
    "✓": tick, "φ": phi, "τ": tau,
}


def add(font, sign, outlines):
    """Adds a glyph whose default is the light outline and whose one variation leads to the bold one."""
    light, bold = outlines[LIGHT], outlines[BOLD]
    if light[1] != bold[1] or light[2] != bold[2]:
        raise SystemExit(f"{sign}: the outlines of the two weights do not match point by point")
    points, ends, flags, width = light
    name = f"uni{ord(sign):04X}"
    font.setGlyphOrder([*font.getGlyphOrder(), name])
    font["glyf"][name] = glyph(points, ends, flags)
    font["hmtx"][name] = (width, min(x for x, _ in points))
    deltas = [(bx - x, by - y) for (x, y), (bx, by) in zip(points, bold[0])]
    deltas += [(0, 0), (bold[3] - width, 0), (0, 0), (0, 0)]
    font["gvar"].variations[name] = [TupleVariation({"wght": (0, 1, 1)}, deltas)]
    cmap_everywhere(font, ord(sign), name)


def glyph(points, ends, flags):
    pen = TTGlyphPen(None)
    start = 0
    for end in ends:
        contour = list(zip(points[start : end + 1], flags[start : end + 1]))
        first = next(i for i, (_, on) in enumerate(contour) if on & 1)
        contour = contour[first:] + contour[:first]
        if first:
            raise SystemExit("a contour starts off the curve; its variation would not line up")
        pen.moveTo(contour[0][0])
        waiting = []
        for point, on in contour[1:]:
            waiting.append(point)
            if on & 1:
                pen.qCurveTo(*waiting) if len(waiting) > 1 else pen.lineTo(point)
                waiting = []
        if waiting:
            pen.qCurveTo(*waiting, contour[0][0])
        pen.closePath()
        start = end + 1
    made = pen.glyph(dropImpliedOnCurves=False)
    if len(made.coordinates) != len(points):
        raise SystemExit("a glyph lost points while it was copied")
    # Two contours that cross must add up, not cancel out.
    made.flags[0] |= 0x40
    return made


def cmap_everywhere(font, code, name):
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def rename(font):
    names = font["name"]
    note = (
        "This Font Software is licensed under the SIL Open Font License, Version 1.1. "
        "Modified version: subset, signs added, renamed."
    )
    keep = {0: str(names.getName(0, 3, 1, 0x409)), 5: str(names.getName(5, 3, 1, 0x409))}
    keep |= {1: "Arcminute Text", 2: "Regular", 3: "Arcminute Text 1", 4: "Arcminute Text Regular",
             6: "ArcminuteText-Regular", 13: note, 14: "https://openfontlicense.org"}
    weights = {i.subfamilyNameID for i in font["fvar"].instances} | {a.axisNameID for a in font["fvar"].axes}
    for record in list(names.names):
        if record.nameID < 256 and record.nameID not in keep:
            names.names.remove(record)
    for number, text in keep.items():
        names.setName(text, number, 3, 1, 0x409)
    if "STAT" in font:
        del font["STAT"]
    names.names = [n for n in names.names if n.nameID < 256 or n.nameID in weights]


if __name__ == "__main__":
    main(*sys.argv[1:])
