"""The table of the bench as plain vectorised NumPy: python closed_forms.py CASES

Reads the cases and the core's answers (`arcminute-bench cases`), works the same answers out from the textbook forms of
each kind of aid, compares them, and prints the least median of a round in nanoseconds and the largest difference.
It shares nothing with the core. Lengths in metres, powers in dioptres, angles in minutes of arc.
"""

import json
import math
import sys
import time

import numpy as np

ARCMIN = math.pi / 10_800
NONE = -1.0
ERFC = np.frompyfunc(math.erfc, 1, 1)


def system(kind, p, eye):
    """Of each aid of a kind: what stands before the lens, the lens, and what stands behind it.

    print: print to the front; path: glass there, as air; power, rim: of the lens; gap: lens to glasses; behind: power of
    the glasses; larger, window, light.
    """
    mean = eye["sphere"] + eye["cylinder"] / 2
    worn = mean + eye["add"]
    none, zero, one = np.inf, 0.0, 1.0
    if kind == "nearer":
        return p[0] - eye["to_eye"], zero, worn, none, zero, zero, p[1], none, one
    if kind == "screen":
        return p[0] - eye["to_eye"], zero, worn, none, zero, zero, p[1], p[2] / p[1], one
    if kind == "high-plus":
        power = mean + p[0]
        needed = -mean / (1 - eye["to_eye"] * mean) + p[1]
        # Print where its light, behind the lens and on its way to the eye, comes to this demand.
        print_at = 1 / (power + needed / (1 - eye["to_eye"] * needed))
        return print_at, zero, power, p[2], zero, zero, one, none, p[3]
    if kind == "held":
        return 1 / p[0], zero, p[0], p[2], p[1], worn, one, none, p[3]
    if kind == "stand":
        return p[1], zero, p[0], p[3], p[2], worn, one, none, p[4]
    above = p[3] - eye["to_eye"] - p[1]
    surface = (p[2] - 1) / p[0]
    if kind == "dome":
        return zero, p[1] / p[2], surface, p[4], above, worn, one, none, p[5]
    return zero, p[1] / p[2], surface, none, above, worn, one, p[4], p[5]


def answers(groups, wishes, eye):
    """Every answer, aid by aid."""
    v, pupil = eye["to_eye"], eye["pupil"]
    rows = []
    for kind, numbers in groups:
        count = numbers.shape[1]
        rows.append([np.broadcast_to(value, count) for value in system(kind, numbers, eye)])
    at, path, power, rim, gap, behind, larger, window, light = (np.concatenate(part) for part in zip(*rows))

    # From the lens to the eye: height and slope of a ray there, by height and slope at the lens.
    a = 1 - gap * power - v * (power + behind * (1 - gap * power))
    b = gap + v * (1 - gap * behind)
    c = -power - behind * (1 - gap * power)
    d = 1 - gap * behind
    reach = at + path
    height, slope = a * reach + b, c * reach + d
    evd = np.abs(height) / larger
    demand = slope / height

    mean = eye["sphere"] + eye["cylinder"] / 2
    needed = demand + mean / (1 - v * mean)
    defocus = needed - np.minimum(np.maximum(needed, 0), eye["accommodation"])
    own = 10 ** eye["acuity"]
    rise = 1.08 * defocus**2
    mar = np.sqrt(own**2 + 1.25**2 * rise * (2 + rise))

    # The rim, seen from the pupil: a share of the bundle is left at this slope.
    bundle = np.abs(d - b * demand) * pupil
    spread = np.minimum(bundle, rim)
    with np.errstate(invalid="ignore"):
        across = [
            np.where(np.isinf(rim), np.inf, np.maximum((rim + bundle) / 2 - share * spread, 0) / b)
            for share in (1, 0.5, 0)
        ]
    widths = [np.minimum(2 * evd * slope, window) for slope in across]
    widths = [np.where(np.isinf(width), NONE, width) for width in widths]
    filled = np.minimum(rim / bundle, 1) ** 2

    square = own**2 * (10**0.2 - 1) / 1.25**2
    tolerance = math.sqrt(square / (1 + math.sqrt(1 + square)) / 1.08)
    most, least = demand + tolerance, demand - tolerance
    strong, weak = most * a - c, least * a - c
    nearest = (d - most * b) / strong - path
    farthest = (d - least * b) / weak - path
    endless = strong * weak <= 0
    nothing = ~np.isfinite(nearest) | ((farthest <= 0) & ~endless)
    nearest = np.where(nothing, NONE, np.maximum(nearest, 0))
    farthest = np.where(nothing | endless, NONE, farthest)

    # What the wish changes: aids down, wishes across.
    tall, reserve = wishes
    detail = 2 * np.arctan(tall / 5 / evd[:, None] / 2) / ARCMIN
    reached = detail / mar[:, None]
    off = (np.log10(detail / reserve) - np.log10(mar)[:, None]) / (eye["limit"] / 1.959963984540054)
    chance = 0.5 * ERFC(-off / math.sqrt(2)).astype(float)
    metre_of_print = math.tan(5 * ARCMIN)
    half = widths[1][:, None]
    characters = np.where(half == NONE, NONE, half * 1000 / (1.3 * tall / metre_of_print))
    return {
        "evd": evd,
        "demand": demand,
        "defocus": defocus,
        "mar": mar,
        "full": widths[0],
        "half": widths[1],
        "last": widths[2],
        "nearest": nearest,
        "farthest": farthest,
        "light": light * filled,
        "detail": detail,
        "reserve": reached,
        "least": tall / reached,
        "chance": chance,
        "characters": characters,
    }


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        cases = json.load(file)
    groups = []
    for kind, numbers in cases["aids"]:
        if not groups or groups[-1][0] != kind or len(groups[-1][1][0]) != len(numbers):
            groups.append((kind, []))
        groups[-1][1].append(numbers)
    groups = [(kind, np.array(numbers).T) for kind, numbers in groups]
    wishes = np.array(cases["wishes"]).T
    eye = cases["eye"]

    worst = 0.0
    for name, ours in answers(groups, wishes, eye).items():
        core = np.array(cases["results"][name])
        apart = np.abs(ours.ravel() - core) / np.maximum(1, np.abs(core))
        worst = max(worst, float(apart.max()))
        if not apart.max() <= 1e-9:
            place = int(np.argmax(apart))
            print(f"{name} {place}: {ours.ravel()[place]!r}, the core says {core[place]!r}", file=sys.stderr)

    def median():
        rounds, started = [], time.perf_counter_ns()
        while len(rounds) < 9 or time.perf_counter_ns() - started < 50e6:
            begun = time.perf_counter_ns()
            answers(groups, wishes, eye)
            rounds.append(time.perf_counter_ns() - begun)
        return sorted(rounds)[len(rounds) // 2]

    median()
    print(min(median() for _ in range(40)), worst)


if __name__ == "__main__":
    main()
