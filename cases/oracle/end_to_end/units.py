"""Quantities of a job file as text with unit, to SI, with exact constants."""

import re

INCH, FOOT, POUND, G = 0.0254, 0.3048, 0.453_592_37, 9.806_65
GALLON = 231 * INCH**3
BARREL = 42 * GALLON
LBF = POUND * G
PSI = LBF / INCH**2
ATM = 101_325.0
RAD = 3.141592653589793 / 180
GAS = 8.314_462_618_153_24
BPM = BARREL / 60
PPG = POUND / GALLON

FACTOR = {
    "": 1, "%": 0.01,
    "in": INCH, "ft": FOOT, "m": 1, "mm": 1e-3, "cm": 1e-2,
    "in2": INCH**2, "cm2": 1e-4, "m2": 1,
    "bbl": BARREL, "m3": 1, "L": 1e-3, "gal": GALLON,
    "psi": PSI, "ksi": 1e3 * PSI, "MPa": 1e6, "kPa": 1e3, "Pa": 1, "GPa": 1e9,
    "psi/ft": PSI / FOOT, "kPa/m": 1e3,
    "bbl/min": BPM, "m3/min": 1 / 60,
    "lb/gal": PPG, "ppa": PPG, "g/cm3": 1e3, "kg/m3": 1,
    "lb/ft": POUND / FOOT, "kg/m": 1,
    "lb": POUND, "kg": 1, "t": 1e3, "klb": 1e3 * POUND,
    "lbf": LBF, "klbf": 1e3 * LBF, "kN": 1e3, "N": 1,
    "s": 1, "min": 60, "h": 3600, "d": 86400,
    "hp": 550 * FOOT * LBF, "kW": 1e3, "W": 1,
    "cP": 1e-3, "mPa.s": 1e-3, "Pa.s": 1, "Pa.s^n": 1,
    "deg": RAD, "deg/100ft": RAD / (100 * FOOT), "deg/30m": RAD / 30,
    "kJ/mol": 1e3, "mm/h": 1e-3 / 3600,
    "W/(m.K)": 1, "MJ/(m3.K)": 1e6,
}  # fmt: skip

NUMBER = re.compile(r"^\s*([+-]?[\d.]+(?:[eE][+-]?\d+)?)(?:-(\d+)/(\d+)|/(\d+))?\s*(.*)$")


def si(text):
    """A quantity in SI; a bare number is a pure number. Temperatures are absolute."""
    if isinstance(text, bool) or text is None:
        raise ValueError(f"no quantity: {text!r}")
    if isinstance(text, (int, float)):
        return float(text)
    whole, num, den, below, unit = NUMBER.match(text).groups()
    value = float(whole)
    if num:
        value += float(num) / float(den)
    elif below:
        value /= float(below)
    unit = unit.strip()
    if unit == "degF":
        return (value + 459.67) / 1.8
    if unit == "degC":
        return value + 273.15
    return value * FACTOR[unit]


def at(table, key, default=None):
    """A field of a table in SI."""
    value = table.get(key, default)
    return None if value is None else si(value)
