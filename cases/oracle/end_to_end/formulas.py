"""Published formulas on top of numpy, scipy, fluids and CoolProp."""

import math

import fluids
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from .units import INCH, PSI, si

YOUNG, POISSON = 207e9, 0.3
PACKING = 0.63


def slurry(density, grain, concentration):
    """Density and grain share of clean fluid with proppant added."""
    if not grain or concentration == 0:
        return density, 0.0
    swell = 1 + concentration / grain
    return (density + concentration) / swell, (swell - 1) / swell


def eilers(phi):
    """Viscosity of a suspension over that of its liquid."""
    return (1 + 1.25 * phi / (1 - phi / PACKING)) ** 2


def virk_floor(reynolds):
    """Darcy factor of the asymptote of drag reduction."""
    f = brentq(lambda f: 1 / math.sqrt(f) - 19 * math.log10(reynolds * math.sqrt(f)) + 32.4, 1e-7, 1)
    return 4 * f


def newtonian(reynolds, rough, reduction):
    """Darcy factor with a share of the rough pipe's friction taken away."""
    base = fluids.friction_factor(Re=reynolds, eD=rough, Method="Churchill_1977")
    if reduction <= 0 or reynolds < 2100:
        return base
    return min(base, max((1 - reduction) * base, virk_floor(reynolds)))


def power_law(density, speed, bore, n, k):
    """Darcy factor of a power law in a smooth pipe, and whether it is laminar."""
    re = density * speed ** (2 - n) * bore**n / (8 ** (n - 1) * k * ((3 * n + 1) / (4 * n)) ** n)
    low, high = 3470 - 1370 * n, 4270 - 1370 * n

    def turbulent(r):
        law = lambda f: 1 / math.sqrt(f) - 4 / n**0.75 * math.log10(r * f ** (1 - n / 2)) + 0.4 / n**1.2
        return 4 * brentq(law, 1e-6, 1)

    if re <= low:
        return 64 / re, True
    if re >= high:
        return turbulent(re), False
    share = math.log(re / low) / math.log(high / low)
    return (64 / low) ** (1 - share) * turbulent(high) ** share, False


def pipe_gradient(rate, bore, rough, fluid, grain, concentration, factor):
    """Friction pressure per length of a clean or laden fluid."""
    density = si(fluid["density"])
    speed = rate / (math.pi / 4 * bore**2)
    laminar = False
    if fluid["rheology"] == "newtonian":
        mu = si(fluid["viscosity"])
        re = density * speed * bore / mu
        f, laminar = newtonian(re, rough / bore, float(fluid.get("drag_reduction", 0))), re < 2100
    else:
        f, laminar = power_law(density, speed, bore, float(fluid["flow_index"]), si(fluid["consistency"]))
        if not laminar:
            f *= 1 - float(fluid.get("drag_reduction", 0))
    laden, phi = slurry(density, grain, concentration)
    if phi > 0:
        ratio = eilers(phi) if laminar else (laden / density) ** 0.8 * eilers(phi) ** 0.2
        f *= ratio * factor
    return f * density * speed**2 / (2 * bore)


def thick_orifice(seat, bore, land, wall=0.02):
    """Loss coefficient of a thick orifice on the velocity in its bore (Idelchik, diagram 4-15)."""
    free, l = 1 - (seat / bore) ** 2, land / seat
    phi = 0.25 + 0.535 * l**8 / (0.05 + l**7)
    tau = max(2.4 - l, 0) * 10**-phi
    return 0.5 * free**0.75 + tau * free**1.375 + free**2 + wall * l


def tapered(seat, bore, inlet=0.1):
    """Loss coefficient of a cone and a sudden expansion."""
    free = 1 - (seat / bore) ** 2
    return inlet * free**0.75 + free**2


def water(temperature, pressure):
    """Isothermal and isentropic bulk modulus of water."""
    kt = 1 / PropsSI("isothermal_compressibility", "T", temperature, "P", pressure, "Water")
    rho = PropsSI("D", "T", temperature, "P", pressure, "Water")
    return kt, rho * PropsSI("A", "T", temperature, "P", pressure, "Water") ** 2


def wall_compliance(bore, outside):
    """Growth of the bore's volume per pressure, thick wall (Lamé), no change of length."""
    ri, ro = bore**2, outside**2
    hoop = (ro + ri) / (ro - ri)
    axial = POISSON * (hoop - 1)
    return 2 * (hoop - POISSON * (-1 + axial)) / YOUNG


def wave_speed(density, modulus, compliance):
    """Korteweg."""
    return math.sqrt(1 / (density * (1 / modulus + compliance)))


def barlow(yield_psi, wall, od):
    """Internal yield, Pa, with the 12.5 % of wall that mills may lack."""
    return 0.875 * 2 * yield_psi * PSI * wall / od


def api_collapse(y, od, wall):
    """Collapse of API 5C3 without axial load, Pa; `y` in psi."""
    a = 2.8762 + 0.10679e-5 * y + 0.21301e-10 * y**2 - 0.53132e-16 * y**3
    b = 0.026233 + 0.50609e-6 * y
    c = -465.93 + 0.030867 * y - 0.10483e-7 * y**2 + 0.36989e-13 * y**3
    r = b / a
    s = 3 * r / (2 + r)
    f = 46.95e6 * s**3 / (y * (s - r) * (1 - s) ** 2)
    g = f * r
    x = od / wall
    if x <= (math.sqrt((a - 2) ** 2 + 8 * (b + c / y)) + a - 2) / (2 * (b + c / y)):
        p = 2 * y * (x - 1) / x**2
    elif x <= y * (a - f) / (c + y * (b - g)):
        p = y * (a / x - b) - c
    elif x <= (2 + r) / (3 * r):
        p = y * (f / x - g)
    else:
        p = 46.95e6 / (x * (x - 1) ** 2)
    return p * PSI


def envelope_use(rows, differential, load):
    """How far out a point lies on its ray to the outline; rows of differential, pull, push."""
    rows = sorted(rows)
    dp, push = abs(differential), abs(load)
    limit = [(r[0], r[1] if load >= 0 else r[2]) for r in rows]

    def inside(t):
        p = dp * t
        if p > limit[-1][0] * (1 + 1e-12):
            return False
        for (p1, l1), (p2, l2) in zip(limit, limit[1:]):
            if p1 <= p <= p2:
                return push * t <= l1 + (l2 - l1) * (p - p1) / (p2 - p1)
        return push * t <= limit[-1][1]

    if dp == 0 and push == 0:
        return 0.0
    low, high = 0.0, 1.0
    while inside(high):
        low, high = high, 2 * high
        if high > 1e9:
            return 0.0
    for _ in range(200):
        mid = (low + high) / 2
        low, high = (mid, high) if inside(mid) else (low, mid)
    return 1 / low


def thousandth(x):
    """A diameter drawn to a thousandth of an inch."""
    return round(x / INCH * 1e3) / 1e3 * INCH
