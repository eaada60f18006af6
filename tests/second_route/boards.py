"""A walk board on a layer that only shears, wave by wave: the second route beside `check/walk_board.rs`.

Where both skins of a panel go down together under a board, the foam between them shears: a plate `D lap lap w` on a layer
`-S lap w`, both endless, a foot as a rectangle of even pressure. Each wave `cos(q y)` along is solved across in closed
form. "middle": the foot in the middle of an endless board. "side": the board ends at x = 0, the foot is flush with its
free side, and the layer goes on beyond. Told are the greatest moments anywhere under the foot on its middle line, across
(x) and along (y) the side, N m/m. numpy alone; versions as in requirements.txt.

    python tests/second_route/boards.py > data/second_route/boards.csv
"""

import platform

import numpy as np

LOAD = 1000.0
# id, D (N m), nu, G (Pa), depth (m), foot across and along (m)
CASES = [
    ("plywood_12_soft", 650.0, 0.1, 1.0e6, 0.050, 0.10, 0.18),
    ("plywood_12_hard", 650.0, 0.1, 6.0e6, 0.050, 0.10, 0.18),
    ("plywood_12_turned", 650.0, 0.1, 1.0e6, 0.050, 0.18, 0.10),
    ("plywood_18_soft", 2400.0, 0.1, 1.0e6, 0.030, 0.10, 0.18),
    ("plywood_18_turned", 2400.0, 0.2, 3.0e6, 0.075, 0.18, 0.10),
    ("thin_sheet", 60.0, 0.3, 2.0e6, 0.050, 0.10, 0.18),
]


def waves(b):
    """Wave numbers and weights of the integral along, with the load's share of each wave at its middle line."""
    edges = np.concatenate([[0.0], np.geomspace(1e-4, 4000.0, 1500)])
    nodes, weights = np.polynomial.legendre.leggauss(12)
    mid, half = (edges[1:] + edges[:-1]) / 2, (edges[1:] - edges[:-1]) / 2
    q = (mid[:, None] + half[:, None] * nodes).ravel()
    w = (half[:, None] * weights).ravel()
    return q, w * np.sin(q * b / 2) / (q / 2) / np.pi


def strip(k, x, a):
    """Response of `E'' - k^2 E = -1` on 0 < x < a, endless both ways, and its first two derivatives at x in it."""
    l, r = np.exp(-k * x), np.exp(-k * (a - x))
    return (2 - l - r) / (2 * k**2), (l - r) / (2 * k), -(l + r) / 2


def moments(d, nu, s, a, b, side):
    pressure = LOAD / (a * b)
    q, weight = waves(b)
    p = np.sqrt(q**2 + s / d)
    extra_a = extra_b = np.zeros_like(q)
    if side:
        # Endless plate at x = 0: value and three derivatives, then what a free side on a layer that goes on asks for.
        at = {}
        for name, k in (("q", q), ("p", p)):
            e = (1 - np.exp(-k * a)) / (2 * k**2)
            at[name] = (e, k * e, k**2 * e - 1, k**3 * e)
        w0, w1, w2, w3 = ((at["q"][i] - at["p"][i]) / s for i in range(4))
        rows = np.empty((len(q), 2, 2))
        right = np.empty((len(q), 2))
        # No moment: w'' - nu q^2 w = 0.
        rows[:, 0, 0], rows[:, 0, 1] = q**2 * (1 - nu), p**2 - nu * q**2
        right[:, 0] = -(w2 - nu * q**2 * w0)
        # No force left: D (w''' - (2 - nu) q^2 w') - S w'(+) + S w'(-) = 0, with w'(-) = q w.
        for j, k in ((0, q), (1, p)):
            rows[:, 1, j] = d * (-(k**3) + (2 - nu) * q**2 * k) + s * k + s * q
        right[:, 1] = -(d * (w3 - (2 - nu) * q**2 * w1) - s * w1 + s * q * w0)
        scale = np.abs(rows).max(axis=2, keepdims=True)
        extra = np.linalg.solve(rows / scale, (right / scale[:, :, 0])[:, :, None])[:, :, 0]
        extra_a, extra_b = extra[:, 0], extra[:, 1]
    most = [0.0, 0.0]
    for x in np.linspace(0.0, a, 41):
        eq, ep = strip(q, x, a), strip(p, x, a)
        w = (eq[0] - ep[0]) / s + extra_a * np.exp(-q * x) + extra_b * np.exp(-p * x)
        wxx = (eq[2] - ep[2]) / s + extra_a * q**2 * np.exp(-q * x) + extra_b * p**2 * np.exp(-p * x)
        kx, ky = -pressure * (weight * wxx).sum(), pressure * (weight * q**2 * w).sum()
        most = [max(most[0], d * (kx + nu * ky)), max(most[1], d * (ky + nu * kx))]
    return most


def by_double_sum(d, nu, s, a, b, side=16.0, n=1600):
    """The middle once more: a wide square, held at its sides, as a double sine series."""
    m = np.arange(1, 2 * n, 2) * np.pi / side
    f = np.sin(m * side / 2)
    p, q = m[:, None], m[None, :]
    pressure = LOAD / (a * b)
    load = 16 * pressure / side**2 * (f * np.sin(m * a / 2) / m)[:, None] * (f * np.sin(m * b / 2) / m)[None, :]
    lap = p**2 + q**2
    w = load / (d * lap**2 + s * lap) * f[:, None] * f[None, :]
    x, y = (p**2 * w).sum(), (q**2 * w).sum()
    return d * (x + nu * y), d * (y + nu * x)


print("# Written by tests/second_route/boards.py: SI; a foot of 1 kN on a board on a layer that only shears; N m/m.")
print(f"# Python {platform.python_version()}, numpy {np.__version__}.")
print("id,d,nu,g,depth,across,along,middle_x,middle_y,side_x,side_y")
for name, d, nu, g, depth, a, b in CASES:
    s = g * depth
    middle, side = moments(d, nu, s, a, b, False), moments(d, nu, s, a, b, True)
    again = by_double_sum(d, nu, s, a, b)
    for one, other in zip(middle, again):
        assert abs(one / other - 1) < 3e-3, (name, middle, again)
    print(f"{name},{d},{nu},{g},{depth},{a},{b}," + ",".join(f"{v:.6g}" for v in (*middle, *side)))
