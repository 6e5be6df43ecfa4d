"""Answers questions about colours, filters and pupils with libraries of others and published formulas, and nothing of
ours.

Reads JSON from standard input and writes JSON to standard output. In: {"pairs": [[hex, hex], ...], "greys": [0 to 255],
"filters": [[transmittances at 380 to 780 nm, every 10 nm], ...], "smooth": the same of filters without sharp edges, "pupils": [{"luminance": cd/m2, "diameter": degrees,
"age": years, "eyes": 1 or 2}, ...]}. Out: {name: list of numbers or of lists}, one for each thing that was asked.
"""

import contextlib
import json
import math
import os
import sys
import warnings

# What the import asks about: settings and caches stay inside this Python environment.
os.environ["HOME"] = os.environ["MPLCONFIGDIR"] = os.path.join(sys.prefix, "check-home")
os.makedirs(os.environ["HOME"], exist_ok=True)

with contextlib.redirect_stdout(sys.stderr), warnings.catch_warnings():
    # Parts that need further libraries are left out, and the import says so.
    warnings.simplefilter("ignore")
    import colour
    import numpy
    import wcag_contrast_ratio

SAMPLES, FINE = (colour.SpectralShape(380, 780, step) for step in (10, 1))
EFFICIENCY = colour.SDS_LEFS["CIE 1924 Photopic Standard Observer"]
DAYLIGHT = colour.SDS_ILLUMINANTS["D65"]
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
# Observer and daylight at the steps of the sums.
TABLES = {shape: (OBSERVER.copy().align(shape), DAYLIGHT.copy().align(shape)) for shape in (SAMPLES, FINE)}


def shares(written):
    return tuple(int(written[start : start + 2], 16) / 255 for start in (1, 3, 5))


def luminance(written):
    """Relative luminance: Y of the colour space's own transformation."""
    return float(colour.sRGB_to_XYZ(numpy.array(shares(written)))[1])


def ratio(pair):
    return wcag_contrast_ratio.rgb(*(shares(written) for written in pair))


def curve(grey):
    return float(colour.models.eotf_sRGB(grey / 255))


def sampled(spectrum):
    return [float(value) for value in spectrum.copy().align(SAMPLES).values]


def luminous(spectrum):
    """Y of the filter before the light source, the source itself being 100."""
    observer, daylight = TABLES[spectrum.shape]
    x_y_z = colour.colorimetry.sd_to_XYZ_integration(spectrum, cmfs=observer, illuminant=daylight)
    return float(x_y_z[1]) / 100


def transmittance(samples):
    return luminous(colour.SpectralDistribution(samples, SAMPLES))


def fine_transmittance(samples):
    """The same with every table and the samples taken to steps of 1 nm by the library."""
    return luminous(colour.SpectralDistribution(samples, SAMPLES).align(FINE))


def pupil(asked):
    """Watson & Yellott 2012, the closed form of the paper's appendix: one fraction, coefficients of six digits."""
    area = math.pi * (asked["diameter"] / 2) ** 2
    f = (asked["luminance"] * area * {1: 0.1, 2: 1.0}[asked["eyes"]]) ** 0.41
    age = asked["age"]
    return (18.5172 + 0.122165 * f - 0.105569 * age + 0.000138645 * f * age) / (2 + 0.0630635 * f)


if __name__ == "__main__":
    asked = json.load(sys.stdin)
    answer = {
        "luminances": [[luminance(written) for written in pair] for pair in asked["pairs"]],
        "ratios": [ratio(pair) for pair in asked["pairs"]],
        "curve": [curve(grey) for grey in asked["greys"]],
        "efficiency": sampled(EFFICIENCY),
        "daylight": sampled(DAYLIGHT),
        "transmittances": [transmittance(samples) for samples in asked["filters"]],
        "fine": [fine_transmittance(samples) for samples in asked["smooth"]],
        "pupils": [pupil(one) for one in asked["pupils"]],
    }
    json.dump(answer, sys.stdout)
