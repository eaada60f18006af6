"""Feet on a skin over a foam layer on a rigid bed: a solid model, the second route beside the Fourier integral of `local/`.

Quadratic hexahedra (27 nodes) by scikit-fem; a quarter of the panel where the foot stands far from every edge, a half
where it stands at one. Skin and foam are bonded; a board lies on the skin without friction, through a layer that is stiff
upright and hardly resists shear. Versions as in requirements.txt beside this file.

A case with "lower" has no rigid bed: the panel hangs free, a lower skin under the foam or none, and a pressure from below
spread over its whole square bears the foot. Its sides are planes of symmetry (but the free edge), the square one of
endlessly many. In the skin's bending is what the panel as a whole bends it by: the tests add that to the local theory's.

    python3 -m venv /tmp/fem && /tmp/fem/bin/pip install -r tests/second_route/requirements.txt
    /tmp/fem/bin/python tests/second_route/feet.py

prints rows for `data/second_route/feet.csv`; a number makes the cells finer by that, names pick cases.

A bonded skin's faces bend and stretch; told is half the difference of their stresses, the bending. At a free edge the
pressure grows without bound, slowly: told is its mean over the outermost 5 mm as well.
"""

import sys

import numpy as np
import scipy.sparse.linalg as sla
from skfem import Basis, ElementHex2, ElementVector, FacetBasis, BilinearForm, LinearForm, MeshHex

FINE = float(sys.argv[1]) if len(sys.argv) > 1 else 1.0


def orthotropic(ex, ey, ez, gxy, gyz, gzx, nxy, nxz=0.0, nyz=0.0):
    """Stiffness in the order xx, yy, zz, yz, zx, xy (engineering shear)."""
    s = np.zeros((6, 6))
    s[0, 0], s[1, 1], s[2, 2] = 1 / ex, 1 / ey, 1 / ez
    s[0, 1] = s[1, 0] = -nxy / ex
    s[0, 2] = s[2, 0] = -nxz / ex
    s[1, 2] = s[2, 1] = -nyz / ey
    s[3, 3], s[4, 4], s[5, 5] = 1 / gyz, 1 / gzx, 1 / gxy
    return np.linalg.inv(s)


def isotropic(e, nu):
    g = e / (2 * (1 + nu))
    return orthotropic(e, e, e, g, g, g, nu, nu, nu)


def graded(breaks, sizes, growth=1.35):
    """Lines through `breaks`, cells as small as `sizes` at each break and growing away from it."""
    out = [breaks[0]]
    for (a, b), (ha, hb) in zip(zip(breaks, breaks[1:]), zip(sizes, sizes[1:])):
        left, right, la, lb = [], [], a, b
        while lb - la > 1e-12:
            if ha <= hb:
                step = min(ha, lb - la)
                la += step
                left.append(la)
                ha *= growth
            else:
                step = min(hb, lb - la)
                lb -= step
                right.append(lb)
                hb *= growth
        inner = sorted(set(left + right))
        inner = [v for v in inner if a + 1e-9 < v < b - 1e-9]
        # Drop slivers.
        kept = []
        for v in inner:
            if v - (kept[-1] if kept else a) > 0.4 * min(sizes) and b - v > 0.4 * min(sizes):
                kept.append(v)
        out += kept + [b]
    return np.array(out)


def strains(u):
    g = u.grad
    return [g[0, 0], g[1, 1], g[2, 2], g[1, 2] + g[2, 1], g[0, 2] + g[2, 0], g[0, 1] + g[1, 0]]


def solve(case):
    """Dent, greatest pressure on the foam, greatest bending stress of the skin across and along."""
    h = case["h"] / FINE
    a, b = case["patch"]
    reach = case["reach"]
    edge = case.get("edge")
    if edge is None:
        x = graded([0, a / 2, reach], [h * 1.5, h, h * 8])
        x0, x1 = 0.0, a / 2
    else:
        s = edge
        cuts, sizes = ([0, s, s + a, s + a + reach], [h / 2, h, h, h * 8]) if s > 0 else ([0, a, a + reach], [h / 2, h, h * 8])
        x = graded(cuts, sizes)
        x0, x1 = s, s + a
    y = graded([0, b / 2, reach], [h * 1.5, h, h * 8])
    c, t = case["foam"][2], case["skin"]["t"]
    def of(sk):
        return orthotropic(sk["ex"], sk["ey"], sk["ez"], sk["gxy"], sk["gyz"], sk["gzx"], sk["nxy"])

    hangs, lower = "lower" in case, case.get("lower")
    below = lower["t"] if lower else 0.0
    layers = [("lower", below, of(lower))] if lower else []
    foam_at = len(layers)
    layers.append(("foam", c, isotropic(*case["foam"][:2])))
    layers.append(("skin", t, of(case["skin"])))
    if "board" in case:
        bd = case["board"]
        gap = 0.5e-3
        layers.append(("gap", gap, orthotropic(1e4, 1e4, 1e9, 1e3, 1e3, 1e3, 0.0)))
        layers.append(("board", bd["t"], orthotropic(bd["ex"], bd["ey"], bd["ez"], bd["gxy"], bd["gyz"], bd["gzx"], bd["nxy"])))
    z, owner = [-below], []
    for number, (name, depth, _) in enumerate(layers):
        if name == "foam":
            cells = np.diff(graded([0, depth], [h if hangs else h * 3, h / 2]))
        else:
            cells = [depth]
        for d in cells:
            z.append(z[-1] + d)
            owner.append(number)
    z = np.array(z)
    mesh = MeshHex.init_tensor(x, y, z)
    basis = Basis(mesh, ElementVector(ElementHex2()), intorder=5)
    mid = mesh.p[:, mesh.t].mean(axis=1)
    which = np.array(owner)[np.searchsorted(z, mid[2]) - 1]
    C = np.array([m for _, _, m in layers])[which]  # elements, 6, 6
    Cq = np.transpose(C, (1, 2, 0))[:, :, :, None]

    @BilinearForm
    def stiffness(u, v, w):
        e, d = strains(u), strains(v)
        return sum(Cq[i, j] * e[j] * d[i] for i in range(6) for j in range(6) if np.any(C[:, i, j]))

    K = stiffness.assemble(basis)
    top = mesh.facets_satisfying(lambda p: (abs(p[2] - z[-1]) < 1e-9) & (p[0] > x0 - 1e-9) & (p[0] < x1 + 1e-9) & (p[1] < b / 2 + 1e-9))
    fb = FacetBasis(mesh, ElementVector(ElementHex2()), facets=top, intorder=5)
    pressure = case["load"] / (a * b)
    f = LinearForm(lambda v, w: -pressure * v[2]).assemble(fb)
    X = basis.doflocs
    comp = np.zeros(basis.N, int)
    for i in range(3):
        comp[basis.get_dofs(elements=np.arange(mesh.t.shape[1])).all(f"u^{i+1}")] = i
    near = lambda k, v: abs(X[k] - v) < 1e-9
    if hangs:
        bottom = mesh.facets_satisfying(lambda p: abs(p[2] - z[0]) < 1e-9)
        fb = FacetBasis(mesh, ElementVector(ElementHex2()), facets=bottom, intorder=5)
        bears = case["load"] / (4 if edge is None else 2) / (x[-1] * y[-1])
        f += LinearForm(lambda v, w: bears * v[2]).assemble(fb)
        bed = near(0, x[-1]) & near(1, y[-1]) & near(2, z[0]) & (comp == 2)
    else:
        bed = near(2, 0)
    fixed = bed | (near(1, 0) & (comp == 1)) | near(1, y[-1]) & (comp == 1) | near(0, x[-1]) & (comp == 0)
    if edge is None:
        fixed |= near(0, 0) & (comp == 0)
    D = np.flatnonzero(fixed)
    free = np.setdiff1d(np.arange(basis.N), D)
    Kf = K[free][:, free].tocsc()
    print(case["id"], "unknowns", len(free), file=sys.stderr)
    u = np.zeros(basis.N)
    u[free] = sla.splu(Kf, permc_spec="COLAMD" if len(free) < 2000 else "MMD_AT_PLUS_A", options=dict(SymmetricMode=True, DiagPivotThresh=0.0)).solve(f[free])
    # Stress at cell corners of the skin and of the foam's top cells, from inside each cell.
    out = {}
    skin_z = (c, c + t)
    def face(level):
        on = np.flatnonzero((comp == 2) & (abs(X[2] - level) < 1e-9))
        return u[on[np.lexsort((np.round(X[1][on], 7), np.round(X[0][on], 7)))]]

    out["dent"] = (face(0.0) - face(c)).max()

    def field(number, middle, level):
        cells = np.flatnonzero((which == number) & (abs(mid[2] - middle) < 1e-9))
        corners = (0.0, 0.5, 1.0)
        pts = np.array([[i, j, k] for i in corners for j in corners for k in corners]).T
        bs = Basis(mesh, ElementVector(ElementHex2()), elements=cells, quadrature=(pts, np.ones(27)))
        e = np.array([np.asarray(s) for s in strains(bs.interpolate(u))])
        at = np.asarray(bs.global_coordinates())
        stress = np.einsum("ij,jkl->ikl", layers[number][2], e)
        here = abs(at[2] - level) < 1e-9
        order = np.lexsort((at[1][here], at[0][here]))
        return stress[:, here][:, order], at[:, here][:, order]

    zf = z[: len(owner) + 1]
    top_foam = (zf[np.searchsorted(zf, c) - 1] + c) / 2
    s, at = field(foam_at, top_foam, c)
    out["foam"] = -s[2].min()
    if edge is not None:
        # Mean over the outermost 5 mm at the worst place along.
        bins = {}
        for xs, ys, v in zip(at[0].ravel(), at[1].ravel(), s[2].ravel()):
            bins.setdefault(round(ys, 6), []).append((xs, -v))
        best = 0.0
        for ys, list_ in bins.items():
            list_.sort()
            xs = np.array([p[0] for p in list_]); vs = np.array([p[1] for p in list_])
            ux = np.unique(np.round(xs, 7)); uv = np.array([vs[np.abs(xs - q) < 1e-6].mean() for q in ux])
            grid = np.linspace(0, 0.005, 41)
            best = max(best, np.trapezoid(np.interp(grid, ux, uv), grid) / 0.005)
        out["foam_5mm"] = best
    zs = c + t / 2
    lo, at = field(foam_at + 1, zs, c)
    hi, _ = field(foam_at + 1, zs, c + t)
    bend = (lo - hi) / 2
    for i, n in ((0, "x"), (1, "y")):
        out["sag_" + n], out["hog_" + n] = bend[i].max(), -bend[i].min()
    return out


PLY = dict(t=0.003175, ex=1.2e9, ey=8.0e9, ez=0.6e9, gxy=500e6, gyz=120e6, gzx=120e6, nxy=0.08 * 1.2 / 8.0)
# Four flexural moduli of 1/8 in lauan plywood, face grain along.
FOAM = (5e6, 0.1, 0.050)
THIN, DEEP = (5e6, 0.1, 0.025), (5e6, 0.1, 0.090)
SHEET = dict(t=0.001, ex=8.0e9, ey=8.0e9, ez=8.0e9, gxy=3.2e9, gyz=3.2e9, gzx=3.2e9, nxy=0.25)
BOARD = dict(t=0.0125, ex=4e9, ey=8e9, ez=0.8e9, gxy=600e6, gyz=400e6, gzx=400e6, nxy=0.05)
SHOE = (0.100, 0.180)
HEEL = (0.050, 0.050)
CASES = [
    dict(id="shoe", skin=PLY, foam=FOAM, patch=SHOE, load=1000.0, reach=0.28, h=0.006),
    dict(id="heel", skin=PLY, foam=FOAM, patch=HEEL, load=1000.0, reach=0.22, h=0.004),
    dict(id="board", skin=PLY, foam=FOAM, board=BOARD, patch=SHOE, load=1000.0, reach=0.45, h=0.008),
    dict(id="shoe_edge", skin=PLY, foam=FOAM, patch=SHOE, load=1000.0, reach=0.28, h=0.008, edge=0.0),
    dict(id="heel_edge", skin=PLY, foam=FOAM, patch=HEEL, load=1000.0, reach=0.22, h=0.006, edge=0.0),
    dict(id="heel_near", skin=PLY, foam=FOAM, patch=HEEL, load=1000.0, reach=0.22, h=0.006, edge=0.020),
    dict(id="hung_heel_25", skin=PLY, lower=PLY, foam=THIN, patch=HEEL, load=1000.0, reach=0.22, h=0.005),
    dict(id="hung_shoe_25", skin=PLY, lower=PLY, foam=THIN, patch=SHOE, load=1000.0, reach=0.28, h=0.007),
    dict(id="hung_heel_90", skin=PLY, lower=PLY, foam=DEEP, patch=HEEL, load=1000.0, reach=0.22, h=0.005),
    dict(id="hung_heel_sheet", skin=PLY, lower=SHEET, foam=THIN, patch=HEEL, load=1000.0, reach=0.22, h=0.005),
    dict(id="hung_heel_none", skin=PLY, lower=None, foam=FOAM, patch=HEEL, load=1000.0, reach=0.22, h=0.005),
    dict(id="hung_heel_edge", skin=PLY, lower=PLY, foam=THIN, patch=HEEL, load=1000.0, reach=0.22, h=0.006, edge=0.0),
]

if __name__ == "__main__":
    only = sys.argv[2:]
    for case in CASES:
        if only and case["id"] not in only:
            continue
        for what, value in solve(case).items():
            # Off the edge the mean over its outermost 5 mm says nothing of the foot.
            if what != "foam_5mm" or case["edge"] == 0.0:
                print(f"{case['id']},{what},{value:.6g}", flush=True)
