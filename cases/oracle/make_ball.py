"""Writes cases/ball/settling_library.toml and cases/ball/transport_library.toml.

Independent computation with general-purpose libraries; the same versions give the same bytes.
Run from anywhere: python cases/oracle/make_ball.py
"""

import math
from importlib.metadata import version
from pathlib import Path

import fluids.drag as drag
import numpy as np
from scipy.integrate import dblquad, quad, solve_ivp
from scipy.optimize import brentq

BALL = Path(__file__).resolve().parent.parent / "ball"
LIBRARIES = ", ".join(f"{name} {version(name)}" for name in ("fluids", "scipy", "numpy"))
HEAD = f"# written by cases/oracle/make_ball.py; do not edit\n# {LIBRARIES}\n"
INCH, GRAVITY, BARREL = 0.0254, 9.80665, 0.158987294928
FUNCTION = {
    "haider_levenspiel_1989": ("Haider_Levenspiel", drag.Haider_Levenspiel),
    "clift_gauvin_1970": ("Clift_Gauvin", drag.Clift_Gauvin),
}


def brown_lawler(re):
    return 24 / re * (1 + 0.150 * re**0.681) + 0.407 / (1 + 8710 / re)


DRAG = {law: function for law, (_, function) in FUNCTION.items()} | {"brown_lawler_2003": brown_lawler}


def text(value):
    return f"{value:.12g}"


def table(pairs):
    return "{ " + ", ".join(f'{k} = "{v}"' for k, v in pairs.items()) + " }"


def case(name, relation, source, inputs, expected, tolerance, reason):
    return (
        f'\n[[case]]\nname = "{name}"\nrelation = "{relation}"\nsource = "{source}"\nbasis = "library"\n'
        f"inputs = {table(inputs)}\nexpected = {table(expected)}\ntolerance = {table(tolerance)}\n"
        f'reason = "{reason}"\n'
    )


def settle(d, rho_b, rho, mu, acceleration, law):
    """Steady velocity under an acceleration; drag coefficient 0.44 above the range of the fits."""
    if acceleration == 0:
        return 0.0
    cd = DRAG[law]
    load = 4 * abs(acceleration) * d / 3
    v = brentq(lambda v: cd(rho * v * d / mu) * v * v - load, 1e-12, 50, xtol=1e-15)
    if rho * v * d / mu > 2e5:
        v = math.sqrt(load / 0.44)
    return math.copysign(v, acceleration)


def drag_cases():
    for law, (title, function) in FUNCTION.items():
        for re in (0.1, 1, 10, 200, 1e3, 1e4, 1e5, 2e5):
            yield case(
                f"{law} at Re {re:g}", "sphere_drag", f"fluids_1_3_1, {title}",
                {"reynolds": text(re), "drag_law": law}, {"drag_coefficient": text(function(re))},
                {"drag_coefficient": "1e-9 %"}, "the same formula, another program",
            )
    for re in (1, 10, 100, 1e3, 1e4, 1e5, 2e5):
        both = [drag.Barati(re), drag.Clift(re)]
        yield case(
            f"brown_lawler_2003 beside two other fits at Re {re:g}", "sphere_drag", "fluids_1_3_1, Barati and Clift",
            {"reynolds": text(re)}, {"drag_coefficient": text(sum(both) / 2)}, {"drag_coefficient": "7 %"},
            f"mean of two independent fits, which print {both[0]:.4g} and {both[1]:.4g}",
        )


def fall_cases():
    balls = [(2.0, 1850), (2.5, 1850), (3.5, 1850), (2.5, 1350), (2.5, 2700), (1.5, 900)]
    for law, (title, _) in FUNCTION.items():
        for d, rho in balls:
            v = drag.v_terminal(d * INCH, rho, 1000.0, 1e-3, Method=title) if rho > 1000 else settle(
                d * INCH, rho, 1000.0, 1e-3, (rho / 1000 - 1) * GRAVITY, law)
            yield case(
                f"{d} in ball of {rho} kg/m3 in water, {law}", "terminal_velocity", f"fluids_1_3_1, v_terminal, {title}",
                {"ball": f"{d} in", "ball_density": f"{rho} kg/m3", "drag_law": law},
                {"velocity": text(v) + " m/s", "in_range": "1"}, {"velocity": "1e-4 %", "in_range": "0"},
                "the same drag law, another solver; the library takes g to 9.80665",
            )
    for d, rho in balls[:5]:
        v = drag.v_terminal(d * INCH, rho, 1000.0, 1e-3)
        yield case(
            f"{d} in ball of {rho} kg/m3 in water, two fits of the drag", "terminal_velocity",
            "fluids_1_3_1, v_terminal, Barati", {"ball": f"{d} in", "ball_density": f"{rho} kg/m3"},
            {"velocity": f"{v:.4g} m/s"}, {"velocity": "1.5 %"},
            "brown_lawler_2003 against another fit: the drag differs by up to 3 %, the velocity by half of that",
        )
    v = drag.v_terminal(70e-6, 2600.0, 1000.0, 1e-3)
    yield case(
        "grain of 70 um in water", "terminal_velocity", "fluids_1_3_1, v_terminal, documented example",
        {"ball": "0.07 mm", "ball_density": "2600 kg/m3"}, {"velocity": text(v) + " m/s"}, {"velocity": "3.5 %"},
        "at Re 0.3 brown_lawler_2003 has 3 % more drag than the default fit of the library",
    )


def profile(r, n):
    return (n + 1) * (2 * n + 1) / (2 * n * n) * (1 - r) ** (1 / n) if r < 1 else 0.0


def carrying(share, wall, n):
    """Mean of the profile over the ball's disc, in polar coordinates about the disc's own centre."""
    offset = 1 - share if wall else 0.0

    def inside(rho, angle):
        r = math.sqrt(rho * rho + offset * offset + 2 * rho * offset * math.cos(angle))
        return profile(r, n) * rho

    if not wall:
        return 2 * quad(lambda r: profile(r, n) * r, 0, share, epsabs=1e-13)[0] / share**2
    whole = dblquad(inside, 0, math.pi, 0, share, epsabs=1e-9, epsrel=1e-9)[0]
    return 2 * whole / (math.pi * share**2)


def carrying_cases():
    for wall, word in ((False, "centred"), (True, "wall")):
        for share in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95):
            yield case(
                f"ball {share} of the bore, {word}", "carrying_factor", "derived_carrying, quadrature by scipy",
                {"ball": f"{share} m", "bore": "1 m", "position": word},
                {"carrying_factor": f"{carrying(share, wall, 7):.6f}"}, {"carrying_factor": "0.00002"},
                "adaptive quadrature about the ball's centre; the program integrates about the pipe's axis",
            )
    for n in (6, 10):
        yield case(
            f"ball 0.7 of the bore on the low side, exponent {n}", "carrying_factor",
            "derived_carrying, quadrature by scipy",
            {"ball": "0.7 m", "bore": "1 m", "position": "wall", "exponent": text(n)},
            {"carrying_factor": f"{carrying(0.7, True, n):.6f}"}, {"carrying_factor": "0.00002"},
            "adaptive quadrature about the ball's centre",
        )


def wall_factor(share):
    return (1 - share**2) * math.sqrt(1 - share**2 / 2)


def transit(d, gravity, depth, rate, law, bore=4.0, rolling=0.05):
    """Time and pumped over swept by adaptive integration over the length."""
    share = d / bore
    area = math.pi / 4 * (bore * INCH) ** 2
    flow = rate * BARREL / 60 / area
    radius = 30 / math.radians(8)
    factor = wall_factor(share)
    centred, low = carrying(share, False, 7), carrying(share, True, 7)

    def speed(inclination):
        pull = math.cos(inclination) - rolling * math.sin(inclination)
        slip = factor * settle(d * INCH, 0, 1000.0, 1e-3, (gravity - 1) * GRAVITY * pull, law)
        return (centred if inclination < math.radians(1) else low) * flow + slip

    arc = radius * math.pi / 2
    bends = [0, radius * math.radians(1), arc]
    time = 2300 / speed(0.0) + (depth - 2300 - arc) / speed(math.pi / 2)
    time += sum(quad(lambda s: 1 / speed(s / radius), a, b, epsabs=1e-9, limit=200)[0] for a, b in zip(bends, bends[1:]))
    return time, flow * time / depth


def transit_cases():
    wells = [(2.5, 1.8, 3000), (2.5, 1.8, 4500), (2.5, 1.8, 6000), (2.5, 1.3, 6000), (2.5, 2.7, 6000),
             (1.5, 1.8, 6000), (3.5, 1.8, 6000)]
    for law, rates in (("haider_levenspiel_1989", (5, 15)), ("brown_lawler_2003", (5, 10, 15, 30))):
        for d, gravity, depth in wells:
            for rate in rates:
                time, ratio = transit(d, gravity, depth, rate, law)
                yield case(
                    f"{d} in ball of {gravity} to {depth} m at {rate} bbl/min, {law}", "ball_transit_uniform",
                    "derived_carrying, integrated by scipy",
                    {"ball": f"{d} in", "ball_density": f"{gravity * 1000:g} kg/m3", "bore": "4 in",
                     "rate": f"{rate} bbl/min", "kick_off": "2300 m", "build": "8 deg/30m",
                     "seat_depth": f"{depth} m", "drag_law": law},
                    {"ratio": f"{ratio:.6f}", "time": f"{time / 60:.4f} min"}, {"ratio": "0.00005", "time": "0.01 %"},
                    "adaptive integration over the build against parts of half a degree",
                )


def hold_cases():
    law, area = "brown_lawler_2003", math.pi / 4 * (4 * INCH) ** 2
    for rolling in (0.05, 0.3):
        for d in (1.5, 2.5, 3.5):
            slip = wall_factor(d / 4) * settle(d * INCH, 0, 1000.0, 1e-3, 0.8 * GRAVITY * rolling, law)
            rate = slip / carrying(d / 4, True, 7) * area * 60 / BARREL
            yield case(
                f"{d} in ball of 1.8 stands in a lateral of 4 in, resistance {rolling}", "stall_rate",
                "derived_carrying, slip by scipy",
                {"ball": f"{d} in", "ball_density": "1800 kg/m3", "bore": "4 in", "inclination": "90 deg",
                 "rolling": text(rolling)},
                {"stall_rate": f"{rate:.6f} bbl/min", "lift_rate": f"{rate:.6f} bbl/min"},
                {"stall_rate": "0.01 %", "lift_rate": "0.01 %"}, "level pipe: the same either way",
            )
    for d, gravity in ((1.5, 1.8), (2.5, 1.8), (3.5, 1.8), (2.5, 2.7), (2.5, 1.3)):
        slip = wall_factor(d / 4) * settle(d * INCH, 0, 1000.0, 1e-3, (gravity - 1) * GRAVITY, law)
        rate = slip / carrying(d / 4, False, 7) * area
        yield case(
            f"{d} in ball of {gravity} comes up a vertical pipe of 4 in", "stall_rate", "derived_carrying, slip by scipy",
            {"ball": f"{d} in", "ball_density": f"{gravity * 1000:g} kg/m3", "bore": "4 in", "inclination": "0 deg"},
            {"stall_rate": "0 bbl/min", "lift_rate": f"{rate * 86400:.4f} m3/d"},
            {"stall_rate": "0 bbl/min", "lift_rate": "0.01 %"}, "carried by the centred profile",
        )
    for d in (1.5, 2.0, 2.5, 3.0, 3.5, 3.75):
        for gravity in (1.3, 1.8, 2.7):
            v = wall_factor(d / 3.92) * settle(d * INCH, 0, 1000.0, 1e-3, (gravity - 1) * GRAVITY, law)
            yield case(
                f"{d} in ball of {gravity} in a vertical pipe of 3.92 in", "ball_lift", "derived_carrying, slip by scipy",
                {"ball": f"{d} in", "ball_density": f"{gravity * 1000:g} kg/m3", "bore": "3.92 in"},
                {"velocity": f"{v:.7f} m/s"}, {"velocity": "0.001 %"}, "terminal velocity times the wall factor of newton",
            )
    for d, gravity in ((2.0, 1.85), (2.5, 1.85), (3.5, 1.85), (2.5, 1.35), (2.5, 2.7)):
        for bore in (3.958, 4.95):
            v = drag.v_terminal(d * INCH, gravity * 1000, 1000.0, 1e-3) * wall_factor(d / bore)
            yield case(
                f"{d} in ball of {gravity} in a vertical pipe of {bore} in, two fits of the drag", "ball_lift",
                "fluids_1_3_1, v_terminal, Barati",
                {"ball": f"{d} in", "ball_density": f"{gravity * 1000:g} kg/m3", "bore": f"{bore} in"},
                {"velocity": f"{v:.4g} m/s", "rate": f"{v * math.pi / 4 * (bore * INCH) ** 2 * 86400:.4g} m3/d"},
                {"velocity": "1.5 %", "rate": "1.5 %"}, "brown_lawler_2003 against the default fit of the library",
            )


def erosion_cases():
    k, reference, n = 2e-5 / 1000, 2.5 * INCH, 2.6
    for seat in (1.5, 2.5, 3.5):
        def growth(_, d, q):
            return 2 * k * (q / 5) ** n * (reference / d) ** (2 * n)

        d = seat * INCH
        for mass, rate in ((30e3, 4.0), (45e3, 6.0)):
            d = solve_ivp(growth, (0, mass), [d], args=(rate,), rtol=1e-11, atol=1e-14).y[0][-1]
        yield case(
            f"seat of {seat} in after 30 and 45 t", "seat_erosion", "dnv_rp_o501, velocity exponent; integrated by scipy",
            {"seat": f"{seat} in", "masses": "30 t, 45 t", "rates": "4 m3/min, 6 m3/min", "wear": "0.02 mm",
             "wear_rate": "5 m3/min"},
            {"bore": f"{d * 1e3:.8f} mm"}, {"bore": "1e-6 mm"}, "ordinary differential equation against the closed form",
        )


def spread_case():
    rng = np.random.default_rng(20)
    sections = np.array([352.9, 156.8])
    count = 2_000_000
    bores = 1 + 0.0025 * rng.standard_normal((count, 2))
    volume = (sections * bores**2).sum(axis=1) * (1 + 0.01 * rng.standard_normal(count))
    volume += 0.01493 * 10 * rng.standard_normal(count)
    low, mid, high = np.percentile(volume, [10, 50, 90])
    yield case(
        "landing volume of 7 in casing and 4-1/2 in liner, drawn two million times", "landing_volume_spread",
        "jcgm_100_2008 eq. 10 against drawing by numpy",
        {"volumes": "352.9 bbl, 156.8 bbl", "capacity": "0.01493 bbl/ft"},
        {"sigma": f"{volume.std():.3f} bbl", "p10": f"{low:.2f} bbl", "p50": f"{mid:.2f} bbl", "p90": f"{high:.2f} bbl"},
        {"sigma": "0.01 bbl", "p10": "0.02 bbl", "p50": "0.02 bbl", "p90": "0.02 bbl"},
        "errors of drawing: 5.5 bbl over the root of four million, times 3",
    )


def write(name, groups):
    cases = "".join(c for group in groups for c in group)
    (BALL / name).write_text(HEAD + cases, encoding="utf-8")


write("settling_library.toml", [drag_cases(), fall_cases()])
write("transport_library.toml", [carrying_cases(), transit_cases(), hold_cases(), erosion_cases(), spread_case()])
