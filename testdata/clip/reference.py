"""Clips 1,000 pairs of polygons with holes by GEOS and writes reference.json,
their areas alone: the polygons are drawn from whole numbers by a small linear
congruential generator, which model/shape/reference_test.go repeats.

    /usr/bin/python3 testdata/clip/reference.py

Needs shapely (Debian's python3-shapely). All corners are multiples of 1/8192,
so both sides clip the very same polygons.
"""
import functools
import json
import os

import shapely.geos
from shapely.geometry import MultiPolygon, Polygon

HERE = os.path.dirname(os.path.abspath(__file__))
UNIT = 8192.0


class Draw:
    """Knuth's MMIX generator, its upper 31 bits."""

    def __init__(self, start):
        self.state = start

    def below(self, n):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return (self.state >> 33) % n


def star(draw, holed):
    """Points in all directions round a centre, sorted by direction; with a hole of
    3/8 its size, and an island of 1/8 in that."""
    n = 5 + draw.below(40)
    rays = []
    for _ in range(n):
        x, y = draw.below(401) - 200, draw.below(401) - 200
        rays.append((8 * x, 8 * y))
    cx, cy = draw.below(1601), draw.below(1601)
    half = lambda p: 0 if (p[1] > 0 or p[1] == 0 and p[0] > 0) else 1

    def order(p, q):
        if half(p) != half(q):
            return half(p) - half(q)
        c = p[0] * q[1] - p[1] * q[0]
        return -1 if c > 0 else 1 if c < 0 else 0

    rays = sorted((p for p in rays if p != (0, 0)), key=functools.cmp_to_key(order))
    ring = []
    for p in rays:
        if not ring or order(ring[-1], p) != 0:
            ring.append(p)
    # Four far points, so that the centre lies inside: the ring is star-shaped.
    for p in ((2400, 8), (-8, 2400), (-2400, -8), (8, -2400)):
        at = next((i for i, q in enumerate(ring) if order(p, q) <= 0), len(ring))
        if at < len(ring) and order(p, ring[at]) == 0:
            ring[at] = p
        else:
            ring.insert(at, p)
    place = lambda k: [(p[0] * k // 8 + cx, p[1] * k // 8 + cy) for p in ring]
    return [place(8), place(3), place(1)] if holed else [place(8)]


def comb(draw, upright):
    """Teeth of unlike length, with a window in its back."""
    teeth, x, top = 2 + draw.below(8), draw.below(400), []
    left = x
    for _ in range(teeth):
        wide, gap, tall = 60 + draw.below(200), 1 + draw.below(120), 700 + draw.below(1500)
        top += [(x, tall), (x + wide, tall)]
        x += wide
        top += [(x, 500), (x + gap, 500)]
        x += gap
    foot = draw.below(300)
    ring = [(left, foot)] + [(x, foot)] + list(reversed(top))
    hole = [(left + 10, foot + 20), (x - 30, foot + 20), (x - 30, 480), (left + 10, 480)]
    rings = [ring, hole]
    return [[(q, p) for p, q in r] for r in rings] if upright else rings


def skyline(draw, down):
    """Blocks on a coarse grid, which share edges and corners with other such."""
    n, ring, x = 4 + draw.below(6), [], 256 * draw.below(3)
    left = x
    for _ in range(n):
        tall = 256 * (2 + draw.below(5))
        ring += [(x, tall), (x + 256, tall)]
        x += 256
    ring += [(x, 0), (left, 0)]
    hole = [(left + 256, 128), (left + 256, 384), (left + 512, 384), (left + 512, 128)]
    rings = [ring, hole]
    return [[(p, 1792 - q) for p, q in r] for r in rings] if down else rings


def pair(draw, k):
    if k < 600:
        return star(draw, k % 3 > 0), star(draw, k % 2 > 0)
    if k < 800:
        return comb(draw, False), comb(draw, k % 2 > 0)
    return skyline(draw, False), skyline(draw, k % 2 > 0)


def solid(rings):
    at = [[(x / UNIT, y / UNIT) for x, y in r] for r in rings]
    if len(at) == 3:
        shape = MultiPolygon([Polygon(at[0], [at[1]]), Polygon(at[2])])
    else:
        shape = Polygon(at[0], at[1:])
    assert shape.is_valid, rings
    return shape


def main():
    draw, rows = Draw(20261201), []
    for k in range(1000):
        a, b = (solid(r) for r in pair(draw, k))
        rows.append([a.area, b.area, a.intersection(b).area, a.union(b).area, a.difference(b).area,
                     a.buffer(0.004, 64).area, a.buffer(-0.004, 64).area])
    book = {
        "by": "GEOS %d.%d.%d through shapely %s" % (*shapely.geos.geos_version, shapely.__version__),
        "columns": ["a", "b", "and", "or", "without", "grown", "shrunk"],
        "rows": [[float("%.15g" % v) for v in r] for r in rows],
    }
    with open(os.path.join(HERE, "reference.json"), "w") as f:
        head = {k: v for k, v in book.items() if k != "rows"}
        f.write(json.dumps(head)[:-1] + ', "rows": [\n' + ",\n".join(json.dumps(r) for r in book["rows"]) + "\n]}\n")


main()
