"""The Python half of compare.sh.

    speed.py problems FOLDER   writes the benched problems as cvode.c reads them
    speed.py scipy FOLDER      one run each of scipy's fastest methods
    speed.py table FOLDER      a table of what the folder's raw lines say

A raw line is "problem|solver|setting|error of the peak|worst error|seconds|steps".
"""
import os
import sys
import time

import numpy as np

sys.dont_write_bytecode = True
from casting import BOOK, Answer, named, plain

BENCH = [p["name"] for p in BOOK["slabs"] + BOOK["sections"] if p["name"].startswith("bench: ")]
SLABS = {p["name"] for p in BOOK["slabs"]}


def slug(name):
    return name.replace("bench: ", "").replace(",", "").replace(" ", "-")


def problems(folder):
    for name in BENCH:
        with open(os.path.join(folder, slug(name) + ".txt"), "w") as f:
            f.write(plain(named(name)))


def scipy(folder):
    """LSODA with the analytic Jacobian in a band, on slabs and on sections."""
    for name in BENCH:
        c = named(name)
        truth = np.fromfile(os.path.join(folder, slug(name) + ".truth"))
        peak, truth = truth[0], truth[1:].reshape(-1, c.size)
        for rtol in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7) if name in SLABS else (1e-3, 1e-4, 1e-6):
            begin = time.perf_counter()
            pieces, _ = c.solve("LSODA", rtol, (0, 0.01 * rtol), dense=False)
            took = time.perf_counter() - begin
            answer = Answer(c, *c.solve("LSODA", rtol, (0, 0.01 * rtol)))
            off = abs(answer.peak()[0] - peak)
            worst = max(np.max(np.abs(answer.at(c.until * (k + 1) / len(truth))[c.t_at] - row)) for k, row in enumerate(truth))
            print(f"{slug(name)}|scipy LSODA (Python callbacks)|{rtol:g}|{off:.6f}|{max(off, worst):.6f}|{took:.6e}|{sum(len(p.t) for p in pieces)}", flush=True)


def gather(folder):
    """Best time of each (problem, solver, setting), with its errors."""
    best = {}
    with open(os.path.join(folder, "raw")) as f:
        for row in f:
            problem, solver, setting, *numbers = row.strip().split("|")
            peak, worst, seconds, steps = map(float, numbers)
            key = problem, solver, setting
            if key not in best or seconds < best[key][2]:
                best[key] = peak, worst, seconds, int(steps)
    return best


def pace(points, error):
    """The time that a solver needs for an error, on straight lines in the
    logarithms between its settings. A setting is credited with the worst error
    of itself and of all tighter ones, so that a lucky one counts for nothing,
    and with the least time that reaches it. None below the least error; above
    the greatest it is the time of the loosest."""
    front, worst, least = [], 0, np.inf
    for setting, e, s in sorted(points):
        worst, least = max(worst, e), min(least, s)
        front.append([worst, least])
    if not front or error < front[0][0]:
        return None
    logs = np.log(np.array(front))
    return float(np.exp(np.interp(np.log(error), logs[:, 0], logs[:, 1])))


def table(folder):
    best = gather(folder)
    for name in map(slug, BENCH):
        print(f"\n{name}\n  {'solver':32s} {'setting':>8s} {'peak K':>9s} {'worst K':>9s} {'best ms':>9s} {'steps':>6s}")
        for (problem, solver, setting), (peak, worst, seconds, steps) in best.items():
            if problem == name:
                print(f"  {solver:32s} {setting:>8s} {peak:9.4f} {worst:9.4f} {1000 * seconds:9.3f} {steps:6d}")
        for which, what in ((0, "the peak"), (1, "all temperatures")):
            def points(solver):
                return [(float(k[2]), v[which], v[2]) for k, v in best.items() if k[0] == name and k[1].startswith(solver)]
            words = []
            for error in (0.15, 0.1, 0.05, 0.02, 0.01, 0.005):
                own, other, slow = (pace(points(s), error) for s in ("meniscus", "CVODE", "scipy"))
                if own and other:
                    words.append(f"{error:g} K {own / other:.2f}" + (f" (scipy's {own / slow:.2f})" if slow else ""))
            print(f"  of CVODE's time at an equal error of {what}: {'; '.join(words) or 'no error in common'}")


if __name__ == "__main__":
    {"problems": problems, "scipy": scipy, "table": table}[sys.argv[1]](sys.argv[2])
