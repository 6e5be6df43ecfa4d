"""Answers questions about optical systems with a general-purpose ray library, and nothing of ours.

Reads JSON from standard input and writes JSON to standard output. In: a list of systems, each with `parts` in the
order light meets them ({"lens": D, "diameter": m or null} or {"gap": m}), `to_eye` (m), `pupil` (m), `distance` (m, or
null for far), `slopes` and `asked`, names of the functions in ANSWERS. Out: a list of {name: value}.
"""

import contextlib
import datetime
import json
import os
import pathlib
import sys


def load_library():
    """Imports the library with its settings kept inside this Python environment, its look-up of newer versions (a
    network call) marked as done, and its messages off the standard output."""
    home = pathlib.Path(sys.prefix, "check-home")
    settings = json.dumps({"lastVersionCheck": datetime.datetime.now().isoformat(), "mode": "silent"})
    for folder in (home / ".config", home / "Library" / "Preferences"):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "ca.dcclab.python.raytracing.json").write_text(settings)
    os.environ["HOME"] = str(home)
    os.environ["MPLCONFIGDIR"] = str(home)
    with contextlib.redirect_stdout(sys.stderr):
        import raytracing
    return raytracing


LIBRARY = load_library()


def element(part, rims):
    if "gap" in part:
        return LIBRARY.Space(d=part["gap"])
    diameter = part["diameter"] if rims and part["diameter"] is not None else float("inf")
    return LIBRARY.Lens(f=1 / part["lens"], diameter=diameter)


def path(elements):
    return LIBRARY.MatrixGroup(elements=list(elements))


def train(system, rims=False):
    """The parts; without rims every ray gets through."""
    return [element(part, rims) for part in system["parts"]]


def from_thing(system):
    """From the thing looked at to the eye."""
    return path([LIBRARY.Space(d=system["distance"]), *train(system), LIBRARY.Space(d=system["to_eye"])])


def end_of(elements, height, slope):
    return path(elements).traceThrough(LIBRARY.Ray(y=height, theta=slope))


def magnification(system):
    """Slope out over slope in, of the ray from far that meets the axis at the eye."""
    elements = [*train(system), LIBRARY.Space(d=system["to_eye"])]
    by_height, by_slope = end_of(elements, 1.0, 0.0), end_of(elements, 0.0, 1.0)
    height = -by_slope.y / by_height.y
    return end_of(elements, height, 1.0).theta


def equivalent_viewing_distance(system):
    """Distance of the image over its size, from the conjugate planes."""
    image = from_thing(system).forwardConjugate()
    return abs(image.d / image.transferMatrix.A)


def height_by_slope(system):
    """B of the whole: where a ray of slope one from the foot of the thing meets the eye's plane."""
    thing_to_eye = [LIBRARY.Space(d=system["distance"]), *train(system), LIBRARY.Space(d=system["to_eye"])]
    return abs(end_of(thing_to_eye, 0.0, 1.0).y)


def image_vergence(system):
    """Vergence at the eye of the image of the thing."""
    return 1 / from_thing(system).forwardConjugate().d


def far_vergence(system):
    """Vergence leaving the last lens when the thing is far: one over the back focal length."""
    return 1 / path(train(system)).backFocalLength()


def equivalent_power(system):
    return 1 / path(train(system)).effectiveFocalLengths().f2


def exit_pupil_place(system):
    """Image of the first lens in those behind it."""
    return path(train(system)[1:]).forwardConjugate().d


def exit_pupil_size(system):
    image = path(train(system)[1:]).forwardConjugate()
    return system["parts"][0]["diameter"] * abs(image.transferMatrix.A)


def afocal_length(system):
    """Length at which the first and last lens have no power together; their power is linear in the length."""
    first, last = train(system)[0], train(system)[-1]
    slope_left = [end_of([first, LIBRARY.Space(d=gap), last], 1.0, 0.0).theta for gap in (0.0, 1.0)]
    return slope_left[0] / (slope_left[0] - slope_left[1])


def bundle(system, slope):
    """Least and greatest height at the first part of the far rays of this slope that pass every opening."""
    parts = train(system)
    diameters = [part.get("diameter") for part in system["parts"]]
    openings = [(parts[:index], diameter) for index, diameter in enumerate(diameters) if diameter is not None]
    openings.append(([*parts, LIBRARY.Space(d=system["to_eye"])], system["pupil"]))
    least, greatest = -float("inf"), float("inf")
    for before, diameter in openings:
        at_zero, at_one = (end_of(before, height, slope).y if before else height for height in (0.0, 1.0))
        edges = sorted((side * diameter / 2 - at_zero) / (at_one - at_zero) for side in (-1, 1))
        least, greatest = max(least, edges[0]), min(greatest, edges[1])
    return least, greatest


def shares(system):
    """Width of the bundle at each slope over its width on the axis, each edge confirmed by tracing rays."""
    eye = [LIBRARY.Space(d=system["to_eye"]), LIBRARY.Aperture(diameter=system["pupil"])]
    with_rims = [*train(system, rims=True), *eye]
    on_axis = bundle(system, 0.0)
    found = []
    for slope in system["slopes"]:
        least, greatest = bundle(system, slope)
        width = greatest - least
        margin = 1e-6 * (on_axis[1] - on_axis[0])
        if 2 * margin < width:
            for height, passes in (
                (least + margin, True),
                (greatest - margin, True),
                (least - margin, False),
                (greatest + margin, False),
            ):
                if end_of(with_rims, height, slope).isBlocked == passes:
                    raise AssertionError(f"the library's own trace disagrees at height {height}, slope {slope}")
        found.append(max(width, 0.0) / (on_axis[1] - on_axis[0]))
    return found


ANSWERS = {
    function.__name__: function
    for function in (
        magnification,
        equivalent_viewing_distance,
        height_by_slope,
        image_vergence,
        far_vergence,
        equivalent_power,
        exit_pupil_place,
        exit_pupil_size,
        afocal_length,
        shares,
    )
}

if __name__ == "__main__":
    answers = [{name: ANSWERS[name](system) for name in system["asked"]} for system in json.load(sys.stdin)]
    json.dump(answers, sys.stdout)
