"""Which aids nothing beats for a wish, and the fewest that serve all: by comparing every pair, and by trying every set.

The steps below which a difference does not count, the order of what is weighed, and how ties of sets are broken are the
page's own choice; a second road can only take them over. How the answer is found from them is worked out anew.
"""

import math

REACHES = ("no", "better end", "middle", "whole band")
# Two chances nearer than this are one.
ROUNDING = 1e-9


def whole(value):
    """The nearest whole number, halves away from zero; a half is one though rounding took its last digits off."""
    return math.copysign(math.floor(abs(value) + 0.5 + ROUNDING), value) + 0.0


def merits(cell, aid, wish):
    """What is weighed, more is better: numbers of steps, a pair where ways of measuring do not mix, or nothing."""
    distance = cell["distance"]
    if cell["width_m"] is None:
        seen = ("all", math.inf)
    elif distance is None:
        seen = ("characters", whole(cell["characters"] / 0.5))
    elif wish["width"] is not None:
        seen = ("share", whole(min(cell["width_m"] / wish["width"], 1.0) / 0.01))
    else:
        seen = ("angle", whole(math.degrees(2.0 * math.atan(cell["width_m"] / distance / 2.0)) / 0.1))
    room, depth = cell["hand_room_m"], cell["depth"]
    return {
        "chance": 1000.0 * REACHES.index(cell["reach"]) + whole(cell["chance"] / 0.01),
        "seen": seen,
        "room": math.inf if room is None else whole(room / 0.005),
        "focus": whole(-max(cell["strength"] - cell["tolerance"], 0.0) / 0.05),
        "depth": None if depth is None else (math.inf if math.isinf(depth) else whole(depth / 0.001)),
        "light": whole(cell["light"] / 0.01),
        "hands": float(aid["hands"]),
        "both eyes": float(aid["both_eyes"]),
        "walking": float(aid["walking"]),
        "low power": whole(-math.log10(cell["power"]) / 0.01),
    }


def compare(one, other):
    """Below, at or above zero; nothing where one is not known or they were measured in different ways."""
    if one is None or other is None:
        return None
    if isinstance(one, tuple):
        if one[0] != other[0] and "all" not in (one[0], other[0]):
            return None
        one, other = one[1], other[1]
    return (one > other) - (one < other)


def beats(one, other, on):
    """At least as good on everything, better on something, and everything can be compared."""
    results = [compare(one[key], other[key]) for key in on]
    return None not in results and min(results) >= 0 and max(results) > 0


def front(cells, aids, wish):
    """What has a chance, lacks nothing and is not beaten; and of the rest by what each is beaten."""
    places = [aid for aid in aids if usable(cells[aid["id"]])]
    weighed = {aid["id"]: merits(cells[aid["id"]], aid, wish) for aid in places}
    names = list(weighed)
    known = weighed[names[0]] if names else {}
    on = [key for key in known if any(weighed[name][key] is not None for name in names)]
    first = [name for name in names if not any(beats(weighed[other], weighed[name], on) for other in names)]
    beaten = {}
    for name in names:
        if name not in first:
            beaten[name] = [other for other in first if beats(weighed[other], weighed[name], on)]
    return first, beaten


def usable(cell):
    return "cannot" not in cell and cell["reach"] != "no" and not bars(cell)


def bars(cell):
    """What keeps an aid from serving: seeing less at once than is wanted is weighed, and is no bar."""
    return [what for what in cell["lacks"] if what != "seen"]


def kit(tables, aids, goal_chance):
    """The smallest sets that serve every wish that can be served, the best one first by the page's ties."""
    serves, hands_free, power = {}, {}, {}
    for aid in aids:
        name = aid["id"]
        for place, cells in enumerate(tables):
            cell = cells[name]
            # A power that is just enough has a chance of one half; what rounding takes off that does not count.
            if "cannot" in cell or bars(cell) or cell["chance"] < goal_chance - ROUNDING:
                continue
            serves.setdefault(name, set()).add(place)
            power[name] = max(power.get(name, 0.0), cell["power"])
            if aid["hands"] == 2:
                hands_free.setdefault(name, set()).add(place)
    wanted = set().union(*serves.values()) if serves else set()
    uncoverable = [place for place in range(len(tables)) if place not in wanted]
    order = [aid["id"] for aid in aids]
    kind = {aid["id"]: aid["family"] for aid in aids}
    found = set()

    def add(chosen, left, room):
        if not left:
            found.add(frozenset(chosen))
        elif room:
            hardest = min(left, key=lambda place: sum(place in covers for covers in serves.values()))
            for name, covers in serves.items():
                if hardest in covers:
                    add([*chosen, name], left - covers, room - 1)

    size = 0
    while not found:
        add([], wanted, size)
        size += 1

    def worth(names):
        free = set().union(*(hands_free.get(name, set()) for name in names))
        hundredths = sum(whole(100.0 * power[name]) for name in names)
        kinds = len({kind[name] for name in names})
        return -len(free), hundredths, kinds, sorted(order.index(name) for name in names)

    possible = sorted(found, key=worth)
    # As many as tell which is best; the rest would only make the answer long.
    listed = [sorted(names, key=order.index) for names in possible[:20]]
    return {"size": size - 1, "possible": listed, "count": len(possible)}, uncoverable
