"""Strings and casing packer: ratings, hung weight, load cases against the envelope."""

import math

from . import formulas as fm
from .units import G, PSI, at, si

V = lambda q: None if q is None else q["value"]
STEEL, EXPANSION, NU = 30e6 * PSI, 6.9e-6 * 1.8, 0.3


def ratings(s, job, program):
    plans = program["strings"]["strings"]
    pairs = {"internal_yield": [], "collapse": [], "body_yield": []}
    weight = []
    t = job.f["setting"]
    for pipe, plan in zip(job.pipes, plans):
        own = {
            "internal_yield": fm.barlow(pipe.grade_yield, pipe.wall, pipe.od),
            "collapse": fm.api_collapse(pipe.grade_yield, pipe.od, pipe.wall),
            "body_yield": pipe.grade_yield * PSI * pipe.steel,
        }
        for k, out in pairs.items():
            out.append((plan["pipe"], V(plan["ratings"][k]["value"]), own[k]))
        inside, outside = si(t["inside_density"]), si(t["outside_density"])
        if pipe.role == "casing":  # cemented; run in the annulus fluid
            inside = outside
        buoyed = G * (pipe.weight + inside * pipe.inside - outside * pipe.outside)
        weight.append((plan["pipe"], V(plan["buoyed_weight"]), buoyed))
    s.worst("internal yield (Barlow), Pa", pairs["internal_yield"], rel=0.001)
    s.worst("collapse (API), Pa", pairs["collapse"], rel=0.002)
    s.worst("body yield, N", pairs["body_yield"], rel=0.001)
    s.worst("buoyed weight per length, N/m", weight, rel=1e-5)
    stated = [at(p.table, "connection_internal") for p in job.pipes if p.role != "casing"]
    lowest = min(
        x
        for x in [p[2] for p, q in zip(pairs["internal_yield"], job.pipes) if q.role != "casing"] + stated
        if x
    )
    s.near(
        "highest treating pressure by internal yield, Pa",
        V(program["strings"]["highest_treating_pressure"]),
        lowest / float(job.f["limits"]["burst_factor"]),
        rel=0.001,
    )


def buoyed_items(job, items):
    t = job.f["setting"]
    inside, outside = si(t["inside_density"]), si(t["outside_density"])
    for i in items:
        if i.kind != "casing-packer":
            bore, body = math.pi / 4 * i.bore**2 * i.length, math.pi / 4 * i.od**2 * i.length
            yield i, G * (i.mass + inside * bore - outside * body)


def hung(s, job, program, items):
    plan, tvd = program["casing_packer"]["hung"], job.survey.tvd
    all_of = list(buoyed_items(job, items))
    total = sum(w for _, w in all_of)
    drop = lambda i: tvd(i.bottom) - tvd(i.top)
    along = sum(w * drop(i) / i.length for i, w in all_of)
    wall = sum(abs(w) * math.sqrt(max(i.length**2 - drop(i) ** 2, 0)) / i.length for i, w in all_of)
    s.near("mass below the casing packer, kg", V(plan["mass"]), sum(i.mass for i, _ in all_of), rel=1e-6)
    s.near("buoyed weight below, as if straight down, N", V(plan["buoyed"]), total, rel=1e-5)
    s.near("buoyed weight below, along the hole, N", V(plan["along_hole"]), along, rel=1e-3)
    s.near("hung weight after lowering, N", V(plan["lowered"]), along - 0.3 * wall, rel=1e-3)
    s.near("hung weight after picking up, N", V(plan["picked_up"]), along + 0.3 * wall, rel=1e-3)
    string = next(p for p in program["strings"]["strings"] if p["role"] == "treating")
    pipe = job.treating
    t = job.f["setting"]
    w = G * (pipe.weight + si(t["inside_density"]) * pipe.inside - si(t["outside_density"]) * pipe.outside)
    s.near(
        "hung weight at the top of the treating string, N",
        V(string["hung"]),
        along + w * tvd(items[-1].top),
        rel=1e-3,
    )
    return along, max(0.0, along - 0.3 * wall)


class Around:
    """Pressures and temperatures of a load case, at a place given by measured and vertical depth."""

    def __init__(self, job, toe):
        self.job, f = job, job.f
        self.heavy = G * max(fm.slurry(si(fl["density"]), g, c)[0] for fl, g, c in job.mixtures())
        self.clean = G * si(job.mixtures()[0][0]["density"])
        t, limits = f["setting"], f["limits"]
        self.inside, self.outside = G * si(t["inside_density"]), G * si(t["outside_density"])
        self.limit, self.trip, self.test = (
            si(limits[k]) for k in ("treating_pressure", "trip", "treating_pressure")
        )
        self.test, self.pore = si(t["test_pressure"]), si(f["rock"]["pore_gradient"])
        self.toe = (toe, job.survey.tvd(toe))
        # The toe is in stage 1, which may have a gradient of its own.
        fracture = job.changes(1)[2] * self.toe[1] + si(f["treatment"]["near_wellbore"])
        self.loss = max(0.0, self.limit + self.clean * self.toe[1] - fracture) / toe

    def bore(self, case, spot):
        md, tvd = spot
        return {
            "run-in": self.inside * tvd,
            "test": self.test + self.inside * tvd,
            "treating": self.limit + self.clean * tvd - self.loss * md,
            "screenout": self.limit + self.heavy * tvd,
            "trip": self.trip + self.heavy * tvd,
            "flowback": 0.0,
        }[case]

    def annulus(self, case, spot):
        limits, t = self.job.f["limits"], self.job.f["setting"]
        held = at(limits, "annulus_pressure", "0 psi")
        top = {
            "test": at(t, "annulus_pressure", "0 psi"),
            "treating": held,
            "screenout": held,
            "flowback": si(limits["annulus_limit"]),
        }
        return top.get(case, 0.0) + self.outside * spot[1]

    def warming(self, case, spot):
        rock = self.job.temperature(spot[1])
        if case in ("run-in", "test"):
            return 0.0
        if case == "flowback":
            return self.job.temperature(self.toe[1]) - rock
        return si(self.job.f["rock"]["pumped_temperature"]) - rock


def parts(job, around, case, bound, below, spots, free, along):
    """Load on the casing packer, down positive, of a case after the packers hold."""
    at_packer, between, above = spots
    liner, string = job.liner, job.treating
    change = lambda side, spot: side(case, spot) - side("run-in", spot)
    outside = around.bore(case, between) if below == "bore" else around.pore * between[1]
    if below == "formation" and job.f["setting"].get("after_setting") == "trapped":
        outside = around.annulus("run-in", between)
    balloon = lambda pipe, dpi, dpo: 2 * NU * (dpi * pipe.inside - dpo * pipe.outside)
    heat = lambda pipe, dt: -STEEL * EXPANSION * dt * pipe.steel
    dpo = outside - around.annulus("run-in", between)
    load = balloon(liner, change(around.bore, between), dpo)
    thermal = heat(liner, around.warming(case, between))
    up = balloon(string, change(around.bore, above), change(around.annulus, above))
    hot = heat(string, around.warming(case, above))
    locked = si(job.f["packer"]["full_set"]) * liner.inside * (1 - 2 * NU) if job.by_pressure else 0.0
    step = change(around.annulus, at_packer) * (liner.outside - string.outside)
    step -= change(around.bore, at_packer) * (liner.inside - string.inside)
    if bound == "down":
        return load + along + locked + max(thermal, 0) + max(-(up + min(hot, 0)), 0) + step
    return load + free + min(thermal, 0) - max(up + max(hot, 0), 0) + step


def casing_packer(s, job, program, items, hung_loads):
    plan, table = program["casing_packer"], job.f["casing_packer"]
    along, free = hung_loads
    first = next(V(st["sleeve"]["ports"]) for st in program["layout"]["stages"] if st["stage"] == 1)
    around = Around(job, first)
    mean = lambda a, b: ((a + b) / 2, job.survey.mean_tvd(a, b))
    end = items[-1].bottom
    element = next(V(st["packer"]["element_top"]) for st in reversed(program["layout"]["stages"]))
    at_packer = (end, job.survey.tvd(end))
    spots = (at_packer, mean(end, element), mean(0.0, items[-1].top))
    rows = [(si(e["differential"]), si(e["tension"]), si(e["compression"])) for e in table["envelope"]]
    load, used, differential = [], [], []
    scale = max(r[1] for r in rows)
    for c in plan["cases"]:
        label = f"{c['case']} {c['bound']}"
        own = c["case"]
        if own in ("run-in", "test"):
            toe = (items[0].top, job.survey.tvd(items[0].top))
            pull = max(around.bore(own, toe) - around.annulus(own, toe), 0) * job.liner.inside
            mine = along + (pull if own == "test" else 0.0)
            under = around.annulus("run-in", at_packer)
        elif own in ("treating", "screenout", "trip", "flowback"):
            mine = parts(job, around, own, c["bound"], c["below_is"], spots, free, along)
            under = around.bore(own, at_packer) if c["below_is"] == "bore" else around.pore * at_packer[1]
        else:
            continue
        dp = under - around.annulus(own, at_packer)
        load.append((label, V(c["load"]), mine))
        differential.append((label, V(c["differential"]), dp))
        used.append((label, V(c["utilisation"]), fm.envelope_use(rows, dp, mine)))
    s.worst("differential across the casing packer, Pa", differential, absolute=2e4)
    s.worst("load on the casing packer, N", load, absolute=0.005 * scale)
    s.worst("use of the casing packer's envelope", used, absolute=0.006)
    most = max(u[2] for u in used)
    s.near(
        "highest use of the envelope", max(V(c["utilisation"]) for c in plan["cases"]), most, absolute=0.006
    )
    s.holds("highest use of the envelope is below 1", most, 1.0, most < 1)


def check(s, job, program, items):
    ratings(s, job, program)
    loads = hung(s, job, program, items)
    casing_packer(s, job, program, items, loads)
