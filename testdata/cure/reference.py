"""Solves the castings of problems.json by two general-purpose methods of scipy
at tight tolerance, checks that they agree, and writes reference.json.

    /usr/bin/python3 testdata/cure/reference.py

Needs scipy (made with 1.10.1, Debian's python3-scipy); takes half a minute.
LSODA's answer is written, "agree" says how far Radau's lies from it. (scipy's
BDF is not used: with m < 1 it has gone silently wrong from a start at zero.)
Runs end where the resin comes to the limit, as in model/cure.
"""
import json
import os
import sys

from scipy.optimize import brentq

sys.dont_write_bytecode = True
from casting import BOOK, HERE, Answer, section, slab

TIMES = 20


def places(c):
    """Three resin cells: the first, the middle one, the last."""
    return [int(c.cures[i]) for i in (0, len(c.cures) // 2, -1)]


def rounded(x, digits):
    return None if x is None else round(float(x), digits)


def solved(c, cells):
    away = c.solve("LSODA", 1e-8, limit=BOOK["limit"])[1]
    # Up to where it runs away the curves climb a cliff: stop short of it.
    end = 0.98 * away if away else c.until
    times = [end * (k + 1) / TIMES for k in range(TIMES)]
    # Radau's interpolation is of lower order than its steps, so it stops there.
    answers = [Answer(c, *c.solve(method, rtol, atol, limit=BOOK["limit"], stops=stops))
               for method, rtol, atol, stops in (("LSODA", 1e-10, (1e-8, 1e-11), ()), ("Radau", 1e-9, (1e-7, 1e-10), times))]
    tables = []
    for answer in answers:
        states = [answer.at(t) for t in times]
        where = [list(c.cures).index(i) for i in cells]
        tables.append(([[y[c.t_at[i]] for y in states] for i in cells],
                       [[y[c.a_at[r]] for y in states] for r in where]))
    first, second = answers
    peaks, gels = [a.peak() for a in answers], [a.gel() for a in answers]
    agree = {
        "T": max(abs(a - b) for p, q in zip(tables[0][0], tables[1][0]) for a, b in zip(p, q)),
        "A": max(abs(a - b) for p, q in zip(tables[0][1], tables[1][1]) for a, b in zip(p, q)),
        "peak": abs(peaks[0][0] - peaks[1][0]),
        "peakAt": abs(peaks[0][1] / peaks[1][1] - 1),
        "runsAway": abs(first.away / second.away - 1) if first.away else 0,
        "gel": max([abs(a - b) / b for a, b in zip(*gels) if a and b], default=0),
    }
    for key, most in (("T", 1e-4), ("A", 1e-6), ("peak", 1e-4), ("peakAt", 1e-5), ("runsAway", 1e-6), ("gel", 1e-6)):
        if agree[key] > most:
            sys.exit(f"{c.name}: the two methods differ in {key}: {agree[key]:g}")
    released, stored = first.energy()
    print(f"{c.name}: {peaks[0][0] - 273.15:.3f} C at {peaks[0][1] / 3600:.4f} h, runs away {first.away and first.away / 3600}, {agree}", flush=True)
    return {
        "name": c.name,
        "peak": {"T": rounded(peaks[0][0], 4), "at": rounded(peaks[0][1], 1), "cell": peaks[0][2]},
        "runsAway": rounded(first.away, 2),
        "gelFirst": rounded(gels[0][0], 1), "gelLast": rounded(gels[0][1], 1),
        "released": rounded(released, 0), "stored": rounded(stored, 0),
        "times": [rounded(t, 3) for t in times], "cells": cells,
        "T": [[rounded(v, 4) for v in row] for row in tables[0][0]],
        "A": [[rounded(v, 6) for v in row] for row in tables[0][1]],
        "agree": {k: float(f"{v:.1g}") for k, v in agree.items()},
    }


def altered(p, depth=None, room=None):
    """A slab with its top layer of another thickness, or with the room and all
    that is in it at another temperature."""
    p = json.loads(json.dumps(p))
    if depth:
        p["strata"][-1]["thickness"] = depth
    if room:
        p["room"]["mean"] = room
        for s in p["strata"]:
            s["from"] = room
    return p


def edge(e):
    """The depth and the room at which the peak just comes to the limit."""
    p = next(p for p in BOOK["slabs"] if p["name"] == e["slab"])

    def over(method, rtol, **change):
        c = slab(altered(p, **change))
        return Answer(c, *c.solve(method, rtol)).peak()[0] - BOOK["limit"]
    found = {"slab": e["slab"]}
    for what, span in (("depth", 1e-7), ("room", 1e-4)):
        x = brentq(lambda x: over("LSODA", 1e-9, **{what: x}), *e[what], xtol=span)
        # Radau must put the limit within a thousandth of the same place.
        near = (x * 0.999, x * 1.001) if what == "depth" else (x - 0.02, x + 0.02)
        if not over("Radau", 1e-8, **{what: near[0]}) < 0 < over("Radau", 1e-8, **{what: near[1]}):
            sys.exit(f"{e['slab']}: the two methods differ in the {what} at which it runs away")
        found[what] = round(x, 6 if what == "depth" else 3)
    print(found, flush=True)
    return found


def line(value):
    """JSON with one row of numbers a line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(k)}: {line(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list) and value and isinstance(value[0], (dict, list)):
        return "[\n" + ",\n".join(line(v) for v in value) + "]"
    return json.dumps(value)


def main():
    out = {"about": "Written by reference.py: LSODA at 1e-10, checked by Radau. Plain SI.", "slabs": [], "sections": [], "edges": []}
    for p in BOOK["slabs"]:
        c = slab(p)
        out["slabs"].append(solved(c, places(c)))
    for p in BOOK["sections"]:
        if not p["name"].startswith("bench"):
            c = section(p)
            out["sections"].append(solved(c, places(c)))
    out["edges"] = [edge(e) for e in BOOK["edges"]]
    with open(os.path.join(HERE, "reference.json"), "w") as f:
        f.write(line(out) + "\n")


if __name__ == "__main__":
    main()
