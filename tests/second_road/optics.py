"""Rays and closed forms of the second road: what an image is to an eye behind glasses, what blur costs, how much is seen.

Sizes and focus are closed forms of the textbooks, one for each family, in families.py. How much is seen at once, how
much of the pupil is filled and how far a thing may move come from rays that are followed one by one. Paraxial.
"""

import math

ARCMIN = math.pi / 180.0 / 60.0
# Loss that the page counts as still in focus, in log units, and the width of one character for each M.
FOCUS_LOSS = 0.1
CHARACTER_PER_M = 0.00130
# 95 % of a normal distribution lie within so many standard deviations.
Z_95 = 1.959963984540054


def carried(power, gap):
    """Vergence after a gap: F/(1 - gap*F)."""
    return power / (1.0 - gap * power)


def through_glasses(away, worn, v):
    """An image so far before glasses, seen by an eye v behind them: as from how far, and the demand.

    Near vision reference N36: EVD = u + v - u*v*F, A = (1 - u*F)/EVD.
    """
    distance = away + v - away * v * worn
    return distance, (1.0 - away * worn) / distance


def far_through_glasses(worn, v):
    """Parallel light: how much larger it looks, and the demand. The same two formulas for u beyond all measure."""
    return 1.0 / (1.0 - v * worn), -worn / (1.0 - v * worn)


def back(train, y, u, heights=None):
    """A ray followed from the eye's pupil out through the train; notes its height at every opening."""
    for part in reversed(train):
        if part[0] == "gap":
            y -= part[1] * u
        elif part[0] == "glass":
            # Slope times index is carried, so glass counts by its thickness over its index.
            y -= part[1] / part[2] * u
        else:
            power, opening = part[1], part[2]
            if heights is not None and opening is not None:
                heights.append((y, opening / 2.0))
            u += power * y
    return y, u


def along(train, y, u):
    """A ray followed from the front of the train to the eye."""
    for part in train:
        if part[0] == "gap":
            y += part[1] * u
        elif part[0] == "glass":
            y += part[1] / part[2] * u
        else:
            u -= part[1] * y
    return y, u


def depth_to_eye(train):
    """From the front of the train to the eye; glass by its thickness."""
    return sum(part[1] for part in train if part[0] != "lens")


def lit(train, pupil, demand, slope):
    """The heights in the pupil that rays of one bundle reach, as an interval; the bundle's middle ray has this slope.

    Light with a demand diverges: a ray that meets the pupil y higher is steeper by demand*y. Heights at an opening grow
    evenly with y, so two rays tell them all.
    """
    low, high = -pupil / 2.0, pupil / 2.0
    middle, off = [], []
    step = pupil / 2.0
    back(train, 0.0, slope, middle)
    back(train, step, slope + demand * step, off)
    for (height, radius), (other, _) in zip(middle, off):
        growth = (other - height) / step
        if abs(growth) * pupil < 1e-9 * radius:
            if abs(height) > radius:
                return 0.0, 0.0
            continue
        ends = sorted([(-radius - height) / growth, (radius - height) / growth])
        low, high = max(low, ends[0]), min(high, ends[1])
    return (low, high) if low < high else (0.0, 0.0)


def seen_at_once(train, pupil, demand):
    """Slope of the edge at which half of the bundle's width is left, or nothing without an edge; share of the pupil.

    The edge is found by halving; it holds to about 1e-14 of itself.
    """
    def width(slope):
        low, high = lit(train, pupil, demand, slope)
        return high - low

    whole = width(0.0)
    share = (whole / pupil) ** 2
    # No opening comes into a slope so steep, or none limits it.
    if width(1e6) > 0.0:
        return None, share
    inside, outside = 0.0, 1e-3
    while width(outside) >= whole / 2.0:
        inside, outside = outside, outside * 2.0
    for _ in range(100):
        middle = (inside + outside) / 2.0
        if width(middle) >= whole / 2.0:
            inside = middle
        else:
            outside = middle
    return inside, share


def depth(train, demand, tolerance):
    """How far a thing may move with the eye's focus held: metres, infinity, or nothing when it is nowhere in focus.

    An axial ray of a thing x before the train: demand = slope over height at the eye. Both grow evenly with x.
    """
    level_y, level_u = along(train, 1.0, 0.0)
    steep_y, steep_u = along(train, 0.0, 1.0)

    def place(wanted):
        below = wanted * level_y - level_u
        return (steep_u - wanted * steep_y) / below if below else math.inf

    nearest, farthest = place(demand + tolerance), place(demand - tolerance)
    # A thing beyond all measure is in focus where its demand lies between the two.
    most, least = demand + tolerance, demand - tolerance
    endless = (most * level_y - level_u) * (least * level_y - level_u) <= 0.0
    if not math.isfinite(nearest) or (farthest <= 0.0 and not endless):
        return None
    return math.inf if endless else farthest - max(nearest, 0.0)


def blur(mar, defocus, cylinder):
    """Strength of the blur, and the least detail with it.

    N54: b = sqrt(M^2 + (C/2)^2). N51, N52: B^2 = [1.25(1 + 1.08 b^2)]^2 - 1.25^2, MAR = sqrt(MAR0^2 + B^2).
    """
    strength = math.hypot(defocus, cylinder / 2.0)
    rise = 1.08 * strength * strength
    return strength, math.sqrt(mar * mar + 1.25**2 * rise * (2.0 + rise))


def borne(mar):
    """Defocus that costs the loss which is forgiven, by halving the formula of the blur itself."""
    low, high = 0.0, 1000.0
    for _ in range(200):
        middle = (low + high) / 2.0
        if math.log10(blur(mar, middle, 0.0)[1] / mar) < FOCUS_LOSS:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def below(z):
    """Chance that a normal variable lies below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))
