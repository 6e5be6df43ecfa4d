"""What a case file and a list of aids say, read anew: the second road shares no reader with the page.

It reads what the cases of the tests use and no more; anything else stops it, so that nothing is guessed.
Lengths in metres, powers in dioptres, angles in radians unless a name says otherwise.
"""

import csv
import io
import math
import re

ARCMIN = math.pi / 180.0 / 60.0
# 1 M of print: five minutes of arc at one metre. Source: Sloan's definition, near vision reference N11.
ONE_M = math.tan(5.0 * ARCMIN)
# Schematic eye, from memory: cornea to the entrance pupil.
CORNEA_TO_PUPIL = 0.00305
# Width of a face between the ears, from memory; cycles across it that tell who it is: Parker & Costen 1999.
FACE_WIDTH = 0.140
FACE_CYCLES = 11.1
# Letters of an acuity goal are taken to be at 6 m; an acuity is the same at each distance. Assumed by the page.
LETTERS_AT = 6.0
# The reserve that a choice of how well stands for, as the page says beside it.
RESERVES = {"spot": 1.0, "read": 2.0, "read_long": 3.0}
HANDS = {"any": 0, "one_free": 1, "both_free": 2}
UNITS = {"mm": 0.001, "cm": 0.01, "m": 1.0}
# Desktop point. x-height of Times over its body, as style sheets give it: 0.45.
POINT = 0.0254 / 72.0
TIMES = 0.45

NUMBER = r"[+-]?\d+(?:[.,]\d+)?"


def number(text):
    """A number with a point or a comma."""
    return float(text.replace(",", "."))


def length(text, unit):
    """A length in metres; a bare number is in `unit`; nothing for an empty box."""
    text = text.strip()
    if not text:
        return None
    found = re.fullmatch(rf"({NUMBER})\s*(mm|cm|m)?", text)
    if not found:
        raise ValueError(f"length `{text}`: type a number and mm, cm or m")
    return number(found.group(1)) * UNITS[found.group(2) or unit]


def plain(text, otherwise):
    """A number, or what is taken for an empty box."""
    return number(text.strip()) if text.strip() else otherwise


def log_mar(text):
    """An acuity: a fraction with letters more or less, or logMAR; nothing for a category or an empty box."""
    text = text.strip()
    found = re.fullmatch(r"(\d+(?:\.\d+)?)/(\d+(?:\.\d+)?)(?:([+-])(\d+))?", text)
    if found:
        value = math.log10(float(found.group(2)) / float(found.group(1)))
        # A letter of a line of five is a fifth of 0.1; letters read more make the number smaller.
        letters = int(found.group(4) or 0) * (1.0 if found.group(3) == "-" else -1.0)
        return value + 0.02 * letters
    found = re.fullmatch(rf"({NUMBER})\s*logMAR", text)
    if found:
        return number(found.group(1))
    if not text or text.startswith(("CF", "HM", "LP", "NLP")):
        return None
    raise ValueError(f"acuity `{text}`: type 20/160, 6/48-1 or 0.9 logMAR")


def refraction(text):
    """Sphere, cylinder, add; zero and no add for an empty box."""
    text = text.strip()
    if not text:
        return 0.0, 0.0, None
    shape = rf"({NUMBER})(?:\s+({NUMBER})\s+x\s+\d+)?(?:\s+add\s+({NUMBER}))?"
    found = re.fullmatch(shape, text)
    if not found:
        raise ValueError(f"refraction `{text}`: type -1.00 -0.50 x 180 add +2.50")
    sphere, cylinder, add = found.groups()
    return number(sphere), number(cylinder or "0"), None if add is None else number(add)


def x_height(text):
    """Print as the height of its lower case; nothing for an empty box."""
    text = text.strip()
    if not text:
        return None
    for shape, height in [
        (rf"({NUMBER})\s*M", ONE_M),
        # Convention: N8 is 1 M.
        (r"N(\d+)", ONE_M / 8.0),
        (rf"({NUMBER})\s*mm", 0.001),
        (r"(\d+)\s*pt Times", POINT * TIMES),
    ]:
        found = re.fullmatch(shape, text)
        if found:
            return number(found.group(1)) * height
    raise ValueError(f"print `{text}`: type 1 M, N8, 1.45 mm or 12 pt Times")


def eye_of(case):
    """The eye that looks through aids; nothing when its acuity is none."""
    person = case.get("person", {})
    bench = case.get("bench", {})
    eye = person.get(bench.get("eye", "right"), {})
    acuity = log_mar(eye.get("acuity", ""))
    if acuity is None:
        return None
    sphere, cylinder, add = refraction(eye.get("refraction", ""))
    pupil = length(eye.get("pupil_mm", ""), "mm")
    vertex = length(person.get("vertex_mm", ""), "mm")
    return {
        "mar": 10.0**acuity,
        "limit": plain(person.get("retest_limit_log_mar", ""), 0.20),
        "pupil": 0.004 if pupil is None else pupil,
        "sphere": sphere,
        "cylinder": cylinder,
        "mean": sphere + cylinder / 2.0,
        "add": add,
        "v": (0.013 if vertex is None else vertex) + CORNEA_TO_PUPIL,
        "accommodation": plain(eye.get("accommodation_d", ""), 0.0),
        "in_eyepiece": bench.get("correction", "by_focusing") == "in_eyepiece",
    }


def wish_of(goal):
    """A goal as what aids have to show; nothing while a box that its kind needs is empty."""
    kind = goal.get("kind", "acuity")
    nearest = length(goal.get("distance_m", ""), "m")
    farthest = length(goal.get("farthest_m", ""), "m")
    typed = goal.get("reserve_times", "").strip()
    usual = 1.0 if kind in ("acuity", "face") else RESERVES[goal.get("how_well", "read")]
    reserve = number(typed) if typed else usual
    wish = {
        "print": kind == "print",
        "at": None,
        "width": None,
        "characters": None,
        "hands": HANDS[goal.get("hands", "any")],
        "walking": goal.get("posture", "sitting") == "walking",
        "both_eyes": goal.get("both_eyes", False),
    }
    if kind == "acuity":
        acuity = log_mar(goal.get("acuity", "20/40"))
        if acuity is None:
            return None
        # Five details high, each of the least angle, at the distance assumed.
        height = 10.0 * LETTERS_AT * math.tan(10.0**acuity * ARCMIN / 2.0)
        wish["ends"] = [(height, LETTERS_AT, reserve)]
        return wish
    if kind == "letters":
        height = length(goal.get("letter_height_mm", ""), "mm")
    elif kind == "detail":
        detail = length(goal.get("detail_mm", ""), "mm")
        height = None if detail is None else 5.0 * detail
    elif kind == "print":
        height = x_height(goal.get("print", ""))
    else:
        # A cycle is two details, and a thing is five details high.
        height = 5.0 * FACE_WIDTH / (2.0 * FACE_CYCLES)
    if height is None or (nearest is None and (kind != "print" or farthest is not None)):
        return None
    ends = [nearest]
    if farthest is not None and farthest > nearest:
        ends.append(farthest)
    wish["ends"] = [(height, distance, reserve) for distance in ends]
    if kind == "print":
        wish["characters"] = plain(goal.get("characters", ""), None)
        if nearest is not None:
            wish["at"] = (ends[0], ends[-1])
    else:
        wish["width"] = length(goal.get("width_m", ""), "m")
    return wish


# What is assumed of each family: what it is for, glasses, hands free, both eyes, walking, shines, and measures.
# Source: the document of the list, and for walking and shining what a user of such a thing would say.
PRINT, FAR, FIELD = "print", "far", "field"
FAMILIES = {
    "print nearer": (PRINT, "near", 1, True, True, False, {}),
    "larger copy": (PRINT, "near", 2, True, True, False, {"eye to page": 400.0}),
    "high-plus spectacles": (PRINT, "far", 2, False, False, False, {"clear diameter": 40.0, "light through": 92.0}),
    "thick high-plus spectacles": (
        PRINT, "none", 2, False, False, False, {"clear diameter": 40.0, "light through": 92.0}),
    "hand magnifier": (PRINT, "far", 1, False, False, False, {"light through": 92.0, "lens to glasses": 150.0}),
    "stand magnifier": (PRINT, "near", 1, False, False, False, {"light through": 92.0, "lens to glasses": 150.0}),
    "dome": (PRINT, "near", 1, True, False, False, {"index": 1.49, "light through": 92.0, "eye to page": 400.0}),
    "bar": (PRINT, "near", 1, True, False, False, {"index": 1.49, "light through": 92.0, "eye to page": 400.0}),
    "fresnel sheet": (PRINT, "far", 1, True, False, False, {"light through": 85.0, "lens to glasses": 200.0}),
    "desk screen": (PRINT, "near", 2, True, False, True, {"eye to screen": 400.0}),
    "hand-held screen": (PRINT, "near", 1, True, False, True, {"eye to screen": 300.0}),
    "tablet": (PRINT, "near", 1, True, False, True, {"eye to screen": 330.0}),
    "distance camera": (FAR, "near", 2, True, False, True, {"eye to screen": 400.0}),
    "head-mounted display": (FAR, "far", 2, True, False, True, {}),
    "hand-held telescope": (FAR, "far", 1, False, False, False, {"light through": 85.0, "lens to glasses": 5.0}),
    "spectacle-mounted telescope": (FAR, "far", 2, False, False, False, {"lens to glasses": 0.0}),
    "telescope with reading cap": (
        PRINT, "far", 2, False, False, False, {"light through": 85.0, "lens to glasses": 5.0}),
    "reversed telescope": (FIELD, "far", 1, False, False, False, {"light through": 85.0, "lens to glasses": 5.0}),
    "minus lens": (FIELD, "near", 1, False, False, False, {"lens to glasses": 300.0}),
}
WORDS = ("id", "name", "family", "design", "glasses", "hands free", "worn", "both eyes", "walking", "shines", "note")


def aids_of(text):
    """The rows of a list, each with its numbers by heading and what is assumed where a cell is empty."""
    rows = csv.reader(io.StringIO(text.lstrip("\ufeff")))
    headings = [re.sub(r"\s*\(.*\)$", "", heading) for heading in next(rows)]
    aids = []
    for row in rows:
        if not any(row):
            continue
        cells = {heading: cell for heading, cell in zip(headings, row) if cell}
        serves, glasses, hands, both, walking, shines, assumed = FAMILIES[cells["family"]]

        def yes(heading, otherwise, cells=cells):
            return cells[heading] != "no" if heading in cells else otherwise

        said = {heading: number(cell) for heading, cell in cells.items() if heading not in WORDS}
        aids.append({
            "id": cells["id"],
            "family": cells["family"],
            "serves": serves,
            "glasses": cells.get("glasses", glasses),
            "hands": int(cells.get("hands free", hands)),
            "both_eyes": yes("both eyes", both),
            "walking": yes("walking", walking),
            "shines": yes("shines", shines),
            "keplerian": cells.get("design") == "keplerian",
            "said": {**assumed, **said},
        })
    return aids
