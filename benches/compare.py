"""Other programs on the problems that our bench writes: what each finds, in what time, and what it proves.

Written with Python 3.11 and

    pip install kmedoids==0.5.5 scipy==1.17.1 numpy==2.4.6

and run, from the project's folder, with the OR-Library's p-median files in FILES and any folder PROBLEMS, as

    cargo bench --bench gather -- --orlib FILES --write PROBLEMS
    python benches/compare.py PROBLEMS

It prints a Markdown table. Every cost in it is summed here, in double precision, from the bases that a program names;
a program that says another one ends the run.

- kmedoids: FasterPAM, the best of 10 random starts (seeds 0 to 9); the time is that of all ten.
- HiGHS: `scipy.optimize.milp` on the usual formulation, 60 s at most: y[j], whole, says whether j is a base; x[i, j]
  that i goes with j, at most y[j]; each i goes with one; there are as many bases as looks. A relative gap of 0 is
  asked for. The time leaves out setting up.
"""

import csv
import sys
import time
from importlib.metadata import version
from pathlib import Path

import kmedoids
import numpy as np
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, milp

LIMIT = 60
STARTS = 10
# Beyond this many assignments, HiGHS's model alone takes gigabytes.
MOST_ASSIGNMENTS = 1_000_000


def cost_of(distances, bases):
    return float(distances[:, bases].min(axis=1).sum())


def agree(name, said, summed):
    if abs(said - summed) > 1e-6 * max(1.0, summed):
        sys.exit(f"{name} says {said}, its bases cost {summed}")


def faster_pam(distances, looks):
    """Cost and seconds."""
    start = time.perf_counter()
    runs = [kmedoids.fasterpam(distances, looks, init="random", random_state=seed) for seed in range(STARTS)]
    seconds = time.perf_counter() - start
    best = min(runs, key=lambda run: run.loss)
    cost = cost_of(distances, np.asarray(best.medoids, dtype=np.int64))
    agree("kmedoids", float(best.loss), cost)
    return cost, seconds


def model(n, looks):
    """Bases first, then assignments row by row."""
    one = sparse.identity(n, format="csr")
    each = sparse.hstack([sparse.csr_matrix((n, n)), sparse.kron(one, np.ones((1, n)))], format="csr")
    open_only = sparse.hstack([-sparse.kron(np.ones((n, 1)), one), sparse.identity(n * n)], format="csr")
    count = sparse.csr_matrix(np.concatenate([np.ones(n), np.zeros(n * n)])[None, :])
    return [
        LinearConstraint(each, 1, 1),
        LinearConstraint(open_only, -np.inf, 0),
        LinearConstraint(count, looks, looks),
    ]


def highs(distances, looks):
    """Cost (None where it found no choice), bound (None where it has none), whether proved, and seconds."""
    n = len(distances)
    constraints = model(n, looks)
    objective = np.concatenate([np.zeros(n), distances.ravel()])
    whole = np.concatenate([np.ones(n), np.zeros(n * n)])
    start = time.perf_counter()
    answer = milp(
        objective,
        integrality=whole,
        bounds=Bounds(0, 1),
        constraints=constraints,
        options={"time_limit": LIMIT, "mip_rel_gap": 0},
    )
    seconds = time.perf_counter() - start
    bound = answer.mip_dual_bound
    bound = bound if bound is not None and np.isfinite(bound) else None
    if answer.x is None:
        return None, bound, False, seconds
    cost = cost_of(distances, np.flatnonzero(answer.x[:n] > 0.5))
    agree("HiGHS", float(answer.fun), cost)
    return cost, bound, answer.status == 0, seconds


def number(cost):
    return f"{cost:.0f}" if abs(cost - round(cost)) < 1e-6 else f"{cost:.3f}"


def proved(cost, bound, proven):
    if proven:
        return "optimal"
    if bound is None or bound <= 0:
        return "nothing"
    if cost is None:
        return f"at least {number(bound)}"
    return f"within {100 * (cost / bound - 1):.2f} %"


def row(problem, folder):
    name, n, looks = problem["name"], int(problem["n"]), int(problem["looks"])
    distances = np.fromfile(folder / f"{name}.f32", dtype="<f4").reshape(n, n).astype(np.float64)
    bases = np.array(problem["bases"].split(), dtype=np.int64)
    if len(set(bases.tolist())) > looks:
        sys.exit(f"{name}: we chose more than {looks} bases")
    ours, bound = cost_of(distances, bases), float(problem["bound"])
    agree("Shirr", float(problem["cost"]), ours)
    found, seconds = faster_pam(distances, looks)
    cells = [name, n, looks, number(ours), f"{float(problem['seconds']):.2f}"]
    cells += [proved(ours, bound, problem["proven"] == "true")]
    cells += [f"{number(found)} (+{100 * (found / ours - 1):.2f} %)", f"{seconds:.2f}", "nothing"]
    if n * n > MOST_ASSIGNMENTS:
        return cells + [f"skipped: {n * n:,} assignments", "–", "–"]
    cost, bound, proven, seconds = highs(distances, looks)
    shown = "none" if cost is None else f"{number(cost)} (+{100 * (cost / ours - 1):.2f} %)"
    return cells + [shown, f"{seconds:.1f}", proved(cost, bound, proven)]


def main():
    if len(sys.argv) != 2:
        sys.exit("expected one folder, as `cargo bench --bench gather -- --write DIR` writes it")
    folder = Path(sys.argv[1])
    head = ["problem", "n", "looks"]
    head += [f"{who} {what}" for who in ("Shirr", "FasterPAM", "HiGHS") for what in ("cost", "s", "proves")]
    print("| " + " | ".join(head) + " |")
    print("|" + "---|" + "---:|" * (len(head) - 1))
    with open(folder / "ours.csv", newline="", encoding="utf-8") as ours:
        for problem in csv.DictReader(ours):
            print("| " + " | ".join(map(str, row(problem, folder))) + " |", flush=True)
    print("\n" + ", ".join(f"{used} {version(used)}" for used in ("kmedoids", "scipy", "numpy")))


if __name__ == "__main__":
    main()
