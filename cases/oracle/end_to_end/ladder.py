"""Balls and seats: clearances, interference, contact, bearing, differentials."""

import math

import numpy as np

from . import formulas as fm
from .units import GAS, INCH, at, si

V = lambda q: None if q is None else q["value"]


def contact(ball, seat, angle):
    """Circle of contact of a sphere on a cone over a bore."""
    return max(ball * math.cos(angle), seat)


def sizes(s, job, rungs):
    f, n = job.f["ladder"], len(rungs)
    small, large = si(f["smallest_ball"]), si(f["largest_ball"])
    if f["method"] == "step":
        balls = [small + i * si(f["step"]) for i in range(n)]
        s.worst(
            "balls of a constant step, m",
            [(f"stage {r['stage']}", V(r["ball"]), b) for r, b in zip(rungs, balls)],
            absolute=1e-9,
        )
        s.worst(
            "interference as drawn, m",
            [(f"stage {r['stage']}", V(r["interference"]), si(f["interference"])) for r in rungs],
            absolute=1e-9,
        )
    else:
        s.near("smallest ball, m", V(rungs[0]["ball"]), small, absolute=1e-9)
        s.near("largest ball, m", V(rungs[-1]["ball"]), large, absolute=1e-9)
        grid = [
            (
                f"stage {r['stage']}",
                V(r["ball"]),
                round(V(r["ball"]) / si(f["increment"])) * si(f["increment"]),
            )
            for r in rungs
        ]
        s.worst("balls on the supplier's increment, m", grid, absolute=1e-9)
        share = np.mean([1 - V(r["seat"]) / V(r["ball"]) for r in rungs])
        drawn = [(f"stage {r['stage']}", V(r["interference"]), share * V(r["ball"])) for r in rungs]
        s.worst("equal stress: interference is one share of the ball, m", drawn, absolute=0.0012 * INCH)


def fits(s, job, rungs):
    f = job.f["ladder"]
    tb, ts = si(f["ball_tolerance"]), si(f["seat_tolerance"])
    nominal, least, own = [], [], []
    for i, r in enumerate(rungs):
        for p, above in zip(r["passages"], rungs[i + 1 :]):
            label = f"ball {r['stage']} through {above['stage']}"
            gap = V(above["seat"]) - V(r["ball"])
            nominal.append((label, V(p["nominal"]), gap))
            least.append((label, V(p["least"]), gap - tb - ts))
        own.append(
            (f"stage {r['stage']}", V(r["greatest_interference"]), V(r["ball"]) - V(r["seat"]) + tb + ts)
        )
        loss = V(r["ball_loss"]) + V(r["seat_growth"])
        own.append(
            (f"stage {r['stage']}", V(r["least_interference"]), V(r["ball"]) - V(r["seat"]) - tb - ts - loss)
        )
    s.same("passages of all balls through all seats above", len(nominal), len(rungs) * (len(rungs) - 1) // 2)
    s.worst("clearance as drawn, m", nominal, absolute=1e-9)
    s.worst("clearance at the worst tolerances, m", least, absolute=1e-9)
    s.worst("interference at both ends of tolerances and wear, m", own, absolute=1e-9)
    wanted = at(f, "clearance", "0.020 in")
    s.holds(
        "least clearance as drawn over the one wanted, m",
        min(p[2] for p in nominal),
        wanted,
        min(p[2] for p in nominal) >= wanted - 1e-9,
    )
    if f["method"] == "equal-stress":
        s.holds(
            "least clearance at the worst over the one wanted, m",
            min(p[2] for p in least),
            wanted,
            min(p[2] for p in least) >= wanted - 1e-9,
        )


def loads(s, job, program, rungs):
    f, places = job.f, {st["stage"]: st for st in program["layout"]["stages"]}
    tvd = {n: job.survey.tvd(V(st["sleeve"]["ports"])) for n, st in places.items()}
    heavy = max(fm.slurry(si(fl["density"]), g, c)[0] for fl, g, c in job.mixtures())
    light = min(si(fl["density"]) for fl, _, _ in job.mixtures())
    pore, g = si(f["rock"]["pore_gradient"]), 9.80665
    sleeve = f["sleeve"]
    area = (
        int(sleeve["ports"])
        * math.pi
        / 4
        * si(sleeve["port_diameter"]) ** 2
        * float(sleeve.get("port_coefficient", 0.85))
    )
    angle, beta = si(sleeve["seat_angle"]), {}
    tb, ts = si(f["ladder"]["ball_tolerance"]), si(f["ladder"]["seat_tolerance"])
    out = {k: [] for k in ("expected", "worst", "circle", "force", "bearing", "rating")}
    table = f["ball"]["strength"]
    for r in rungs:
        n = r["stage"]
        rate, _, gradient = job.changes(n)
        near = si(f["treatment"]["near_wellbore"]) * math.sqrt(rate / si(f["treatment"]["rate"]))
        treating = gradient * tvd[n] + near + heavy * rate**2 / (2 * area**2)
        below = pore * tvd[n - 1] if n > 1 else min(pore, light * g) * tvd[n]
        dp = treating - below
        out["expected"].append((f"stage {n}", V(r["expected_differential"]), dp))
        top = si(f["limits"]["treating_pressure"]) + heavy * g * tvd[n]
        out["worst"].append((f"stage {n}", V(r["worst_differential"]), top - below))
        circle = contact(V(r["ball"]), V(r["seat"]), angle)
        out["circle"].append((f"stage {n}", V(r["contact_circle"]), circle))
        out["force"].append((f"stage {n}", V(r["force_at_expected"]), dp * math.pi / 4 * circle**2))
        ball, seat = V(r["ball"]) - tb - V(r["ball_loss"]), V(r["seat"]) + ts + V(r["seat_growth"])
        worst = contact(ball, seat, angle) ** 2 / (ball**2 - seat**2)
        out["bearing"].append((f"stage {n}", V(r["bearing_at_expected"]), dp * worst))
        if "bearing" in r["rating_basis"]:
            at_t = job.temperature(job.survey.tvd(V(places[n]["sleeve"]["bottom"])))
            rock = max(at_t, job.temperature(job.survey.tvd(V(places[n]["sleeve"]["top"]))))
            strength = np.interp(
                rock, [si(t["temperature"]) for t in table], [si(t["bearing"]) for t in table]
            )
            out["rating"].append(
                (f"stage {n}", V(r["rating"]), strength * float(f["ball"].get("confinement", 1)) / worst)
            )
    s.worst("differential expected across a ball, Pa", out["expected"], rel=1e-6)
    s.worst("worst static differential across a ball, Pa", out["worst"], rel=1e-6)
    s.worst("circle of contact, m", out["circle"], absolute=1e-9)
    s.worst("axial force on the seat, N", out["force"], rel=1e-6)
    s.worst("projected bearing stress in service, Pa", out["bearing"], rel=1e-6)
    if out["rating"]:
        s.worst("rating by bearing in service, Pa", out["rating"], rel=1e-5)
    factor = float(f["ball"]["safety_factor"])
    used = [
        (f"stage {r['stage']}", V(r["utilisation"]), e[2] * factor / V(r["rating"]))
        for r, e in zip(rungs, out["expected"])
    ]
    s.worst("use of a ball's rating", used, rel=1e-6)


def dissolving(s, job, program, rungs):
    d = job.f["ball"].get("dissolving")
    if not d:
        return
    places = {st["stage"]: st for st in program["layout"]["stages"]}
    pairs, lost = [], []
    for r in rungs:
        t = V(places[r["stage"]]["sleeve"]["temperature"])
        k = si(d["recession"]) * math.exp(
            -si(d["activation_energy"]) / GAS * (1 / t - 1 / si(d["temperature"]))
        )
        pairs.append((f"stage {r['stage']}", V(r["life"]["recession"]), k))
        time = V(r["life"]["transit"]) + V(r["life"]["stage_time"])
        lost.append((f"stage {r['stage']}", V(r["ball_loss"]), 2 * k * time))
    s.worst("recession of a dissolving ball, m/s", pairs, rel=1e-6)
    s.worst("diameter lost until the end of its stage, m", lost, rel=1e-6)


def check(s, job, program):
    plan = program["ladder"]
    rungs, stages = plan["rungs"], int(job.f["system"]["stages"])
    s.same("balls in all by the kind of system", plan["balls"], stages)
    s.same("balls that open stages", plan["frac_balls"], stages - 1 if job.by_pressure else stages)
    s.same(
        "setting ball only where pressure sets the packers", plan["setting_ball"] is not None, job.by_pressure
    )
    rising = all(
        V(a["ball"]) < V(b["ball"]) and V(a["seat"]) < V(b["seat"]) for a, b in zip(rungs, rungs[1:])
    )
    s.same("balls and seats grow toward the heel", rising, True)
    sizes(s, job, rungs)
    fits(s, job, rungs)
    loads(s, job, program, rungs)
    dissolving(s, job, program, rungs)
    mass = [
        (
            f"ball {b['order']}",
            V(b["mass"]),
            math.pi / 6 * V(b["diameter"]) ** 3 * si(job.f["ball"]["density"]),
        )
        for b in plan["ledger"]
    ]
    s.worst("mass of a ball, kg", mass, rel=1e-6)
    if job.by_pressure:
        toe, ball = job.f["toe"], V(plan["setting_ball"]["ball"])
        s.near("setting ball, m", ball, si(toe["setting_ball"]), absolute=1e-9)
        tol = si(job.f["ladder"]["ball_tolerance"]) + si(job.f["ladder"]["seat_tolerance"])
        s.near(
            "setting ball through the smallest seat, m",
            V(plan["setting_ball"]["clearance"]),
            V(rungs[0]["seat"]) - ball - tol,
            absolute=1e-9,
        )
