"""Writes cases/heat/cylinder_library.toml and cases/heat/well_library.toml.

The cylinder functions are inverted from their Laplace transforms with mpmath in 20 digits. The
wells are computed by methods other than the program's: at a constant rate by inversion of the
whole well's transform, over a schedule by superposition of the exact response of the rock
(no grid in the rock at all).

Run from anywhere: python cases/oracle/make_heat.py   (pins in cases/oracle/requirements.txt)
"""

import pathlib

import mpmath as mp
import numpy as np
from scipy.special import exp1, kve

mp.mp.dps = 20
CASES = pathlib.Path(__file__).resolve().parents[1]
BARREL = 0.158987294928
CYLINDER = "carslaw_jaeger1959 sec. 13.5"


def text(value, digits=10):
    return f"{float(value):.{digits}g}"


def table(pairs):
    return "{ " + ", ".join(f'{k} = "{v}"' for k, v in pairs.items()) + " }"


def case(relation, name, inputs, expected, tolerance, proof):
    """One case as text; `proof` is its source and its reason."""
    source, reason = proof
    return (
        f'\n[[case]]\nname = "{name}"\nrelation = "{relation}"\nsource = "{source}"\nbasis = "library"\n'
        f"inputs = {table(inputs)}\nexpected = {table(expected)}\ntolerance = {table(tolerance)}\n"
        f'reason = "{reason}"\n'
    )


def write(path, script, libraries, cases):
    head = f"# written by cases/oracle/{script}; do not edit\n# {libraries}\n"
    (CASES / path).write_text(head + "".join(cases))


def invert(transform, t):
    return mp.invertlaplace(transform, mp.mpf(t), method="talbot", degree=24)


def k0(z):
    return mp.besselk(0, z)


def k1(z):
    return mp.besselk(1, z)


def flux(t, r="1"):
    """Temperature round a cylinder with constant heat flux."""
    r = mp.mpf(r)
    return invert(lambda s: k0(r * mp.sqrt(s)) / (s ** mp.mpf("1.5") * k1(mp.sqrt(s))), t)


def held(t, resistance=0):
    """Heat flow of a cylinder held at one temperature behind a resistance 1/Bi."""
    resistance = mp.mpf(resistance)

    def transform(s):
        z = mp.sqrt(s)
        return k1(z) / (z * (k0(z) + z * resistance * k1(z)))

    return invert(transform, t)


def cylinder_cases():
    exact = "mpmath inversion in 20 digits; the program's own inversion holds about ten"
    out = []

    def add(relation, name, inputs, expected, proof=(CYLINDER, exact)):
        output, value = expected
        tolerance = text(max(1e-10, 1e-8 * abs(value)), 2)
        out.append(case(relation, name, inputs, {output: text(value, 12)}, {output: tolerance}, proof))

    times = "0.0001 0.01 0.1 0.5 1 1.5 2 5 10 20 100 1000 1000000".split()
    for t in times:
        add("cylinder_constant_flux", f"constant flux at t_D {t}", {"t_d": t}, ("temperature", flux(t)))
        add("cylinder_constant_wall", f"constant wall at t_D {t}", {"t_d": t}, ("heat_flow", held(t)))
    for r, t in (pair.split() for pair in ("1.5 1", "1.5 10", "2 1", "2 10", "2 100", "5 10", "5 100")):
        inputs = {"t_d": t, "r_d": r}
        add("cylinder_constant_flux", f"at r_D {r}, t_D {t}", inputs, ("temperature", flux(t, r)))
    for biot in ("1", "10"):
        for t in ("0.1", "1", "10", "100"):
            inputs = {"t_d": t, "film": "biot", "biot": biot}
            value = held(t, 1 / mp.mpf(biot))
            add("cylinder_constant_wall", f"film of Biot number {biot} at t_D {t}", inputs, ("heat_flow", value))
    for dt in ("1", "5", "10", "50"):
        value = flux(10 + int(dt)) - flux(dt)
        add("cylinder_recovery", f"recovery {dt} after 10", {"t_p": "10", "dt": dt}, ("temperature", value))
    line = ("carslaw_jaeger1959 sec. 10.4 eq. 5", "exponential integral of scipy")
    for t in ("0.1", "0.5", "1", "2", "10", "100", "1000"):
        value = 0.5 * exp1(1 / (4 * float(t)))
        add("line_source", f"line source at t_D {t}", {"t_d": t}, ("temperature", value), line)
    return out


# The reference well: 2800 m deep, 5000 m long, 0.03 K/m from 5 degC, water at 10 degC.
WELL = {
    "depths": "0 m, 2800 m, 5000 m",
    "earth": "5 degC, 89 degC, 89 degC",
    "hole": "0.1556 m",
    "conductivity": "2.5 W/(m.K)",
    "rock_heat": "2.2 MJ/(m3.K)",
    "density": "1000 kg/m3",
    "specific_heat": "4.184 kJ/(kg.K)",
    "inlet": "10 degC",
    "bore": "4 in",
}
LEGS = ((0.0, 2800.0, 0.03), (2800.0, 5000.0, 0.0))
ENTRY, INLET = 5.0, 10.0
RADIUS, K, HEAT = 0.0778, 2.5, 2.2e6
AREA, WATER = float(mp.pi / 4 * 0.1016**2), 4184e3


def earth(z):
    return ENTRY + 0.03 * min(z, 2800.0)


def steady_rate(z, rate, seconds, film=None):
    """Fluid temperature at a depth by inversion of the transform of the whole well."""
    speed, carried, time = rate / AREA, WATER * rate, RADIUS**2 * HEAT / K

    def uptake(s):
        x = mp.sqrt(s * time)
        rock = k0(x) / (2 * mp.pi * K * x * k1(x))
        return 1 / (rock + (0 if film is None else 1 / (2 * mp.pi * RADIUS * film)))

    def arrived(front, distance):
        since = seconds - distance / speed
        if since <= 0:
            return mp.mpf(0)
        return invert(lambda s: front(s) * mp.exp(-uptake(s) * distance / carried), since)

    total = earth(z) + arrived(lambda s: (INLET - ENTRY) / s, z)
    for top, end, slope in LEGS:
        end = min(end, z)
        if slope == 0 or end <= top:
            continue
        front = lambda s: slope / (s * (s / speed + uptake(s) / carried))
        total -= arrived(front, z - end) - arrived(front, z - top)
    return total


def heat_taken(times):
    """Heat taken per length by times after a unit step of the wall: transform q_D / s, inverted in
    doubles with scipy's Bessel functions."""
    scale, nodes = K / HEAT / RADIUS**2, 24
    theta = np.arange(1, nodes) * np.pi / nodes
    cot = 1 / np.tan(theta)
    contour = np.concatenate(([1.0 + 0j], theta * (cot + 1j)))
    weight = np.concatenate(([0.5 + 0j], 1 + 1j * (theta + (theta * cot - 1) * cot)))
    t = np.asarray(times)[:, None] * scale
    r = 2 * nodes / (5 * t)
    s = r * contour
    z = np.sqrt(s)
    transform = kve(1, z) / (z * kve(0, z)) / s
    return 2 * np.pi * K / scale * (r[:, 0] / nodes) * np.sum((weight * np.exp(s * t) * transform).real, axis=1)


def schedule(z_read, phases, plugs):
    """Fluid temperatures by plugs moved with the flow and superposed exact rock responses.

    `phases`: (rate m³/s or 0, seconds); time steps are the plug's transit at the first rate.
    """
    length = 5000.0 / plugs
    dt = length * AREA / phases[0][0]
    steps = [(rate > 0, round(seconds / dt)) for rate, seconds in phases]
    count = sum(n for _, n in steps)
    taken = np.diff(np.concatenate(([0.0], heat_taken(np.arange(1, count + 1) * dt))))
    middles = (np.arange(plugs) + 0.5) * length
    start = np.array([earth(z) for z in middles])
    fluid, before = start.copy(), start.copy()
    rises = np.zeros((count, plugs))
    n = 0
    capacity = WATER * AREA
    for pumping, many in steps:
        for _ in range(many):
            moved = np.concatenate(([INLET], fluid[:-1])) if pumping else fluid
            past = taken[n:0:-1] @ rises[:n] if n else 0.0
            # C (T − T') = −(past + taken[0] (T − T_before))
            fluid = (capacity * moved - past + taken[0] * before) / (capacity + taken[0])
            rises[n] = fluid - before
            before = fluid
            n += 1
    return [float(np.interp(z, middles, fluid)) for z in z_read]


def well_cases():
    out = []
    source = "carslaw_jaeger1959 sec. 13.5, with the fluid's heat balance"
    exact = (source, "inversion of the whole well's transform with mpmath")
    grid = ("hasan_kabir1991, heat balance", "exact transform of the whole well; plugs and rings come this close")
    for rate, hours in ((5, 1), (5, 3), (15, 0.5), (15, 1), (15, 3)):
        for z in (2800, 5000):
            value = steady_rate(z, rate * BARREL / 60, hours * 3600)
            expected = {"temperature": f"{text(value)} degC"}
            name = f"{rate} bbl/min for {hours} h at {z} m"
            inputs = WELL | {"rate": f"{rate} bbl/min", "time": f"{hours} h", "at": f"{z} m"}
            out.append(case("transient_pumping", name, inputs, expected, {"temperature": "0.0001 degC"}, exact))
            inputs = WELL | {"rates": f"{rate} bbl/min", "durations": f"{hours} h", "at": f"{z} m"}
            close = {"temperature": "0.35 degC" if (rate, hours) == (5, 1) else "0.12 degC"}
            out.append(case("well_temperature", name, inputs, expected, close, grid))
    film = {"barrier": "film", "film": "50 W/(m2.K)", "rate": "10 bbl/min", "time": "2 h"}
    for z in (1000, 4000):
        value = steady_rate(z, 10 * BARREL / 60, 7200, 50.0)
        inputs = WELL | film | {"at": f"{z} m"}
        expected, name = {"temperature": f"{text(value)} degC"}, f"behind a film, 10 bbl/min for 2 h at {z} m"
        out.append(case("transient_pumping", name, inputs, expected, {"temperature": "0.0001 degC"}, exact))
        inputs = WELL | {"barrier": "film", "film": "50 W/(m2.K)", "rates": "10 bbl/min"}
        inputs |= {"durations": "2 h", "at": f"{z} m"}
        out.append(case("well_temperature", name, inputs, expected, {"temperature": "0.05 degC"}, grid))
    superposed = (
        "hasan_kabir1991, heat balance",
        "superposed exact rock responses without a grid, extrapolated from 75 and 150 plugs",
    )
    depths, rate = (2800, 4500), 15 * BARREL / 60
    for wait in (1, 12):
        phases = [(rate, 1800.0), (0.0, wait * 3600.0)]
        coarse, fine = (schedule(depths, phases, plugs) for plugs in (75, 150))
        for z, low, high in zip(depths, coarse, fine):
            inputs = WELL | {"rates": "15 bbl/min, 0 bbl/min", "durations": f"0.5 h, {wait} h", "at": f"{z} m"}
            expected = {"temperature": f"{text(2 * high - low, 5)} degC"}
            name = f"half an hour at 15 bbl/min, then {wait} h of rest, at {z} m"
            out.append(case("well_temperature", name, inputs, expected, {"temperature": "0.2 degC"}, superposed))
    return out


if __name__ == "__main__":
    import scipy

    used = f"mpmath {mp.__version__}, numpy {np.__version__}, scipy {scipy.__version__}"
    write("heat/cylinder_library.toml", "make_heat.py", used, cylinder_cases())
    write("heat/well_library.toml", "make_heat.py", used, well_cases())
