"""Setting: windows of the devices, their order, volumes, activation fluid, swell."""

import math

import numpy as np
from scipy.interpolate import PchipInterpolator

from . import formulas as fm
from .tally import path_to
from .units import ATM, G, GAS, at, si

V = lambda q: None if q is None else q["value"]
Z90 = 1.2815515655446004


def span(device):
    """What a device may act at: lot in full, two standard deviations of the mean of its pins."""
    nominal = si(device["nominal"]) * float(device.get("temperature_factor", 1))
    half = si(device["lot_bias"]) + 2 * float(device.get("pin_scatter", 0)) / math.sqrt(
        int(device.get("pins", 1))
    )
    return nominal * (1 - half), nominal, nominal * (1 + half)


def devices(s, job, program):
    f, t = job.f, job.f["setting"]
    inside, outside = si(t["inside_density"]), si(t["outside_density"])
    held, pore = at(t, "annulus_pressure", "0 psi"), si(f["rock"]["pore_gradient"])
    tables = {
        "isolation": f["toe"].get("isolation"),
        "casing-packer": f["casing_packer"]["start"],
        "packer": f["packer"].get("start"),
    }
    tables["pressure-sleeve"] = f["toe"].get("pressure_sleeve", {}).get("opening")
    full = {"casing-packer": si(f["casing_packer"]["full_set"]), "packer": at(f["packer"], "full_set")}
    low, nominal, high, done, groups = [], [], [], [], {}
    for d in program["setting"]["devices"]:
        kind, table = d["device"], tables[d["device"]]
        tvd = job.survey.tvd(V(d["depth"]))
        annulus = held + outside * G * tvd
        against = (
            pore * tvd if kind == "pressure-sleeve" and t.get("after_setting") == "formation" else annulus
        )
        if table.get("reference") == "absolute":
            against = -ATM
        at_surface = [p + against - inside * G * tvd for p in span(table)]
        label = f"{kind} {d['stage'] or ''}".strip()
        for out, key, value in zip((low, nominal, high), ("low", "nominal", "high"), at_surface):
            out.append((label, V(d[key]), value))
        end = at_surface[2]
        if full.get(kind):
            fully = full[kind] + annulus - inside * G * tvd
            done.append((label, V(d["full_set_at"]), fully))
            end = max(end, fully)
        a, b = groups.get(kind, (math.inf, -math.inf))
        groups[kind] = (min(a, at_surface[0]), max(b, end))
    s.worst("device may act from, at surface, Pa", low, rel=1e-5)
    s.worst("device at nominal, at surface, Pa", nominal, rel=1e-5)
    s.worst("device has acted by, at surface, Pa", high, rel=1e-5)
    s.worst("device set fully, at surface, Pa", done, rel=1e-5)
    order = [k for k in ("isolation", "casing-packer", "packer", "pressure-sleeve") if k in groups]
    room = [(groups[b][0] - groups[a][1] - si(t["margin"]), b) for a, b in zip(order, order[1:])]
    if room:
        least, before = min(room)
        s.near(
            "least room between devices, margin off, Pa", V(program["setting"]["least_room"]), least, rel=1e-4
        )
        s.holds(f"devices act in their order with the margin ({before}), Pa", least, 0.0, least >= 0)
    if "pressure-sleeve" in groups:
        test = si(t["test_pressure"])
        s.holds(
            "pressure sleeve stays shut in the test with the margin, Pa",
            groups["pressure-sleeve"][0],
            test + si(t["margin"]),
            groups["pressure-sleeve"][0] >= test + si(t["margin"]),
        )
        s.holds(
            "pressure sleeve opens below the treating limit, Pa",
            groups["pressure-sleeve"][1],
            si(f["limits"]["treating_pressure"]),
            groups["pressure-sleeve"][1] <= si(f["limits"]["treating_pressure"]),
        )
    first = [k for k in order if k != "pressure-sleeve"][0]
    return groups[first][0]


def volumes(s, job, program, items):
    f, plan = job.f, program["setting"]
    toe = items[0].top
    path = path_to(job, items, toe)
    volume = sum(math.pi / 4 * b**2 * l for b, _, l, _ in path)
    s.near("string volume down to the toe tool, m3", V(plan["string_volume"]), volume, rel=1e-6)
    tvd = job.survey.tvd(toe / 2)
    pressure = si(f["setting"]["test_pressure"]) / 2 + si(f["setting"]["inside_density"]) * G * tvd + ATM
    kt, _ = fm.water(job.temperature(tvd), pressure)
    give = sum(math.pi / 4 * b**2 * l * (1 / kt + fm.wall_compliance(b, od)) for b, od, l, _ in path) / volume
    s.near("compressibility of fluid and walls, 1/Pa", V(plan["compressibility"]), give, rel=0.003)
    rows = [r for r in plan["sheet"] if r["volume_held"] is not None and r["target"] and V(r["target"]) > 0]
    s.worst(
        "volume held at a target, m3",
        [(r["action"], V(r["volume_held"]), V(r["target"]) * give * volume) for r in rows],
        rel=0.003,
    )
    bad = [
        r["action"]
        for r in plan["sheet"]
        if r["target"] is not None and not V(r["low"]) - 1 <= V(r["target"]) <= V(r["high"]) + 1
    ]
    s.same("steps of the sheet whose target is outside its bounds", len(bad), 0)
    empty = [
        r["action"] for r in plan["sheet"] if r["target"] is None and r["action"] not in ("rig-off", "wait")
    ]
    s.same("steps of the sheet without room", len(empty), 0)
    end = (
        (si(f["setting"]["test_pressure"]) + si(f["setting"]["inside_density"]) * G * job.survey.tvd(toe))
        * math.pi
        / 4
        * job.liner.bore**2
    )
    tvd = job.survey.tvd(toe)
    annulus = si(f["setting"]["outside_density"]) * G * tvd
    least = min(
        annulus,
        si(f["rock"]["pore_gradient"]) * tvd if f["setting"].get("after_setting") == "formation" else annulus,
    )
    s.near(
        "pull of the closed toe in the test, N",
        V(plan["end_load"]),
        end - least * math.pi / 4 * job.liner.bore**2,
        rel=1e-5,
    )


def annulus(job, top, bottom, od):
    z = np.arange(top, bottom, 0.02)
    z = np.append(z, bottom)
    area = math.pi / 4 * np.maximum(job.caliper.at(z) ** 2 - od**2, 0)
    return float(np.trapezoid(area, z))


def activation(s, job, program, items):
    plan, t = program["setting"]["activation"], job.f["setting"]["activation"]
    shoe = job.shoe_of_casing
    open_hole = sum(annulus(job, max(i.top, shoe), i.bottom, i.od) for i in items if i.bottom > shoe)
    s.near("annulus of the open hole by the caliper, m3", V(plan["open_hole"]), open_hole, rel=0.002)
    s.near("activation fluid, m3", V(plan["volume"]), open_hole * (1 + float(t["excess"])), rel=0.002)
    string = sum(math.pi / 4 * b**2 * l for b, _, l, _ in path_to(job, items, items[0].top))
    s.near("displacement behind the activation fluid, m3", V(plan["displacement"]), string, rel=1e-6)
    s.near(
        "time to pump both, s",
        V(plan["pump_time"]),
        (open_hole * (1 + float(t["excess"])) + string) / si(t["rate"]),
        rel=0.002,
    )


class Swell:
    """The supplier's curve on an Arrhenius clock, with its spreads."""

    def __init__(self, job):
        t, a = job.f["packer"]["swell"], job.f["setting"]["activation"]
        self.job, self.table = job, t
        times = np.array([si(r["time"]) for r in t["row"]])
        ods = np.array([si(r["od"]) for r in t["row"]])
        grid = np.unique(np.concatenate([np.linspace(0, times[-1], 60001), times]))
        self.grid, self.od = grid, PchipInterpolator(times, ods)(grid)
        self.dry, self.last = ods[0], ods[-1]
        self.until, self.start = si(a["warm_up"]), si(job.f["rock"]["pumped_temperature"])
        rng = np.random.default_rng(1)
        self.z = rng.standard_normal((4, 40000))

    def rate(self, energy, temperature):
        return np.exp(-energy / GAS * (1 / temperature - 1 / si(self.table["temperature"])))

    def times(self, hole, growth, energy, rock):
        """When free diameter reaches a hole; endless beyond the last reading."""
        need = self.dry + (hole - self.dry) / growth
        lab = np.where(need > self.last, np.inf, np.interp(need, self.od, self.grid))
        share = np.linspace(0, 1, 201)
        warm = self.start + (rock - self.start) * share
        counted = np.trapezoid(self.rate(np.asarray(energy)[..., None], warm), share * self.until, axis=-1)
        return np.where(lab > counted, self.until + (lab - counted) / self.rate(energy, rock), self.until)

    def samples(self, hole, beyond, rock, own=None):
        """Times of all samples; with `own` the growth, hole and caliper are this packer's, the lot is shared."""
        t, (a, b, c, d) = self.table, self.z
        if own is not None:
            a, c, d = np.random.default_rng([2, own]).standard_normal((3, self.z.shape[1]))
        side = np.where(c < 0, hole[1] - hole[0], hole[2] - hole[1]) / Z90
        size = hole[1] + side * c + self.job.caliper_sigma * d + beyond
        energy = si(t["activation_energy"]) + si(t["activation_energy_sigma"]) * b
        return self.times(size, 1 + float(t["swell_sigma"]) * a, energy, rock)


def swell(s, job, program):
    plan, model = program["setting"]["swell"], Swell(job)
    t = job.f["packer"]["swell"]
    places = {st["stage"]: st["packer"] for st in program["layout"]["stages"]}
    middle, out, latest = [], {k: [] for k in ("p10", "p50", "p90")}, np.zeros(model.z.shape[1])
    for p in plan["packers"]:
        place, label = places[p["stage"]], f"packer {p['stage']}"
        mid = (V(place["element_top"]) + V(place["element_bottom"])) / 2
        rock = job.temperature(job.survey.tvd(mid))
        hole = np.quantile(
            job.caliper.even(V(place["element_top"]), V(place["element_bottom"])), [0.1, 0.5, 0.9]
        )
        energy, beyond = si(t["activation_energy"]), si(t["rating_interference"])
        middle.append(
            (f"{label} contact", V(p["contact_middle"]), float(model.times(hole[1], 1.0, energy, rock)))
        )
        middle.append(
            (
                f"{label} rating",
                V(p["rating_middle"]),
                float(model.times(hole[1] + beyond, 1.0, energy, rock)),
            )
        )
        for key, extra in (("contact", 0.0), ("rating", beyond)):
            q = np.quantile(model.samples(hole, extra, rock), [0.1, 0.5, 0.9])
            for k, value in zip(out, q):
                out[k].append((f"{label} {key}", V(p[key][k]), value))
        latest = np.maximum(latest, model.samples(hole, beyond, rock, own=p["stage"]))
    s.worst("time to contact and rating, all at the middle, s", middle, rel=0.01)
    s.worst("time to contact and rating, P50, s", out["p50"], rel=0.02)
    s.worst("time to contact and rating, P10, s", out["p10"], rel=0.05)
    s.worst("time to contact and rating, P90, s", out["p90"], rel=0.06)
    ready = dict(zip(("p10", "p50", "p90"), np.quantile(latest, [0.1, 0.5, 0.9])))
    for key, value in ready.items():
        s.near(f"all packers together have their rating, {key.upper()}, s", V(plan["ready"][key]), value, rel=0.04)
    s.near("earliest first frac ball, s", V(plan["earliest_frac"]), ready["p90"], rel=0.04)
    wait = si(job.f["setting"]["activation"]["planned_wait"])
    share = float(np.mean(latest <= wait))
    s.holds(
        "share of samples with all packers ready at the planned wait, off by",
        abs(plan["ready_at_wait"]["value"] - share),
        0.05,
        abs(plan["ready_at_wait"]["value"] - share) <= 0.05,
    )
    s.holds("planned wait covers it, s", wait, ready["p90"], wait >= ready["p90"])


def check(s, job, program, items):
    lowest = devices(s, job, program)
    share = float(job.f["setting"].get("circulating_share", 0.6))
    limit = V(program["setting"]["circulating_limit"])
    s.holds(
        "circulating stays below the lowest that may act, Pa", limit, lowest, limit < lowest * (share + 0.1)
    )
    volumes(s, job, program, items)
    if program["setting"]["activation"]:
        activation(s, job, program, items)
        swell(s, job, program)
