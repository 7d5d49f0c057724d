"""Compares the LAS reader with lasio, a general reader, on the files of lasio's source
distribution (MIT), and writes docs/las-corpus.md.

    python cases/oracle/compare_las.py            writes the page
    python cases/oracle/compare_las.py --check    fails if the page is stale

The distribution is downloaded into a temporary directory and never kept. HEELWARD_LAS_CORPUS
names a directory that already holds it unpacked. HEELWARD_LAS_DUMP names the built example
`las_dump`; without it cargo builds and runs it. Needs lasio, numpy and chardet as pinned in
cases/oracle/requirements.txt.

Each difference must be listed with its reason in las_disagreements.toml, and each listed one
must occur. Exit code 1 otherwise.
"""

import collections
import json
import logging
import math
import os
import pathlib
import subprocess
import sys
import tarfile
import tempfile
import tomllib

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PAGE = ROOT / "docs" / "las-corpus.md"
FILES = 118


def pinned(name):
    for line in (HERE / "requirements.txt").read_text().splitlines():
        if line.lower().startswith(name + "=="):
            return line.split("==")[1].strip()
    sys.exit(f"{name} is not pinned in {HERE / 'requirements.txt'}")


def fetch(into):
    """The source distribution, unpacked."""
    command = [sys.executable, "-m", "pip", "-q", "download", "--no-deps", "--no-binary", ":all:"]
    subprocess.run(command + ["-d", str(into), f"lasio=={pinned('lasio')}"], check=True)
    archive = next(into.glob("lasio-*.tar.gz"))
    with tarfile.open(archive) as packed:
        packed.extractall(into, filter="data")
    return into


def ours(paths):
    """What the reader under test makes of each file."""
    built = os.environ.get("HEELWARD_LAS_DUMP")
    command = [built] if built else ["cargo", "run", "-q", "-p", "well", "--example", "las_dump", "--"]
    done = subprocess.run(command + [str(p) for p in paths], cwd=ROOT, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"the reader under test failed:\n{done.stderr}")
    return [json.loads(line) for line in done.stdout.splitlines()]


def theirs(path):
    """What lasio makes of a file, in the same form; None if it refuses it."""
    import lasio

    try:
        las = lasio.read(str(path), mnemonic_case="preserve")
    except Exception as error:  # any refusal counts as one
        return None, f"{type(error).__name__}: {str(error).splitlines()[0]}"
    metres = None
    if las.index_unit and len(las.curves) and len(las.index):
        metres = [float(las.depth_m[0]), float(las.depth_m[-1])]
    return {
        "null": number(las.well["NULL"].value) if "NULL" in las.well else None,
        "metres": metres,
        "curves": [column(c) for c in las.curves],
        "well": [item(i) for i in las.well],
        "parameters": [item(i) for i in las.params],
    }, None


def column(curve):
    name = curve.original_mnemonic.strip()
    out = {"mnemonic": name, "unit": curve.unit, "rows": len(curve.data)}
    data = curve.data
    if data.dtype.kind == "f":
        finite = [float(v) for v in data if math.isfinite(v)]
        end = lambda at: float(data[at]) if len(data) and math.isfinite(data[at]) else None
        out["data"] = {
            "kind": "numbers",
            "finite": len(finite),
            "sum": math.fsum(finite),
            "first": end(0),
            "last": end(-1),
            "min": min(finite, default=None),
            "max": max(finite, default=None),
        }
    else:
        words = [str(v) for v in data]
        first, last = (words[0], words[-1]) if words else (None, None)
        out["data"] = {"kind": "text", "characters": sum(map(len, words)), "first": first, "last": last}
    return out


def item(found):
    value = "" if found.value is None else str(found.value)
    return {"mnemonic": found.original_mnemonic.strip(), "unit": found.unit, "value": value}


def number(text):
    try:
        value = float(text)
    except (TypeError, ValueError):
        return None
    return value if math.isfinite(value) else None


def same_number(a, b):
    if a is None or b is None:
        return a is b
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


def shown(value):
    """A value for the page: numbers with ten digits."""
    if isinstance(value, list):
        return " to ".join(map(shown, value))
    return f"{value:.10g}" if isinstance(value, float) else f"`{value}`" if isinstance(value, str) else str(value)


def same_text(a, b):
    """Equal as numbers, or as words without regard to blanks."""
    a, b = " ".join(a.split()), " ".join(b.split())
    numbers = number(a), number(b)
    return same_number(*numbers) if None not in numbers else a == b


def same_name(mine, other):
    return mine.upper() == ("" if other == "UNKNOWN" else other.upper())


def differences(mine, other):
    """Kind and detail of every difference between two readings."""
    curves, found = (mine["curves"], other["curves"]), []
    if not same_number(mine["null"], other["null"]):
        found.append(("null", f"{shown(mine['null'])} against {shown(other['null'])}"))
    depth = mine["index"]["kind"] == "depth" and mine["index"]["first_m"] is not None
    ends = [mine["index"]["first_m"], mine["index"]["last_m"]] if depth else None
    one = (ends is None) != (other["metres"] is None)
    if one or (ends and not all(map(same_number, ends, other["metres"]))):
        found.append(("depth", f"{shown(ends)} against {shown(other['metres'])}, m"))
    if len(curves[0]) != len(curves[1]):
        return found + [("curves", f"{len(curves[0])} against {len(curves[1])}")]
    for a, b in zip(*curves):
        found += column_differences(a, b)
    for section in ("well", "parameters"):
        found += item_differences(section, mine[section], other[section])
    return found


def column_differences(a, b):
    name, found = a["mnemonic"] or "(unnamed)", []
    if not same_name(a["mnemonic"], b["mnemonic"]):
        found.append(("mnemonic", f"`{a['mnemonic']}` against `{b['mnemonic']}`"))
    if a["unit"] != b["unit"]:
        found.append(("unit", f"{name}: `{a['unit']}` against `{b['unit']}`"))
    if a["rows"] != b["rows"]:
        return found + [("rows", f"{name}: {a['rows']} against {b['rows']}")]
    x, y = a["data"], b["data"]
    if x["kind"] != y["kind"]:
        return found + [("kind", f"{name}: {x['kind']} against {y['kind']}")]
    if x["kind"] == "numbers":
        wrong = [k for k in ("finite", "sum", "first", "last", "min", "max") if not same_number(x[k], y[k])]
    else:
        wrong = [k for k in ("characters", "first", "last") if x[k] != y[k]]
    if wrong:
        found.append(("values", f"{name}: " + ", ".join(f"{k} {shown(x[k])} against {shown(y[k])}" for k in wrong)))
    return found


def item_differences(section, mine, other):
    if len(mine) != len(other):
        return [(section, f"{len(mine)} items against {len(other)}")]
    found = []
    for a, b in zip(mine, other):
        same = same_name(a["mnemonic"], b["mnemonic"]) and a["unit"] == b["unit"]
        if not (same and same_text(a["value"], b["value"])):
            show = lambda i: f"`{i['mnemonic']}.{i['unit']} {i['value']}`"
            found.append((section, f"{show(a)} against {show(b)}"))
    return found


def compare(corpus):
    unpacked = corpus if (corpus / "tests").is_dir() else next(corpus.glob("lasio-*/"), corpus)
    paths = sorted(unpacked.rglob("*.las"))
    if len(paths) != FILES:
        sys.exit(f"{len(paths)} files in the corpus, {FILES} wanted")
    rows = []
    for path, mine in zip(paths, ours(paths)):
        name = path.relative_to(unpacked).as_posix()
        other, refusal = theirs(path)
        found, refused = [], mine["refused"]
        if refused and other is not None:
            found = [("refused", f"refused as {refused}")]
        elif not refused and other is None:
            found = [("other-refuses", refusal)]
        elif not refused:
            found = differences(mine["las"], other)
        rows.append({"file": name, "mine": mine, "other": other, "refused": refused, "found": found})
    return rows


def judge(rows):
    """Each difference with its listed reason; what is not listed, and what is listed in vain."""
    listed = tomllib.loads((HERE / "las_disagreements.toml").read_text())["disagreement"]
    used, open_ = set(), []
    for row in rows:
        row["judged"] = []
        for kind, detail in row["found"]:
            at = [i for i, d in enumerate(listed) if kind == d["kind"] and row["file"] in d["files"]]
            if at:
                used.update((i, row["file"]) for i in at)
                row["judged"].append((kind, detail, listed[at[0]]))
            else:
                open_.append(f"{row['file']}: {kind}: {detail}")
    stale = [f"{f}: {d['kind']}" for i, d in enumerate(listed) for f in d["files"] if (i, f) not in used]
    return open_, stale


def page(rows):
    read = [r for r in rows if not r["refused"]]
    agree = [r for r in read if r["other"] is not None and not r["found"]]
    differ = [r for r in read if r["other"] is not None and r["found"]]
    counts = [
        ("files", len(rows)),
        ("read", len(read)),
        ("refused by name", len(rows) - len(read)),
        ("read, and the other reader agrees in every curve, item and depth", len(agree)),
        ("read, with a listed difference", len(differ)),
        ("read, where the other reader refuses", sum(r["other"] is None for r in read)),
        ("refused by both", sum(r["other"] is None and bool(r["refused"]) for r in rows)),
        ("refused here, read by the other", sum(r["other"] is not None and bool(r["refused"]) for r in rows)),
    ]
    out = ["<!-- written by cases/oracle/compare_las.py; do not edit -->", "", "# LAS files of a public corpus", ""]
    out += [
        f"The source distribution of the general LAS reader lasio {pinned('lasio')} (MIT) holds {FILES} LAS files, most of",
        "them awkward on purpose. Each is read here and by that reader; compared are the null value, the first and last",
        "depth in metres, every curve (name, unit, rows, number of values, sum, first, last, least and greatest value) and",
        "every item of the well and parameter sections. The files are downloaded for the comparison and not kept.",
        "",
        "| | files |",
        "|---|---:|",
    ]
    out += [f"| {name} | {count} |" for name, count in counts]
    out += ["", "## Differences", "", "Who is right is judged by the CWLS standards, LAS 1.2 (1990), 2.0 (2014) and 3.0 (2000).", ""]
    for row in rows:
        if not row["judged"]:
            continue
        out += [f"### `{row['file']}`", ""]
        for (kind, right, reason), details in grouped(row["judged"]).items():
            out += [f"- **{kind}**: {'; '.join(details)}. Right: {right}. {reason}"]
        out += [""]
    out += ["## Findings", "", "How many files have each finding of the reader.", "", "| finding | files |", "|---|---:|"]
    tally = collections.Counter(i for r in rows for i in {f["id"] for f in r["mine"]["findings"]})
    out += [f"| `{name}` | {count} |" for name, count in sorted(tally.items())]
    return "\n".join(out) + "\n"


def grouped(judged):
    out = collections.OrderedDict()
    for kind, detail, entry in judged:
        out.setdefault((kind, entry["right"], " ".join(entry["reason"].split())), []).append(detail)
    return out


def main():
    logging.disable(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as temporary:
        kept = os.environ.get("HEELWARD_LAS_CORPUS")
        rows = compare(pathlib.Path(kept) if kept else fetch(pathlib.Path(temporary)))
    open_, stale = judge(rows)
    for line in open_:
        print(f"not listed: {line}", file=sys.stderr)
    for line in stale:
        print(f"listed, but does not occur: {line}", file=sys.stderr)
    text = page(rows)
    if "--check" in sys.argv:
        if not PAGE.exists() or PAGE.read_text() != text:
            print(f"{PAGE.relative_to(ROOT)} is stale; run cases/oracle/compare_las.py", file=sys.stderr)
            return 1
    elif not open_ and not stale:
        PAGE.write_text(text)
    print(f"{len(rows)} files compared, {sum(len(r['found']) for r in rows)} differences")
    return 1 if open_ or stale else 0


if __name__ == "__main__":
    sys.exit(main())
