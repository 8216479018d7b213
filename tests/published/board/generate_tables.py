#!/usr/bin/env python3
"""Reference tables for the board, by numpy and scipy (made with numpy 1.24.2, scipy 1.10.1).

    python3 generate_tables.py      writes the .txt tables beside it

Lengths in mm. Every case is a line of words and numbers; the tests read them in the same order.
"""
import numpy as np
from scipy import integrate, optimize, stats

rng = np.random.default_rng(20)


def row(f, *values):
    f.write(" ".join(repr(float(v)) if isinstance(v, (float, np.floating)) else str(v) for v in values) + "\n")


def scale_fits():
    """Least squares: scipy.stats.linregress with an offset, numpy.linalg.lstsq without; noisy invented readings."""
    with open("scale_fits.txt", "w") as f:
        for case in range(12):
            offset, steps = case % 2, [12, 12, 19, 24][case % 4]
            frets = np.sort(rng.choice(np.arange(1, 2 * steps), size=rng.integers(4, 16), replace=False))
            q = 1 - 2.0 ** (-frets / steps)
            d = np.round(rng.uniform(400, 700) * q + offset * rng.uniform(-0.6, 0.6) + rng.normal(0, 0.12, q.size), 2)
            if offset:
                r = stats.linregress(q, d)
                s, a, us, ua = r.slope, r.intercept, r.stderr, r.intercept_stderr
                scatter = np.sqrt(np.sum((d - a - s * q) ** 2) / (q.size - 2))
            else:
                (s,), (ss,), _, _ = np.linalg.lstsq(q[:, None], d, rcond=None)
                scatter = np.sqrt(ss / (q.size - 1))
                a, us, ua = 0.0, scatter / np.sqrt(np.sum(q * q)), 0.0
            row(f, offset, steps, q.size, s, us, a, ua, scatter)
            row(f, *[w for pair in zip(frets, d) for w in pair])


def programmes():
    """Random programmes, max c.x under A x <= b, by scipy.optimize.linprog (HiGHS): 0 optimal, 2 infeasible, 3 unbounded."""
    with open("programmes.txt", "w") as f:
        for case in range(60):
            n, m = int(rng.integers(1, 6)), int(rng.integers(1, 15))
            whole = case % 3 == 0  # small whole numbers make many degenerate corners
            draw = (lambda size: rng.integers(-3, 4, size).astype(float)) if whole else (lambda size: rng.normal(size=size))
            A, c = draw((m, n)), draw(n)
            b = draw(m) + (2.0 if case % 4 else 0.0)
            free = rng.random(n) < 0.4
            r = optimize.linprog(-c, A, b, bounds=[(None, None) if v else (0, None) for v in free], method="highs")
            if r.status == 4:  # infeasible or unbounded: settle which
                z = optimize.linprog(0 * c, A, b, bounds=[(None, None) if v else (0, None) for v in free], method="highs")
                r.status = 3 if z.status == 0 else 2
            row(f, n, m, r.status, -r.fun if r.status == 0 else 0.0)
            row(f, *c)
            row(f, *A.ravel())
            row(f, *b)
            row(f, *free.astype(int))


def levellings():
    """Least total cut of invented boards by linprog; level, slope, and across them roll and twist as shares of the spread."""
    with open("levellings.txt", "w") as f:
        for case in range(16):
            scale, frets, lines = rng.uniform(500, 700), int(rng.integers(8, 23)), 1 + case % 4
            one = int(case % 5 != 4)
            y0 = np.sort(rng.uniform(-18, 18, lines))
            y1 = y0 * rng.uniform(1.2, 1.6) + rng.uniform(-1, 1, lines)
            fall_from, fall = (0, 0.0) if case % 3 else (frets // 2, 0.15)
            relief = 0.0 if case % 2 else 0.1
            n = np.arange(1, frets + 1)
            x = scale * (1 - 2.0 ** (-n / 12))
            last = x[-1]
            shape = np.zeros_like(x)
            if fall_from:
                start = x[fall_from - 1]
                shape -= fall * np.maximum(0, (x - start) / (last - start))
            t = np.clip((x - x[0]) / (last - x[0]), 0, 1)
            shape -= 4 * relief * t * (1 - t)
            reach0 = np.abs(y0).max()
            reach1 = np.abs(y0 + (y1 - y0) * last / scale).max()
            A, h, heights = [], [], []
            for k in range(lines):
                z = np.round(rng.normal(0, 0.05, frets) + 0.2 * rng.normal() * x / last, 3)
                heights.append(z)
                for i in range(frets):
                    u = x[i] / last
                    if one:
                        v = (y0[k] + (y1[k] - y0[k]) * x[i] / scale) / (reach0 + (reach1 - reach0) * u)
                        A.append([1, u, v, u * v] if lines > 1 else [1, u])
                    else:
                        terms = [0.0] * (2 * lines)
                        terms[2 * k], terms[2 * k + 1] = 1, u
                        A.append(terms)
                    h.append(z[i] - shape[i])
            A, h = np.array(A), np.array(h)
            r = optimize.linprog(-A.sum(axis=0), A, h, bounds=[(None, None)] * A.shape[1], method="highs")
            assert r.status == 0
            row(f, scale, frets, lines, one, fall_from, fall, relief, h.sum() + r.fun)
            for k in range(lines):
                row(f, y0[k], y1[k], *heights[k])


def drop(radius, y):
    return radius - np.sqrt(radius**2 - y**2)


def removals():
    """Least removal by linprog over fine stations and places across, and its volume by dblquad."""
    with open("removals.txt", "w") as f:
        inch = 25.4
        cases = [(32, 42, 400, 8, 8, 12, 12), (43, 57, 470, 7, 7, 12, 12), (43, 57, 470, 12, 12, 8, 8),
                 (43, 57, 470, 8, 8, 10, 16), (40, 52, 450, 10, 16, 9, 9), (45, 60, 460, 7.25, 7.25, 9.5, 14),
                 (40, 55, 500, 10, 20, 14, 14), (50, 40, 420, 9, 9, 16, 16),
                 (43, 57, 470, 8, 8, 8, 40)]  # the last needs a tangent, not the chord between the ends
        for w0, w1, L, a0, a1, b0, b1 in cases:
            w0, w1, L = float(w0), float(w1), float(L)
            x = np.linspace(0, L, 801)
            half = (w0 + (w1 - w0) * x / L) / 2
            found, wanted = inch * (a0 + (a1 - a0) * x / L), inch * (b0 + (b1 - b0) * x / L)
            need = np.max([drop(found, s * half) - drop(wanted, s * half) for s in np.linspace(0, 1, 101)], axis=0)
            u = x / L
            weight = [np.trapz(half * (1 - u), u), np.trapz(half * u, u)]
            r = optimize.linprog(weight, -np.column_stack([1 - u, u]), -need, bounds=[(None, None)] * 2, method="highs")
            assert r.status == 0
            d0, d1 = r.x

            def removed(y, xx):
                fr, wr = inch * (a0 + (a1 - a0) * xx / L), inch * (b0 + (b1 - b0) * xx / L)
                return d0 + (d1 - d0) * xx / L + drop(wr, y) - drop(fr, y)

            v, _ = integrate.dblquad(removed, 0, L, lambda xx: -(w0 + (w1 - w0) * xx / L) / 2,
                                     lambda xx: (w0 + (w1 - w0) * xx / L) / 2, epsrel=1e-9)
            row(f, w0, w1, L, float(a0), float(a1), float(b0), float(b1), d0, d1, v)


def arcs_and_humps():
    """Arc lengths by quad, humps under a string by minimize_scalar."""
    with open("arcs.txt", "w") as f:
        for radius, width in [(184.15, 43.0), (241.3, 57.0), (305.0, 42.0), (406.4, 70.0), (30.0, 55.0)]:
            s, _ = integrate.quad(lambda y: radius / np.sqrt(radius**2 - y**2), -width / 2, width / 2, epsabs=1e-12)
            row(f, radius, width, s)
    with open("humps.txt", "w") as f:
        for r0, r1, y0, y1, scale, a, b in [(203.2, 203.2, 13, 24, 560, 0, 400), (241.3, 241.3, -17, -26, 648, 36, 470),
                                            (254.0, 406.4, 18, 27, 628, 0, 440), (184.0, 500.0, 20, 25, 640, 20, 450)]:
            r0, r1, y0, y1, scale, a, b = map(float, (r0, r1, y0, y1, scale, a, b))
            z = lambda x: -drop(r0 + (r1 - r0) * x / 450, y0 + (y1 - y0) * x / scale)
            e = lambda x: z(x) - z(a) - (z(b) - z(a)) * (x - a) / (b - a)
            sign = np.sign(e((a + b) / 2))
            m = optimize.minimize_scalar(lambda x: -sign * e(x), bounds=(a, b), method="bounded", options={"xatol": 1e-9})
            row(f, r0, r1, y0, y1, scale, a, b, e(m.x), m.x)


def centre_lines():
    """Line through middles and its uncertainty beyond the board, by numpy.polyfit with covariance."""
    with open("centre_lines.txt", "w") as f:
        for _ in range(8):
            count = int(rng.integers(3, 8))
            x = np.sort(rng.choice(np.arange(0, 460, 10), size=count, replace=False)).astype(float)
            bass = np.round(-16 - 0.012 * x + rng.normal(0, 0.1, count) + 0.5, 2)
            treble = np.round(16 + 0.012 * x + rng.normal(0, 0.1, count) + 0.5 - 0.002 * x, 2)
            p, cov = np.polyfit(x, (bass + treble) / 2, 1, cov=True)
            at = float(rng.uniform(500, 800))
            g = np.array([at, 1.0])
            row(f, count, at, p[0] * at + p[1], np.sqrt(g @ cov @ g))
            row(f, *[v for triple in zip(x, bass, treble) for v in triple])


def fans():
    """Fret ends and string crossings of fans by numpy.linalg.solve."""
    with open("fans.txt", "w") as f:
        for bass, treble, p, yb0, yt0, yb1, yt1 in [(648, 622, 7, -18, 17, -26, 25), (700, 640, 0, -20, 20, -30, 28),
                                                    (686, 635, 9.5, -24, 24, -37, 37)]:
            w0, w1, board = 46.0, 58.0, 480.0
            run_b, run_t = np.sqrt(bass**2 - (yb1 - yb0) ** 2), np.sqrt(treble**2 - (yt1 - yt0) ** 2)
            q = 1 - 2 ** (-p / 12)
            xb, xt = 0.0, (run_b - run_t) * q
            shift = xb + (xt - xb) * (0 - yb0) / (yt0 - yb0)
            xb, xt = xb - shift, xt - shift
            B0, B1 = np.array([xb, yb0]), np.array([xb + run_b, yb1])
            T0, T1 = np.array([xt, yt0]), np.array([xt + run_t, yt1])
            mix = lambda a, b, t: a + (b - a) * t
            nut, saddle = mix(B0, T0, 0.35), mix(B1, T1, 0.45)
            for n in [0, 1, 5, 7, 12, 19]:
                t = 1 - 2 ** (-n / 12)
                b, e = mix(B0, B1, t), mix(T0, T1, t)
                ends = []
                for side in (-1, 1):
                    # b + s (e - b) on the edge y = side (w0/2 + taper x)
                    taper = (w1 - w0) / 2 / board
                    s = np.linalg.solve(np.array([[(e - b)[1] - side * taper * (e - b)[0]]]),
                                        np.array([side * (w0 / 2 + taper * b[0]) - b[1]]))[0]
                    ends += list(b + s * (e - b))
                M = np.column_stack([saddle - nut, -(e - b)])
                s, _ = np.linalg.solve(M, b - nut)
                cents = 1200 * np.log2(1 / (1 - s)) - 100 * n
                row(f, bass, treble, float(p), yb0, yt0, yb1, yt1, n, *ends, cents)


if __name__ == "__main__":
    for table in (scale_fits, programmes, levellings, removals, arcs_and_humps, centre_lines, fans):
        table()
