#!/usr/bin/env python3
"""Partials of a stiff string, solved numerically, for comparison with the library's formula.

Solves  EI y'''' - T y'' = mu w^2 y  on 0 < x < 1 with mu = T = 1 and EI = e^2 by Hermite beam finite elements
(stiffness of bending and of tension, consistent mass), and prints w_n / (n pi): the partial over n times the ideal
string's fundamental.

Ends: "clamped" both ends, "hinged" both ends, "mixed" (one each); "edges": the string runs on over two knife edges that
hold its deflection to zero and leave its slope continuous, into afterlengths clamped at their far ends; and "springs k1
k2": each end's direction is held by a spring of q sqrt(EI T), q = k/(1 - k), which is an edge with a string without mass
beyond it for k = 0.5, and goes on to stiffer strings.
The hinged rows have the closed form sqrt(1 + (n pi e)^2); the program checks itself against it, and all rows but those of
the edges against the roots of their frequency equation.

Needs numpy and scipy. Run:  python3 stiff_string_table.py > stiff_string_table.csv
"""
import math

import numpy as np
from scipy.optimize import brentq
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import eigsh

PARTIALS = 12
STIFFNESSES = [0.001, 0.002, 0.003, 0.005, 0.01, 0.02, 0.03]


def element(h, e2):
    k_bend = e2 / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                                   [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    k_pull = 1 / (30 * h) * np.array([[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h],
                                      [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]])
    mass = h / 420 * np.array([[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
                               [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    return k_bend + k_pull, mass


def mesh(length, e):
    """Nodes of a span, finer within the bending layers at its ends."""
    fine = min(12 * e, 0.25 * length)
    ends = np.linspace(0, 1, 80) ** 1.2 * fine
    middle = np.linspace(fine, length - fine, 260)
    return np.unique(np.round(np.concatenate([ends, middle, length - ends]), 12))


def modes(nodes, fixed, e, count, springs=()):
    """The lowest frequencies; `springs` are pairs of a degree of freedom and the spring on it."""
    n = 2 * len(nodes)
    k, m = np.zeros((n, n)), np.zeros((n, n))
    for i in range(len(nodes) - 1):
        ke, me = element(nodes[i + 1] - nodes[i], e * e)
        k[2 * i:2 * i + 4, 2 * i:2 * i + 4] += ke
        m[2 * i:2 * i + 4, 2 * i:2 * i + 4] += me
    for freedom, spring in springs:
        k[freedom, freedom] += spring
    free = [i for i in range(n) if i not in fixed]
    # Inverse iteration about zero: the fine elements' huge eigenvalues would drown the low ones otherwise.
    values = eigsh(csc_matrix(k[np.ix_(free, free)]), count, csc_matrix(m[np.ix_(free, free)]), sigma=0,
                   return_eigenvectors=False)
    return np.sqrt(np.sort(values))


def frequency_equation(k1, k2, e, near):
    """Frequency by the root in a, the wave number, near one that is known to some 1e-7: with b^2 = a^2 + 1/e^2 the string is
    a sum of cos ax, sin ax, exp(-bx), exp(-b(1 - x)), which is zero at both ends and has (1 - k) e y'' = +-k y' there."""
    def f(a):
        b = math.sqrt(a * a + 1 / (e * e))
        far = math.exp(-b)
        rows = []
        for k, sign, c, s, p, m in ((k1, 1, 1, 0, 1, far), (k2, -1, math.cos(a), math.sin(a), far, 1)):
            rows.append([c, s, p, m])
            bend = np.array([-a * a * c, -a * a * s, b * b * p, b * b * m]) * (1 - k) * e
            rows.append(bend - sign * k * np.array([-a * s, a * c, -b * p, b * m]))
        return np.linalg.det(np.array(rows)) * e
    guess = math.sqrt((math.sqrt(1 + 4 * e * e * near * near) - 1) / (2 * e * e))  # w = a sqrt(1 + e^2 a^2)
    a = brentq(f, guess * (1 - 1e-6), guess * (1 + 1e-6), xtol=1e-14)
    return a * math.sqrt(1 + e * e * a * a)


def print_held(name, k1, k2, e, partials):
    x = mesh(1.0, e)
    last = 2 * (len(x) - 1)
    fixed, springs = {0, last}, []
    for k, freedom in ((k1, 1), (k2, last + 1)):
        if k == 1:
            fixed.add(freedom)
        else:
            springs.append((freedom, k / (1 - k) * e))
    w = modes(x, fixed, e, max(partials), springs)
    for n in partials:
        exact = n * math.pi * math.sqrt(1 + (n * math.pi * e) ** 2) if name == "hinged" else frequency_equation(k1, k2, e, w[n - 1])
        assert abs(w[n - 1] / exact - 1) < 2e-7, (name, e, n, w[n - 1], exact)
        print(f"{name},{e},{n},{w[n - 1] / (n * math.pi):.9f}")


print("ends,e,n,ratio")
for e in STIFFNESSES:
    for name, k1, k2 in (("hinged", 0, 0), ("clamped", 1, 1), ("mixed", 1, 0)):
        print_held(name, k1, k2, e, range(1, PARTIALS + 1))
    # Over two edges into afterlengths of 0.237 and 0.181: the mode of the middle span nearest the ideal fundamental.
    if e <= 0.01:
        before, after = 0.237, 0.181
        x = np.concatenate([mesh(before, e)[:-1], before + mesh(1.0, e)[:-1], before + 1 + mesh(after, e)])
        i1, i2 = int(np.argmin(abs(x - before))), int(np.argmin(abs(x - before - 1)))
        last = 2 * (len(x) - 1)
        w = modes(x, {0, 1, 2 * i1, 2 * i2, last, last + 1}, e, 4)
        print(f"edges,{e},1,{w[0] / math.pi:.9f}")
# Stiffer than any string of an instrument at the end: there the bending layers of both ends begin to meet.
for e in STIFFNESSES + [0.05, 0.07, 0.1]:
    for k1, k2 in ((0.5, 0.5), (0.5, 0), (1, 0.5), (0.25, 0.75), (0.7, 0.7), (0.1, 0.1)):
        print_held(f"springs {k1} {k2}", k1, k2, e, (1, 2, 4))
