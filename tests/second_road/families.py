"""What each family of aids does before an eye, by the closed form of its own.

Each gives the distance at which the bare thing would look as large (or for parallel light how many times as large), the
demand at the eye's entrance pupil, and what is in the way: the parts that rays meet, for what is seen at once.
"""

import math

from optics import carried, depth_to_eye, far_through_glasses, through_glasses


class NoAnswer(Exception):
    """Optics has no answer; the text says why."""


def lens(power, opening=None):
    return ("lens", power, opening)


def gap(length):
    return ("gap", length)


def stop(opening):
    return ("lens", 0.0, opening)


def worn_with(aid, eye):
    """Mean power in the spectacle plane."""
    if aid["glasses"] == "none":
        return 0.0
    near = aid["glasses"] == "near" and eye["add"] is not None and eye["add"] > 0.0
    return eye["mean"] + (eye["add"] if near else 0.0)


def uncorrected_cylinder(eye):
    """Both meridians carried to the entrance pupil: what reaches it when nothing corrects the cylinder."""
    one, other = (carried(power, eye["v"]) for power in (eye["sphere"], eye["sphere"] + eye["cylinder"]))
    return abs(other - one)


def in_use(aid, eye, distance):
    """The aid as it is used; `distance` is that of a far thing."""
    said = aid["said"]
    mm = {key: value / 1000.0 for key, value in said.items()}
    v, worn = eye["v"], worn_with(aid, eye)
    glasses = [lens(worn), gap(v)]
    use = {
        "evd": None,
        "times": None,
        "sign": 1.0,
        "train": glasses,
        "hand_room": None,
        "window": None,
        "light": said.get("light through", 100.0) / 100.0,
        "cylinder": uncorrected_cylinder(eye) if aid["glasses"] == "none" else 0.0,
    }
    FAMILY[aid["family"]](use, aid, eye, said, mm, worn, distance)
    if use["evd"] is not None and "shown_to_eye" not in use:
        use["shown_to_eye"] = use["before"] + depth_to_eye(use["train"])
    use.setdefault("shown_to_eye", None)
    return use


def image(use, away, larger, worn, v):
    """What is looked at is an image so far before the glasses, so many times as large as the thing."""
    distance, use["demand"] = through_glasses(away, worn, v)
    use["evd"] = distance / larger


def parallel(use, evd_behind_it, worn, v):
    """Light of the thing is parallel, and as large as the bare thing from so far."""
    times, use["demand"] = far_through_glasses(worn, v)
    use["evd"] = evd_behind_it / times


def nearer(use, aid, eye, said, mm, worn, distance):
    before = mm["eye to page"] - eye["v"]
    if before <= 0.0:
        raise NoAnswer("the print would be behind the glasses")
    image(use, before, said.get("enlargement", 1.0), worn, eye["v"])
    use["before"] = before


def high_plus(use, aid, eye, said, mm, worn, distance):
    # The relaxed eye: what the addition adds is just what the print's distance takes. EVD = (1 - v*K)/add.
    add = said["addition"]
    use["train"] = [lens(eye["mean"] + add, mm["clear diameter"]), gap(eye["v"])]
    use["evd"] = (1.0 - eye["v"] * eye["mean"]) / add
    use["demand"] = -carried(eye["mean"], eye["v"])
    use["before"] = use["hand_room"] = 1.0 / add


def thick_high_plus(use, aid, eye, said, mm, worn, distance):
    # Backwards: light must leave the back surface with the vergence that the relaxed eye takes there.
    front, back, reduced = said["front surface"], said["back surface"], mm["thickness"] / said["index"]
    inside = eye["mean"] - back
    behind_front = inside / (1.0 + reduced * inside)
    power = front - behind_front
    if power <= 0.0:
        raise NoAnswer("nothing in front of the lens is in focus")
    print_to_lens = 1.0 / power
    # The chief ray, image by image: h' = h * (U/L1') * (L2/L2').
    use["evd"] = print_to_lens * (1.0 - eye["v"] * eye["mean"]) / abs(1.0 + reduced * inside)
    use["demand"] = -carried(eye["mean"], eye["v"])
    glass = ("glass", mm["thickness"], said["index"])
    use["train"] = [lens(front), glass, lens(back, mm["clear diameter"]), gap(eye["v"])]
    use["before"] = use["hand_room"] = print_to_lens


def hand(use, aid, eye, said, mm, worn, distance):
    # The print in the focus: N34 with the light parallel, EVP = F.
    power, opening = said["power"], mm["clear diameter" if "clear diameter" in mm else "width"]
    parallel(use, 1.0 / power, worn, eye["v"])
    use["train"] = [lens(power, opening), gap(mm["lens to glasses"]), lens(worn), gap(eye["v"])]
    use["before"] = use["hand_room"] = 1.0 / power


def stand(use, aid, eye, said, mm, worn, distance):
    # N40: v = u/(1 - u*F), ER = 1/(1 - u*F); what is measured goes before what is marked.
    larger = said.get("enlargement")
    if larger is not None and "image below lens" in mm:
        below = mm["image below lens"]
        power, height = (larger - 1.0) / below, below / larger
    elif larger is not None:
        power = said["power"]
        height, below = (1.0 - 1.0 / larger) / power, (larger - 1.0) / power
    else:
        power, height = said["power"], mm["stand height"]
        left = 1.0 - height * power
        if left < -1e-6:
            raise NoAnswer("the page lies beyond the focus")
        larger, below = (1.0 / left, height / left) if left > 1e-9 else (math.inf, math.inf)
    if math.isinf(below):
        parallel(use, 1.0 / power, worn, eye["v"])
    else:
        # N41: EVD = (z + v)/ER, and the glasses.
        image(use, mm["lens to glasses"] + below, larger, worn, eye["v"])
    use["train"] = [lens(power, mm["clear diameter"]), gap(mm["lens to glasses"]), lens(worn), gap(eye["v"])]
    use["before"] = use["hand_room"] = height


def block(use, aid, eye, said, mm, worn, distance):
    # N44: one surface on glass. A bar is one across its length; it is seen as far as it is long.
    index, radius, height = said["index"], mm["radius"], mm["height"]
    below_all = index - (index - 1.0) * height / radius
    top = mm["eye to page"] - eye["v"] - height
    if top < 0.0 or below_all <= 0.0 or 2.0 * radius <= height:
        raise NoAnswer("no image before the glasses")
    image(use, top + height / below_all, index / below_all, worn, eye["v"])
    bar = aid["family"] == "bar"
    surface = lens((index - 1.0) / radius, None if bar else mm["clear diameter"])
    use["train"] = [("glass", height, index), surface, gap(top), lens(worn), gap(eye["v"])]
    use["before"] = use["hand_room"] = 0.0
    use["window"] = mm["bar length"] if bar else mm["clear diameter"]


def screen(use, aid, eye, said, mm, worn, distance):
    # N45: EVD = d/ER, seen at once W/ER; of a far camera the small ER of its screen against the scene.
    before = mm["eye to screen"] - eye["v"]
    if before <= 0.0:
        raise NoAnswer("the screen would be behind the glasses")
    if aid["family"] == "distance camera":
        scene = 2.0 * distance * math.tan(math.radians(said["camera field"]) / 2.0)
        larger = mm["width"] / scene
    else:
        larger = said["enlargement"]
        use["hand_room"] = mm.get("camera to print")
    image(use, before, larger, worn, eye["v"])
    use["window"] = mm["width"] / larger
    use["before"], use["shown_to_eye"] = before, mm["eye to screen"]
    use["light"] = 1.0


def head_mounted(use, aid, eye, said, mm, worn, distance):
    # Angle of the display over angle of the camera, and what the glasses behind it make of that.
    angles = said["display field"] / said["camera field"]
    use["window"] = 2.0 * distance * math.tan(math.radians(said["camera field"]) / 2.0)
    use["light"] = 1.0
    shown = said.get("display image")
    if shown is None:
        times, use["demand"] = far_through_glasses(worn, eye["v"])
        use["times"] = angles * times
    else:
        image(use, shown - eye["v"], angles * shown / distance, worn, eye["v"])
        use["before"] = shown - eye["v"]


def minus_lens(use, aid, eye, said, mm, worn, distance):
    power, held, v = said["power"], mm["lens to glasses"], eye["v"]
    at_glasses = carried(power, held) + worn
    use["demand"] = -carried(at_glasses, v)
    use["times"] = 1.0 / ((1.0 - held * power) * (1.0 - v * at_glasses))
    use["train"] = [lens(power, mm["clear diameter"]), gap(held), lens(worn), gap(v)]
    use["light"] = 1.0


def image_by_lenses(before, focal_far, tube, focal_eye):
    """Where two lenses put the image, behind the second; 1/v = 1/f - 1/u at each."""
    if before == focal_far:
        return focal_eye
    first = before * focal_far / (before - focal_far)
    second = tube - first
    return second * focal_eye / (second - focal_eye)


def telescope(use, aid, eye, said, mm, worn, distance):
    # The lenses from length and power, M with its sign: f_e = d/(1 - M), f_o = M*d/(M - 1). Without a length the
    # eyepiece is taken to be of 12.5 mm (Keplerian) or 20 mm (Galilean); assumed by the page.
    size = said["magnification"]
    marked = -size if aid["keplerian"] else size
    usual = 0.0125 * (size + 1.0) if aid["keplerian"] else 0.020 * abs(size - 1.0)
    tube = mm.get("tube length", usual)
    focal_eye, focal_far = tube / (1.0 - marked), marked * tube / (marked - 1.0)
    v, to_eye = eye["v"], eye["v"] + mm["lens to glasses"]
    nearest, cap = said.get("nearest focus"), said.get("reading cap")
    if cap is None and nearest is not None and distance is not None and distance < nearest:
        raise NoAnswer("it cannot be focused for so near a thing")
    focuses = aid["family"] == "spectacle-mounted telescope" and nearest is not None and not eye["in_eyepiece"]
    # What the eyepiece lends the eye: the refraction in its plane. Then nothing else is worn, and the cylinder stays.
    lent = carried(eye["mean"], v - to_eye) if focuses else 0.0
    own_eyepiece = 1.0 / focal_eye - lent
    if own_eyepiece * focal_eye <= 0.0:
        raise NoAnswer("no tube length focuses it")
    rest = 1.0 / own_eyepiece
    if focuses:
        behind = [gap(to_eye)]
        shrinks, use["demand"] = 1.0 - to_eye * lent, -carried(lent, to_eye)
        use["cylinder"] = uncorrected_cylinder(eye)
    else:
        behind = [gap(to_eye - v), lens(worn), gap(v)]
        larger, use["demand"] = far_through_glasses(worn, v)
        shrinks = 1.0 / larger
    use["sign"] = -1.0 if aid["keplerian"] else 1.0
    opening = mm["objective"]
    before = None
    if cap is None and nearest is not None and distance is not None:
        # The eye stays and the tube grows: s + s*f_o/(s - f_o) + rest + to_eye = distance, a square in s.
        left = distance - to_eye - rest
        inside = left * left - 4.0 * left * focal_far
        if left <= focal_far or inside < 0.0:
            raise NoAnswer("no tube length focuses it")
        before = (left + math.sqrt(inside)) / 2.0
    image_behind = focal_far if before is None else before * focal_far / (before - focal_far)
    if image_behind + rest <= 0.0:
        raise NoAnswer("no tube length focuses it")
    # Angle out over angle in, at the objective.
    power = image_behind / rest
    real = said.get("real field")
    # The stop that makes the marked field stands in the image of the objective.
    if aid["keplerian"] and real is not None:
        ring = stop(2.0 * focal_far * math.tan(math.radians(real) / 2.0))
        tube_parts = [gap(image_behind), ring, gap(rest)]
    else:
        tube_parts = [gap(image_behind + rest)]
    train = [lens(1.0 / focal_far, opening), *tube_parts, lens(1.0 / focal_eye), *behind]
    if cap is None and before is None and distance is not None:
        # Fixed for far: the eye focuses what is left. From lens to lens, lens by lens: 1/v = F - 1/u each time. An afocal
        # telescope makes every image 1/M as large, wherever the thing is.
        before = distance - to_eye - tube
        if before <= 0.0:
            raise NoAnswer("it is nearer than the telescope is long")
        behind_eyepiece = image_by_lenses(before, focal_far, tube, focal_eye)
        away = -behind_eyepiece + to_eye - v
        seen_from, use["demand"] = through_glasses(away, worn, v)
        signed = marked * seen_from
        use["evd"], use["sign"] = abs(signed), math.copysign(1.0, signed)
        use["before"] = use["hand_room"] = before
    elif cap is not None:
        # EVP = M*F_cap.
        use["evd"] = shrinks / (abs(power) * cap)
        use["before"] = use["hand_room"] = 1.0 / cap
        train = [lens(cap), *train]
    elif before is not None:
        use["evd"] = before / abs(power) * shrinks
        use["before"] = use["hand_room"] = before
    else:
        use["times"] = use["sign"] * abs(power) / shrinks
    use["train"] = train


FAMILY = {
    "print nearer": nearer,
    "larger copy": nearer,
    "high-plus spectacles": high_plus,
    "thick high-plus spectacles": thick_high_plus,
    "hand magnifier": hand,
    "fresnel sheet": hand,
    "stand magnifier": stand,
    "dome": block,
    "bar": block,
    "desk screen": screen,
    "hand-held screen": screen,
    "tablet": screen,
    "distance camera": screen,
    "head-mounted display": head_mounted,
    "hand-held telescope": telescope,
    "spectacle-mounted telescope": telescope,
    "telescope with reading cap": telescope,
    "reversed telescope": telescope,
    "minus lens": minus_lens,
}
