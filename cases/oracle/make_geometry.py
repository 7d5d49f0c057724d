"""Writes cases/geometry/library.toml with methods other than the program's.

Arcs: the unit vector is turned about a fixed axis (Rodrigues) and its path integrated
numerically in 30 digits. Stiff bodies: the cylinder is fitted into the torus by root finding
and its whole surface checked. Couplings: the beam equation under tension is solved as a
boundary value problem. Volumes: quadrature.

Run: python cases/oracle/make_geometry.py   (pins in cases/oracle/requirements.txt)
"""

import pathlib
import random

import mpmath as mp
import numpy as np
import scipy
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

mp.mp.dps = 30
OUT = pathlib.Path(__file__).resolve().parents[1] / "geometry" / "library.toml"
LIBRARY = f"mpmath {mp.__version__}, scipy {scipy.__version__}, numpy {np.__version__}"
cases = []


def number(x, digits=12):
    return mp.nstr(mp.mpf(x), digits, min_fixed=-6, max_fixed=9).rstrip(".")


def case(name, relation, source, inputs, expected, tolerance, reason):
    table = lambda d: "{ " + ", ".join(f'{k} = "{v}"' if k != "*" else f'"*" = "{v}"' for k, v in d.items()) + " }"
    cases.append(
        f'[[case]]\nname = "{name}"\nrelation = "{relation}"\nsource = "{source}"\nbasis = "library"\n'
        f"inputs = {table(inputs)}\nexpected = {table(expected)}\ntolerance = {table(tolerance)}\nreason = \"{reason}\"\n"
    )


# --- arcs ---------------------------------------------------------------------------------

def tangent(i, a):
    i, a = mp.radians(i), mp.radians(a)
    return mp.matrix([mp.sin(i) * mp.cos(a), mp.sin(i) * mp.sin(a), mp.cos(i)])


def cross(p, q):
    return mp.matrix([p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]])


def dot(p, q):
    return sum(p[k] * q[k] for k in range(3))


class Arc:
    """Constant turning about the axis t1 x t2."""

    def __init__(self, length, i1, a1, i2, a2):
        self.length = mp.mpf(length)
        self.t1, t2 = tangent(i1, a1), tangent(i2, a2)
        axis = cross(self.t1, t2)
        norm = mp.sqrt(dot(axis, axis))
        self.dogleg = mp.atan2(norm, dot(self.t1, t2))
        self.axis = axis / norm if norm > 0 else mp.matrix([0, 0, 0])

    def tangent_at(self, s):
        th = s / self.length * self.dogleg
        k, t = self.axis, self.t1
        kxt = cross(k, t)
        return t * mp.cos(th) + kxt * mp.sin(th) + k * (dot(k, t) * (1 - mp.cos(th)))

    def step(self, s):
        return [mp.quad(lambda u: self.tangent_at(u)[k], [0, s]) for k in range(3)]

    def angles(self, s):
        t = self.tangent_at(s)
        azimuth = mp.degrees(mp.atan2(t[1], t[0])) % 360
        return mp.degrees(mp.atan2(mp.hypot(t[0], t[1]), t[2])), azimuth


def stations(md1, i1, a1, md2, i2, a2):
    return {
        "md_1": f"{md1} m", "inclination_1": f"{i1} deg", "azimuth_1": f"{a1} deg",
        "md_2": f"{md2} m", "inclination_2": f"{i2} deg", "azimuth_2": f"{a2} deg",
    }


ARCS = "numerical integration of a unit vector turned about a fixed axis"
PAIRS = [
    (1000, 0.25, 324.91, 1029, 0.34, 12.5),
    (2000, 12.0, 350.0, 2030, 15.5, 8.0),
    (2500, 45.0, 122.4, 2528.7, 48.2, 125.9),
    (3000, 88.0, 141.0, 3029, 91.5, 138.5),
    (3500, 91.8, 320.99, 3611, 88.2, 326.0),
    (4000, 90.0, 0.0, 4030, 90.0, 350.0),
    (500, 0.0, 0.0, 900, 80.0, 210.0),
    (700, 100.0, 45.0, 1400, 20.0, 200.0),
    (1000, 30.0, 75.0, 1030, 30.0000001, 75.0000001),
    (1000, 60.0, 10.0, 1003, 61.0, 11.0),
]

for n, p in enumerate(PAIRS, 1):
    arc = Arc(p[3] - p[0], p[1], p[2], p[4], p[5])
    n_, e, v = arc.step(arc.length)
    case(
        f"arc {n} integrated", "minimum_curvature", f"sawaryn2005; {ARCS} ({LIBRARY})", stations(*p),
        {"north": number(n_) + " m", "east": number(e) + " m", "down": number(v) + " m",
         "dogleg_severity": number(mp.degrees(arc.dogleg) / arc.length * 30, 10) + " deg/30m"},
        {"*": "1e-8 m", "dogleg_severity": "1e-8 deg/30m"},
        "both sides carry more digits than the tolerance",
    )

for n, (p, x) in enumerate(zip(PAIRS[:8], [0.1, 0.37, 0.5, 0.8, 0.66, 0.25, 0.04, 0.9]), 1):
    arc = Arc(p[3] - p[0], p[1], p[2], p[4], p[5])
    md = mp.mpf(number(p[0] + x * (p[3] - p[0]), 8))
    s = md - p[0]
    i, a = arc.angles(s)
    n_, e, v = arc.step(s)
    inputs = stations(*p) | {"md": number(md, 8) + " m"}
    case(
        f"point on arc {n}", "arc_interpolation", f"sawaryn2005 (interpolation); {ARCS} ({LIBRARY})", inputs,
        {"inclination": number(i) + " deg", "azimuth": number(a) + " deg", "north": number(n_) + " m",
         "east": number(e) + " m", "down": number(v) + " m"},
        {"*": "1e-8 m", "inclination": "1e-8 deg", "azimuth": "1e-7 deg"},
        "both sides carry more digits than the tolerance",
    )
    build = mp.diff(lambda u: arc.angles(u)[0], s)
    turn = mp.diff(lambda u: mp.degrees(mp.atan2(arc.tangent_at(u)[1], arc.tangent_at(u)[0])), s)
    walk = mp.sin(mp.radians(i)) * turn
    case(
        f"components on arc {n}", "bend_components",
        f"derived_geometry; numerical derivative of inclination and azimuth along the arc ({LIBRARY})", inputs,
        {"build_rate": number(30 * build, 10) + " deg/30m", "walk_rate": number(30 * walk, 10) + " deg/30m"},
        {"*": "1e-7 deg/30m"},
        "central differences in 30 digits",
    )

for n, (p, below) in enumerate(
    [(PAIRS[1], 10), (PAIRS[2], 17.5), (PAIRS[3], 0.2), (PAIRS[4], -0.6), (PAIRS[6], 200), (PAIRS[7], 100)], 1
):
    arc = Arc(p[3] - p[0], p[1], p[2], p[4], p[5])
    down = lambda s: arc.step(s)[2] - below
    grid = [arc.length * k / 40 for k in range(41)]
    values = [down(s) for s in grid]
    roots = [
        mp.findroot(down, (a, b), solver="anderson", tol=1e-24)
        for a, b, fa, fb in zip(grid, grid[1:], values, values[1:]) if fa * fb < 0
    ]
    case(
        f"level on arc {n}", "tvd_crossing",
        f"derived_geometry; root of the integrated depth ({LIBRARY})",
        stations(*p) | {"tvd_1": "1000 m", "tvd": number(1000 + below, 10) + " m"},
        {"md_first": number(p[0] + roots[0]) + " m", "md_last": number(p[0] + roots[-1]) + " m", "count": str(len(roots))},
        {"*": "1e-6 m", "count": "0"},
        "near level a depth is worth many times its length along the hole",
    )

WELLS = {
    "standard profile 2 at the end of the S": ("ft", 100, [
        (0, 0, 0), (2000, 0, 0), (3600, 32, 2), (5000, 32, 2), (5525.54, 32, 32), (6051.08, 32, 62),
        (6576.62, 32, 92), (7102.16, 32, 122), (9398.50, 60, 220)]),
    "standard profile 2 at total depth": ("ft", 100, [
        (0, 0, 0), (2000, 0, 0), (3600, 32, 2), (5000, 32, 2), (5525.54, 32, 32), (6051.08, 32, 62),
        (6576.62, 32, 92), (7102.16, 32, 122), (9398.50, 60, 220), (12500, 60, 220)]),
    "standard profile 3 at total depth": ("m", 30, [
        (0, 0, 0), (500, 0, 0), (1100, 50, 0), (1700, 50, 0), (2450, 0, 0), (2850, 0, 0), (3030, 90, 283),
        (3430, 90, 193), (3730, 90, 193)]),
}
for name, (unit, per, rows) in WELLS.items():
    north = east = tvd = severest = mp.mpf(0)
    for (m1, i1, a1), (m2, i2, a2) in zip(rows, rows[1:]):
        arc = Arc(mp.mpf(str(m2)) - mp.mpf(str(m1)), i1, a1, i2, a2)
        step = arc.step(arc.length)
        north, east, tvd = north + step[0], east + step[1], tvd + step[2]
        severest = max(severest, mp.degrees(arc.dogleg) / arc.length * per)
    column = lambda k, u: ", ".join(f"{r[k]} {u}" for r in rows)
    case(
        name, "survey_path", f"williamson2000 (stations); {ARCS} ({LIBRARY})",
        {"md": column(0, unit), "inclination": column(1, "deg"), "azimuth": column(2, "deg")},
        {"north": f"{number(north)} {unit}", "east": f"{number(east)} {unit}", "tvd": f"{number(tvd)} {unit}",
         "max_dogleg_severity": number(severest, 10) + (" deg/100ft" if unit == "ft" else " deg/30m")},
        {"*": f"1e-6 {unit}", "max_dogleg_severity": "1e-7 deg/30m"},
        "both sides carry more digits; the stations themselves are given from memory",
    )

# --- volumes ------------------------------------------------------------------------------

rng = random.Random(20)
for n in range(1, 5):
    d1, d2 = round(rng.uniform(5.5, 7.5), 3), round(rng.uniform(5.5, 7.5), 3)
    length = round(rng.uniform(5, 200), 1)
    volume = mp.quad(lambda x: mp.pi / 4 * (d1 + (d2 - d1) * x) ** 2, [0, 1]) * length * 12 / 9702
    case(
        f"frustum {n} by quadrature", "frustum_volume", f"derived_geometry; quadrature ({LIBRARY})",
        {"upper": f"{d1} in", "lower": f"{d2} in", "length": f"{length} ft"},
        {"volume": number(volume) + " bbl"}, {"*": "1e-9 bbl"}, "both sides carry more digits than the tolerance",
    )
md = [10000, 10000.5, 10013.2, 10050, 10120.7, 10121]
hole = [6.13, 6.31, 7.9, 6.02, 6.44, 6.2]
parts = [
    mp.quad(lambda x: mp.pi / 4 * (a + (b - a) * x) ** 2, [0, 1]) * (mp.mpf(str(q)) - mp.mpf(str(p))) * 12 / 9702
    for p, q, a, b in zip(md, md[1:], map(mp.mpf, map(str, hole)), map(mp.mpf, map(str, hole[1:])))
]
total = sum(parts)
body = mp.pi / 4 * mp.mpf("4.5") ** 2 * 121 * 12 / 9702
case(
    "caliper of six readings by quadrature", "caliper_volume", f"derived_geometry; quadrature ({LIBRARY})",
    {"md": ", ".join(f"{m} ft" for m in md), "hole": ", ".join(f"{d} in" for d in hole), "body": "4.5 in"},
    {"hole_volume": number(total) + " bbl", "annulus_volume": number(total - body) + " bbl"},
    {"*": "1e-9 bbl"}, "both sides carry more digits than the tolerance",
)

# --- stiff bodies -------------------------------------------------------------------------

def excess(x, hole, body, radius):
    """Greatest excess over the torus of the body's rim at `x` from its middle, which lies on the inner wall."""
    phi = np.linspace(0, 2 * np.pi, 721)
    y = radius - hole / 2 + body / 2 + body / 2 * np.cos(phi)
    z = body / 2 * np.sin(phi)
    return float(np.max((np.hypot(x, y) - radius) ** 2 + z**2) - hole**2 / 4)


for n, (hole, body, dls) in enumerate([(6.125, 5.75, 10), (6.125, 5.875, 12), (8.5, 8.25, 6), (4.75, 3.5, 25), (6.0, 5.99, 3)], 1):
    radius = float(1200 * mp.degrees(1) / dls)
    guess = (8 * radius * (hole - body)) ** 0.5
    length = brentq(lambda u: excess(u / 2, hole, body, radius), 0.8 * guess, 1.2 * guess, xtol=1e-11)
    assert max(excess(x, hole, body, radius) for x in np.linspace(0, length / 2, 301)) < 1e-6
    case(
        f"body {n} fitted into the torus", "stiff_passage",
        f"derived_geometry; root of the surface of a cylinder against a torus ({LIBRARY})",
        {"hole": f"{hole} in", "body": f"{body} in", "dogleg_severity": f"{dls} deg/100ft"},
        {"length": number(length, 10) + " in"}, {"*": "0.001 %"},
        "double precision of a difference of squares; the rest of the surface is checked to lie inside",
    )

for n, (hole, body, mandrel, bore, length, dls) in enumerate(
    [(6.125, 5.75, 4.5, 4.0, 200, 10), (6.125, 5.875, 5.0, 3.92, 150, 12), (8.5, 8.25, 7.0, 6.184, 240, 6)], 1
):
    outside = 1200 * mp.degrees(1) / dls + mp.mpf(hole) / 2
    sag = outside - mp.sqrt(outside**2 - mp.mpf(length) ** 2 / 4) - (mp.mpf(str(hole)) - mp.mpf(str(body)))
    ei = mp.mpf("30e6") * mp.pi / 64 * (mp.mpf(str(mandrel)) ** 4 - mp.mpf(str(bore)) ** 4)
    # Moment of a unit central load, twice integrated over the half span (virtual work).
    unit = 2 * mp.quad(lambda u: (u / 2) ** 2, [0, mp.mpf(length) / 2]) / ei
    force = sag / unit
    case(
        f"forced bend {n} by virtual work", "forced_bend",
        f"timoshenko1955_beams; quadrature of the bending moment ({LIBRARY})",
        {"hole": f"{hole} in", "body": f"{body} in", "mandrel": f"{mandrel} in", "bore": f"{bore} in",
         "length": f"{length} in", "modulus": "30e6 psi", "dogleg_severity": f"{dls} deg/100ft"},
        {"sag": number(sag, 10) + " in", "centre_force": number(force, 10) + " lbf",
         "end_force": number(force / 2, 10) + " lbf", "total_force": number(2 * force, 10) + " lbf"},
        {"*": "1e-6 %"}, "both sides carry more digits than the tolerance",
    )

for n, (outer, inner, joint, tension) in enumerate([(4.5, 4.0, 40, 20e3), (4.5, 4.0, 40, 100e3), (5.5, 4.778, 42, 5e3)], 1):
    ei = 30e6 * np.pi / 64 * (outer**4 - inner**4)
    half, k2 = joint * 12 / 2, tension / ei
    # theta' = m, m'' = K^2 m; theta(0) = 0, m'(0) = 0, theta(half) = kappa half with kappa = 1/half
    beam = solve_bvp(
        lambda x, y: np.vstack([y[1] * half, y[2] * half, k2 * y[1] * half]),
        lambda a, b: np.array([a[0], a[2], b[0] - 1.0]),
        np.linspace(0, 1, 201), np.vstack([np.linspace(0, 1, 201), np.full(201, 1 / half), np.zeros(201)]),
        tol=1e-10, max_nodes=200000,
    )
    case(
        f"joint {n} as a boundary value problem", "coupling_standoff",
        f"lubinski1961; beam under tension between couplings ({LIBRARY})",
        {"outer": f"{outer} in", "inner": f"{inner} in", "joint": f"{joint} ft", "modulus": "30e6 psi",
         "tension": f"{tension:.0f} lbf"},
        {"factor": number(beam.y[1][-1] * half, 8)}, {"*": "1e-6"}, "tolerance of the boundary value solver",
    )

head = (
    "# written by cases/oracle/make_geometry.py; do not edit\n"
    f"# {LIBRARY}\n\n"
)
OUT.write_text(head + "\n".join(cases))
print(f"{OUT}: {len(cases)} cases")
