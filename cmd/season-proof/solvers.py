"""Solves seasons without any of the planner's code.

Reads a problem file (JSON), writes an answer (JSON) to standard output. All it
knows of a season is in the file: the usual load of each day, races, candidates,
a budget, and the parameters of the riders to average over. It follows fitness
and fatigue day by day for each candidate, builds a mixed-integer programme and
solves it with HiGHS (scipy) and with glpsol.

Days are taken as in the planner: a window day belongs to one race only, and to
no other race's days or recovery; a candidate that does not "take" has no days.
"""
import json
import os
import re
import subprocess
import sys
import tempfile
import time

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

# HiGHS also stops at an absolute gap of 1e-6, which scipy cannot set: a larger
# objective makes that small.
SCALE = 1e4
REPEATS = 3  # the quickest counts


def main():
    with open(sys.argv[1]) as file:
        task = json.load(file)
    riders = {name: numpy.array([d[name] for d in task["riders"]])[:, None] for name in ("tau1", "tau2", "k1", "k2", "percent")}
    warm_up()
    answers = [answer(riders, problem, choice) for problem, choice in zip(task["problems"], task["choices"])]
    version = subprocess.run(["glpsol", "--version"], capture_output=True, text=True).stdout.splitlines()[0]
    json.dump({"highs_version": "HiGHS in scipy " + scipy.__version__, "glpsol_version": version, "answers": answers}, sys.stdout)


def answer(riders, problem, choice):
    model = Model(problem)
    gains = model.gains(riders)
    return {
        "gains": model.by_race(gains),
        "highs": model.solved(gains, by_highs),
        "glpsol": model.solved(gains, by_glpsol),
        "allowed": model.walks(choice),
        "worth": float(model.worth(riders, choice)),
    }


class Model:
    """A season with one column for each candidate of each race."""

    def __init__(self, problem):
        self.problem = problem
        self.races = problem["races"]
        self.usual = numpy.array(problem["usual"])
        self.columns = [(r, c) for r, race in enumerate(self.races) for c in range(len(race["candidates"]))]
        self.rows = self.constraints()

    def candidate(self, column):
        r, c = column
        return self.races[r], self.races[r]["candidates"][c]

    def window(self, column):
        race, candidate = self.candidate(column)
        return range(race["first"] - len(candidate["window"]), race["first"])

    def kept_free(self, column):
        """Days of the race and of its recovery, which no other race's window may touch."""
        race, candidate = self.candidate(column)
        return range(race["first"], race["last"] + 1 + len(candidate["recover"])) if candidate["takes"] else range(0)

    def change(self, column):
        """What a candidate adds to the usual load of each day."""
        race, candidate = self.candidate(column)
        out = numpy.zeros(len(self.usual))
        for start, shares in ((race["first"] - len(candidate["window"]), candidate["window"]), (race["last"] + 1, candidate["recover"])):
            for day, share in enumerate(shares, start):
                if day < len(out):
                    out[day] += self.usual[day] * (share - 1)
        return out

    def performance(self, riders, loads):
        """The weighted sum over race mornings for each row of loads, on average over riders."""
        fitness = numpy.zeros((len(riders["tau1"]), len(loads)))
        fatigue = numpy.zeros_like(fitness)
        slow, fast = numpy.exp(-1 / riders["tau1"]), numpy.exp(-1 / riders["tau2"])
        total = numpy.zeros(len(loads))
        for day in range(loads.shape[1]):
            fitness *= slow
            fatigue *= fast
            for race in self.races:
                if race["first"] == day:  # its own load comes after its morning
                    percent = riders["percent"] * (riders["k1"] * fitness - riders["k2"] * fatigue)
                    total += race["weight"] * percent.mean(axis=0)
            fitness += loads[:, day]
            fatigue += loads[:, day]
        return total

    def gains(self, riders):
        loads = numpy.array([self.usual] + [self.usual + self.change(c) for c in self.columns])
        total = self.performance(riders, loads)
        return total[1:] - total[0]

    def worth(self, riders, choice):
        """All of a choice ridden at once, against no change."""
        loads = numpy.array([self.usual, self.usual + sum(self.change(c) for c in enumerate(choice))])
        total = self.performance(riders, loads)
        return total[1] - total[0]

    def by_race(self, gains):
        out = [[] for _ in self.races]
        for (r, _), gain in zip(self.columns, gains):
            out[r].append(float(gain))
        return out

    def constraints(self):
        """Rows (columns, factors, most) besides that each race takes one candidate."""
        windows, taken = {}, {}
        for index, column in enumerate(self.columns):
            for day in self.window(column):
                windows.setdefault(day, set()).add(index)
            for day in self.kept_free(column):
                taken.setdefault(day, {}).setdefault(column[0], set()).add(index)
        sets = set()
        for day, inside in windows.items():
            sets.add(frozenset(inside))
            for race, outside in taken.get(day, {}).items():
                sets.add(frozenset(outside | {i for i in inside if self.columns[i][0] != race}))
        largest = [s for s in sets if not any(s < other for other in sets)]
        rows = [(sorted(s), [1.0] * len(s), 1.0) for s in sorted(largest, key=sorted)
                if len({self.columns[i][0] for i in s}) > 1]
        spent = [(i, float(len(self.window(c)))) for i, c in enumerate(self.columns) if len(self.window(c)) > 0]
        if spent:
            rows.append(([i for i, _ in spent], [days for _, days in spent], float(self.problem["budget"])))
        return rows

    def one_each(self):
        return [[i for i, c in enumerate(self.columns) if c[0] == r] for r in range(len(self.races))]

    def walks(self, choice):
        """Whether a choice is allowed, day by day and in the rows."""
        owner, spent = {}, 0
        for column in enumerate(choice):
            for day in self.window(column):
                if day < 0 or day in owner:
                    return False
                owner[day] = column[0]
                spent += 1
        for column in enumerate(choice):
            if any(owner.get(day, column[0]) != column[0] for day in self.kept_free(column)):
                return False
        x = [float(choice[r] == c) for r, c in self.columns]
        rows = all(sum(f * x[i] for i, f in zip(columns, factors)) <= most for columns, factors, most in self.rows)
        return rows and spent <= self.problem["budget"]

    def solved(self, gains, solver):
        x, seconds, own = solver(self, gains)
        choice = [None] * len(self.races)
        for (r, c), value in zip(self.columns, x):
            if round(value) == 1:
                choice[r] = c
        # What solvers print of the objective is rounded: it is added up again.
        value = sum(gains[i] for i, v in enumerate(x) if round(v) == 1)
        return {"choice": choice, "allowed": None not in choice and self.walks(choice), "value": float(value), "seconds": seconds, "reported": own}


def by_highs(model, gains):
    each = model.one_each()
    entries = [(r, i, 1.0) for r, columns in enumerate(each) for i in columns]
    entries += [(len(each) + r, i, f) for r, (columns, factors, _) in enumerate(model.rows) for i, f in zip(columns, factors)]
    at, column, factor = zip(*entries)
    matrix = csr_matrix((factor, (at, column)), shape=(len(each) + len(model.rows), len(gains)))
    least = [1.0] * len(each) + [-numpy.inf] * len(model.rows)
    most = [1.0] * len(each) + [row[2] for row in model.rows]
    constraints = LinearConstraint(matrix, least, most)
    best = None
    for _ in range(REPEATS):
        start = time.perf_counter()
        result = milp(-SCALE * gains, integrality=numpy.ones(len(gains)), bounds=Bounds(0, 1), constraints=constraints, options={"mip_rel_gap": 0})
        seconds = time.perf_counter() - start
        best = seconds if best is None else min(best, seconds)
    if result.status != 0:
        sys.exit("HiGHS: " + result.message)
    return result.x, best, 0.0


def by_glpsol(model, gains):
    with tempfile.TemporaryDirectory() as folder:
        problem, solution = os.path.join(folder, "season.lp"), os.path.join(folder, "season.sol")
        with open(problem, "w") as file:
            write_lp(file, model, gains)
        best = None
        for _ in range(REPEATS):
            start = time.perf_counter()
            run = subprocess.run(["glpsol", "--lp", problem, "--mipgap", "0", "-w", solution], capture_output=True, text=True)
            seconds = time.perf_counter() - start
            best = seconds if best is None else min(best, seconds)
        if run.returncode != 0 or "INTEGER OPTIMAL SOLUTION FOUND" not in run.stdout:
            sys.exit("glpsol: " + run.stdout + run.stderr)
        with open(solution) as file:
            x = [float(line.split()[2]) for line in file if line.startswith("j ")]
    own = float(re.search(r"Time used:\s+([0-9.]+) secs", run.stdout).group(1))
    return x, best, own


def write_lp(file, model, gains):
    """CPLEX LP format; all columns stand in the objective, so that their order is kept."""
    print("Maximize\n gain:", file=file)
    for i, gain in enumerate(gains):
        print(f" {float(gain):+.17g} x{i}", file=file)
    print("Subject To", file=file)
    for columns in model.one_each():
        print("\n".join(f" + x{i}" for i in columns), "= 1", file=file)
    for columns, factors, most in model.rows:
        print("\n".join(f" + {f:.17g} x{i}" for i, f in zip(columns, factors)), f"<= {most:.17g}", file=file)
    print("Binary", *(f" x{i}" for i in range(len(gains))), "End", sep="\n", file=file)


def warm_up():
    """The first call loads libraries, which is not solving."""
    milp([-1.0], integrality=[1], bounds=Bounds(0, 1))
    subprocess.run(["glpsol", "--version"], capture_output=True)


main()
