"""Compares two folders of case files: the same text, and the same numbers within rounding.

Another processor may round the last digits of a reference library differently; a number may
differ by 1e-9 of itself, and nothing else may differ.

Run: python scripts/compare_cases.py COMMITTED FRESH
"""

import math
import pathlib
import re
import sys

NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
WITHIN = 1e-9


def case_files(folder):
    return {p.relative_to(folder): p.read_text("utf-8") for p in sorted(folder.rglob("*.toml"))}


def same(a, b):
    if a == b:
        return True
    if NUMBER.sub("#", a) != NUMBER.sub("#", b):
        return False
    pairs = zip(NUMBER.findall(a), NUMBER.findall(b))
    return all(math.isclose(float(x), float(y), rel_tol=WITHIN, abs_tol=0.0) for x, y in pairs)


def differences(committed, fresh):
    for name in sorted(committed.keys() | fresh.keys()):
        if name not in committed or name not in fresh:
            yield f"{name}: stands in one folder only"
            continue
        old, new = committed[name].splitlines(), fresh[name].splitlines()
        if len(old) != len(new):
            yield f"{name}: {len(old)} lines committed, {len(new)} written"
            continue
        for i, (a, b) in enumerate(zip(old, new), 1):
            if not same(a, b):
                yield f"{name}:{i}\n  committed: {a}\n  written:   {b}"
                break


def main():
    committed, fresh = (case_files(pathlib.Path(p)) for p in sys.argv[1:3])
    found = list(differences(committed, fresh))
    print("\n".join(found), end="\n" if found else "", file=sys.stderr)
    sys.exit(1 if found else 0)


main()
