"""Holds the water hammer against a general-purpose package for transients in water networks.

One pipe from a reservoir to an outlet that shuts: the package (tsnet, method of characteristics
on heads) and the program (`hammer_trace`) run the same pipe, and their pressures at the outlet
are compared step by step. The package cuts a demand that goes with the root of the head, which
is an orifice into the open air; cut in a straight line it is an orifice that closes so.

Prints a line for each pipe and, last, `N passed, N failed`. Ends with 0 only if none failed.
"""

import os
import subprocess
import sys
import tempfile
import warnings

warnings.filterwarnings("ignore")

import numpy as np
import tsnet

# The package's gravity, m/s2; only a factor between head and pressure here.
GRAVITY = 9.8
DENSITY = 1000.0

# name, length m, bore mm, wave speed m/s, head m, demand L/s, roughness mm, cells, closing s, span s
PIPES = [
    ("fast closure, smooth", 1000.0, 400.0, 1200.0, 200.0, 100.0, 0.01, 100, 0.5, 20.0),
    ("slow closure, rough", 1000.0, 400.0, 1200.0, 200.0, 150.0, 1.0, 100, 4.0, 20.0),
    ("long and narrow, much friction", 3000.0, 100.0, 1400.0, 900.0, 20.0, 0.05, 200, 1.0, 40.0),
    ("many rings", 500.0, 200.0, 1300.0, 150.0, 20.0, 0.2, 100, 0.2, 60.0),
]

# Largest difference, as a share of the step rho a V. The package takes friction where a wave
# leaves, the program where two waves meet: they part by a share of the friction of a cell.
ALLOWED = 0.003

NETWORK = """[JUNCTIONS]
 N1 0 {demand}
[RESERVOIRS]
 R1 {head}
[PIPES]
 P1 R1 N1 {length} {bore} {roughness} 0 Open
[OPTIONS]
 Units LPS
 Headloss D-W
 Accuracy 0.00001
 Trials 200
[TIMES]
 Duration 0
[END]
"""


def package(pipe, folder):
    """Heads at the outlet, and what the package made of the pipe."""
    _, length, bore, speed, head, demand, roughness, cells, closing, span = pipe
    path = os.path.join(folder, "pipe.inp")
    with open(path, "w", encoding="utf-8") as out:
        out.write(NETWORK.format(demand=demand, head=head, length=length, bore=bore, roughness=roughness))
    model = tsnet.network.TransientModel(path)
    model.set_wavespeed(speed)
    # a hair less, so that the whole number of cells is not lost to rounding
    model.set_time(span, length / speed / cells * (1.0 - 1e-12))
    model.add_demand_pulse("N1", [1e6, 0.0, closing, -1.0])
    model = tsnet.simulation.Initializer(model, 0, "DD")
    model = tsnet.simulation.MOCSimulator(model, os.path.join(folder, "results"))
    link = model.get_link("P1")
    steps = int(span / model.time_step)
    # the package spreads its pulse over span/(steps - 1) instead of the time step
    real = closing * (steps - 1) * model.time_step / span
    return np.array(link.end_node_head), link, real


def program(pipe, link, closing, count):
    """Pressures at the outlet."""
    _, length, bore, _, _, _, _, _, _, span = pipe
    area = np.pi * (bore / 1000.0) ** 2 / 4.0
    rate = link.initial_velocity[0] * area
    level = DENSITY * GRAVITY * link.initial_head[-1]
    # the wave speed and friction factor the package came to
    given = [length, area, link.wavev, DENSITY, rate, link.roughness, link.number_of_segments, level, closing]
    words = [repr(float(x)) for x in [*given, span]]
    command = ["cargo", "run", "--release", "--locked", "--quiet", "--package", "physics", "--example"]
    done = subprocess.run([*command, "hammer_trace", "--", *words], check=True, capture_output=True, text=True)
    rows = [line.split(",") for line in done.stdout.splitlines()[1:]]
    return np.array([float(row[1]) for row in rows])[:count]


def main():
    passed = failed = 0
    for pipe in PIPES:
        with tempfile.TemporaryDirectory() as folder:
            # the package leaves files where it stands
            home = os.getcwd()
            os.chdir(folder)
            quiet = os.dup(1)
            with open(os.devnull, "w", encoding="utf-8") as nothing:
                sys.stdout.flush()
                os.dup2(nothing.fileno(), 1)
                heads, link, closing = package(pipe, folder)
                sys.stdout.flush()
                os.dup2(quiet, 1)
            os.chdir(home)
        theirs = heads * DENSITY * GRAVITY
        ours = program(pipe, link, closing, len(theirs))
        count = min(len(ours), len(theirs))
        step = DENSITY * link.wavev * link.initial_velocity[0]
        apart = float(np.abs(ours[:count] - theirs[:count]).max() / step)
        peaks = [float((p[:count].max() - p[0]) / step) for p in (ours, theirs)]
        good = count > 1000 and apart <= ALLOWED
        passed, failed = passed + good, failed + (not good)
        print(
            f"{pipe[0]}: {count} steps, apart by {apart:.2e} of the step, "
            f"peak {peaks[0]:.5f} and {peaks[1]:.5f} of it: {'ok' if good else 'MISS'}"
        )
    print(f"{passed} passed, {failed} failed")
    sys.exit(int(failed > 0))


if __name__ == "__main__":
    main()
