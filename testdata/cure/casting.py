"""The castings of problems.json as ordinary differential equations.

Finite volumes, the same as in meniscus/model/cure, so that solvers are
compared and not grids: neighbours exchange (T_i - T_j) / (dx_i/2k_i +
dx_j/2k_j) per area, a face to the air (T_air - T_i) / (1/h + dx_i/2k_i), none
where h is 0. A cell's T follows rho cp dT/dt = fluxes + rho H da/dt and its
conversion a the rate law of Kamal and Sourour with Chern and Poehlein's
slowing. Slab and section differ only in which cells are neighbours.
"""
import json
import math
import os

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.sparse import coo_matrix, csr_matrix

R = 8.31446261815324
HERE = os.path.dirname(os.path.abspath(__file__))

with open(os.path.join(HERE, "problems.json")) as f:
    BOOK = json.load(f)


class Room:
    """The air's temperature: model/cure/room.go in Python."""

    def __init__(self, mean, swing=0.0, warmest=0.0, log=()):
        self.mean, self.swing, self.warmest, self.log = mean, swing, warmest, list(log)

    def own(self, t):
        return self.mean + self.swing * math.cos(2 * math.pi * (t - self.warmest) / 86400)

    def __call__(self, t):
        log = self.log
        if not log:
            return self.own(t)
        if t < log[0][0]:
            return self.own(t) + log[0][1] - self.own(log[0][0])
        if t >= log[-1][0]:
            share = 1 - (t - log[-1][0]) / 21600
            return self.own(t) + max(share, 0) * (log[-1][1] - self.own(log[-1][0]))
        for (t0, a), (t1, b) in zip(log, log[1:]):
            if t < t1:
                return a + (b - a) * (t - t0) / (t1 - t0)

    def knots(self):
        """Times at which it turns a corner."""
        return [x[0] for x in self.log] + [x[0] + 21600 for x in self.log[-1:]]


class Casting:
    """Cells, what they exchange, and which of them cure. Its unknowns are the
    temperature of each cell, followed at once by the conversion if it cures."""

    def __init__(self, name, until, room, law, cells, faces, films):
        self.name, self.until, self.room, self.law = name, until, Room(**room), law
        self.size = len(cells)
        self.volume = np.array([c["volume"] for c in cells])
        self.rhocp = np.array([c["density"] * c["heat"] for c in cells])
        self.cures = np.array([i for i, c in enumerate(cells) if c["cures"]], dtype=int)
        self.rho = np.array([c["density"] for c in cells])
        self.capacity = self.volume * self.rhocp
        self.faces, self.films = faces, films
        self.t_at = np.zeros(self.size, dtype=int)
        self.a_at = np.zeros(len(self.cures), dtype=int)
        start, n, r = [], 0, 0
        for i, c in enumerate(cells):
            self.t_at[i], n = n, n + 1
            start.append(c["from"])
            if c["cures"]:
                self.a_at[r], n, r = n, n + 1, r + 1
                start.append(max(c["done"], BOOK["seed"]))
        self.start = np.array(start)
        self.warm = law["Heat"] * self.rho[self.cures] / self.rhocp[self.cures]  # K per unit of conversion
        self.conduct()

    def conduct(self):
        """The linear part as a sparse matrix and what the air adds."""
        i, j, v = [], [], []

        def put(a, b, g):
            i.append(a), j.append(b), v.append(g)

        for a, b, g in self.faces:
            put(a, a, -g / self.capacity[a]), put(a, b, g / self.capacity[a])
            put(b, b, -g / self.capacity[b]), put(b, a, g / self.capacity[b])
        self.air = np.zeros(self.size)
        for a, g in self.films:
            put(a, a, -g / self.capacity[a])
            self.air[a] += g / self.capacity[a]
        self.linear = csr_matrix(coo_matrix((v, (i, j)), shape=(self.size, self.size)))
        fixed = self.linear.tocoo()
        rows, cols = [self.t_at[fixed.row]], [self.t_at[fixed.col]]
        t, a = self.t_at[self.cures], self.a_at
        for r, c in ((t, t), (t, a), (a, t), (a, a)):
            rows.append(r), cols.append(c)
        self.rows, self.cols, self.fixed = np.concatenate(rows), np.concatenate(cols), fixed.data
        self.band = int(np.max(np.abs(self.rows - self.cols)))

    def rate(self, a, t, slopes=False):
        """da/dt and, if wanted, its slopes by temperature and by conversion."""
        k = self.law
        whole = a < 1
        a = np.clip(a, 1e-300, 1)
        k1 = k["A1"] * np.exp(-k["E1"] / (R * t))
        k2 = k["A2"] * np.exp(-k["E2"] / (R * t))
        am = k2 * a ** k["M"]
        rest = np.maximum(1 - a, 1e-300)
        power = rest ** k["N"]
        plain = (k1 + am) * power
        steep = k.get("Steep", 0)
        if steep:
            span = k["Full"] - k["Liquid"]
            rise = t + k["Margin"] - k["Liquid"]
            under = k["Lambda"] * span + (1 - k["Lambda"]) * rise
            slow = 1 / (1 + np.exp(np.minimum(steep * (a - rise / under), 700)))
        else:
            slow = 1.0
        rate = np.where(whole, plain * slow, 0)
        if not slopes:
            return rate
        by_t = (k1 * k["E1"] + am * k["E2"]) / (R * t * t) * power * slow
        by_a = (k["M"] * am / a * power - k["N"] * plain / rest) * slow
        if steep:
            by_t = by_t + rate * (1 - slow) * steep * k["Lambda"] * span / under**2
            by_a = by_a - rate * (1 - slow) * steep
        return rate, np.where(whole, by_t, 0), np.where(whole, by_a, 0)

    def slope(self, t, y):
        temp = y[self.t_at]
        out = np.empty_like(y)
        rate = self.rate(y[self.a_at], temp[self.cures])
        flow = self.linear @ temp + self.air * self.room(t)
        flow[self.cures] += self.warm * rate
        out[self.t_at] = flow
        out[self.a_at] = rate
        return out

    def entries(self, y):
        _, by_t, by_a = self.rate(y[self.a_at], y[self.t_at[self.cures]], True)
        return np.concatenate([self.fixed, self.warm * by_t, self.warm * by_a, by_t, by_a])

    def banded(self, t, y):
        """The Jacobian as LSODA's Fortran wants it: packed by diagonals, with
        as many empty rows below as the band is wide."""
        w = 3 * self.band + 1
        n = len(y)
        where = (self.rows - self.cols + self.band) * n + self.cols
        return np.bincount(where, self.entries(y), w * n).reshape(w, n)

    def sparse(self, t, y):
        return coo_matrix((self.entries(y), (self.rows, self.cols)), shape=(len(y), len(y))).tocsc()

    def hottest(self, y):
        return np.max(y[self.t_at[self.cures]])

    def solve(self, method, rtol, atol=(1e-7, 1e-10), until=None, limit=None, stops=(), dense=True):
        """Runs it, piece by piece between the corners of the room. Gives the
        pieces (scipy's solutions) and when it ran away, or None."""
        until = until or self.until
        tolerance = np.full(len(self.start), atol[0])
        tolerance[self.a_at] = atol[1]
        how = {"LSODA": dict(jac=self.banded, lband=self.band, uband=self.band),
               "Radau": dict(jac=self.sparse), "BDF": dict(jac=self.sparse)}[method]

        def over(t, y):
            return self.hottest(y) - limit
        over.terminal, over.direction = True, 1
        knots = sorted({t for t in [*self.room.knots(), *stops] if 0 < t < until})
        pieces, y, begin = [], self.start, 0.0
        for end in [*knots, until]:
            s = solve_ivp(self.slope, (begin, end), y, method=method, rtol=rtol, atol=tolerance,
                          dense_output=dense, events=over if limit else None, **how)
            if s.status < 0:
                raise RuntimeError(f"{self.name}: {method}: {s.message}")
            pieces.append(s)
            if s.status == 1:
                return pieces, float(s.t_events[0][0])
            y, begin = s.y[:, -1], end
        return pieces, None


def matter(name):
    return BOOK["matter"][name]


def slab(p):
    cells, faces, films, half = [], [], [], []
    cure = None
    for s in p["strata"]:
        m, dx = matter(s["matter"]), s["thickness"] / s["cells"]
        cure = s.get("cure", cure)
        for _ in range(s["cells"]):
            cells.append(dict(m, volume=dx, cures="cure" in s, done=s.get("done", 0), **{"from": s["from"]}))
            half.append(dx / (2 * m["conductivity"]))
    for i in range(len(cells) - 1):
        faces.append((i, i + 1, 1 / (half[i] + half[i + 1])))
    for i, h in ((0, p["below"]), (len(cells) - 1, p["above"])):
        if h:
            films.append((i, 1 / (1 / h + half[i])))
    return Casting(p["name"], p["until"], p["room"], BOOK["kinetics"][cure], cells, faces, films)


def section(p):
    """A section, one metre long, its cells column by column from the left and
    each column from the bottom up."""
    wide = [(c["width"] / c["cells"], n) for n, c in enumerate(p["columns"]) for _ in range(c["cells"])]
    high = [(r["height"] / r["cells"], n) for n, r in enumerate(p["rows"]) for _ in range(r["cells"])]
    nz, ny = len(high), len(wide)
    cells, faces, films = [], [], []
    for dy, column in wide:
        for dz, row in high:
            name = p["fill"][row][column]
            resin = name == "resin"
            cells.append(dict(matter(name), volume=dy * dz, cures=resin, done=0, dy=dy, dz=dz,
                              **{"from": p["resinFrom"] if resin else p["from"]}))

    def between(i, j, way, across):
        a, b = cells[i], cells[j]
        faces.append((i, j, a[across] / (a[way] / (2 * a["conductivity"]) + b[way] / (2 * b["conductivity"]))))

    def film(i, h, way, across):
        if h:
            c = cells[i]
            films.append((i, c[across] / (1 / h + c[way] / (2 * c["conductivity"]))))
    for y in range(ny):
        for z in range(nz):
            i = y * nz + z
            if z + 1 < nz:
                between(i, i + 1, "dz", "dy")
            if y + 1 < ny:
                between(i, i + nz, "dy", "dz")
        film(y * nz, p["below"], "dz", "dy")
        film(y * nz + nz - 1, p["above"], "dz", "dy")
    for z in range(nz):
        film(z, p["left"], "dy", "dz")
        film((ny - 1) * nz + z, p["right"], "dy", "dz")
    return Casting(p["name"], p["until"], p["room"], BOOK["kinetics"][p["cure"]], cells, faces, films)


def named(name):
    for p in BOOK["slabs"]:
        if p["name"] == name:
            return slab(p)
    for p in BOOK["sections"]:
        if p["name"] == name:
            return section(p)
    raise KeyError(name)


class Answer:
    """What a run came to."""

    def __init__(self, casting, pieces, away):
        self.c, self.pieces, self.away = casting, pieces, away
        self.ends = away or casting.until

    def at(self, t):
        for s in self.pieces:
            if t <= s.t[-1]:
                return s.sol(t)
        return self.pieces[-1].sol(self.pieces[-1].t[-1])

    def peak(self):
        """Highest temperature of the resin, when, and in which cell."""
        where = self.c.t_at[self.c.cures]
        best = (-1, 0, 0)
        for s in self.pieces:
            top = np.max(s.y[where], axis=0)
            n = int(np.argmax(top))
            a, b = s.t[max(n - 1, 0)], s.t[min(n + 1, len(s.t) - 1)]
            for _ in range(4):
                grid = np.linspace(a, b, 41)
                temps = s.sol(grid)[where]
                m = int(np.argmax(np.max(temps, axis=0)))
                a, b = grid[max(m - 1, 0)], grid[min(m + 1, 40)]
            found = (float(np.max(temps[:, m])), float(grid[m]), int(self.c.cures[np.argmax(temps[:, m])]))
            best = max(best, found)
        return best

    def gel(self):
        """Times at which the first and the last resin gels; None if it does not."""
        gel, times = self.c.law["Gel"], []
        for r in self.c.a_at:
            if self.c.start[r] >= gel:
                times.append(0.0)
                continue
            for s in self.pieces:
                if s.y[r, -1] >= gel:
                    n = int(np.argmax(s.y[r] >= gel))
                    times.append(s.t[0] if n == 0 else brentq(lambda t: s.sol(t)[r] - gel, s.t[n - 1], s.t[n], xtol=1e-4))
                    break
            else:
                times.append(math.inf)
        return [None if math.isinf(x) else float(x) for x in (min(times), max(times))]

    def energy(self):
        """Heat released and stored by the end."""
        c, y = self.c, self.at(self.ends)
        made = y[c.a_at] - c.start[c.a_at]
        released = float(np.sum(c.volume[c.cures] * c.rho[c.cures] * c.law["Heat"] * made))
        return released, float(np.sum(c.capacity * (y[c.t_at] - c.start[c.t_at])))


def plain(c):
    """A casting as the bare numbers that cvode.c reads."""
    k = c.law
    rows = [[len(c.start), c.size, len(c.faces), len(c.films), c.band], [c.until, c.room.mean, c.room.swing, c.room.warmest],
            [k["A1"], k["E1"] / R, k["A2"], k["E2"] / R, k["M"], k["N"]],
            [k.get("Steep", 0), k.get("Liquid", 1) - k.get("Margin", 0), k.get("Lambda", 1) * (k.get("Full", 2) - k.get("Liquid", 1)), 1 - k.get("Lambda", 1)]]
    resin = {int(i): n for n, i in enumerate(c.cures)}
    for i in range(c.size):
        n = resin.get(i, -1)
        rows.append([c.start[c.t_at[i]], c.start[c.a_at[n]] if n >= 0 else -1, 1 / c.capacity[i], c.warm[n] if n >= 0 else 0])
    rows += [list(x) for x in c.faces] + [list(x) for x in c.films]
    return "\n".join(" ".join(f"{float(v):.17g}" for v in row) for row in rows) + "\n"
