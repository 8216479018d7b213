"""Reference values for anderson_beausoleil.cpp, from the exact error equation of M. B. Anderson and R. G. Beausoleil,
J. Acoust. Soc. Am. 156(1), 683 (2024), for their prototype. Needs python3-scipy. The stiffness of a pressed string goes with
1/sqrt(tension), as its definition says (their manuscript multiplies; the effect is below 0.001 of it)."""

import numpy as np
from scipy.optimize import least_squares

X0, b, c, rho, kappa = 650.0, 1.0, 4.0, 0.43, 51.0
B0 = np.sqrt(kappa) * rho / (2 * X0)
LN2 = np.log(2)


def errors(dS, dN, d, frets=12):
    out, stretch = [], []
    L0 = np.hypot(X0 + dS + dN, c)
    b0 = B0 * X0 / L0
    for n in range(1, frets + 1):
        X = X0 / 2 ** (n / 12)
        L = np.hypot(X + dS, b + c)
        behind = L / (X + dS) * d + np.hypot(X0 - X + dN - d, b + (b + c) * d / (X + dS))
        Q = (L + behind - L0) / L0
        bn = b0 * L0 / L / np.sqrt(1 + kappa * Q)
        second = 1 + np.pi**2 / 2
        out.append(1200 * np.log2(L0 / (2 ** (n / 12) * L)) + 600 * np.log2(1 + Q) + 600 * np.log2(1 + kappa * Q)
                   + 1200 * np.log2((1 + bn + second * bn**2) / (1 + b0 + second * b0**2)))
        stretch.append(Q)
    return np.array(out), np.array(stretch)


for d in (0.0, 10.0):
    e, q = errors(0, 0, d)
    print("d", d, "errors", np.round(e, 4).tolist(), "Q1", q[0], "mean Q", q.mean(), "dN", -kappa * X0 * q.mean() / 2)
dS = (B0 + 1.5 * (1 + np.pi**2) * B0**2) * X0 + kappa / (4 * X0) * (-9.848 * b * b + 2 * b * c + c * c)
dN = B0**2 * X0 - kappa / (2 * X0) * (5.633 * b * b + b * c)
print("formula I11", dS, dN, np.round(errors(dS, dN, 0)[0], 4).tolist())
for d in (0.0, 10.0):
    best = least_squares(lambda x: errors(x[0], x[1], d)[0], [1.5, -0.4], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    print("d", d, "least squares", best.x.tolist(), "rms", np.sqrt(np.mean(best.fun**2)))
    alone = least_squares(lambda x: errors(x[0], 0, d)[0], [1.5], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    print("d", d, "saddle alone", alone.x.tolist(), "rms", np.sqrt(np.mean(alone.fun**2)))
