"""The job folder, read on its own: survey by minimum curvature, caliper from the raw rows, joints."""

import csv
import io
import math
import tomllib

import lasio
import numpy as np

from .units import FOOT, INCH, at, si

# Outer diameter in, weight lb/ft -> wall in (API 5CT, casing).
WALL = {(4.5, 13.5): 0.290, (4.5, 11.6): 0.250, (7.0, 29.0): 0.408, (7.0, 26.0): 0.362}
YIELD = {"P110": 110e3, "L80": 80e3}
# Readings no further apart are joined by a straight line.
BRIDGE = 1.0


class Survey:
    """Stations and the arcs between them."""

    def __init__(self, text):
        rows = [r for r in csv.reader(io.StringIO(text)) if r and not r[0].startswith("#")]
        head = [h.lower() for h in rows[0]]
        col = {k: next(i for i, h in enumerate(head) if h.startswith(k)) for k in ("md", "inc", "azi")}
        scale = FOOT if "(ft)" in head[col["md"]] else 1.0
        self.md = np.array([float(r[col["md"]]) * scale for r in rows[1:]])
        inc = np.radians([float(r[col["inc"]]) for r in rows[1:]])
        azi = np.radians([float(r[col["azi"]]) for r in rows[1:]])
        self.t = np.stack([np.sin(inc) * np.cos(azi), np.sin(inc) * np.sin(azi), np.cos(inc)], axis=1)
        self.bend = np.arccos(np.clip((self.t[:-1] * self.t[1:]).sum(axis=1), -1, 1))
        steps = [self._drop(i, 1.0) for i in range(len(self.bend))]
        self.z = np.concatenate([[0.0], np.cumsum(steps)])

    def _drop(self, i, share):
        """Vertical extent of the first share of an arc."""
        length = (self.md[i + 1] - self.md[i]) * share
        whole, part = self.bend[i], self.bend[i] * share
        if part < 1e-12:
            return length * self.t[i][2]
        end = (math.sin(whole - part) * self.t[i] + math.sin(part) * self.t[i + 1]) / math.sin(whole)
        return length * math.tan(part / 2) / part * (self.t[i][2] + end[2])

    def tvd(self, md):
        i = min(max(int(np.searchsorted(self.md, md, side="right")) - 1, 0), len(self.bend) - 1)
        if md > self.md[-1]:
            return self.z[-1] + (md - self.md[-1]) * self.t[-1][2]
        return self.z[i] + self._drop(i, (md - self.md[i]) / (self.md[i + 1] - self.md[i]))

    def sharpest(self, top, bottom):
        """Sharpest bend per length of any arc that a stretch touches."""
        rate = self.bend / np.diff(self.md)
        return rate[(self.md[:-1] < bottom) & (self.md[1:] > top)].max()

    def mean_tvd(self, top, bottom):
        grid = np.linspace(top, bottom, 401)
        return float(np.trapezoid([self.tvd(g) for g in grid], grid) / (bottom - top))


class Caliper:
    """Readings at the tally's depths; bit size where there is none."""

    def __init__(self, path, table, bit, top, bottom):
        las = lasio.read(str(path))
        name = table.get("curve", "CALI")
        scale = {"MM": 1e-3, "IN": INCH, "M": 1.0, "FT": FOOT, "F": FOOT}
        depth = las.index * scale[las.curves[0].unit.upper()]
        size = las[name] * scale[las.curves[name].unit.upper()]
        shift = si(table.get("shift_down", "0 m")) - si(table.get("shift_up", "0 m"))
        good = np.isfinite(size)
        self.z, self.d = depth[good] + shift, size[good]
        self.bit, self.top, self.bottom = bit, top, bottom
        gap = np.diff(self.z) > BRIDGE + 1e-6
        self.gaps = [(self.top, self.z[0]), (self.z[-1], self.bottom)]
        self.gaps += list(zip(self.z[:-1][gap], self.z[1:][gap]))

    def at(self, z):
        z = np.asarray(z, float)
        out = np.interp(z, self.z, self.d)
        for a, b in self.gaps:
            out = np.where((z > a) & (z < b), self.bit, out)
        return out

    def over(self, top, bottom):
        """Readings between two depths with the wall at both ends."""
        top, bottom = max(top, self.top), min(bottom, self.bottom)
        inner = self.z[(self.z > top) & (self.z < bottom)]
        return self.at(np.concatenate([[top], inner, [bottom]]))

    def even(self, top, bottom):
        """Wall at evenly spaced depths, for shares of length."""
        return self.at(np.linspace(top, bottom, 4001))


class Pipe:
    """One string of the job file."""

    def __init__(self, table):
        self.table, self.role = table, table["role"]
        self.top, self.bottom = si(table["top"]), si(table["bottom"])
        self.od, self.weight = si(table["od"]), si(table["weight"])
        lb_ft = round(self.weight / (0.45359237 / FOOT), 2)
        self.wall = WALL[(round(self.od / INCH, 3), lb_ft)] * INCH
        self.bore = self.od - 2 * self.wall
        self.roughness = si(table.get("roughness", "0.0018 in"))
        self.grade_yield = YIELD[table["grade"]] * float(table.get("yield_factor", 1))
        self.inside = math.pi / 4 * self.bore**2
        self.outside = math.pi / 4 * self.od**2
        self.steel = self.outside - self.inside


class Job:
    """Everything of a job folder that the checks need."""

    def __init__(self, folder):
        self.f = tomllib.loads((folder / "job.toml").read_text())
        self.survey = Survey((folder / self.f["survey"]["file"]).read_text())
        hole = self.f["hole"]
        self.depth = si(hole["total_depth"])
        opened = next(s for s in hole["section"] if s["kind"] == "open")
        self.shoe_of_casing = si(opened["top"])
        self.cased = si(next(s for s in hole["section"] if s["kind"] == "cased")["diameter"])
        table = hole["caliper"]
        bit, ends = si(opened["diameter"]), (si(opened["top"]), si(opened["bottom"]))
        self.caliper = Caliper(folder / table["file"], table, bit, *ends)
        self.caliper_sigma = si(table.get("sigma", "0.05 in"))
        self.depth_sigma = si(hole.get("depth_sigma", "5 ft"))
        self.pipes = [Pipe(t) for t in self.f["string"]]
        self.liner = next(p for p in self.pipes if p.role == "liner")
        self.treating = next(p for p in self.pipes if p.role == "treating")
        self.loss = si(self.f["tally"].get("make_up_loss", "0 ft"))
        self.joints, self.pups = self._joints((folder / self.f["tally"]["file"]).read_text())
        self.pups += [si(p) for p in self.f["tally"].get("pup", [])]
        self.shoe = self.depth - si(self.f["system"]["rathole"])
        self.by_pressure = self.f["system"]["kind"] == "hydraulic-set"

    @staticmethod
    def _joints(text):
        """Lengths as strapped, in order: joints (markers among them), and pups."""
        rows = [r for r in csv.reader(io.StringIO(text)) if r and not r[0].startswith("#")]
        length = next(i for i, h in enumerate(rows[0]) if h.startswith("Length"))
        scale = FOOT if "(ft)" in rows[0][length] else 1.0
        kind = rows[0].index("Type")
        joints = [(r[0], float(r[length]) * scale) for r in rows[1:] if r[kind] != "pup"]
        return joints, [float(r[length]) * scale for r in rows[1:] if r[kind] == "pup"]

    def sigma(self, depth):
        return self.depth_sigma * depth / self.depth

    def temperature(self, tvd):
        """Undisturbed rock, straight with vertical depth."""
        r = self.f["rock"]
        top, low = si(r["surface_temperature"]), si(r["bottom_temperature"])
        return top + (low - top) * tvd / si(r["bottom_temperature_depth"])

    def fluid(self, name):
        return next(f for f in self.f["fluid"] if f["name"] == name)

    def proppant(self, name):
        return next(p for p in self.f["proppant"] if p["name"] == name)

    def changes(self, stage):
        """Rate wanted, scale of volumes and fracture gradient of a stage."""
        rate, scale = si(self.f["treatment"]["rate"]), 1.0
        gradient = si(self.f["rock"]["fracture_gradient"])
        for c in self.f["treatment"].get("change", []):
            if c["from_stage"] <= stage <= c["to_stage"]:
                rate = at(c, "rate") or rate
                scale *= float(c.get("scale", 1))
                gradient = at(c, "fracture_gradient") or gradient
        return rate, scale, gradient

    def mixtures(self):
        """Start and end of every step: fluid, grain density or none, concentration."""
        out = []
        for s in self.f["treatment"]["step"]:
            grain = si(self.proppant(s["proppant"])["grain_density"]) if "proppant" in s else None
            for end in ("from", "to"):
                out.append((self.fluid(s["fluid"]), grain, si(s.get(end, "0 ppa"))))
        return out
