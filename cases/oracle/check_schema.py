"""Holds the program of each example job against the published schema, with a general-purpose
validator: every name and value is as the schema says, and no name stands that the schema lacks.

    check_schema.py [--command CMD]

Ends with `N passed, N failed`; exits 1 where one does not fit.
"""

import argparse
import json
import sys

sys.dont_write_bytecode = True
from check_program import CARGO, ROOT, plan  # noqa: E402
from jsonschema import Draft202012Validator  # noqa: E402


def closed(schema):
    """The schema with no room for names it does not have."""
    if isinstance(schema, list):
        return [closed(s) for s in schema]
    if not isinstance(schema, dict):
        return schema
    out = {name: closed(s) for name, s in schema.items()}
    if isinstance(out.get("properties"), dict) and "type" in out:
        out.setdefault("additionalProperties", False)
    return out


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--command", help="the program to run, in place of cargo run --release")
    command = parser.parse_args().command
    schema = json.loads((ROOT / "schema/program.schema.json").read_text())
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(closed(schema))
    failed = 0
    jobs = ["long-lateral", "shallow-oil"]
    for job in jobs:
        program = plan(ROOT / "jobs" / job, command.split() if command else CARGO)
        misfits = list(validator.iter_errors(program))
        for e in misfits[:20]:
            print(f"{job}: {'/'.join(map(str, e.absolute_path))}: {e.message[:200]}")
        failed += bool(misfits)
    print(f"{len(jobs) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
