"""Writes cases/packer/uptake_library.toml, swell_library.toml and gel_library.toml.

Uptake is inverted from its Laplace transform with mpmath (the program sums a series over
Bessel roots); the sheet is summed in complementary error functions. Equivalent times are
quadratures, curves are scipy's monotone cubic, fits scipy's least squares, gels mpmath roots.

Run from anywhere: python cases/oracle/make_packer.py   (pins in cases/oracle/requirements.txt)
"""

import mpmath as mp
import numpy as np
import scipy
from make_heat import case, invert, text, write
from scipy.interpolate import PchipInterpolator, RegularGridInterpolator
from scipy.optimize import brentq, least_squares

R = 8.31446261815324
DAY = 86400.0
CRANK = "crank1975 ch. 5"
FULL = {"pipe": "4.5 in", "outer": "5.75 in", "full": "6.9 in"}
CLOCK = {"activation_energy": "40 kJ/mol", "reference_temperature": "80 degC"}
D_REF = 1e-10
INCH = 0.0254


def sheet(x):
    """Uptake of a sheet at D t/h², by images."""
    x = mp.mpf(x)
    ierfc = lambda z: mp.exp(-z * z) / mp.sqrt(mp.pi) - z * mp.erfc(z)
    images = mp.fsum((-1) ** n * ierfc(n / mp.sqrt(x)) for n in range(1, 40))
    return 2 * mp.sqrt(x) * (1 / mp.sqrt(mp.pi) + 2 * images)


def plain_sheet(x):
    """The same in doubles, by the series."""
    m = (2 * np.arange(400) + 1) ** 2 * np.pi**2
    return 1 - np.sum(8 / m * np.exp(-m * x / 4))


def ring(ratio, x):
    """Uptake of a ring sealed inside at D t/h², by inversion."""
    a = 1 / (mp.mpf(ratio) - 1)
    b = a + 1

    def transform(s):
        z = mp.sqrt(s)
        top = mp.besseli(1, z * b) * mp.besselk(1, z * a) - mp.besselk(1, z * b) * mp.besseli(1, z * a)
        bottom = mp.besseli(0, z * b) * mp.besselk(1, z * a) + mp.besselk(0, z * b) * mp.besseli(1, z * a)
        return 2 * b / (z * s * (b * b - a * a)) * top / bottom

    return invert(transform, x)


def ring_series(ratio):
    """Uptake of a ring as a fast function: scipy's Bessel functions, 200 roots."""
    from scipy.special import j0, j1, y0, y1

    a = 1 / (ratio - 1)
    b = a + 1
    f = lambda k: j0(k * b) * y1(k * a) - y0(k * b) * j1(k * a)
    roots = np.array([brentq(f, (n - 0.5) * np.pi, n * np.pi, xtol=1e-14) for n in range(1, 201)])
    u = j1(roots * b) * y1(roots * a) - y1(roots * b) * j1(roots * a)
    v = 2 / (np.pi * roots * a)
    weights = 4 * b * b * u * u / (roots**2 * (b * b - a * a) * (b * b * u * u - a * a * v * v))
    return lambda x: 1 - np.sum(weights * np.exp(-(roots**2) * x))


def uptake_cases():
    out = []
    sheet_proof = ("crank1975 sec. 4.3", "summed by images with mpmath, a form apart from the program's")
    ring_proof = (CRANK, "inversion of the transform with mpmath; the program sums a series of Bessel roots")
    unit = {"diffusivity": "0.0000000001 m2/s"}
    for x in "0.0001 0.01 0.029 0.031 0.05 0.1 0.2 0.5 1 2".split():
        inputs = {"thickness": "0.01 m", "time": f"{float(x) * 1e6:.6g} s"} | unit
        expected = {"uptake": text(sheet(x))}
        out.append(case("sheet_uptake", f"sheet at D t/h2 = {x}", inputs, expected, {"uptake": "1e-9"}, sheet_proof))
    for share in ("0.5", "0.9"):
        x = mp.findroot(lambda x: sheet(x) - mp.mpf(share), (0.1, 0.9), solver="anderson")
        inputs = {"thickness": "0.01 m", "uptake": share} | unit
        expected = {"time": f"{text(x * 10**6)} s"}
        name = f"sheet to {share}"
        out.append(case("sheet_uptake_time", name, inputs, expected, {"time": "0.001 s"}, sheet_proof))
    for ratio in ("1.1", "1.25", "1.278", "1.5", "2"):
        h = (float(ratio) - 1) / 20
        body = {"pipe": "0.1 m", "outer": f"{float(ratio) / 10:.6g} m"} | unit
        extra = "0.001 0.0099 0.0101 " if ratio == "1.278" else ""
        for x in (extra + "0.01 0.05 0.1 0.2 0.5 1").split():
            inputs = body | {"time": f"{text(float(x) * h * h / D_REF, 15)} s"}
            expected = {"uptake": text(ring(ratio, x))}
            name = f"ring {ratio} at D t/h2 = {x}"
            out.append(case("cylinder_uptake", name, inputs, expected, {"uptake": "1e-7"}, ring_proof))
        series = ring_series(float(ratio))
        for share in ("0.5", "0.9"):
            x = brentq(lambda x: series(x) - float(share), 0.05, 2, xtol=1e-13)
            expected = {"time": f"{text(x * h * h / D_REF)} s"}
            proof = (CRANK, "200 terms with scipy's Bessel functions")
            inputs, name = body | {"uptake": share}, f"ring {ratio} to {share}"
            out.append(case("cylinder_uptake_time", name, inputs, expected, {"time": "0.0001 %"}, proof))
    for name, radial, length, days in (("short", "0.5", "0.5 m", "10"), ("long wait", "0.2", "0.2 m", "400")):
        ends = sheet(D_REF * float(days) * DAY / (float(length.split()[0]) / 2) ** 2)
        inputs = {"radial": radial, "length": length, "time": f"{days} d"} | unit
        expected = {"uptake": text(1 - (1 - mp.mpf(radial)) * (1 - ends))}
        proof = ("crank1975 ch. 2, 4", "product of the unfilled shares, the sheet summed by images")
        out.append(case("open_end_uptake", f"open ends, {name}", inputs, expected, {"uptake": "1e-9"}, proof))
    return out


def rate(kelvin, energy=40e3, reference=353.15):
    return np.exp(-energy / R * (1 / kelvin - 1 / reference))


def equivalent(times, celsius, start, end, energy=40e3):
    """Equivalent time in days by adaptive quadrature between the marks."""
    marks = sorted({start, end, *(t for t in times if start < t < end)})
    kelvin = lambda t: np.interp(float(t), times, celsius) + 273.15
    return float(mp.quad(lambda t: mp.mpf(rate(kelvin(t), energy)), marks))


HISTORIES = {
    "two days cool, three warming": ([0, 2, 5], [40, 40, 90]),
    "cooled by circulation, then back": ([0, 0.2, 6, 20], [92, 25, 70, 92]),
}


def clock_cases():
    out = []
    for celsius in (40, 60, 80, 100, 120):
        inputs = CLOCK | {"temperature": f"{celsius} degC"}
        expected = {"factor": text(rate(celsius + 273.15))}
        proof = ("arrhenius_1889", "evaluated with numpy")
        out.append(case("arrhenius_shift", f"to {celsius} degC", inputs, expected, {"factor": "1e-9"}, proof))
    proof = ("crank1975 sec. 7.1", "adaptive quadrature with mpmath")
    for name, (times, celsius) in HISTORIES.items():
        listed = {"times": ", ".join(f"{t} d" for t in times)}
        listed["temperatures"] = ", ".join(f"{c} degC" for c in celsius)
        for start, end, energy in ((0, 5, 40), (0.7, 3.1, 40), (0, 12, 95), (0, 4, 0)):
            value = equivalent(times, celsius, start, end, energy * 1e3)
            inputs = listed | CLOCK | {"activation_energy": f"{energy} kJ/mol", "from": f"{start} d", "to": f"{end} d"}
            title = f"{name}, {start} to {end} d at {energy} kJ/mol"
            tolerance = {"time": "1e-8 d"}
            out.append(case("equivalent_time", title, inputs, {"time": f"{text(value, 12)} d"}, tolerance, proof))
    return out


def contact_uptake(hole):
    ratio = (6.9**2 - 4.5**2) / (5.75**2 - 4.5**2)
    return ((hole**2 - 4.5**2) / (5.75**2 - 4.5**2) - 1) / (ratio - 1)


def contact_cases():
    out = []
    series = ring_series(5.75 / 4.5)
    h = 0.625 * INCH
    to = lambda share: brentq(lambda x: series(x) - share, 1e-5, 3, xtol=1e-15) * h * h / D_REF / DAY
    body = FULL | CLOCK | {"diffusivity": "0.0000000001 m2/s"}
    proof = (f"{CRANK}; cai2010; arrhenius_1889", "200 terms with scipy's Bessel functions")
    for hole in ("5.875", "6", "6.125", "6.25", "6.5", "6.75"):
        share = contact_uptake(float(hole))
        for celsius in (60, 80, 100):
            days = to(share) / rate(celsius + 273.15)
            inputs = body | {"hole": f"{hole} in", "temperatures": f"{celsius} degC"}
            expected = {"time": f"{text(days, 8)} d", "uptake": text(share, 8)}
            tolerance = {"time": "0.001 %", "uptake": "1e-7"}
            out.append(case("time_to_contact", f"{hole} in at {celsius} degC", inputs, expected, tolerance, proof))
    for name, (times, celsius) in HISTORIES.items():
        for start in (0.0, 1.5):
            wanted = to(contact_uptake(6.125))
            end = brentq(lambda t: equivalent(times, celsius, start, t) - wanted, start + 1e-6, 40, xtol=1e-10)
            inputs = body | {"hole": "6.125 in", "wetted": f"{start} d"}
            inputs["times"] = ", ".join(f"{t} d" for t in times)
            inputs["temperatures"] = ", ".join(f"{c} degC" for c in celsius)
            expected = {"time": f"{text(end, 8)} d", "equivalent_time": f"{text(wanted, 8)} d"}
            tolerance = {"time": "0.00001 d", "equivalent_time": "0.00001 d"}
            title = f"{name}, wet from day {start}"
            out.append(case("time_to_contact", title, inputs, expected, tolerance, proof))
    volume = ("cai2010, volume balance of a bonded element", "uptake from 200 terms with scipy's Bessel functions")
    for days in ("0.5", "1", "2", "4", "7", "10", "14", "21", "30"):
        share = float(series(D_REF * float(days) * DAY / h**2))
        ratio = (6.9**2 - 4.5**2) / (5.75**2 - 4.5**2)
        b = np.sqrt(4.5**2 + (5.75**2 - 4.5**2) * (1 + (ratio - 1) * share))
        inputs = FULL | {"uptake": text(share, 12)}
        expected = {"diameter": f"{text(b)} in", "volume_ratio": text(ratio)}
        tolerance = {"diameter": "0.0000001 in", "volume_ratio": "1e-8"}
        out.append(case("swell_diameter", f"after {days} d at 80 degC", inputs, expected, tolerance, volume))
    return out


LAB_TIMES = [0, 1, 2, 4, 7, 10, 16, 23, 30]
LAB_OUTERS = [5.75, 6.031, 6.144, 6.297, 6.452, 6.561, 6.561, 6.803, 6.849]


def curve_cases():
    out = []
    curve = PchipInterpolator(LAB_TIMES, LAB_OUTERS)
    lab = {"lab_times": ", ".join(f"{t} d" for t in LAB_TIMES)}
    lab["lab_outers"] = ", ".join(f"{b} in" for b in LAB_OUTERS)
    proof = ("fritsch_butland1984", "scipy's monotone cubic through the same rows")
    for days in ("0", "0.3", "1.7", "5", "8.5", "13", "19", "29.9"):
        expected = {"diameter": f"{text(curve(float(days)))} in", "beyond_rows": "0"}
        tolerance = {"diameter": "1e-8 in", "beyond_rows": "0"}
        inputs = lab | {"time": f"{days} d"}
        out.append(case("swell_curve", f"curve at {days} d", inputs, expected, tolerance, proof))
    tested = {"lab_temperature": "80 degC", "coldest_test": "60 degC", "hottest_test": "100 degC"}
    joined = ("fritsch_butland1984; arrhenius_1889", "scipy's monotone cubic, the clock by division")
    for hole, celsius, beyond in (("6.125", 80, 0), ("6.5", 60, 0), ("6.75", 112, 0), ("6.25", 118, 1), ("6.25", 30, 1)):
        wanted = brentq(lambda t: curve(t) - float(hole), 0, 30, xtol=1e-12)
        inputs = lab | tested | {"activation_energy": "40 kJ/mol", "hole": f"{hole} in"}
        inputs["temperatures"] = f"{celsius} degC"
        days = wanted / rate(celsius + 273.15)
        expected = {"time": f"{text(days, 9)} d", "equivalent_time": f"{text(wanted, 9)} d"}
        expected["beyond_tested"] = str(beyond)
        tolerance = {"time": "1e-6 d", "equivalent_time": "1e-6 d", "beyond_tested": "0"}
        out.append(case("time_to_contact_curve", f"{hole} in at {celsius} degC", inputs, expected, tolerance, joined))
    return out


def fit(function, h, rows, start):
    """Least squares of volume over dry volume with scipy. The bottom of a sum of squares is flat: its place is
    known to about the root of the machine's precision, so the cases carry seven digits of it."""
    t, kelvin, volume = (np.array(column) for column in rows)

    def miss(p):
        x = np.exp(p[0]) * rate(kelvin, p[2] * 1e3) * t / h**2
        return 1 + (p[1] - 1) * np.array([function(v) for v in x]) - volume

    best = least_squares(miss, start, jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[1, 1, 10])
    return best.x, np.sqrt(np.mean(best.fun**2))


NOISE = [0.004, -0.006, 0.002, 0.005, -0.003, -0.005, 0.006, -0.001, 0.003, -0.004, 0.001, -0.002]


def fit_cases():
    out = []
    days = [1, 4, 10, 30] * 3
    celsius = [60] * 4 + [80] * 4 + [100] * 4
    shared = {"times": ", ".join(f"{d} d" for d in days), "temperatures": ", ".join(f"{c} degC" for c in celsius)}
    shared["reference_temperature"] = "80 degC"
    kelvin, seconds = [c + 273.15 for c in celsius], [d * DAY for d in days]
    tolerance = {"diffusivity": "0.01 %", "volume_ratio": "0.0001", "activation_energy": "0.005 kJ/mol", "rms": "0.0000005"}
    jobs = (
        ("swell_fit_element", "rows with scatter", ring_series(5.75 / 4.5), 0.625 * INCH, 2.1354, 1e-10, 40),
        ("swell_fit_coupon", "coupon rows with scatter", plain_sheet, 0.006, 1.82, 2e-11, 28),
    )
    for relation, name, function, h, swell, d, energy in jobs:
        uptake = [function(d * rate(k, energy * 1e3) * t / h**2) for t, k in zip(seconds, kelvin)]
        volume = [round(1 + (swell - 1) * u + n, 4) for u, n in zip(uptake, NOISE)]
        inputs = dict(shared)
        if relation == "swell_fit_element":
            outers = [round(float(np.sqrt(4.5**2 + (5.75**2 - 4.5**2) * v)), 4) for v in volume]
            volume = [(b**2 - 4.5**2) / (5.75**2 - 4.5**2) for b in outers]
            inputs |= {"pipe": "4.5 in", "outer": "5.75 in", "outers": ", ".join(f"{b} in" for b in outers)}
        else:
            inputs |= {"thickness": "6 mm", "volumes": ", ".join(f"{v:.4f}" for v in volume)}
        found, rms = fit(function, h, (seconds, kelvin, volume), [np.log(d) + 0.3, swell + 0.2, energy - 8])
        expected = {"diffusivity": f"{np.exp(found[0]):.6e} m2/s", "volume_ratio": text(found[1], 7)}
        expected |= {"activation_energy": f"{text(found[2], 7)} kJ/mol", "rms": text(rms, 7)}
        proof = ("marquardt1963; scipy_library", "scipy's least squares of the same rows")
        out.append(case(relation, name, inputs, expected, tolerance, proof))
    return out


def gel_cases():
    out = []
    roots = "mpmath root in 20 digits"
    for n, chi in ((100, 0.4), (200, 0.4), (200, 0.5), (50, 0.2)):
        c = mp.mpf("1.06e-4") * n
        balance = lambda v: mp.log(1 - v) + v + chi * v * v + c * (mp.cbrt(v) - v / 2)
        share = mp.findroot(balance, (0.02, 0.6), solver="anderson")
        inputs = {"chains": f"{n} mol/m3", "solvent": "106 cm3/mol", "chi": str(chi)}
        expected = {"rubber_share": text(share), "volume_ratio": text(1 / share)}
        tolerance = {"rubber_share": "1e-8", "volume_ratio": "1e-7"}
        proof = ("flory_rehner1943", roots)
        out.append(case("flory_rehner", f"{n} mol/m3, chi {chi}", inputs, expected, tolerance, proof))
    for chains, chi in (("0.01", "0.1"), ("0.01", "0.4"), ("0.03", "0.4"), ("0.05", "0.5"), ("0.1", "0.5")):
        n, x = mp.mpf(chains), mp.mpf(chi)
        mixing = lambda j: mp.log(1 - 1 / j) + 1 / j + x / j**2
        layer = lambda s: n * (s * s - 1) / s + mixing(s)
        free = mp.findroot(lambda j: n * (mp.cbrt(j) ** 2 - 1) / j + mixing(j), (1.2, 30), solver="anderson")
        bonded = mp.findroot(layer, (1.2, 9), solver="anderson")
        inputs = {"chains": chains, "chi": chi}
        expected = {"volume_ratio": text(free), "bonded_thickness": text(bonded)}
        tolerance = {"volume_ratio": "1e-7", "bonded_thickness": "1e-7"}
        proof = ("cai2010; hong2008", roots)
        out.append(case("gel_swelling", f"chains {chains}, chi {chi}", inputs, expected, tolerance, proof))
        for share in ("0.8", "0.9", "0.95"):
            stop = 1 + mp.mpf(share) * (bonded - 1)
            pressure = -layer(stop) * mp.mpf(str(R)) * 300 / mp.mpf("60.2214e-6")
            inputs = {"chains": chains, "chi": chi, "stretch": text(stop, 14), "temperature": "300 K"}
            inputs["solvent"] = "60.2214 cm3/mol"
            name = f"chains {chains}, chi {chi}, stopped at {share} of the way"
            proof = ("cai2010", "evaluated with mpmath")
            expected, tolerance = {"stress": f"{text(pressure)} Pa"}, {"stress": "0.001 Pa"}
            out.append(case("gel_contact_stress", name, inputs, expected, tolerance, proof))
    return out


def rating_cases():
    holes, celsius = [6.0, 6.25, 6.5, 6.75], [60, 90, 120]
    chart = np.array([[10000, 9000, 7500], [8500, 7600, 6200], [6500, 5600, 4300], [4000, 3300, 2400]], dtype=float)
    read = RegularGridInterpolator((holes, celsius), chart)
    shared = {"holes": ", ".join(f"{h} in" for h in holes), "temperatures": ", ".join(f"{c} degC" for c in celsius)}
    shared["ratings"] = ", ".join(f"{p:.0f} psi" for p in chart.flatten())
    out = []
    proof = ("press2007 sec. 3.6; scipy_library", "scipy's linear interpolation on the same grid")
    for hole, t in ((6.0, 60), (6.1, 75), (6.125, 88), (6.4, 100), (6.75, 120), (6.6, 61)):
        inputs = shared | {"hole": f"{hole} in", "temperature": f"{t} degC"}
        expected = {"rating": f"{text(read((hole, t)))} psi", "outside_chart": "0"}
        tolerance = {"rating": "0.0001 psi", "outside_chart": "0"}
        out.append(case("packer_rating", f"{hole} in at {t} degC", inputs, expected, tolerance, proof))
    return out


if __name__ == "__main__":
    used = f"mpmath {mp.__version__}, numpy {np.__version__}, scipy {scipy.__version__}"
    write("packer/uptake_library.toml", "make_packer.py", used, uptake_cases())
    swell = clock_cases() + contact_cases() + curve_cases() + fit_cases() + rating_cases()
    write("packer/swell_library.toml", "make_packer.py", used, swell)
    write("packer/gel_library.toml", "make_packer.py", used, gel_cases())
