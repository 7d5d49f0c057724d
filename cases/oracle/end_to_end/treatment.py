"""Stage hydraulics, rate ceilings, schedule, totals, and the ball program."""

import math

import numpy as np
from scipy.optimize import brentq

from . import formulas as fm
from .tally import path_to, volume_to
from .units import ATM, BPM, G, at, si

# Fronts between two mixtures: as many as the program looks at, and more, to see whether those are enough.
FRONTS, FINE = 64, 316

V = lambda q: None if q is None else q["value"]


class Line:
    """One stage, ready for any rate and mixture."""

    def __init__(self, job, items, program, place):
        self.job, self.f, f = job, job.f, job.f
        self.stage, self.ports = place["stage"], V(place["sleeve"]["ports"])
        self.tvd = job.survey.tvd(self.ports)
        self.path = path_to(job, items, self.ports)
        self.rate, self.scale, self.gradient = job.changes(self.stage)
        sleeve = f["sleeve"]
        count, port = int(sleeve["ports"]), si(sleeve["port_diameter"])
        if job.by_pressure and self.stage == 1:
            count, port = int(f["toe"]["pressure_sleeve"]["ports"]), si(
                f["toe"]["pressure_sleeve"]["port_diameter"]
            )
        self.area = count * math.pi / 4 * port**2 * float(sleeve.get("port_coefficient", 0.85))
        self.seats = []
        depth = {st["stage"]: V(st["sleeve"]["ports"]) for st in program["layout"]["stages"]}
        for r in program["ladder"]["rungs"]:
            if r["stage"] > self.stage:
                d, bore = V(r["seat"]), si(sleeve["id"])
                thick = sleeve["seat_inlet"] == "thick"
                k = fm.thick_orifice(d, bore, si(sleeve["seat_length"])) if thick else fm.tapered(d, bore)
                self.seats.append((depth[r["stage"]], k / (math.pi / 4 * d**2) ** 2))
        self.seat_sum = sum(k for _, k in self.seats)
        self.fronts, self.path_length = {}, sum(length for _, _, length, _ in self.path)

    def parts(self, rate, mixture):
        fluid, grain, c = mixture
        f = self.job.f["treatment"]
        density, _ = fm.slurry(si(fluid["density"]), grain, c)
        extra = float(f.get("slurry_factor", 1))
        pipe = 0.0
        if rate > 0:
            pipe = sum(
                length * fm.pipe_gradient(rate, b, k, fluid, grain, c, extra) for b, _, length, k in self.path
            )
        near = si(f["near_wellbore"]) * math.sqrt(rate / si(f["rate"]))
        return {
            "fracture": self.gradient * self.tvd,
            "hydrostatic": density * G * self.tvd,
            "pipe": pipe,
            "seats": density / 2 * self.seat_sum * rate**2,
            "ports": density * rate**2 / (2 * self.area**2),
            "near_wellbore": near,
        }

    def surface(self, rate, mixture):
        p = self.parts(rate, mixture)
        return sum(p.values()) - 2 * p["hydrostatic"]

    def along(self, fronts):
        """Fronts along the way: vertical depth, and what lies above of every bore and of the seats."""
        if fronts not in self.fronts:
            self.fronts[fronts] = [self.front(d) for d in np.linspace(0.0, self.path_length, fronts)]
        return self.fronts[fronts]

    def front(self, depth):
        lengths = np.array([length for _, _, length, _ in self.path])
        above = np.clip(depth - (np.cumsum(lengths) - lengths), 0.0, lengths)
        tvd = self.job.survey.tvd(depth) if depth < self.path_length else self.tvd
        return tvd, above, sum(k for d, k in self.seats if d < depth)

    def flowing(self, rate, mixture):
        """Density of a mixture and its friction gradient in every bore."""
        fluid, grain, c = mixture
        extra = float(self.f["treatment"].get("slurry_factor", 1)) if c > 0 else 1.0
        loss = {}
        for bore, _, _, rough in self.path:
            if (bore, rough) not in loss:
                loss[bore, rough] = fm.pipe_gradient(rate, bore, rough, fluid, grain, c, extra)
        density, _ = fm.slurry(si(fluid["density"]), grain, c)
        return density, np.array([loss[b, k] for b, _, _, k in self.path])

    def worst_parts(self, rate, fronts):
        """Parts of the highest surface pressure with any two mixtures that follow each other, and
        clean fluid behind the last, the front between them anywhere along the way."""
        order = self.job.mixtures()
        order.append((order[0][0], None, 0.0))
        flows = [self.flowing(rate, m) for m in order]
        lengths = np.array([length for _, _, length, _ in self.path])
        near = si(self.f["treatment"]["near_wellbore"]) * math.sqrt(rate / si(self.f["treatment"]["rate"]))
        best = None
        for tvd, above, sum_above in self.along(fronts):
            for (low, low_loss), (up, up_loss) in zip(flows, flows[1:]):
                p = {
                    "fracture": self.gradient * self.tvd,
                    "hydrostatic": G * (up * tvd + low * (self.tvd - tvd)),
                    "pipe": float(above @ up_loss + (lengths - above) @ low_loss),
                    "seats": rate**2 / 2 * (up * sum_above + low * (self.seat_sum - sum_above)),
                    "ports": low * rate**2 / (2 * self.area**2),
                    "near_wellbore": near,
                }
                p["surface"] = sum(p.values()) - 2 * p["hydrostatic"]
                if best is None or p["surface"] > best["surface"]:
                    best = p
        return best

    def worst(self, rate):
        return self.worst_parts(rate, FINE)["surface"]

    def behind(self, volume):
        """Mixture of the schedule at a slurry volume before its end."""
        for step in reversed(self.f["treatment"]["step"]):
            fluid = self.job.fluid(step["fluid"])
            a, b = si(step.get("from", "0 ppa")), si(step.get("to", "0 ppa"))
            grain = si(self.job.proppant(step["proppant"])["grain_density"]) if "proppant" in step else None
            length = si(step["clean_volume"]) * self.scale * (1 + ((a + b) / 2 / grain if grain else 0))
            if volume <= length:
                return fluid, grain, round(b + (a - b) * volume / length, 0)
            volume -= length
        return fluid, None, 0.0

    def flush(self, rate):
        """Highest surface pressure while clean fluid drives the last proppant down at a rate: the
        light column above, slurry and its friction still below."""
        f = self.f["treatment"]
        extra, clean = float(f.get("slurry_factor", 1)), (self.job.mixtures()[0][0], None, 0.0)
        cells, top = [], 0.0
        for bore, _, length, rough in self.path:
            parts = max(1, round(length / 100))
            for _ in range(parts):
                cells.append((top, top + length / parts, bore, rough))
                top += length / parts
        tvd = [self.job.survey.tvd(c[0]) for c in cells] + [self.tvd]
        volume = [math.pi / 4 * b**2 * (e - a) for a, e, b, _ in cells]
        seats = self.seats
        cache, most = {}, -math.inf

        def gradient(bore, rough, m):
            key = (bore, m[0]["name"], m[2])
            if key not in cache:
                cache[key] = fm.pipe_gradient(rate, bore, rough, m[0], m[1], m[2], extra)
            return cache[key]

        for front in range(0, len(cells), max(1, len(cells) // 60)):
            filled, surface, density = 0.0, 0.0, 0.0
            for i, (a, e, bore, rough) in enumerate(cells):
                m = clean
                if i >= front:
                    m = self.behind(filled + volume[i] / 2)
                    filled += volume[i]
                density = fm.slurry(si(m[0]["density"]), m[1], m[2])[0]
                surface += gradient(bore, rough, m) * (e - a) - G * density * (tvd[i + 1] - tvd[i])
                surface += sum(k for depth, k in seats if a < depth <= e) * density / 2 * rate**2
            surface += self.gradient * self.tvd + density * rate**2 / (2 * self.area**2)
            surface += si(f["near_wellbore"]) * math.sqrt(rate / si(f["rate"]))
            most = max(most, surface)
        return most

    def ceiling(self):
        """Highest rate within pressure, power and iron."""
        e, limits = self.job.f["equipment"], self.job.f["limits"]
        power = si(e["pump_power"]) * (int(e["pumps"]) - int(e.get("spare_pumps", 1)))
        top, most = si(limits["rate"]), si(limits["treating_pressure"])
        out = [top]
        for over in (lambda q: self.worst(q) - most, lambda q: self.worst(q) * q - power):
            if over(top) > 0:
                out.append(brentq(over, 0.5 * BPM, top, xtol=1e-9))
        return min(out)


def hydraulics(s, job, program, lines):
    stages = program["stages"]["stages"]
    parts = {k: [] for k in ("fracture", "hydrostatic", "pipe", "seats", "ports", "near_wellbore", "surface")}
    clean, closed = [], []
    for line, st in zip(lines, stages):
        q = V(st["planned_rate"])
        ours = line.worst_parts(q, FRONTS)
        for k, out in parts.items():
            out.append((f"stage {line.stage}", V(st["pressure"][k]), ours[k]))
        first = (job.mixtures()[0][0], None, 0.0)
        clean.append((f"stage {line.stage}", V(st["clean_pressure"]), line.surface(q, first)))
        closed.append((f"stage {line.stage}", V(st["shut_in"]), line.surface(0.0, first)))
    words = {
        "pipe": "friction in pipe",
        "seats": "loss in seats",
        "ports": "loss in ports",
        "near_wellbore": "loss near the wellbore",
    }
    for k, out in parts.items():
        if any(b for _, _, b in out):
            rel = {"pipe": 0.005, "surface": 0.005}.get(k, 1e-6)
            s.worst(f"{words.get(k, k)} at the planned rate, Pa", out, rel=rel)
    s.worst("clean pressure at the planned rate, Pa", clean, rel=0.005)
    s.worst("instantaneous shut-in pressure, Pa", closed, rel=1e-6)


def ceilings(s, job, program, lines):
    stages = program["stages"]["stages"]
    pairs, held, planned = [], [], []
    limit = si(job.f["limits"]["treating_pressure"])
    for line, st in zip(lines, stages):
        pairs.append((f"stage {line.stage}", V(st["rate_ceiling"]), line.ceiling()))
        if st["bound_by"] == "pressure":
            held.append((f"stage {line.stage}", line.worst(V(st["rate_ceiling"])), limit))
        wanted = line.rate
        q = (
            wanted
            if wanted <= line.ceiling()
            else math.floor(line.ceiling() / (0.5 * BPM) + 1e-9) * 0.5 * BPM
        )
        planned.append((f"stage {line.stage}", V(st["planned_rate"]), q))
    s.worst("rate ceiling, m3/s", pairs, rel=0.005)
    if held:
        s.worst("pressure at a ceiling held by pressure is the limit, Pa", held, rel=0.005)
    s.worst("planned rate, m3/s", planned, rel=1e-6)
    trip = si(job.f["limits"]["trip"])
    behind, highest, real = [], [], []
    for line, st in zip(lines, stages):
        q = V(st["planned_rate"])
        ours = V(st["pressure"]["surface"])
        highest.append((f"stage {line.stage}", ours, line.worst(q)))
        behind.append((line.flush(q), line.stage))
        real.append((behind[-1][0] - ours, line.stage))
    s.worst("highest treating pressure over a finer search of fronts, Pa", highest, rel=0.005)
    off, stage = max(real)
    s.holds(
        f"highest pressure of the schedule as it really passes, over the planned: stage {stage}, Pa",
        off,
        0.005 * limit,
        off <= 0.005 * limit,
    )
    most, stage = max(behind)
    s.holds(f"the same, stage {stage}, below the pump trip, Pa", most, trip, most < trip)
    over = [n for p, n in behind if p > limit]
    s.holds("stages where it passes the treating limit", len(over), 0, not over)


def schedule(s, job, program, lines):
    plan = program["stages"]
    mass, slurry, time, power = [], [], [], []
    sums = {"clean": 0.0, "slurry": 0.0, "mass": 0.0, "time": 0.0}
    for line, st in zip(lines, plan["stages"]):
        c = v = m = 0.0
        for step in job.f["treatment"]["step"]:
            clean = si(step["clean_volume"]) * line.scale
            mean = (si(step.get("from", "0 ppa")) + si(step.get("to", "0 ppa"))) / 2
            grain = si(job.proppant(step["proppant"])["grain_density"]) if "proppant" in step else 2650.0
            c, m, v = c + clean, m + mean * clean, v + clean + mean * clean / grain
        q = V(st["planned_rate"])
        t = v / q + at(job.f["treatment"], "breakdown_time", "2 min")
        label = f"stage {line.stage}"
        mass.append((label, V(st["mass"]), m))
        slurry.append((label, V(st["slurry"]), v))
        time.append((label, V(st["time"]), t))
        power.append((label, V(st["power"]), line.worst(q) * q))
        for k, x in zip(sums, (c, v, m, t)):
            sums[k] += x
    s.worst("mass of proppant, kg", mass, rel=1e-6)
    s.worst("slurry volume, m3", slurry, rel=1e-6)
    s.worst("time of a stage, s", time, rel=1e-6)
    s.worst("hydraulic power, W", power, rel=0.005)
    totals, e = plan["totals"], job.f["equipment"]
    s.near("mass of proppant of the job, kg", V(totals["mass"]), sums["mass"], rel=1e-6)
    s.near("pumping time of the job, s", V(totals["pump_time"]), sums["time"], rel=1e-6)
    cards = program["balls"]["cards"]
    program_, last = job.f["ball_program"], lines[-1]
    ahead = sum(V(c["spacer_ahead"]) for c in cards if c["launched_during"] > 0)
    behind = si(program_["spacer_behind"]) * (len(lines) - 1)
    flush = sum(math.pi / 4 * b**2 * l for b, _, l, _ in last.path) + si(job.f["launcher"]["line_volume"])
    s.near(
        "clean volume with spacers as on the cards and flush, m3",
        V(totals["clean"]),
        sums["clean"] + ahead + behind + flush,
        rel=0.002,
    )
    reserve = 1 + float(e.get("fluid_reserve", 0.10))
    s.same("tanks", totals["tanks"], math.ceil(V(totals["clean"]) * reserve / si(e["tank_volume"]) - 1e-9))
    most = max(p[2] for p in power)
    s.near("highest hydraulic power, W", V(totals["power"]), most, rel=0.005)
    s.same(
        "pumps needed with spares",
        totals["pumps_needed"],
        math.ceil(most / si(e["pump_power"]) - 1e-9) + int(e.get("spare_pumps", 1)),
    )


def wave(job, path):
    """Mean wave speed along the way in the clean fluid of the first step."""
    f = job.f
    density = si(job.mixtures()[0][0]["density"])
    pressure = si(f["limits"]["treating_pressure"]) / 2 + ATM
    _, modulus = fm.water(si(f["rock"]["pumped_temperature"]), pressure)
    time = sum(l / fm.wave_speed(density, modulus, fm.wall_compliance(b, od)) for b, od, l, _ in path)
    return density, sum(p[2] for p in path) / time


def ball_program(s, job, program, items, lines):
    f, p = job.f, job.f["ball_program"]
    tree = at(f["launcher"], "tree_volume", "0 bbl")
    shear = f["sleeve"]["shear"]
    nominal = si(shear["nominal"]) * float(shear.get("temperature_factor", 1))
    by_stage = {line.stage: line for line in lines}
    out = {k: [] for k in ("swept", "step", "delay", "sigma", "launch", "even")}
    trips, carried, sand, ratio = [], [], [], []
    for card in program["balls"]["cards"]:
        n, label = card["stage"], f"stage {card['stage']}"
        depth = V(card["seat_depth"])
        swept = tree + volume_to(job, items, depth)
        out["swept"].append((label, V(card["swept"]), swept))
        density, speed = wave(job, by_stage[n].path)
        area = math.pi / 4 * job.liner.bore**2
        step = density * speed * V(card["landing_rate"]) / area
        signature = card["chosen"]["signature"]
        out["step"].append((label, V(signature["step"]), step))
        out["delay"].append((label, V(signature["delay"]), depth / speed))
        round_trips = max(0, math.ceil((nominal / step - 1) / 2))
        trips.append((label, V(signature["round_trips"]), round_trips))
        trips.append((label, V(signature["rise"]) / V(signature["step"]), 2 * round_trips))
        r = V(card["landing"]["p50"]) / swept
        ratio.append(r)
        sections = {}
        for b, _, length, _ in by_stage[n].path:
            sections[b] = sections.get(b, 0) + math.pi / 4 * b**2 * length
        square = sum(
            (2 * r * v * float(p.get("bore_sigma", 0.0025))) ** 2 for v in [*sections.values(), tree]
        )
        meter = si(p["meter_sigma"])
        square += (swept * r) ** 2 * (meter**2 + float(p.get("carry_sigma", 0.03)) ** 2)
        square += (r * math.pi / 4 * si(f["sleeve"]["id"]) ** 2 * job.sigma(depth)) ** 2
        out["sigma"].append((label, V(card["sigma"]), math.sqrt(square)))
        low, mid, high = (V(card["landing"][k]) for k in ("p10", "p50", "p90"))
        out["even"].append((label, high - mid, mid - low))
        before = by_stage.get(card["launched_during"])
        if before:
            st = program["stages"]["stages"][before.stage - 1]
            at_meter = V(st["slurry"]) + si(f["launcher"]["line_volume"]) + V(card["spacer_ahead"])
            out["launch"].append((label, V(card["launch_at"]), at_meter))
            ports = tree + volume_to(job, items, before.ports)
            sand.append((V(card["spacer_ahead"]) + low - ports, n))
    s.worst("swept volume to a seat, m3", out["swept"], rel=1e-6)
    s.worst("pressure step of a landing at the seat, Pa", out["step"], rel=0.003)
    s.worst("time from landing to surface, s", out["delay"], rel=0.003)
    s.worst("round trips and rise in steps", trips, absolute=1e-6)
    s.worst("one standard deviation of the landing volume, m3", out["sigma"], rel=0.005)
    s.worst("landing P90 and P10 even about P50, m3", out["even"], rel=1e-6)
    s.worst("launch: slurry, lines and spacer on the meter, m3", out["launch"], rel=1e-6)
    left, n = min(sand)
    s.holds(
        f"last proppant past the open sleeve at the earliest landing: ball {n}, m3", left, 0.0, left >= -1e-6
    )
    s.holds("pumped over swept volume, lowest of all balls, above 0.8", min(ratio), 0.8, min(ratio) > 0.8)
    s.holds("pumped over swept volume, highest of all balls, below 1", max(ratio), 1.0, max(ratio) < 1.0)


def check(s, job, program, items):
    lines = [Line(job, items, program, st) for st in program["layout"]["stages"]]
    s.worst(
        "volume from wellhead to ports, m3",
        [
            (f"stage {l.stage}", V(st["volume_to_ports"]), volume_to(job, items, l.ports))
            for l, st in zip(lines, program["stages"]["stages"])
        ],
        rel=1e-6,
    )
    hydraulics(s, job, program, lines)
    ceilings(s, job, program, lines)
    schedule(s, job, program, lines)
    ball_program(s, job, program, items, lines)
