"""What every aid of a list does for every wish of a case, by a road of its own: nothing of the core is called.

Reads {"case": content of a case file, "list": text of the list, "goal_chance": 0.5} and prints one JSON, for the test
`second_road` that holds it against the page's model. Plain Python 3, without packages.
"""

import json
import math
import sys

# The folder is part of the sources: no compiled copies are left in it.
sys.dont_write_bytecode = True

import case as read  # noqa: E402
from families import NoAnswer, in_use  # noqa: E402
from optics import ARCMIN, CHARACTER_PER_M, Z_95, below, blur, borne, carried, depth, seen_at_once  # noqa: E402
from ranking import front, kit  # noqa: E402

# Two acuities nearer than this are one: rounding.
SAME = 1e-9


def reach(now, goal, limit):
    """How much of the band of repeats reaches the goal."""
    for name, least in [("whole band", now + limit), ("middle", now), ("better end", now - limit)]:
        if least <= goal + SAME:
            return name
    return "no"


def what_lacks(cell, aid, wish):
    """What the wish asks for and the aid does not give; the order is the page's."""
    there, at = cell["page_to_eye_m"], wish["at"]
    elsewhere = (
        at is not None
        and not aid["shines"]
        and there is not None
        and not 0.99 * at[0] <= there <= 1.01 * at[1]
    )

    def fewer(seen, wanted):
        return seen is not None and wanted is not None and seen < wanted

    asked = [
        ("focus", abs(cell["defocus_d"]) > cell["tolerance"]),
        ("distance", elsewhere),
        ("seen", fewer(cell["characters"], wish["characters"]) or fewer(cell["width_m"], wish["width"])),
        ("hands", aid["hands"] < wish["hands"]),
        ("walking", wish["walking"] and not aid["walking"]),
        ("both_eyes", wish["both_eyes"] and not aid["both_eyes"]),
    ]
    return [name for name, is_lacking in asked if is_lacking]


def cell_of(aid, eye, wish, end):
    """One aid for one end of a wish."""
    height, distance, reserve = end
    use = in_use(aid, eye, None if aid["serves"] == read.PRINT else distance)
    needed = use["demand"] + carried(eye["mean"], eye["v"])
    defocus = needed - min(max(needed, 0.0), eye["accommodation"])
    strength, mar = blur(eye["mar"], defocus, use["cylinder"])
    tolerance = borne(eye["mar"])
    edge, share = seen_at_once(use["train"], eye["pupil"], use["demand"])
    evd = use["evd"]
    if evd is not None:
        detail = 2.0 * math.atan(height / 10.0 / evd)
        bare = distance or use["shown_to_eye"]
        angular = use["sign"] * bare / evd
        width = None if edge is None else 2.0 * edge * evd
    else:
        if distance is None:
            raise NoAnswer("how far the thing is has to be known")
        angular = use["times"]
        detail = 2.0 * math.atan(height / 10.0 / distance) * abs(angular)
        width = None if edge is None else 2.0 * edge * distance / abs(angular)
    if use["window"] is not None:
        width = use["window"] if width is None else min(width, use["window"])
    # The acuity was measured through the glasses for far, which make everything 1/(1 - v*K) times as large.
    detail *= (1.0 - eye["v"] * eye["mean"]) / ARCMIN
    if not (detail > 0.0 and math.isfinite(detail)):
        raise NoAnswer("the image cannot be viewed")
    now, goal = math.log10(mar), math.log10(detail / reserve)
    cell = {
        "chance": below((goal - now) / (eye["limit"] / Z_95)),
        "reach": reach(now, goal, eye["limit"]),
        "reserve_reached": detail / mar,
        "least_height_m": height * mar / detail,
        "evd_m": evd,
        "angular": angular,
        "width_m": width,
        "characters": None if width is None else width / (CHARACTER_PER_M * height / read.ONE_M),
        "page_to_eye_m": use["shown_to_eye"],
        "hand_room_m": use["hand_room"],
        "focus_needed_d": needed,
        "defocus_d": defocus,
        "loss_log": math.log10(mar / eye["mar"]),
        "light": use["light"] * share,
        "tolerance": tolerance,
        "strength": strength,
        "depth": depth(use["train"], use["demand"], tolerance),
        "distance": distance,
        "power": 1.0 / evd if distance is None and evd is not None else abs(angular),
    }
    cell["lacks"] = what_lacks(cell, aid, wish)
    return cell


def worst_of(aid, eye, wish):
    """The end of the range where the aid does worst: no answer, then more that is lacking, then the lower chance."""
    if aid["serves"] == read.PRINT and not wish["print"]:
        return {"cannot": "only print"}
    if aid["serves"] != read.PRINT and wish["print"] and wish["at"] is None:
        return {"cannot": "only far"}
    cells = []
    for end in wish["ends"]:
        try:
            cells.append(cell_of(aid, eye, wish, end))
        except NoAnswer as why:
            return {"cannot": f"no answer: {why}"}
    return max(cells, key=lambda cell: (len(cell["lacks"]), -cell["chance"]))


def answer(asked):
    """The whole table, what nothing beats in each of its columns, and the fewest aids for all."""
    content = asked["case"]["case"]
    eye, aids = read.eye_of(content), read.aids_of(asked["list"])
    wishes = [(place, read.wish_of(goal)) for place, goal in enumerate(content.get("goals", [{}]))]
    wishes = [(place, wish) for place, wish in wishes if wish is not None]
    if eye is None:
        return {"wishes": [], "kit": {"size": 0, "possible": [[]]}, "uncoverable": []}
    tables, told = [], []
    for place, wish in wishes:
        cells = {aid["id"]: worst_of(aid, eye, wish) for aid in aids}
        first, beaten = front(cells, aids, wish)
        tables.append(cells)
        told.append({"goal": place, "aids": cells, "front": first, "beaten": beaten})
    best, uncoverable = kit(tables, aids, asked.get("goal_chance", 0.5))
    return {"wishes": told, "kit": best, "uncoverable": [wishes[place][0] for place in uncoverable]}


def finite(value):
    """JSON has no infinity."""
    if isinstance(value, dict):
        return {key: finite(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [finite(one) for one in value]
    if isinstance(value, float) and not math.isfinite(value):
        return "without end"
    return value


if __name__ == "__main__":
    json.dump(finite(answer(json.load(sys.stdin))), sys.stdout)
