#!/usr/bin/env python3
"""Adjustments in exact fractions: n inputs and m readings stacked as n + m weighted observations.

    python3 stacked_adjustments.py      writes stacked_adjustments.txt beside it

A case is: n m, S row by row, R row by row, J row by row, the misfits; then the least, inputs moved, the covariance's diagonal,
w and redundancy of every observation, inputs first. Numbers are written so that they read back as the same binary fractions.
"""
import random
from fractions import Fraction as F
from math import sqrt

random.seed(20)


def inverse(a):
    n = len(a)
    a = [row[:] + [F(int(i == j)) for j in range(n)] for i, row in enumerate(a)]
    for k in range(n):
        p = next(i for i in range(k, n) if a[i][k] != 0)
        a[k], a[p] = a[p], a[k]
        pivot = a[k][k]
        a[k] = [x / pivot for x in a[k]]
        for i in range(n):
            if i != k and a[i][k] != 0:
                f = a[i][k]
                a[i] = [x - f * y for x, y in zip(a[i], a[k])]
    return [row[n:] for row in a]


def times(a, b):
    columns = list(zip(*b))
    return [[sum((x * y for x, y in zip(row, c)), F(0)) for c in columns] for row in a]


def binary(x):
    """A fraction that a double holds exactly."""
    return F(round(x * 4096), 4096)


def covariance(n, size, correlated):
    b = [[binary(random.gauss(0, size)) if correlated or i == j else F(0) for j in range(n)] for i in range(n)]
    s = times(b, [list(c) for c in zip(*b)])
    for i in range(n):
        s[i][i] += F(1, 64)
    return s


with open("stacked_adjustments.txt", "w") as out:
    for case in range(24):
        n, m = random.randint(1, 7), random.randint(1, 9)
        S = covariance(n, [0.3, 1, 30][case % 3], case % 2 == 1)
        R = covariance(m, 0.5, case % 4 > 1)
        J = [[binary(random.gauss(0, 1)) if random.random() < 0.7 else F(0) for _ in range(n)] for _ in range(m)]
        d = [binary(random.gauss(0, 1.5)) for _ in range(m)]
        C = [[S[i][j] if i < n and j < n else R[i - n][j - n] if i >= n and j >= n else F(0) for j in range(n + m)]
             for i in range(n + m)]
        A = [[F(int(i == j)) for j in range(n)] for i in range(n)] + J
        At = [list(c) for c in zip(*A)]
        y = [[F(0)] for _ in range(n)] + [[v] for v in d]
        W = inverse(C)
        P = inverse(times(times(At, W), A))
        t = times(P, times(At, times(W, y)))
        e = [[a[0] - b[0]] for a, b in zip(y, times(A, t))]
        we = times(W, e)
        Q = [[c - q for c, q in zip(rc, rq)] for rc, rq in zip(C, times(times(A, P), At))]
        QW = times(Q, W)
        WQW = times(W, QW)
        least = sum(a[0] * b[0] for a, b in zip(e, we))
        w = [float(we[i][0]) / sqrt(WQW[i][i]) if WQW[i][i] != 0 else 0.0 for i in range(n + m)]
        out.write("%d %d\n" % (n, m))
        for block in (S, R, J, [d], [[least]], [[v[0] for v in t]], [[P[i][i] for i in range(n)]], [w],
                      [[QW[i][i] for i in range(n + m)]]):
            for row in block:
                out.write(" ".join(repr(float(v)) for v in row) + "\n")
