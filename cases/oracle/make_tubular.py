"""Writes cases/tubular/library.toml with methods other than the program's.

Collapse limits: the D/t at which two neighbouring formulas cross, by root finding in 30 digits.
Triaxial: the wall is solved as a boundary value problem and the principal stresses taken as
eigenvalues. String length: the strain is integrated numerically foot by foot. Packer force: the
held length is found by root finding on that integral. Span between packers: a bar of many
finite elements. Yield table: piecewise linear interpolation of numpy.

Run: python cases/oracle/make_tubular.py   (pins in cases/oracle/requirements.txt)
"""

import pathlib

import mpmath as mp
import numpy as np
import scipy
from scipy.integrate import quad, solve_bvp
from scipy.optimize import brentq

mp.mp.dps = 30
TARGET = pathlib.Path(__file__).resolve().parents[1] / "tubular" / "library.toml"
VERSIONS = f"mpmath {mp.__version__}, scipy {scipy.__version__}, numpy {np.__version__}"
blocks = []


def inline(pairs):
    return ", ".join(f'{key if key != "*" else chr(34) + "*" + chr(34)} = "{value}"' for key, value in pairs.items())


def add(title, relation, method, inputs, expected, tolerance, why):
    lines = ["[[case]]", f'name = "{title}"', f'relation = "{relation}"', f'source = "{method}"', 'basis = "library"']
    lines += [f"{key} = {{ {inline(pairs)} }}" for key, pairs in
              (("inputs", inputs), ("expected", expected), ("tolerance", tolerance))]
    blocks.append("\n".join(lines + [f'reason = "{why}"']) + "\n")


def text(value, unit):
    return f"{float(value):.9g} {unit}".strip()


# --- collapse: where neighbouring formulas cross --------------------------------------------

def coefficients(yp):
    a = mp.mpf("2.8762") + mp.mpf("0.10679e-5") * yp + mp.mpf("0.21301e-10") * yp**2 - mp.mpf("0.53132e-16") * yp**3
    b = mp.mpf("0.026233") + mp.mpf("0.50609e-6") * yp
    c = mp.mpf("-465.93") + mp.mpf("0.030867") * yp - mp.mpf("0.10483e-7") * yp**2 + mp.mpf("0.36989e-13") * yp**3
    return a, b, c


def crossings(yp):
    a, b, c = coefficients(yp)
    elastic = lambda r: mp.mpf("46.95e6") / (r * (r - 1) ** 2)
    # with G = F B/A the transition formula is F (1/r - B/A); F follows from touching elastic
    touch = mp.findroot(lambda r: mp.diff(elastic, r) / elastic(r) + (1 / r**2) / (1 / r - b / a), 2 / (3 * b / a))
    f = elastic(touch) / (yp * (1 / touch - b / a))
    g = f * b / a
    plastic = lambda r: yp * (a / r - b) - c
    yielding = lambda r: 2 * yp * (r - 1) / r**2
    first = mp.findroot(lambda r: yielding(r) - plastic(r), mp.mpf(13))
    second = mp.findroot(lambda r: plastic(r) - yp * (f / r - g), mp.mpf(21))
    return f, g, first, second, touch


for ksi in (40, 55, 65, 80, 90, 95, 110, 125, 140, 155, 180):
    f, g, first, second, third = crossings(mp.mpf(ksi) * 1000)
    add(f"{ksi} ksi: limits as crossings of the formulas", "collapse_coefficients",
        "mpmath_library: roots of yield = plastic, plastic = transition, and the touching point of transition and elastic",
        {"yield_strength": f"{ksi} ksi"},
        {"f": text(f, ""), "g": text(g, ""), "yield_limit": text(first, ""), "plastic_limit": text(second, ""),
         "transition_limit": text(third, "")},
        {"*": "0.000001 %"}, "nine digits are written; transition and elastic touch, which also fixes F and G")

for ksi in (55, 80, 110, 125):
    yp = mp.mpf(ksi) * 1000
    f, g, first, second, third = crossings(yp)
    a, b, c = coefficients(yp)
    for where, r, names in (("yield and plastic", first, ("yield_collapse", "plastic_collapse")),
                            ("plastic and transition", second, ("plastic_collapse", "transition_collapse")),
                            ("transition and elastic", third, ("transition_collapse", "elastic_collapse"))):
        value = {"yield and plastic": 2 * yp * (r - 1) / r**2, "plastic and transition": yp * (a / r - b) - c,
                 "transition and elastic": mp.mpf("46.95e6") / (r * (r - 1) ** 2)}[where]
        add(f"{ksi} ksi: {where} meet", "collapse_formulas", "mpmath_library: roots of the differences of the formulas",
            {"slenderness": mp.nstr(r, 17), "yield_strength": f"{ksi} ksi"},
            {name: text(value, "psi") for name in names}, {"*": "0.000001 %"}, "nine digits are written")

# yield under axial stress: the hoop compression that brings hoop and axial stress to yield
for ksi, stress in ((80, 20000), (110, 34316), (110, 90000), (125, 5000)):
    yp = mp.mpf(ksi) * 1000
    hoop = mp.findroot(lambda h: h**2 + h * stress + stress**2 - yp**2, yp)
    add(f"{ksi} ksi under {stress} psi", "collapse_yield", "mpmath_library: root of the biaxial von Mises condition",
        {"yield_strength": f"{ksi} ksi", "axial_stress": f"{stress} psi"}, {"reduced_yield": text(hoop, "psi")},
        {"*": "0.000001 %"}, "nine digits are written")


# --- triaxial: the wall as a boundary value problem -------------------------------------------

def wall_stress(b, a, p_in, p_out):
    """Radial and hoop stress at bore and outer wall: r s' = h - s, r h' = s - h (Lame, plane)."""
    def slope(r, y):
        return np.vstack(((y[1] - y[0]) / r, (y[0] - y[1]) / r))

    def ends(left, right):
        return np.array([left[0] + p_in, right[0] + p_out])

    mesh = np.linspace(a, b, 400)
    solution = solve_bvp(slope, ends, mesh, np.zeros((2, mesh.size)), tol=1e-11, max_nodes=200000)
    return solution.sol(a), solution.sol(b)


def equivalent(radial, hoop, axial, shear):
    tensor = np.array([[radial, 0, 0], [0, hoop, shear], [0, shear, axial]])
    p = np.linalg.eigvalsh(tensor)
    return np.sqrt(((p[0] - p[1]) ** 2 + (p[1] - p[2]) ** 2 + (p[2] - p[0]) ** 2) / 2)


def section(name, d, t, load, k=1.0):
    force, p_in, p_out, dls, torque = load
    b = d / 2
    a, nominal = b - k * t, b - t
    area = np.pi * (b**2 - nominal**2)
    polar = np.pi / 2 * (b**4 - nominal**4)
    kappa = np.radians(dls) / 1200
    inner, outer = wall_stress(b, a, p_in, p_out)
    stress = {}
    for place, rho, state in (("inner", a, inner), ("outer", b, outer)):
        for side, sign in (("stretched", 1), ("pressed", -1)):
            axial = force / area + sign * 30e6 * kappa * rho
            stress[f"{place}_{side}"] = equivalent(state[0], state[1], axial, torque * 12 * rho / polar)
    worst = max(stress.values())
    expected = {key: text(value, "psi") for key, value in stress.items()}
    expected |= {"von_mises": text(worst, "psi"), "safety_factor": text(110e3 / worst, "")}
    add(name, "triaxial", "scipy_library: solve_bvp for the wall, numpy eigenvalues for the stress",
        {"outer": f"{d} in", "wall": f"{t} in", "yield_strength": "110 ksi", "axial_force": f"{force} lbf",
         "internal_pressure": f"{p_in} psi", "external_pressure": f"{p_out} psi",
         "curvature": f"{dls} deg/100ft", "torque": f"{torque} ft.lbf", "wall_tolerance": f"{k}"},
        expected, {"*": "0.00001 %"}, "tolerance of the boundary value solver")


section("4-1/2 in frac: tension, burst, bending, torque", 4.5, 0.29, (150000, 9500, 4000, 8, 3000))
section("4-1/2 in frac with the thinnest wall allowed", 4.5, 0.29, (150000, 9500, 4000, 8, 3000), 0.875)
section("5-1/2 in running: compression, bending, torque", 5.5, 0.361, (-60000, 3000, 3500, 15, 8000))
section("7 in cased packer: outside pressure above inside", 7.0, 0.408, (250000, 500, 7000, 3, 0))
section("thick coupling stock: 5 in, wall 1 in", 5.0, 1.0, (0, 15000, 0, 0, 10000))


# --- string length: strain integrated numerically ----------------------------------------------

PPG = 1 / 231  # lbf/in3 per lb/gal under standard gravity
E, NU, ALPHA = 30e6, 0.3, 6.9e-6


def strain_integral(string, state, packer_force=0.0):
    """Length change of every point of the string, inch by inch from the packer up."""
    sections, bore, casing = string
    depth = 12 * sum(length for _, _, length, _ in sections)
    area = lambda d: np.pi / 4 * d**2
    p_in = lambda z: state["pi"] + (state["gi"] * PPG - state["loss"] / 12) * z
    p_out = lambda z: state["po"] + state["go"] * PPG * z
    effective = -area(bore) * (p_in(depth) - p_out(depth)) - packer_force
    total, bottom = 0.0, depth
    for outer, inner, length, mass in reversed(sections):
        ao, ai = area(outer), area(inner)
        inertia, r = np.pi / 64 * (outer**4 - inner**4), (casing - outer) / 2
        w = mass / 12 + state["gi"] * PPG * ai - state["go"] * PPG * ao
        top = bottom - 12 * length

        def strain(z):
            te = effective + w * (bottom - z)
            ends = p_in(z) * ai - p_out(z) * ao
            buckled = r**2 * max(-te, 0) / (4 * E * inertia)
            return (te + ends - 2 * NU * ends) / (E * (ao - ai)) + ALPHA * state["dt"] - buckled

        neutral = bottom + effective / w if effective < 0 else bottom
        points = [neutral] if top < neutral < bottom else None
        total += quad(strain, top, bottom, points=points, limit=400, epsabs=1e-10, epsrel=1e-12)[0]
        effective += w * 12 * length
        bottom = top
    return total


def column(gi, go, pi=0.0, po=0.0, dt=0.0, loss=0.0):
    return {"gi": gi, "go": go, "pi": pi, "po": po, "dt": dt, "loss": loss}


def string_inputs(string, before, after):
    sections, bore, casing = string
    join = lambda at, unit: ", ".join(f"{s[at]} {unit}" for s in sections)
    return {
        "outers": join(0, "in"), "inners": join(1, "in"), "lengths": join(2, "ft"), "masses": join(3, "lb/ft"),
        "packer_bore": f"{bore} in", "casing_inner": f"{casing} in",
        "landed_inside": f"{before['gi']} lb/gal", "landed_outside": f"{before['go']} lb/gal",
        "changed_inside": f"{after['gi']} lb/gal", "changed_outside": f"{after['go']} lb/gal",
        "inside_pressure": f"{after['pi']} psi", "outside_pressure": f"{after['po']} psi",
        "temperature_change": f"{after['dt']} degF", "flow_loss": f"{after['loss']} psi/ft"}


def segment_ends(string, state):
    """Forces and pressures at the two ends of a string of one size, as inputs of a segment."""
    ((outer, inner, length, mass),), bore, _ = string
    circle = lambda d: np.pi / 4 * d**2
    depth = 12 * length
    p_in = state["pi"] + (state["gi"] * PPG - state["loss"] / 12) * depth
    p_out = state["po"] + state["go"] * PPG * depth
    bottom = -circle(bore) * (p_in - p_out)
    weight = mass / 12 + state["gi"] * PPG * circle(inner) - state["go"] * PPG * circle(outer)
    return {
        "effective_top": text(bottom + weight * depth, "lbf"), "effective_bottom": text(bottom, "lbf"),
        "internal_top": f"{state['pi']} psi", "internal_bottom": text(p_in, "psi"),
        "external_top": f"{state['po']} psi", "external_bottom": text(p_out, "psi")}


SMALL = (2.875, 2.441, 10000, 6.5)
LINER = [
    ("frac down 4-1/2 in tie-back, cold, with friction loss", [(4.5, 4.0, 9000, 11.6)], 4.5, 6.276,
     column(8.43, 8.43), column(8.34, 8.43, 8000, 500, -60, 0.12)),
    ("heavy slurry in a string of two sizes, buckled into the upper one", [(3.5, 2.992, 7000, 9.3), (2.875, 2.441, 1500, 6.5)],
     3.25, 6.184, column(8.5, 8.5), column(12, 8.5, 6500, 0, -25)),
    ("hot production, annulus bled off", [(4.5, 3.958, 8000, 12.6)], 4.0, 8.681,
     column(9.5, 9.5), column(5.5, 9.5, 1200, 0, 85)),
    ("string of three sizes in tension all the way", [(5.5, 4.892, 3000, 17), (4.5, 4.0, 4000, 11.6), (3.5, 2.992, 1000, 9.3)],
     3.0, 8.535, column(10, 10), column(8.34, 10, 0, 2500, -10)),
]
for name, sections, bore, casing, before, after in LINER:
    string = (sections, bore, casing)
    change = strain_integral(string, after) - strain_integral(string, before)
    add(name, "string_length_change", "scipy_library: quad over the strain of every inch", string_inputs(string, before, after),
        {"total": text(change, "in")}, {"*": "0.00001 in"}, "quadrature error and nine written digits")
    if len(sections) == 1:
        outer, inner, length, mass = sections[0]
        ends = segment_ends(string, after)
        absolute = strain_integral(string, after)
        add(name + ", one segment", "segment_elongation", "scipy_library: quad over the strain of every inch",
            {"outer": f"{outer} in", "inner": f"{inner} in", "length": f"{length} ft",
             "clearance": f"{(casing - outer) / 2} in", "temperature": f"{after['dt']} degF", **ends},
            {"total": text(absolute, "in")}, {"*": "0.00001 in"}, "quadrature error and nine written digits")
        add(name + ", closed forms", "tubing_length_change", "scipy_library: quad over the strain of every inch",
            {"outer": f"{outer} in", "inner": f"{inner} in", "mass": f"{mass} lb/ft", "length": f"{length} ft",
             **{k: v for k, v in string_inputs(string, before, after).items()
                if k not in ("outers", "inners", "lengths", "masses")}},
            {"total": text(change, "in")}, {"*": "0.00001 in"}, "quadrature error and nine written digits")


# --- packer force: the held length found on the integral ---------------------------------------

for name, after in (("squeeze", column(15, 7.31, 5000, 1000, -20)), ("frac, no buckling", column(7.31, 7.31, 0, 3000, -50)),
                    ("hot, string pushes down", column(7.31, 7.31, 0, 0, 90))):
    string = ([SMALL], 3.25, 6.094)
    before = column(7.31, 7.31)
    rest = strain_integral(string, before)
    free = strain_integral(string, after) - rest
    force = brentq(lambda f: strain_integral(string, after, f) - rest, -2e5, 2e5, xtol=1e-7)
    area = lambda d: np.pi / 4 * d**2
    depth = 12 * SMALL[2]
    difference = after["pi"] - after["po"] + (after["gi"] - after["go"]) * PPG * depth
    weight = 6.5 / 12 + PPG * (after["gi"] * area(2.441) - after["go"] * area(2.875))
    add(f"{name}: force that leaves the string its length", "packer_restraint",
        "scipy_library: brentq on the numerically integrated length",
        {"outer": "2.875 in", "inner": "2.441 in", "length": "10000 ft", "casing_inner": "6.094 in",
         "weight": text(weight, "lbf/in"), "fictitious_force": text(area(3.25) * difference, "lbf"),
         "free_change": text(free, "in")},
        {"packer_force": text(force, "lbf")}, {"*": "0.02 lbf"}, "inputs and result written to nine digits")


# --- span between packers: a bar of finite elements ---------------------------------------------

def bar(area, ai, ao, dpi, dpo, dt, load, place, count=200):
    """Bar held at both ends, with initial strain and one point load toward the toe."""
    step = 1000.0 / count
    stiffness = E * area / step
    matrix, force = np.zeros((count + 1, count + 1)), np.zeros(count + 1)
    free = ALPHA * dt - 2 * NU * (dpi * ai - dpo * ao) / (E * area)
    for n in range(count):
        matrix[n:n + 2, n:n + 2] += stiffness * np.array([[1, -1], [-1, 1]])
        force[n:n + 2] += E * area * free * np.array([-1, 1])
    force[round(place * count)] += load
    inside = slice(1, count)
    shift = np.zeros(count + 1)
    shift[inside] = np.linalg.solve(matrix[inside, inside], force[inside])
    tension = E * area * (np.diff(shift) / step - free)
    return tension[0], tension[-1]


for outer, inner, dpi, dpo, dt, seat, ds, place in (
        (4.5, 4.0, 5200, 800, -70, 3000, 2.25, 0.4), (5.5, 4.892, 6100, 6100, -95, 6000, 3.5, 0.75),
        (4.5, 3.92, -1500, 0, 40, 0, 2.0, 0.5)):
    ai, ao = np.pi / 4 * inner**2, np.pi / 4 * outer**2
    heel, toe = bar(ao - ai, ai, ao, dpi, dpo, dt, seat * np.pi / 4 * ds**2, place)
    add(f"{outer} in span: {dpi} and {dpo} psi, {dt} degF, {seat} psi over the ball", "anchored_span_force",
        "numpy_library: 200 bar elements between two fixed ends",
        {"outer": f"{outer} in", "inner": f"{inner} in", "inside_change": f"{dpi} psi", "outside_change": f"{dpo} psi",
         "temperature_change": f"{dt} degF", "seat_difference": f"{seat} psi", "seat_bore": f"{ds} in",
         "seat_place": f"{place}", "seat_path": "both-sides"},
        {"heel_side": text(heel, "lbf"), "toe_side": text(toe, "lbf")}, {"*": "0.01 lbf"},
        "linear elements are exact for a point load at a node")


# --- yield at temperature -----------------------------------------------------------------------

grid, share = [20, 100, 150, 200], [1.0, 0.97, 0.95, 0.92]
for t in (20, 61.5, 100, 137.5, 199.9):
    add(f"share at {t} degC", "yield_at_temperature", "numpy_library: interp",
        {"yield_strength": "80 ksi", "temperature": f"{t} degC",
         "temperatures": ", ".join(f"{x} degC" for x in grid), "shares": ", ".join(str(x) for x in share)},
        {"share": text(np.interp(t, grid, share), ""), "inside": "1"}, {"*": "0.0000001"}, "nine written digits")

TARGET.write_text(
    "# written by cases/oracle/make_tubular.py; do not edit\n# " + VERSIONS + "\n\n" + "\n".join(blocks))
print(f"{len(blocks)} cases")
