"""Writes cases/hydraulics/*_sweep.toml with libraries and methods other than the program's.

Friction: the fluids library, and roots by bracketing where the program takes Newton's method.
Seats: mpmath, and the parts against the fluids library. Columns: an adaptive solver on the
water of 1995. Waves: the textbook forms where the program goes by stresses. Landings: round
trips counted one by one. Step-down: non-negative least squares. Limits: a search over rates.

Run: python cases/oracle/make_hydraulics.py   (pins in cases/oracle/requirements.txt)
"""

import math

import CoolProp
import fluids
import mpmath as mp
import numpy as np
import scipy
from CoolProp.CoolProp import PropsSI
from fluids.fittings import contraction_sharp, diffuser_sharp
from fluids.flow_meter import C_Reader_Harris_Gallagher, discharge_coefficient_to_K, flow_meter_discharge
from fluids.friction import Churchill_1977, Colebrook, Haaland, friction_laminar
from make_fluid import CaseFile, number
from scipy.integrate import quad, solve_bvp, solve_ivp
from scipy.optimize import brentq, nnls

SCRIPT = "make_hydraulics.py"
INCH, FOOT, GRAVITY = 0.0254, 0.3048, 9.80665
PSI = 0.45359237 * GRAVITY / INCH**2
BBL = 42 * 231 * INCH**3
BPM = BBL / 60
PPG = 0.45359237 / (231 * INCH**3)
FLUIDS = f"fluids {fluids.__version__}"
SCIPY = f"scipy {scipy.__version__}"
MPMATH = f"mpmath {mp.__version__}"


def area(d):
    return math.pi / 4 * d * d


# --- friction factors ---------------------------------------------------------------------

def friction():
    out = CaseFile("hydraulics/friction_sweep.toml", SCRIPT, f"{FLUIDS}, {SCIPY}")
    points = [(1e5, 1e-4), (1e6, 1e-5), (5e6, 4e-4), (4e3, 0), (4e3, 0.05), (2e4, 0), (3e6, 2e-3), (1e8, 0), (1e8, 0.05)]
    laws = {"colebrook_1939": Colebrook, "haaland_1983": Haaland, "churchill_1977": Churchill_1977}
    for word, law in laws.items():
        for re, ed in points:
            out.case(
                f"{word} at Re {re:g} and e/D {ed:g}", word, f"fluids_library {law.__name__}",
                {"reynolds": f"{re:g}", "relative_roughness": f"{ed:g}"}, {"darcy": number(law(re, ed))},
                {"darcy": "1e-8 %"}, "same equation, other code",
            )
    for re in (1, 100, 1500, 2500):
        out.case(
            f"churchill_1977 at Re {re}", "churchill_1977", "fluids_library Churchill_1977",
            {"reynolds": str(re), "relative_roughness": "0.001"}, {"darcy": number(Churchill_1977(re, 0.001))},
            {"darcy": "1e-8 %"}, "same equation, other code",
        )
    for re in (1e4, 1e5, 1e6, 1e7):
        out.case(
            f"churchill_1977 against colebrook in smooth pipe at Re {re:g}", "churchill_1977", "fluids_library Colebrook",
            {"reynolds": f"{re:g}", "relative_roughness": "0"}, {"darcy": number(Colebrook(re, 0))}, {"darcy": "2 %"},
            "two laws of the same flow",
        )
    for n in (1, 0.8, 0.6, 0.5, 0.4):
        for re in (5e3, 1e4, 5e4, 1e5):
            f = brentq(lambda f: 1 / math.sqrt(f) - 4 / n**0.75 * math.log10(re * f ** (1 - n / 2)) + 0.4 / n**1.2, 1e-5, 0.1, xtol=1e-18, rtol=1e-15)
            out.case(
                f"dodge_metzner_1959 at Re {re:g} and n {n}", "dodge_metzner_1959", "scipy_library brentq, dodge_metzner1959",
                {"reynolds": f"{re:g}", "n": str(n)}, {"fanning": number(f)}, {"fanning": "1e-8 %"}, "root by bracketing",
            )
    for n in (1, 0.7, 0.45):
        low, high = 3470 - 1370 * n, 4270 - 1370 * n
        turbulent = lambda re: brentq(lambda f: 1 / math.sqrt(f) - 4 / n**0.75 * math.log10(re * f ** (1 - n / 2)) + 0.4 / n**1.2, 1e-5, 0.1, xtol=1e-18, rtol=1e-15)
        for where, re, f in (
            ("the laminar end", low, 16 / low), ("the turbulent end", high, turbulent(high)),
            ("the middle", math.sqrt(low * high), math.sqrt(16 / low * turbulent(high))), ("well above", 2e4, turbulent(2e4)),
        ):
            out.case(
                f"power law of n {n} at {where} of transition", "power_law_friction", "scipy_library brentq, dodge_metzner1959",
                {"reynolds": number(re, 16), "n": str(n)}, {"fanning": number(f)}, {"fanning": "1e-7 %"},
                "the middle of the logarithms is the geometric mean",
            )
    for re in (64, 640, 2000):
        out.case(
            f"laminar at Re {re}", "laminar_friction", "fluids_library friction_laminar", {"reynolds": str(re)},
            {"darcy": number(friction_laminar(re))}, {"darcy": "1e-10 %"}, "same law, other code",
        )
    for re in (1e4, 4e4, 1e5, 1e6, 5e6):
        for word, key, a, b in (("prandtl_karman", "virk1975", 4.0, 0.4), ("virk_mdr", "virk1975", 19.0, 32.4)):
            out.case(
                f"{word} at Re {re:g}", word, f"scipy_library brentq, {key}", {"reynolds": f"{re:g}"},
                {"fanning": number(log_law(re, a, b))}, {"fanning": "1e-8 %"}, "root by bracketing",
            )
    out.write()


def log_law(re, a, b):
    return brentq(lambda f: 1 / math.sqrt(f) - a * math.log10(re * math.sqrt(f)) + b, 1e-9, 1.0, xtol=1e-20, rtol=1e-15)


# --- pipe friction of water and slickwater in four strings -------------------------------------

def strings():
    out = CaseFile("hydraulics/string_friction_sweep.toml", SCRIPT, f"{FLUIDS}, {SCIPY}")
    rho, mu, e = 998.0, 1e-3, 0.0018
    for label, bore, rates in (
        ("4.5 in 11.6 lb/ft", 4.000, (10, 20, 30, 40, 60)),
        ("4.5 in 13.5 lb/ft", 3.920, (10, 20, 30, 40, 60)),
        ("5.5 in 23 lb/ft", 4.670, (20, 40, 60, 80, 100)),
        ("5.5 in 20 lb/ft", 4.778, (20, 40, 60, 80, 100)),
    ):
        for q in rates:
            d = bore * INCH
            u = q * BPM / area(d)
            re = rho * u * d / mu
            gradient = lambda f: f * rho * u * u / (2 * d) / PSI * FOOT * 1000
            rough, smooth, floor = Churchill_1977(re, e / bore), Churchill_1977(re, 0), 4 * log_law(re, 19.0, 32.4)
            base = {"rate": f"{q} bbl/min", "bore": f"{bore} in", "density": "998 kg/m3", "viscosity": "1 cP"}
            reducer = {"fluid": "friction_reducer", "roughness": f"{e} in"}
            source = "fluids_library Churchill_1977"
            for what, inputs, f, text in (
                ("water, rough", {"roughness": f"{e} in"}, rough, source),
                ("water, smooth", {"roughness": "0 in"}, smooth, source),
                ("70 % drag reduction of rough", {**reducer, "drag_reduction": "70 %"}, 0.3 * rough, source),
                ("most drag reduction", {**reducer, "drag_reduction": "100 %"}, floor, "scipy_library brentq, virk1975"),
            ):
                out.case(
                    f"{what}: {label} at {q} bbl/min", "pipe_friction", text, {**base, **inputs},
                    {"gradient": f"{number(gradient(f))} psi/1000ft", "reynolds": number(re)},
                    {"*": "1e-8 %"}, "same equations, other code",
                )
    out.write()


def slurries():
    out = CaseFile("hydraulics/slurry_friction_sweep.toml", SCRIPT, MPMATH)
    m = mp.mpf
    for c in (1, 2, 3, 4, 6, 8):
        added = c * m(PPG)
        y = 1 + added / 2650
        phi, rho_r = (y - 1) / y, (1000 + added) / y / 1000
        eilers = (1 + m("1.25") * phi / (1 - phi / m("0.63"))) ** 2
        keck = (1 + m("0.75") * (mp.e ** m("1.5") - 1) * m("1.25") * phi / (1 - m("1.5") * phi)) ** 2
        inputs = {"clean_density": "1 g/cm3", "proppant_density": "2.65 g/cm3", "concentration": f"{c} ppa"}
        for word, key, value in (
            ("turbulent_scaling", "white2011 ch. 6 with eilers1941", rho_r ** m("0.8") * eilers ** m("0.2")),
            ("laminar_scaling", "eilers1941", eilers),
            ("keck_1992", "keck1992 (form from memory)", keck ** m("0.55") * rho_r ** m("0.45")),
        ):
            out.case(
                f"{word} at {c} ppa of sand in water", "slurry_friction_multiplier", f"mpmath_library, {key}",
                {**inputs, "model": word}, {"multiplier": number(value)}, {"multiplier": "1e-8 %"},
                "same formula, other arithmetic",
            )
    out.write()


# --- annulus -------------------------------------------------------------------------------

def annulus():
    out = CaseFile("hydraulics/annulus_sweep.toml", SCRIPT, SCIPY)
    for gpm, hole, pipe, ppg, n, k in (
        (300, 8.5, 4.5, 10.5, 0.8, 20), (300, 8.5, 6.75, 10.5, 0.8, 20), (250, 6.125, 4.5, 9.0, 0.6, 200), (100, 6.125, 4.5, 9.5, 0.5, 600),
    ):
        v = gpm * 231 / 60 / 12 / (math.pi / 4 * (hole**2 - pipe**2))
        re = 109000 * ppg * v ** (2 - n) / k * (0.0208 * (hole - pipe) / (2 + 1 / n)) ** n
        out.case(
            f"field form of the slot: {gpm} gal/min in {hole} x {pipe} in, n {n}", "annulus_friction",
            "guo_liu2011 ch. 2 (form with 109000 and 0.0208)",
            {"rate": f"{gpm} gal/min", "hole": f"{hole} in", "pipe": f"{pipe} in", "density": f"{ppg} lb/gal", "n": str(n),
             "k": f"{k * 1e-3} Pa.s^n"},
            {"reynolds": number(re, 8), "velocity": f"{number(v, 8)} ft/s"}, {"reynolds": "0.3 %", "velocity": "0.01 %"},
            "the constants of the field form are rounded",
        )
        u, gap, rho = v * FOOT, (hole - pipe) * INCH, ppg * PPG
        # laminar flow in a slot by quadrature of the velocity profile
        stress = brentq(lambda w: slot_velocity(w, gap / 2, n, k * 1e-3) - u, 1e-6, 1e6, xtol=1e-14, rtol=1e-14)
        laminar_re = 16 / (math.sqrt(2 / 3) * 2 * stress / (rho * u * u))
        out.case(
            f"slot by its velocity profile: {gpm} gal/min in {hole} x {pipe} in, n {n}", "annulus_friction",
            "scipy_library quad of the velocity profile",
            {"rate": f"{gpm} gal/min", "hole": f"{hole} in", "pipe": f"{pipe} in", "density": f"{ppg} lb/gal", "n": str(n),
             "k": f"{k * 1e-3} Pa.s^n"},
            {"reynolds": number(laminar_re, 9)}, {"reynolds": "0.01 %"}, "16/f from the wall stress on the equivalent diameter",
        )
    out.write()


def slot_velocity(stress, h, n, k):
    """Mean velocity between plates h apart, tau = k rate^n, from the wall stress."""
    profile = lambda y: ((stress * 2 * y / h) / k) ** (1 / n) * y
    return 2 / h * quad(profile, 0, h / 2, epsabs=0, epsrel=1e-12)[0]


# --- seats, ladders, ports --------------------------------------------------------------------

def seat_k(model, d, bore, land=2.0, wall=0.02, inlet=0.1):
    m = mp.mpf
    f = (m(d) / m(bore)) ** 2
    free, l = 1 - f, m(land) / m(d)
    steps = lambda k: k * free ** m("0.75") + free**2
    if model == "thin_orifice":
        return (m("0.707") * free ** m("0.375") + free) ** 2
    if model == "contraction_expansion":
        return steps(m("0.5"))
    if model == "tapered_inlet":
        return steps(m(inlet))
    phi = m("0.25") + m("0.535") * l**8 / (m("0.05") + l**7)
    tau = max(m(0), (m("2.4") - l) * m(10) ** -phi)
    return steps(m("0.5")) + tau * free ** m("1.375") + m(wall) * l


def dynamic(d, q, ppg):
    return ppg * PPG * (q * BPM / area(d * INCH)) ** 2 / 2 / PSI


MODELS = ("thin_orifice", "thick_orifice", "contraction_expansion", "tapered_inlet")


def seats():
    out = CaseFile("hydraulics/seat_sweep.toml", SCRIPT, f"{MPMATH}, {FLUIDS}")
    for d in (3.75, 3.5, 3.0, 2.5, 2.0, 1.5):
        base = {"seat": f"{d} in", "bore": "3.92 in", "rate": "30 bbl/min", "density": "8.5 lb/gal"}
        for model in MODELS:
            k = seat_k(model, d, 3.92)
            out.case(
                f"seat of {d} in as {model}", "seat_loss", "mpmath_library, idelchik1986", {**base, "model": model},
                {"coefficient": number(k), "loss": f"{number(k * dynamic(d, 30, 8.5))} psi"}, {"*": "1e-8 %"},
                "same formula, other arithmetic",
            )
        # the expansion alone: a perfectly rounded inlet
        k = diffuser_sharp(d, 3.92)
        out.case(
            f"seat of {d} in with a perfect inlet is the sudden expansion", "seat_loss", "fluids_library diffuser_sharp",
            {**base, "model": "tapered_inlet", "inlet": "0"}, {"coefficient": number(k)}, {"coefficient": "1e-8 %"},
            "same law (Borda and Carnot), other code",
        )
        # the contraction against another handbook
        k = contraction_sharp(3.92, d) + diffuser_sharp(d, 3.92)
        out.case(
            f"seat of {d} in, contraction of another handbook", "seat_loss", "fluids_library contraction_sharp (rennels2012)",
            {**base, "model": "contraction_expansion"}, {"coefficient": number(k)},
            {"coefficient": "20 %" if d < 3.2 else "0.06"},
            "two handbooks differ by up to 17 % on a sharp inlet, and near full bore by 0.05 of the dynamic pressure",
        )
    for d in (1.25, 1.5, 2.0, 2.5, 3.0, 3.5):
        rho, big, small = 8.5 * PPG, 3.92 * INCH, d * INCH
        flow = lambda dp: flow_meter_discharge(D=big, Do=small, P1=dp + 1e7, P2=1e7, rho=rho, C=0.85)
        dip = brentq(lambda dp: flow(dp) - 20 * BPM * rho, 1.0, 1e8, xtol=1e-6, rtol=1e-14)
        out.case(
            f"dip in a throat of {d} in, meter equation", "seat_loss", "fluids_library flow_meter_discharge (iso_5167_2)",
            {"seat": f"{d} in", "bore": "3.92 in", "rate": "20 bbl/min", "density": "8.5 lb/gal", "cd": "0.85"},
            {"throat_dip": f"{number(dip / PSI)} psi"}, {"throat_dip": "1e-7 %"}, "the meter equation solved for the pressure",
        )
    for beta in (0.3, 0.5, 0.6, 0.68):
        bore = 0.07366
        c = discharge(beta)
        k = discharge_coefficient_to_K(bore, beta * bore, c) * beta**4
        out.case(
            f"thin plate at d/D {beta} against the standard for orifice plates", "seat_loss",
            "fluids_library discharge_coefficient_to_K (iso_5167_2)",
            {"seat": f"{number(beta * bore)} m", "bore": f"{bore} m", "rate": "10 L/min", "density": "1 g/cm3",
             "model": "thin_orifice"},
            {"coefficient": number(k)}, {"coefficient": "11 %"}, "permanent loss of a measured plate; two independent sources",
        )
    out.write()


def discharge(beta):
    """Discharge coefficient of a plate with corner taps at a high Reynolds number."""
    bore = 0.07366
    return C_Reader_Harris_Gallagher(D=bore, Do=beta * bore, rho=1000.0, mu=1e-3, m=area(bore) * 1000 * 10, taps="corner")


def ladder():
    out = CaseFile("hydraulics/ladder_sweep.toml", SCRIPT, MPMATH)
    bores = [1.5 + i / 8 for i in range(18)]
    text = ", ".join(f"{b} in" for b in bores)

    def loss(stage, q, model, wall):
        return sum(seat_k(model, b, 3.92, wall=wall) * dynamic(b, q, 8.5) for b in bores[stage:])

    def case(stage, q, model, wall):
        out.case(
            f"ladder of 18 to stage {stage} at {q} bbl/min, {model}", "seat_series", "mpmath_library, idelchik1986",
            {"seats": text, "stage": str(stage), "bore": "3.92 in", "rate": f"{q} bbl/min", "density": "8.5 lb/gal",
             "model": model, "wall_friction": str(wall)},
            {"loss": f"{number(loss(stage, q, model, wall))} psi", "passed": str(18 - stage)},
            {"loss": "1e-8 %", "passed": "0"}, "each seat above the stage counted once, the stage's own never",
        )

    for stage in (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18):
        case(stage, 15, "thick_orifice", 0.0126)
    for q in (10, 20, 30):
        case(1, q, "thick_orifice", 0.0126)
    for model in ("tapered_inlet", "contraction_expansion", "thin_orifice"):
        case(1, 30, model, 0.0126)
    out.write()


def ports():
    out = CaseFile("hydraulics/port_sweep.toml", SCRIPT, f"{MPMATH}, {SCIPY}")
    for ppg, q, n, d, cd in ((8.43, 30, 12, 0.75, 0.85), (8.5, 10, 6, 1.0, 0.6), (10.5, 60, 40, 0.42, 0.7)):
        m = mp.mpf
        k = 8 * m(PPG) * m(BPM) ** 2 / (mp.pi**2 * m(INCH) ** 4) / m(PSI)
        out.case(
            f"{n} holes of {d} in at {q} bbl/min", "port_loss", "mpmath_library (constant from the exact units)",
            {"rate": f"{q} bbl/min", "density": f"{ppg} lb/gal", "count": str(n), "diameter": f"{d} in", "cd": str(cd)},
            {"loss": f"{number(k * m(ppg) * q**2 / (n**2 * m(d) ** 4 * m(cd) ** 2))} psi"}, {"loss": "1e-8 %"},
            "field form with the derived constant",
        )
        out.case(
            f"{n} holes of {d} in counted from their drop", "open_ports", "mpmath_library (constant from the exact units)",
            {"per_rate_squared": f"{number(k * m(ppg) / (n**2 * m(d) ** 4 * m(cd) ** 2), 15)} psi/(bbl/min)2",
             "density": f"{ppg} lb/gal", "diameter": f"{d} in", "cd": str(cd)},
            {"count": str(n)}, {"count": "1e-9"}, "inverse of the field form",
        )
    rng = np.random.default_rng(7)
    for b, a, noise in ((0.8, 40.0, 0.0), (0.8, 40.0, 15.0), (2.0, 0.0, 10.0), (0.0, 150.0, 10.0)):
        q = np.array([20.0, 16.0, 12.0, 8.0, 4.0])
        p = np.round(np.maximum(b * q**2 + a * np.sqrt(q) + noise * rng.standard_normal(5), 0), 1)
        fit, norm = nnls(np.column_stack([q**2, np.sqrt(q)]), p)
        out.case(
            f"step-down with terms {b:g} and {a:g}, noise {noise:g} psi", "step_down", "scipy_library nnls",
            {"rates": ", ".join(f"{x:g} bbl/min" for x in q), "drops": ", ".join(f"{x:g} psi" for x in p)},
            {"ports": f"{number(fit[0])} psi/(bbl/min)2", "near_wellbore": f"{number(fit[1])} psi/(bbl/min)0.5",
             "misfit": f"{number(norm / math.sqrt(5))} psi"},
            {"ports": "1e-7 psi/(bbl/min)2", "near_wellbore": "1e-6 psi/(bbl/min)0.5", "misfit": "1e-5 psi"},
            "non-negative least squares by another method",
        )
    out.write()


# --- columns ---------------------------------------------------------------------------------

def columns():
    out = CaseFile("hydraulics/column_sweep.toml", SCRIPT, f"{SCIPY}, CoolProp {CoolProp.__version__}")

    def integrate(points, density):
        p = 101325.0
        for (z0, t0), (z1, t1) in zip(points, points[1:]):
            slope = lambda z, y: [density(t0 + (t1 - t0) * (z - z0) / (z1 - z0) + 273.15, y[0]) * GRAVITY]
            p = solve_ivp(slope, (z0, z1), [p], rtol=1e-11, atol=1e-3).y[0][-1]
        return p

    water = lambda t, p: PropsSI("D", "T", t, "P", p, "Water")
    for label, points in (
        ("shallow and cold", [(0, 10), (600, 18)]),
        ("geothermal gradient of 3 degC per 100 m", [(0, 15), (3000, 105)]),
        ("while pumping", [(0, 12), (2300, 22), (2800, 45)]),
        ("deep and hot", [(0, 20), (2500, 95), (5500, 175)]),
        ("a toe that rises", [(0, 15), (2800, 80), (2760, 80)]),
    ):
        p = integrate(points, water)
        rise = p - 101325.0
        out.case(
            f"water column, {label}", "hydrostatic_column", "scipy_library solve_ivp on coolprop_library Water (iapws_r6_95)",
            {"top_pressure": "0.101325 MPa", "fluid": "water", "tvd": ", ".join(f"{z} m" for z, _ in points),
             "temperature": ", ".join(f"{t} degC" for _, t in points)},
            {"pressure": f"{number(p / 1e6)} MPa", "mean_density": f"{number(rise / GRAVITY / points[-1][0])} kg/m3"},
            {"*": "0.002 %"}, "other formulation of water, other solver",
        )
    for c in (2, 4):
        added = c * PPG
        rho = (1000 + added) / (1 + added / 2650)
        p = 101325 + rho * GRAVITY * 2800
        out.case(
            f"{c} ppa of sand over 2800 m", "hydrostatic_column", "mpmath_library (uniform column)",
            {"top_pressure": "0.101325 MPa", "fluid": "fixed", "density": "1000 kg/m3", "tvd": "0 m, 2800 m",
             "temperature": "20 degC, 20 degC", "concentration": f"{c} ppa", "proppant_density": "2.65 g/cm3"},
            {"pressure": f"{number(p / 1e6)} MPa", "mean_density": f"{number(rho)} kg/m3"}, {"*": "1e-8 %"},
            "uniform column",
        )
    brine = lambda t, p: PropsSI("D", "T", t, "P", p, "INCOMP::MNA-10%")
    points = [(0, 15), (1000, 38)]
    p = integrate(points, brine)
    out.case(
        "10 % brine against an incompressible table fit", "hydrostatic_column",
        "scipy_library solve_ivp on coolprop_library INCOMP MNA",
        {"top_pressure": "0.101325 MPa", "fluid": "brine", "salt": "10 %", "tvd": "0 m, 1000 m", "temperature": "15 degC, 38 degC"},
        {"pressure": f"{number(p / 1e6)} MPa"}, {"pressure": "0.4 %"},
        "the table fit knows no compression, which is 0.2 % here; the fits differ by 0.2 %",
    )
    out.write()


# --- waves and compression ---------------------------------------------------------------------

PIPES = (
    ("4.5 in 11.6 lb/ft", 4.5, 4.000), ("4.5 in 13.5 lb/ft", 4.5, 3.920), ("5.5 in 23 lb/ft", 5.5, 4.670),
    ("5.5 in 20 lb/ft", 5.5, 4.778), ("7 in 26 lb/ft", 7.0, 6.276),
)


def coefficient(outside, bore, nu, wall):
    """The constant of the textbook form, anchored throughout."""
    d, e = bore, (outside - bore) / 2
    if wall == "thin":
        return 1 - nu**2
    return 2 * e / d * (1 + nu) + d / (d + e) * (1 - nu**2)


def textbook_speed(rho, k, outside, bore, wall, young=207e9, nu=0.3):
    d, e = bore, (outside - bore) / 2
    return math.sqrt(k / rho) / math.sqrt(1 + k * d * coefficient(outside, bore, nu, wall) / (young * e))


def waves():
    out = CaseFile("hydraulics/wave_sweep.toml", SCRIPT, f"{MPMATH}, {SCIPY}")
    for label, outside, bore in PIPES:
        for rho, k in ((998.2, 2.18), (992.86, 2.49), (1000, 2.4)):
            for wall in ("thick", "thin"):
                a = textbook_speed(rho, k * 1e9, outside, bore, wall)
                out.case(
                    f"{wall} {label}, {rho} kg/m3, {k} GPa", "wave_speed", "wylie_streeter1993 ch. 1 (textbook form)",
                    {"density": f"{rho} kg/m3", "modulus": f"{k} GPa", "bore": f"{bore} in", "outside": f"{outside} in",
                     "young": "207 GPa", "wall": wall},
                    {"wave_speed": f"{number(a)} m/s"}, {"wave_speed": "1e-8 %"},
                    "the program goes by stresses and strains, the textbook by a constant",
                )
    for restraint, sigma in (("anchored_upstream", "closed"), ("expansion_joints", "free"), ("anchored_throughout", "fixed")):
        for label, outside, bore in PIPES[:3]:
            c = swelling(bore * INCH / 2, outside * INCH / 2, sigma)
            out.case(
                f"swelling of {label}, {restraint}", "pipe_wall_compliance", "scipy_library solve_bvp of the wall in equilibrium",
                {"bore": f"{bore} in", "outside": f"{outside} in", "young": "207 GPa", "restraint": restraint},
                {"compliance": f"{number(c, 9)} 1/Pa"}, {"compliance": "0.001 %"}, "differential equation of the wall, solved numerically",
            )
    for label, outside, bore in PIPES[:3]:
        a = textbook_speed(1000, 2.4e9, outside, bore, "thick")
        for q in (1, 10, 20, 40):
            step = 1000 * a * q * BPM / area(bore * INCH)
            out.case(
                f"step in {label} at {q} bbl/min", "joukowsky", "joukowsky1904 with the textbook wave speed",
                {"density": "1000 kg/m3", "wave_speed": f"{number(a, 15)} m/s", "rate": f"{q} bbl/min", "bore": f"{bore} in"},
                {"step": f"{number(step / PSI)} psi"}, {"step": "1e-8 %"}, "same formula, other code",
            )
    out.write()


def swelling(ri, ro, ends, young=207e9, nu=0.3):
    """Relative volume change per pressure, from the radial displacement u(r) of the wall."""
    lam, mu = young * nu / ((1 + nu) * (1 - 2 * nu)), young / (2 * (1 + nu))
    scale = 1e6 / young

    def radial(r, u, du, ez):
        return (lam + 2 * mu) * du + lam * u / r + lam * ez

    def solve(ez):
        rhs = lambda r, y: np.vstack([y[1], -y[1] / r + y[0] / r**2])
        ends_at = lambda ya, yb: np.array([radial(ri, ya[0], ya[1], ez) / 1e6 + 1, radial(ro, yb[0], yb[1], ez) / 1e6])
        r = np.linspace(ri, ro, 60)
        guess = np.vstack([np.full_like(r, scale * ri), np.zeros_like(r)])
        return solve_bvp(rhs, ends_at, r, guess, tol=1e-10, max_nodes=20000)

    def axial_force(ez):
        s = solve(ez)
        r = np.linspace(ri, ro, 4001)
        u, du = s.sol(r)
        stress = lam * (du + u / r) + (lam + 2 * mu) * ez
        return 2 * math.pi * np.trapezoid(stress * r, r)

    wanted = {"fixed": None, "free": 0.0, "closed": 1e6 * math.pi * ri**2}[ends]
    ez = 0.0
    if wanted is not None:
        # the force is linear in the axial strain
        f0, f1 = axial_force(0.0), axial_force(scale)
        ez = (wanted - f0) / (f1 - f0) * scale
    return (2 * solve(ez).sol(ri)[0] / ri + ez) / 1e6


def sealed():
    out = CaseFile("hydraulics/sealed_sweep.toml", SCRIPT, MPMATH)
    for label, outside, bore in PIPES[:4]:
        c = coefficient(outside, bore, 0.3, "thick") * bore / (207e9 * (outside - bore) / 2)
        out.case(
            f"compressibility of water in {label}", "sealed_pressure", "wylie_streeter1993 ch. 1 (textbook form)",
            {"volume": "100 bbl", "modulus": "2.4 GPa", "bore": f"{bore} in", "outside": f"{outside} in", "young": "207 GPa"},
            {"compliance": f"{number(c * PSI)} 1/psi", "compressibility": f"{number((c + 1 / 2.4e9) * PSI)} 1/psi",
             "volume_to_pump": f"{number(100 * 1000 * PSI * (c + 1 / 2.4e9))} bbl"},
            {"*": "1e-8 %"}, "the program goes by stresses and strains, the textbook by a constant",
        )
    c = coefficient(4.5, 4.0, 0.3, "thick") * 4.0 / (207e9 * 0.25) + 1 / 2.4e9
    for volume in (100, 150, 250, 350):
        for q in (2, 5, 10, 15, 30):
            out.case(
                f"{volume} bbl sealed at {q} bbl/min", "sealed_pressure", "wylie_streeter1993 ch. 1 (textbook form)",
                {"volume": f"{volume} bbl", "modulus": "2.4 GPa", "rate": f"{q} bbl/min", "bore": "4 in", "outside": "4.5 in",
                 "young": "207 GPa"},
                {"pressure_rate": f"{number(q / 60 / (volume * c) / PSI)} psi/s"}, {"pressure_rate": "1e-8 %"},
                "q/(V c)",
            )
    out.write()


# --- landings -----------------------------------------------------------------------------------

def landing_peak(step, opening):
    """Round trips counted one by one: the seat rises by 2J at each return."""
    seat, trips = step, 0
    while seat < opening * (1 - 1e-12):
        seat, trips = seat + 2 * step, trips + 1
    return seat, trips


def landings():
    out = CaseFile("hydraulics/landing_sweep.toml", SCRIPT, f"numpy {np.__version__}")
    rho, a, bore, length = 1000.0, 1420.72, 4.0, 5000.0
    per_bpm = rho * a * BPM / area(bore * INCH) / PSI
    string = {"density": "1000 kg/m3", "wave_speed": "1420.72 m/s", "bore": "4 in"}
    for q in (3, 5, 8, 10, 15, 20, 40):
        for opening in (1000, 2000, 3000):
            step = per_bpm * q
            seat, trips = landing_peak(step, opening)
            out.case(
                f"{q} bbl/min on a sleeve of {opening} psi", "landing_staircase", "joukowsky1904, round trips counted one by one",
                {**string, "length": "5000 m", "rate": f"{q} bbl/min", "opening_pressure": f"{opening} psi"},
                {"step": f"{number(step)} psi", "round_trips": str(trips), "seat_rise": f"{number(seat)} psi",
                 "surface_rise": f"{number(2 * trips * step)} psi", "opening": f"{number(2 * trips * length / a)} s",
                 "mean_slope": f"{number(rho * a * a * q * BPM / area(bore * INCH) / length / PSI)} psi/s"},
                {"*": "1e-8 %", "round_trips": "0", "surface_rise": "1e-6 psi", "opening": "1e-6 s"},
                "counting instead of the closed form",
            )
    rates = np.arange(0.02, 80, 0.002)
    steps = per_bpm * rates
    for opening, headroom in ((2000, 2200), (2000, 2600), (2000, 3500), (1500, 4000), (3000, 3300)):
        for peak, extra in (("plateau", 0), ("spike", 1)):
            trips = np.maximum(np.ceil((opening / steps - 1) / 2), 0)
            over = 2 * (trips + extra) * steps > headroom
            if not over.any():
                continue
            limit = rates[np.argmax(over)]
            out.case(
                f"{peak} of a sleeve of {opening} psi under {headroom} psi of headroom", "landing_rate_limit",
                "joukowsky1904, search over rates with numpy",
                {**string, "opening_pressure": f"{opening} psi", "headroom": f"{headroom} psi", "peak": peak},
                {"rate": f"{limit:.3f} bbl/min"}, {"rate": "0.003 bbl/min"}, "the first rate of a fine search that passes the headroom",
            )
    out.write()


if __name__ == "__main__":
    friction()
    strings()
    slurries()
    annulus()
    seats()
    ladder()
    ports()
    columns()
    waves()
    sealed()
    landings()
