"""Exact elasticity of a panel of layers under one half wave of pressure: the skin's outer fibre.

    python3 -m venv /tmp/layers && /tmp/layers/bin/pip install numpy scipy
    /tmp/layers/bin/python tests/second_route/layers.py

prints the rows `L3D_*` of `data/verification/plates.csv`. Simply supported edges, isotropic layers; the six fields that
pass through a layer (three movements, three stresses on the level) are carried up by a matrix exponential, so that no
plate theory is in it (the way of Pagano 1970, from memory).
"""

import numpy as np
from scipy.linalg import expm


def layer(e, nu, al, be):
    g, m = e / (2 * (1 + nu)), e * (1 - nu) / ((1 + nu) * (1 - 2 * nu))
    c, q11 = nu / (1 - nu), e / (1 - nu**2)
    q12 = nu * q11
    a = np.zeros((6, 6))  # u v w txz tyz sz, d/dz
    a[0, 3], a[0, 2] = 1 / g, -al
    a[1, 4], a[1, 2] = 1 / g, -be
    a[2, 5], a[2, 0], a[2, 1] = 1 / m, c * al, c * be
    a[3, 0], a[3, 1], a[3, 5] = q11 * al**2 + g * be**2, (q12 + g) * al * be, -c * al
    a[4, 1], a[4, 0], a[4, 5] = q11 * be**2 + g * al**2, (q12 + g) * al * be, -c * be
    a[5, 3], a[5, 4] = al, be
    return a, q11, q12, c


def outer_fibre(a, b, layers, q):
    """Stress across at the top, in the middle, compression positive; lowest layer first: (E, nu, thickness)."""
    al, be = np.pi / a, np.pi / b
    made = [(layer(e, nu, al, be), t) for e, nu, t in layers]
    through = np.eye(6)
    for (m, *_), t in made:
        through = expm(m * t) @ through
    state = np.zeros(6)
    state[:3] = np.linalg.solve(through[3:, :3], [0, 0, -q])
    u, v, _, _, _, sz = through @ state
    _, q11, q12, c = made[-1][0]
    return q11 * al * u + q12 * be * v - c * sz


PANEL = [(7000.0, 0.25, 3.0), (5.0, 0.1, 40.0), (7000.0, 0.25, 3.0)]
for a, b in [(2300, 2300), (2300, 1200), (1200, 600), (600, 600)]:
    print(f"L3D_{a}_{b} {outer_fibre(a, b, PANEL, 1e-3):.6f} MPa under 1 kPa")
