"""Answers questions about aids with two general-purpose optical libraries, and nothing of ours.

In: {"trains": [...], "rays": [...]}. A train has `parts` in the order light meets them ({"lens": D}, {"gap": m},
{"surface": D, "before": n, "after": n}, {"glass": m, "index": n}), `distance` (m) from the thing to the first part and
`larger`, what a screen shows larger. A ray has `surfaces` ({"at": m, "radius": m, "behind": n}),
`before` (n), `along`, `height` (m) and `direction` (radians). Out: the equivalent viewing distance and the vergence
demand at the end of each train, by an ABCD-matrix library; height and direction of each ray behind the last surface, by
a tracer of real rays.
"""

import json
import math
import sys

import check
import numpy
from prysm.experimental.raytracing.spencer_and_murty import intersect, refract
from prysm.experimental.raytracing.surfaces import Surface

LIBRARY = check.LIBRARY


def element(part):
    if "gap" in part:
        return LIBRARY.Space(d=part["gap"])
    if "glass" in part:
        return LIBRARY.Space(d=part["glass"], n=part["index"])
    if "surface" in part:
        power = part["surface"]
        radius = (part["after"] - part["before"]) / power if power else float("inf")
        return LIBRARY.DielectricInterface(n1=part["before"], n2=part["after"], R=radius)
    return LIBRARY.Lens(f=1 / part["lens"]) if part["lens"] else LIBRARY.Space(d=0)


def end_of(elements, height, slope):
    return check.path(elements).traceThrough(LIBRARY.Ray(y=height, theta=slope))


def train(system):
    elements = [element(part) for part in system["parts"]]
    if system["distance"]:
        elements.insert(0, LIBRARY.Space(d=system["distance"]))
    by_height, by_slope = end_of(elements, 1.0, 0.0), end_of(elements, 0.0, 1.0)
    # The ray from the edge of the thing that meets the axis at the eye, and one from its foot.
    slope = -by_height.y / by_slope.y
    arrives = by_height.theta + slope * by_slope.theta
    return {"evd": abs(1 / arrives) / system["larger"], "demand": by_slope.theta / by_slope.y}


def ray(question):
    """The tracer's own steps, one surface after the other: its loop hands its refraction a normal that is not of unit
    length, which is right only near the axis (pinned version)."""
    place = numpy.array([[0.0, question["height"], question["along"]]])
    direction = numpy.array([[0.0, math.sin(question["direction"]), math.cos(question["direction"])]])
    before = question["before"]
    for surface in question["surfaces"]:
        at = numpy.array([0.0, 0.0, surface["at"]])
        face = Surface.conic(1 / surface["radius"], 0.0, "refr", P=at, n=lambda wavelength: surface["behind"])
        place, normal = intersect(place - at, direction, face.sag_normal)
        place = place + at
        normal = normal / numpy.linalg.norm(normal, axis=1, keepdims=True)
        direction = refract(before, surface["behind"], direction, normal)
        before = surface["behind"]
    _, height, along = place[0]
    _, up, forward = direction[0]
    return {"along": along, "height": height, "direction": math.atan2(up, forward)}


if __name__ == "__main__":
    asked = json.load(sys.stdin)
    json.dump(
        {"trains": [train(system) for system in asked["trains"]], "rays": [ray(one) for one in asked["rays"]]},
        sys.stdout,
    )
