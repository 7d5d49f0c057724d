"""Recomputes the plan of a job with general-purpose libraries and compares figure by figure.

    check_program.py --job DIR [--program PROGRAM.json | --command CMD ...] [--write PAGE | --check PAGE]

Without `--program` it runs `heelward plan DIR --json`. With `--write` and both example jobs it
writes the table of compared figures, with `--check` it holds the written one against this run.
Prints one line a figure and a verdict a job, and ends with `N passed, N failed`; exits 1 on a miss.
"""

import argparse
import json
import math
import re
import subprocess
import sys
from pathlib import Path

sys.dont_write_bytecode = True
from end_to_end import ladder, setting, strings, tally, treatment  # noqa: E402
from end_to_end.job import Job  # noqa: E402
from end_to_end.sheet import Sheet  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
CARGO = ["cargo", "run", "--release", "--locked", "-q", "-p", "heelward", "--"]


def plan(folder, command):
    """The program as JSON. A plan that stops (exit code 1) is a plan all the same."""
    run = subprocess.run([*command, "plan", str(folder), "--json"], capture_output=True, text=True)
    if run.returncode not in (0, 1) or not run.stdout:
        sys.exit(f"no plan of {folder}: {run.stderr[-2000:]}")
    return json.loads(run.stdout)


def check(folder, program):
    """All checks of a job."""
    print(f"# {folder.name}: name, ours, independent, difference, tolerance")
    sheet, job = Sheet(folder.name), Job(folder)
    items = tally.check(sheet, job, program)
    ladder.check(sheet, job, program)
    treatment.check(sheet, job, program, items)
    setting.check(sheet, job, program, items)
    strings.check(sheet, job, program, items)
    missed = sum(not r[5] for r in sheet.rows)
    print(f"{sheet.job}: {len(sheet.rows) - missed} passed, {missed} failed")
    return sheet


HEAD = """# The example plans, recomputed

Written by `cases/oracle/check_program.py`; do not edit. The script reads a job folder on its own (survey by minimum
curvature, caliper from the raw rows, joints as strapped), recomputes what it can with numpy, scipy, fluids, CoolProp
and lasio, and compares it with `heelward plan JOB --json`. From the program it takes decisions, not figures: which
part stands where in the string, which ball goes with which seat, the planned rates.

What it does not recompute: the search of the layout and of the ladder, the motion of a ball (only that it stays
between 0.8 and 1 of the swept volume), wear of seats, ratings of threads, combined stress, and the P10 and P90 of a
swelling packer beyond the spread between two sets of random numbers. It shares with the program what a job file means
and which published relation is used; it cannot show that a relation is the right one. SI units throughout.

Run it with `scripts/oracles`, or for one job: `check_program.py --job jobs/shallow-oil`.
"""


def page(sheets):
    """The table of compared figures."""
    out = [HEAD]
    for sheet in sheets:
        good = sum(r[5] for r in sheet.rows)
        out.append(f"\n## {sheet.job}: {good} of {len(sheet.rows)} agree\n")
        out.append("| figure | program | independent | difference | tolerance | |\n|---|---|---|---|---|---|")
        for name, ours, theirs, off, tolerance, ok in sheet.rows:
            out.append(
                f"| {name} | {ours} | {theirs} | {off} | {tolerance} | {'agrees' if ok else '**MISS**'} |"
            )
    return "\n".join(out) + "\n"


NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")


def figures(text):
    """The rows of a page: name without numbers (the worst of many may be another one on another machine) and what
    the program says."""
    rows = [line.split(" | ") for line in text.splitlines() if line.startswith("| ")]
    return [(NUMBER.sub("#", r[0].split(", worst of")[0]), r[1], ", worst of" in r[0]) for r in rows]


def stale(old, new):
    """Whether a page no longer tells what this run tells: other rows, or another figure of the program."""
    old, new = figures(old), figures(new)
    if [r[0] for r in old] != [r[0] for r in new]:
        return True
    singles = [(a[1], b[1]) for a, b in zip(old, new) if not (a[2] or b[2]) and NUMBER.fullmatch(a[1])]
    # A difference that should be nothing is noise.
    return any(not math.isclose(float(a), float(b), rel_tol=1e-5, abs_tol=1e-6) for a, b in singles)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--job", type=Path, action="append", help="job folder; both examples if absent")
    parser.add_argument(
        "--program", type=Path, help="program.json of that job, in place of running the program"
    )
    parser.add_argument("--command", help="the program to run, in place of cargo run --release")
    parser.add_argument("--write", type=Path, help="page to write the table to")
    parser.add_argument("--check", type=Path, help="page to hold against this run")
    a = parser.parse_args()
    folders = a.job or [ROOT / "jobs/long-lateral", ROOT / "jobs/shallow-oil"]
    sheets = []
    for folder in folders:
        command = a.command.split() if a.command else CARGO
        program = json.loads(a.program.read_text()) if a.program else plan(folder.resolve(), command)
        sheets.append(check(folder.resolve(), program))
    rows = [r for sheet in sheets for r in sheet.rows]
    if a.write:
        a.write.write_text(page(sheets))
    failed = sum(not r[5] for r in rows)
    if a.check and stale(a.check.read_text(), page(sheets)):
        print(f"{a.check} is stale: scripts/oracles --write")
        failed += 1
    print(f"{len(rows) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
