"""Layout: tally, closure, packers over the caliper, bends, depths, exclusions, pins."""

import math

import numpy as np

from .units import si

V = lambda q: None if q is None else q["value"]


class Item:
    """A part of the liner with its place."""

    def __init__(self, kind, length, bore, od, mass, top):
        self.kind, self.length, self.bore, self.od, self.mass = kind, length, bore, od, mass
        self.top, self.bottom = top, top + length


def build(job, program):
    """The string from the shoe up with our own lengths; only the order of parts is the program's."""
    f, liner = job.f, job.liner
    joints, pups = iter(job.joints), list(job.pups)
    bottom, items, wrong = job.shoe, [], []
    tool = {"packer": f["packer"], "sleeve": f["sleeve"], "casing-packer": f["casing_packer"]}
    for row in program["layout"]["tally"]:
        kind = row["kind"]
        od, bore, mass = liner.od, liner.bore, None
        if kind == "joint":
            name, strapped = next(joints)
            length = strapped - job.loss
            if not row["name"].startswith(f"joint {name}"):
                wrong.append(row["name"])
        elif kind == "pup":
            strapped = min(pups, key=lambda p: abs(p - job.loss - V(row["length"])))
            pups.remove(strapped)
            length = strapped - job.loss
        elif kind == "toe":
            t = f["toe"]
            length, od, mass = si(t["shoe_length"]) + si(t["tool_length"]), si(t["od"]), si(t["mass"])
        elif kind == "sleeve" and job.by_pressure and row["stage"] == 1:
            t = f["toe"]["pressure_sleeve"]
            length, od, bore, mass = (
                si(t["length"]),
                si(f["sleeve"]["od"]),
                si(f["sleeve"]["id"]),
                si(t["mass"]),
            )
        else:
            t = tool[kind]
            length, od, bore, mass = si(t["length"]), si(t["od"]), si(t["id"]), si(t["mass"])
        mass = liner.weight * length if mass is None else mass
        items.append(Item(kind, length, bore, od, mass, bottom - length))
        items[-1].stage, bottom = row.get("stage"), bottom - length
    return items, wrong


def path_to(job, items, depth):
    """Bores from the wellhead down to a depth: list of bore, outside, length, roughness."""
    top = items[-1].top
    outside = {"packer": si(job.f["packer"]["mandrel_od"])}
    out = [(job.treating.bore, job.treating.od, top, job.treating.roughness)]
    for i in reversed(items):
        if i.top < depth:
            od = outside.get(i.kind, i.od)
            out.append((i.bore, od, min(i.bottom, depth) - i.top, job.liner.roughness))
    return out


def volume_to(job, items, depth):
    return sum(math.pi / 4 * b**2 * length for b, _, length, _ in path_to(job, items, depth))


def hole_checks(s, job, program, stages):
    """Packers over the raw rows of the caliper."""
    worst, least, mid, p10, p90 = [], [], [], [], []
    table = job.f["packer"]
    sigmas = float(job.f["layout"].get("depth_sigmas", 2))
    for st in stages:
        p = st["packer"]
        top, bottom = V(p["element_top"]), V(p["element_bottom"])
        reach = sigmas * job.sigma(V(p["bottom"]))
        readings = job.caliper.over(top - reach, bottom + reach)
        n = st["stage"]
        worst.append((f"packer {n}", V(p["hole"]["worst"]), readings.max()))
        least.append((f"packer {n}", V(p["hole"]["least"]), readings.min()))
        q = np.quantile(job.caliper.even(top, bottom), [0.1, 0.5, 0.9])
        for out, key, value in zip((p10, mid, p90), ("p10", "p50", "p90"), q):
            out.append((f"packer {n}", V(p["hole"][key]), value))
    s.worst("worst hole over element and depth doubt, m", worst, absolute=2e-6)
    s.worst("least hole over element and depth doubt, m", least, absolute=2e-6)
    s.worst("hole over element, one tenth smaller, m", p10, absolute=3e-5)
    s.worst("hole over element, middle, m", mid, absolute=3e-5)
    s.worst("hole over element, nine tenths smaller, m", p90, absolute=3e-5)
    largest = max(w[2] for w in worst)
    s.holds(
        "largest hole at a packer within its limit, m",
        largest,
        si(table["largest_hole"]),
        largest <= si(table["largest_hole"]),
    )
    smallest = min(w[2] for w in least)
    s.holds(
        "smallest hole at a packer within its limit, m",
        smallest,
        si(table["smallest_hole"]),
        smallest >= si(table["smallest_hole"]),
    )


def zone_checks(s, job, items):
    """Exclusions, pins, the casing shoe, the limits of the interval."""
    hit = []
    for zone in job.f.get("exclusion", []):
        a, b, what = si(zone["from"]), si(zone["to"]), zone.get("tools", "packers")
        for i in items:
            if (i.kind == "packer" and what != "sleeves") or (i.kind == "sleeve" and what != "packers"):
                if i.top < b and i.bottom > a:
                    hit.append(i)
    s.same("tools inside exclusion zones", len(hit), 0)
    for pin in job.f.get("pin", []):
        tool = next(i for i in items if i.kind == pin["tool"] and i.stage == pin["stage"])
        off = abs((tool.top + tool.bottom) / 2 - si(pin["depth"]))
        within = si(pin.get("within", "25 ft"))
        s.holds(f"pinned {pin['tool']} {pin['stage']} off its depth, m", off, within, off <= within)
    top = min(i.top for i in items if i.kind == "packer")
    clear = max(
        si(job.f["system"]["heel_limit"]),
        job.shoe_of_casing + si(job.f["layout"].get("shoe_distance", "50 ft")),
    )
    s.holds("highest packer below heel limit and casing shoe, m", top, clear, top >= clear)


def check(s, job, program):
    items, wrong = build(job, program)
    layout, rows = program["layout"], program["layout"]["tally"]
    f, stages = job.f, program["layout"]["stages"]
    s.same("joints out of their order", len(wrong), 0)
    s.worst(
        "length of a part with make-up loss, m",
        [(r["name"], V(r["length"]), i.length) for r, i in zip(rows, items)],
        absolute=1e-6,
    )
    s.worst(
        "upper end of a part, m",
        [(r["name"], V(r["top"]), i.top) for r, i in zip(rows, items)],
        absolute=1e-5,
    )
    s.near("closure, m", V(layout["reconciliation"]["closure"]), 0.0, absolute=1e-6)
    s.near("casing packer top, m", V(layout["casing_packer_top"]), items[-1].top, absolute=1e-5)
    s.near(
        "casing packer off its planned depth below 1 m, m",
        items[-1].top,
        si(f["casing_packer"]["depth"]),
        absolute=1.0,
    )
    rec = layout["reconciliation"]
    used = sum(1 for i in items if i.kind == "joint")
    s.same("joints in the hole", rec["in_hole"], used)
    s.same("joints left on the rack", rec["left"], len(job.joints) - used)
    left = sum(length - job.loss for _, length in job.joints[used:])
    s.near("length left on the rack, m", V(rec["length_left"]), left, absolute=1e-6)
    s.near(
        "length of tools, m",
        V(rec["length_of_tools"]),
        sum(i.length for i in items if i.kind not in ("joint", "pup")),
        absolute=1e-6,
    )
    s.near("mass in air of the liner, kg", V(rows[-1]["mass"]), sum(i.mass for i in items), rel=1e-6)
    s.near(
        "volume inside the liner, m3",
        V(rows[-1]["inside"]),
        sum(i.length * math.pi / 4 * i.bore**2 for i in items),
        rel=1e-6,
    )
    hole_checks(s, job, program, stages)
    bends = lambda tool, key: [
        (
            f"{tool} {st['stage']}",
            V(st[tool]["dogleg"]),
            job.survey.sharpest(V(st[tool]["top"]), V(st[tool]["bottom"])),
        )
        for st in stages
    ]
    s.worst("sharpest bend at a packer, rad/m", bends("packer", 0), rel=1e-6)
    sharp = max(b for _, _, b in bends("packer", 0))
    s.holds(
        "sharpest bend at a packer within its limit, rad/m",
        sharp,
        si(f["packer"]["max_dogleg"]),
        sharp <= si(f["packer"]["max_dogleg"]),
    )
    s.worst(
        "vertical depth of ports, m",
        [
            (f"stage {st['stage']}", V(st["sleeve"]["tvd"]), job.survey.tvd(V(st["sleeve"]["ports"])))
            for st in stages
        ],
        absolute=1e-4,
    )
    def of_stage(stage, key, usual):
        changes = [c for c in f["treatment"].get("change", []) if c["from_stage"] <= stage <= c["to_stage"]]
        return si(([c[key] for c in changes if key in c] or [usual])[-1])

    def asked(stage, tvd):
        gradient = of_stage(stage, "fracture_gradient", f["rock"]["fracture_gradient"])
        rate = of_stage(stage, "rate", f["treatment"]["rate"]) / si(f["treatment"]["rate"])
        return (gradient - si(f["rock"]["pore_gradient"])) * tvd + si(f["treatment"]["near_wellbore"]) * rate**0.5

    def needed(st):
        tvd = job.survey.tvd(V(st["packer"]["bottom"]))
        factor = float(f["limits"].get("packer_factor", 1.1))
        return factor * max(asked(st["stage"], tvd), asked(st["stage"] + 1, tvd))

    s.worst(
        "differential asked of a packer, Pa",
        [(f"packer {st['stage']}", V(st["packer"]["needed"]), needed(st)) for st in stages],
        rel=1e-6,
    )
    s.holds(
        "packers whose rating is less than asked",
        sum(V(st["packer"]["rating"]) < needed(st) for st in stages),
        0,
        all(V(st["packer"]["rating"]) >= needed(st) for st in stages),
    )
    zone_checks(s, job, items)
    return items
