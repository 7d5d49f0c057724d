"""Writes cases/fluid/*_sweep.toml with libraries that are independent of the program.

Water: the formulations of 1995 and 1997 in iapws, the viscosity of 2008 with their densities.
Brine: the polynomials in 40 digits with mpmath, and CoolProp's table fit for sodium chloride at
20 degC. Slurry viscosity: mpmath. Power law: quadrature of the velocity profile.

Run: python cases/oracle/make_fluid.py   (pins in cases/oracle/requirements.txt)
"""

import pathlib

import CoolProp
import iapws
import mpmath as mp
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS95, IAPWS97
from iapws._iapws import _Viscosity

mp.mp.dps = 40
ROOT = pathlib.Path(__file__).resolve().parents[1]


def number(x, digits=12):
    """A number as text, for a case file."""
    return mp.nstr(mp.mpf(x), digits, min_fixed=-6, max_fixed=12).rstrip(".")


def toml_table(d):
    """An inline table; `*` needs quotes as a key."""
    key = lambda k: '"*"' if k == "*" else k
    return "{ " + ", ".join(f'{key(k)} = "{v}"' for k, v in d.items()) + " }"


class CaseFile:
    """Cases made with libraries, collected and written in the order they were made."""

    def __init__(self, path, script, libraries):
        self.path, self.blocks = ROOT / path, []
        self.head = f"# written by cases/oracle/{script}; do not edit\n# {libraries}\n"

    def case(self, name, relation, source, inputs, expected, tolerance, reason):
        """Adds one case of the basis `library`."""
        self.blocks.append(
            f'\n[[case]]\nname = "{name}"\nrelation = "{relation}"\nsource = "{source}"\nbasis = "library"\n'
            f"inputs = {toml_table(inputs)}\nexpected = {toml_table(expected)}\n"
            f'tolerance = {toml_table(tolerance)}\nreason = "{reason}"\n'
        )

    def write(self):
        """Writes the file."""
        self.path.write_text(self.head + "".join(self.blocks))


def water():
    out = CaseFile("fluid/water_sweep.toml", "make_fluid.py", f"iapws {iapws.__version__}")
    states = [(5, 0.101325), (15, 0.101325), (20, 20), (20, 60), (60, 40), (80, 50), (120, 60), (150, 70), (200, 90)]
    for c, p in states:
        inputs = {"temperature": f"{c} degC", "pressure": f"{p} MPa"}
        w = IAPWS97(T=c + 273.15, P=p)
        out.case(
            f"region 1 at {c} degC and {p} MPa", "water_if97", "iapws_library IAPWS97", inputs,
            {
                "density": f"{number(w.rho)} kg/m3",
                "specific_heat": f"{number(w.cp)} kJ/(kg.K)",
                "sound_speed": f"{number(w.w)} m/s",
                "compressibility": f"{number(w.xkappa * 1e-6)} 1/Pa",
                "expansion": f"{number(w.alfav)} 1/K",
            },
            {"density": "1e-8 %", "specific_heat": "1e-8 %", "sound_speed": "1e-8 %", "compressibility": "1e-7 %",
             "expansion": "1e-12 1/K"},
            "same formulation, other code",
        )
        s = IAPWS95(T=c + 273.15, P=p)
        out.case(
            f"the scientific formulation at {c} degC and {p} MPa", "water_if97", "iapws_library IAPWS95 (iapws_r6_95)",
            inputs,
            {
                "density": f"{number(s.rho)} kg/m3",
                "sound_speed": f"{number(s.w)} m/s",
                "isothermal_modulus": f"{number(1e-3 / s.kappa)} GPa",
                "isentropic_modulus": f"{number(s.rho * s.w**2 * 1e-9)} GPa",
            },
            {"density": "0.003 %", "sound_speed": "0.1 %", "isothermal_modulus": "0.3 %", "isentropic_modulus": "0.2 %"},
            "the industrial formulation differs from the scientific one by this much at most here",
        )
        out.case(
            f"viscosity at {c} degC and {p} MPa", "water_viscosity", "iapws_library viscosity 2008 at its density of 1995",
            inputs, {"viscosity": f"{number(_Viscosity(s.rho, c + 273.15) * 1e3)} cP"}, {"viscosity": "0.01 %"},
            "the density comes from the other formulation",
        )
    out.write()


def brine():
    out = CaseFile(
        "fluid/brine_sweep.toml", "make_fluid.py",
        f"mpmath {mp.__version__}, CoolProp {CoolProp.__version__}, iapws {iapws.__version__}",
    )
    source = "mpmath_library, batzle_wang1992 eqs. 27a and 27b in 40 digits"

    def density(t, p, s):
        t, p, s = mp.mpf(t), mp.mpf(p), mp.mpf(s)
        w = 1 + mp.mpf("1e-6") * (
            -80 * t - mp.mpf("3.3") * t**2 + mp.mpf("0.00175") * t**3 + 489 * p - 2 * t * p + mp.mpf("0.016") * t**2 * p
            - mp.mpf("1.3e-5") * t**3 * p - mp.mpf("0.333") * p**2 - mp.mpf("0.002") * t * p**2
        )
        salt = 300 * p - 2400 * p * s + t * (80 + 3 * t - 3300 * s - 13 * p + 47 * p * s)
        return w + s * (mp.mpf("0.668") + mp.mpf("0.44") * s + mp.mpf("1e-6") * salt)

    for t, p in [("20", "0.1"), ("20", "60"), ("80", "50"), ("120", "60"), ("150", "70")]:
        for s in ("0", "0.1", "0.2"):
            rho = density(t, p, s)
            slope = mp.diff(lambda x: density(t, x, s), mp.mpf(p)) / rho
            inputs = {"temperature": f"{t} degC", "pressure": f"{p} MPa", "salt": s}
            out.case(
                f"salt fraction {s} at {t} degC and {p} MPa", "brine_density", source, inputs,
                {"density": f"{number(rho)} g/cm3", "compressibility": f"{number(slope * mp.mpf('1e-6'))} 1/Pa"},
                {"density": "1e-8 %", "compressibility": "1e-7 %"}, "same polynomial, other arithmetic; slope by differences",
            )
        # fresh water against the standard
        out.case(
            f"fresh water against the standard at {t} degC and {p} MPa", "brine_density", "iapws_library IAPWS95 (iapws_r6_95)",
            {"temperature": f"{t} degC", "pressure": f"{p} MPa", "salt": "0"},
            {"density": f"{number(IAPWS95(T=float(t) + 273.15, P=float(p)).rho)} kg/m3"}, {"density": "0.12 %"},
            "the error of the polynomial against the standard in this range",
        )
    for label, t, p in [("76 degF, 12000 psi", 76, 12000), ("198 degF, 12000 psi", 198, 12000), ("198 degF, 2000 psi", 198, 2000)]:
        celsius, mpa = (mp.mpf(t) - 32) / mp.mpf("1.8"), mp.mpf(p) * mp.mpf("6.894757293168361e-3")
        out.case(
            f"a 9.5 lb/gal brine at {label}", "brine_density", source,
            {"temperature": f"{t} degF", "pressure": f"{p} psia", "salt": "0.1907"},
            {"density": f"{number(density(celsius, mpa, '0.1907'))} g/cm3"}, {"density": "1e-8 %"},
            "the three states give 0.271 lb/gal per 100 degF and 0.0161 lb/gal per 1000 psi",
        )
    for s in (5, 10, 20, 23):
        fluid = f"INCOMP::MNA-{s}%"
        rho = PropsSI("D", "T", 293.15, "P", 101325, fluid)
        inputs = {"temperature": "20 degC", "pressure": "0.101325 MPa", "salt": f"{s} %"}
        out.case(
            f"{s} % against a table fit at 20 degC", "brine_density", "coolprop_library INCOMP MNA", inputs,
            {"density": f"{number(rho)} kg/m3"}, {"density": "0.3 %"}, "two independent fits",
        )
        out.case(
            f"strength of a brine as dense as {s} % in the table fit", "brine_strength", "coolprop_library INCOMP MNA",
            {"temperature": "20 degC", "pressure": "0.101325 MPa", "density": f"{number(rho)} kg/m3"},
            {"salt": f"{s} %"}, {"salt": "0.004"},
            "a difference of 0.25 % in density between the two fits is 0.0035 in the salt fraction",
        )
        mu = PropsSI("V", "T", 293.15, "P", 101325, fluid)
        out.case(
            f"viscosity of {s} % against a table fit at 20 degC", "brine_viscosity", "coolprop_library INCOMP MNA",
            {"temperature": "20 degC", "salt": f"{s} %"}, {"viscosity": f"{number(mu * 1e3)} cP"}, {"viscosity": "3 %"},
            "two independent fits",
        )
    for t in (20, 60, 100, 150):
        mu = _Viscosity(IAPWS95(T=t + 273.15, P=5).rho, t + 273.15)
        out.case(
            f"viscosity without salt against the standard at {t} degC", "brine_viscosity", "iapws_library viscosity 2008",
            {"temperature": f"{t} degC", "salt": "0"}, {"viscosity": f"{number(mu * 1e3)} cP"}, {"viscosity": "7.5 %" if t > 100 else "5 %"},
            "the error of the relation against the standard",
        )
    out.write()


def slurry_viscosity():
    out = CaseFile("fluid/slurry_viscosity_sweep.toml", "make_fluid.py", f"mpmath {mp.__version__}")
    packed = mp.mpf("0.63")
    models = {
        "einstein": ("einstein1906", lambda f: 1 + mp.mpf("2.5") * f),
        "krieger_dougherty": ("krieger_dougherty1959", lambda f: mp.exp(-mp.mpf("2.5") * packed * mp.log1p(-f / packed))),
        "eilers": ("eilers1941", lambda f: (1 + mp.mpf("1.25") * f * packed / (packed - f)) ** 2),
    }
    for word, (key, mu) in models.items():
        for f in ("0", "0.01", "0.1", "0.2", "0.4", "0.6"):
            out.case(
                f"{word} at a fraction of {f}", "slurry_viscosity", f"mpmath_library, {key}",
                {"proppant_fraction": f, "model": word, "clean_viscosity": "2 cP"},
                {"relative": number(mu(mp.mpf(f))), "viscosity": f"{number(2 * mu(mp.mpf(f)))} cP"}, {"*": "1e-9 %"},
                "same formula, other arithmetic",
            )
    out.write()


def rheology():
    out = CaseFile("fluid/rheology_sweep.toml", "make_fluid.py", f"mpmath {mp.__version__}")
    for n, k, u, d in (("1", "0.001", "2", "0.1"), ("0.8", "0.02", "1.5", "0.1"), ("0.5", "1", "3", "0.0996"), ("0.3", "4", "4", "0.12")):
        nn, kk, uu, r = mp.mpf(n), mp.mpf(k), mp.mpf(u), mp.mpf(d) / 2
        # mean velocity in a pipe from the wall stress: U = 1/R^2 int rate(r) r^2 dr
        mean = lambda stress: mp.quad(lambda x: (stress * x / r / kk) ** (1 / nn) * x**2, [0, r]) / r**2
        stress = mp.findroot(lambda s: mean(mp.e**s) - uu, mp.log(kk * (4 * uu / r) ** nn))
        stress = mp.e**stress
        wall = (stress / kk) ** (1 / nn)
        out.case(
            f"pipe by its velocity profile, n {n}", "metzner_reed_1955", "mpmath_library quad of the velocity profile",
            {"n": n, "k": f"{k} Pa.s^n", "density": "1000 kg/m3", "velocity": f"{u} m/s", "bore": f"{d} m"},
            {"reynolds": number(16 / (stress / (500 * uu**2))), "wall_shear_rate": f"{number(wall)} 1/s"},
            {"*": "1e-8 %"}, "16/f from the wall stress of the profile",
        )
    out.write()


if __name__ == "__main__":
    rheology()
    water()
    brine()
    slurry_viscosity()
