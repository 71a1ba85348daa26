#!/usr/bin/env python3
"""Which A races to make B races in a long season, as a mixed-integer programme.

    go test ./planner/season -run SolverFindsNothing -sets    # writes season-sets.json anew
    /usr/bin/python3 planner/season/testdata/season_sets.py   # solves it and adds the sets
    /usr/bin/python3 planner/season/testdata/season_sets.py --check

x[i] is 1 where race i becomes a B race, y[i,j] where both i and j do. The sum of what each
brings alone and what each two bring besides is greatest. The three best sets are kept: each
found one is forbidden in turn. Needs scipy 1.9 or newer (apt: python3-scipy), which has HiGHS.
"""
import json
import pathlib
import sys

import numpy
from scipy.optimize import Bounds, LinearConstraint, milp

FILE = pathlib.Path(__file__).with_name("season-sets.json")
BEST = 3


def solve(problem):
    n = len(problem["alone"])
    pairs = [(i, i + 1 + k) for i, row in enumerate(problem["both"]) for k in range(len(row))]
    gain = numpy.array(problem["alone"] + [problem["both"][i][j - i - 1] for i, j in pairs])
    size, rows, low = len(gain), [], []
    for k, (i, j) in enumerate(pairs):
        for race in (i, j):  # y <= x
            row = numpy.zeros(size)
            row[race], row[n + k] = 1, -1
            rows.append(row)
            low.append(0)
        row = numpy.zeros(size)  # y >= x + x - 1
        row[n + k], row[i], row[j] = 1, -1, -1
        rows.append(row)
        low.append(-1)
    found = []
    for _ in range(BEST):
        answer = milp(-gain, integrality=numpy.ones(size), bounds=Bounds(0, 1), constraints=LinearConstraint(numpy.array(rows), lb=low, ub=numpy.inf))
        if not answer.success:
            break
        chosen = [i for i in range(n) if answer.x[i] > 0.5]
        found.append({"races": chosen, "value": round(problem["base"] - answer.fun, 6)})
        row = numpy.zeros(size)  # not this set again
        row[:n] = [-1 if i in chosen else 1 for i in range(n)]
        rows.append(row)
        low.append(1 - len(chosen))
    return found


def main():
    problems = json.loads(FILE.read_text())
    differ = 0
    for problem in problems:
        found = solve(problem)
        if "--check" in sys.argv:
            stored = [s["value"] for s in problem["sets"] or []]
            if len(stored) != len(found) or any(abs(a - f["value"]) > 1e-5 for a, f in zip(stored, found)):
                print(f"season {problem['season']}: stored {stored}, found {found}")
                differ += 1
        problem["sets"] = found
    if "--check" in sys.argv:
        print(f"{len(problems)} problems, {differ} differ")
        sys.exit(1 if differ else 0)
    FILE.write_text("[\n" + ",\n".join(json.dumps(p, separators=(",", ":")) for p in problems) + "\n]\n")


main()
