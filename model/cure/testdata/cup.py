# The course of a cup of resin as one lump, by two of scipy's methods.
# Run with python3-scipy; the figures are those of TestCupAgainstScipy.
from math import exp, pi

import numpy as np
from scipy.integrate import solve_ivp

R = 8.31446261815324
RHO, CP, K, AIR, MARGIN, STEEP = 1100.0, 1800.0, 0.20, 8.0, 15.0, 30.0


def course(a1, e1, a2, e2, m, n, heat, liquid, full, lam, mass, start):
    d = (4 * mass / RHO / pi) ** (1 / 3)
    top, within = pi / 4 * d * d, d / 10 / K
    loss = top / (1 / AIR + within) + 5 * top / (1 / AIR + 0.001 / 0.2 + within)

    def rate(a, t):
        rise, whole = t + MARGIN - (liquid + 273.15), full - liquid
        stalls = rise / (lam * whole + (1 - lam) * rise)
        free = (a1 * exp(-e1 / R / t) + a2 * exp(-e2 / R / t) * max(a, 0) ** m) * (1 - a) ** n
        return free / (1 + exp(STEEP * (a - stalls)))

    def f(_, y):
        r = rate(y[1], y[0])
        return [heat / CP * r - loss / (mass * CP) * (y[0] - start), r]

    for method in ("LSODA", "Radau"):
        s = solve_ivp(f, [0, 86400], [start, 1e-6], method=method, rtol=1e-10, atol=1e-12, dense_output=True)
        t = np.linspace(0, 86400, 864001)
        y = s.sol(t)
        i = y[0].argmax()
        hours = [round(np.interp(a, y[1], t) / 3600, 6) for a in (0.06, 0.2, 0.57735)]
        print(method, mass, hours, round(y[0][i] - 273.15, 4), round(t[i] / 3600, 5))


FAST = (35982, 54960, 3574.1, 44289, 0.39845, 1.5361, 446e3, -57, 91, 0.36903)
SLOW = (2.0e5, 63267.9637, 118000.438, 55157.8279, 0.30450112, 1.61742134, 450e3, -10, 87, 0.36903)
course(*FAST, 0.1, 293.15)
course(*SLOW, 0.05, 295.15)
course(*SLOW, 0.5, 295.15)
