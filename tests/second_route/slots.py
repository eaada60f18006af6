"""Feet over and beside a slot in the foam under a skin: solids, the second route beside the finite strip of `local/slot/`.

Quadratic hexahedra (27 nodes) by scikit-fem, with the materials and the readings of `feet.py`, which see: a quarter of the
panel where the foot stands over the middle of the slot, a half where it does not. The slot's cells are left out. A case with
"ends" has a slot that ends that far from the foot's middle. Versions as in requirements.txt beside this file.

    /tmp/fem/bin/python tests/second_route/slots.py

prints rows for `data/second_route/slots.csv`; a number makes the cells finer by that, names pick cases.
"""

import sys

import numpy as np
import scipy.sparse.linalg as sla
from skfem import Basis, BilinearForm, ElementHex2, ElementVector, FacetBasis, LinearForm, MeshHex

from feet import FOAM, HEEL, PLY, SHOE, graded, isotropic, orthotropic, strains

FINE = float(sys.argv[1]) if len(sys.argv) > 1 else 1.0
BEAD = 0.005


def solve(case):
    """Greatest pressure on the foam, its mean over 5 mm at the lips, greatest bending stress of the skin both ways."""
    h = case["h"] / FINE
    a, b = case["patch"]
    half, reach, middle = case["slot"] / 2, case["reach"], case.get("middle", 0.0)
    low, high = case["cut"]
    lip = min(h / 2, BEAD / 3)
    cuts = {half: lip, half + BEAD: lip * 1.5}
    for edge in (middle - a / 2, middle + a / 2):
        if edge > 0 and all(abs(edge - c) > 1e-6 for c in cuts):
            cuts[edge] = h
    if middle == 0.0:
        cuts[0.0], first = min(h * 1.5, half / 1.5), 0.0
    else:
        first = -(half + reach)
        cuts[first], cuts[-half] = h * 8, h
        for edge in (middle - a / 2, middle + a / 2):
            if edge < 0 and all(abs(edge - c) > 1e-6 for c in cuts):
                cuts[edge] = h
    far = max(half, middle + a / 2) + reach
    cuts[far] = h * 8
    breaks = sorted(cuts)
    x = graded(breaks, [cuts[c] for c in breaks])
    ends = case.get("ends")
    along = [0, b / 2, b / 2 + reach]
    sizes = [h * 1.5, h, h * 8]
    if ends:
        along, sizes = sorted([(0, h * 1.5), (b / 2, h), (ends, lip), (ends + BEAD, lip * 1.5), (max(b / 2, ends) + reach, h * 8)]), None
        along, sizes = [p for p, _ in along], [s for _, s in along]
    y = graded(along, sizes)
    c, skin, lower = case["foam"][2], case["skin"], case.get("lower")
    of = lambda sk: orthotropic(sk["ex"], sk["ey"], sk["ez"], sk["gxy"], sk["gyz"], sk["gzx"], sk["nxy"])
    below, t = lower["t"] if lower else 0.0, skin["t"]
    levels = [0.0] + [v for v in (low * c, high * c) if 0 < v < c] + [c]
    # Fine under the skin, and at the faces of a part slot.
    foam_z = graded(levels, [h if lower else h * 3] + [h] * (len(levels) - 2) + [h / 2])
    z = np.concatenate([[-below] if lower else [], foam_z, [c + t]])
    mesh = MeshHex.init_tensor(x, y, z)
    mid = mesh.p[:, mesh.t].mean(axis=1)
    gone = (abs(mid[0]) < half) & (mid[2] > low * c) & (mid[2] < high * c)
    if ends:
        gone &= mid[1] < ends
    mesh = mesh.remove_elements(np.flatnonzero(gone))
    basis = Basis(mesh, ElementVector(ElementHex2()), intorder=5)
    mid = mesh.p[:, mesh.t].mean(axis=1)
    stiff = {0: isotropic(*case["foam"][:2]), 1: of(skin), 2: of(lower) if lower else None}
    which = np.where(mid[2] > c, 1, np.where(mid[2] < 0, 2, 0))
    C = np.array([stiff[k] for k in which])
    Cq = np.transpose(C, (1, 2, 0))[:, :, :, None]

    @BilinearForm
    def stiffness(u, v, w):
        e, d = strains(u), strains(v)
        return sum(Cq[i, j] * e[j] * d[i] for i in range(6) for j in range(6) if np.any(C[:, i, j]))

    K = stiffness.assemble(basis)
    top = mesh.facets_satisfying(
        lambda p: (abs(p[2] - c - t) < 1e-9) & (abs(p[0] - middle) < a / 2 + 1e-9) & (p[1] < b / 2 + 1e-9)
    )
    pressure = case["load"] / (a * b)
    f = LinearForm(lambda v, w: -pressure * v[2]).assemble(FacetBasis(mesh, ElementVector(ElementHex2()), facets=top, intorder=5))
    X = basis.doflocs
    comp = np.zeros(basis.N, int)
    for i in range(3):
        comp[basis.get_dofs(elements=np.arange(mesh.t.shape[1])).all(f"u^{i+1}")] = i
    near = lambda k, v: abs(X[k] - v) < 1e-9
    if lower:
        bottom = mesh.facets_satisfying(lambda p: abs(p[2] + below) < 1e-9)
        fb = FacetBasis(mesh, ElementVector(ElementHex2()), facets=bottom, intorder=5)
        bears = -f.sum() / ((x[-1] - x[0]) * y[-1])
        f += LinearForm(lambda v, w: bears * v[2]).assemble(fb)
        fixed = near(0, x[-1]) & near(1, y[-1]) & near(2, -below) & (comp == 2)
    else:
        fixed = near(2, 0)
    fixed |= (near(1, 0) | near(1, y[-1])) & (comp == 1) | (near(0, x[-1]) | near(0, first)) & (comp == 0)
    free = np.flatnonzero(~fixed)
    print(case["id"], "unknowns", len(free), file=sys.stderr)
    u = np.zeros(basis.N)
    Kf = K[free][:, free].tocsc()
    u[free] = sla.splu(Kf, permc_spec="MMD_AT_PLUS_A", options=dict(SymmetricMode=True, DiagPivotThresh=0.0)).solve(f[free])

    def field(cells, kind, level):
        pts = np.array([[i, j, k] for i in (0.0, 0.5, 1.0) for j in (0.0, 0.5, 1.0) for k in (0.0, 0.5, 1.0)]).T
        bs = Basis(mesh, ElementVector(ElementHex2()), elements=cells, quadrature=(pts, np.ones(27)))
        e = np.array([np.asarray(s) for s in strains(bs.interpolate(u))])
        at = np.asarray(bs.global_coordinates())
        s = np.einsum("ij,jkl->ikl", stiff[kind], e)
        here = abs(at[2] - level) < 1e-9
        order = np.lexsort((at[1][here], at[0][here]))
        return s[:, here][:, order], at[:, here][:, order]

    def mean_5mm(s, at, from_x):
        """The largest mean of the pressure over 5 mm from a lip, along the slot."""
        best = 0.0
        inside = (at[0] > from_x - 1e-9) & (at[0] < from_x + BEAD + 1e-9)
        for ys in np.unique(np.round(at[1][inside], 6)):
            line = inside & (abs(at[1] - ys) < 1e-6)
            xs, vs = at[0][line], -s[2][line]
            ux = np.unique(np.round(xs, 7))
            uv = [vs[abs(xs - q) < 1e-6].mean() for q in ux]
            grid = np.linspace(from_x, from_x + BEAD, 41)
            best = max(best, np.trapezoid(np.interp(grid, ux, uv), grid) / BEAD)
        return best

    out = {}
    under = foam_z[-2]
    cells = np.flatnonzero((which == 0) & (mid[2] > under))
    s, at = field(cells, 0, c)
    away = at[0] > half + BEAD - 1e-9
    if middle != 0.0:
        away |= at[0] < -half - BEAD + 1e-9
    if high < 1.0:
        away |= abs(at[0]) < half
    if ends:
        away |= at[1] > ends + BEAD
    out["foam_away"] = -s[2][away].min()
    out["foam_5mm"] = mean_5mm(s, at, half)
    if ends:
        # The same across the slot's end.
        out["foam_5mm_end"] = mean_5mm(s, at[[1, 0, 2]], ends)
    if high < 1.0:
        # In the wall beside the slot, right over its roof and under it.
        for name, side in (("over", high * c + 1e-6), ("under", high * c - 1e-6)):
            j = np.searchsorted(foam_z, side) - 1
            level = (foam_z[j] + foam_z[j + 1]) / 2
            cells = np.flatnonzero((which == 0) & (abs(mid[2] - level) < 1e-9))
            out["wall_" + name] = mean_5mm(*field(cells, 0, level), half)
        j = np.searchsorted(foam_z, high * c + 1e-6) - 1
        cells = np.flatnonzero((which == 0) & (abs(mid[2] - (foam_z[j] + foam_z[j + 1]) / 2) < 1e-9) & (abs(mid[0]) < half))
        s, at = field(cells, 0, foam_z[j])
        away = abs(at[0]) < half - BEAD
        out["stretch"] = max(s[0][away].max(), s[1][away].max())
    cells = np.flatnonzero(which == 1)
    lo, _ = field(cells, 1, c)
    hi, _ = field(cells, 1, c + t)
    bend = (lo - hi) / 2
    for i, n in ((0, "x"), (1, "y")):
        out["bend_" + n] = abs(bend[i]).max()
    return out


def case(id, slot, patch, **more):
    return dict(dict(id=id, skin=PLY, foam=FOAM, slot=slot, cut=(0.0, 1.0), patch=patch, load=1000.0, reach=0.22, h=0.006), **more)


TURNED = dict(PLY, ex=PLY["ey"], ey=PLY["ex"], nxy=0.08)

CASES = [
    case("heel_25", 0.025, HEEL),
    case("shoe_25", 0.025, SHOE, reach=0.28, h=0.008),
    case("heel_40_top", 0.040, HEEL, cut=(0.5, 1.0)),
    case("heel_80", 0.080, HEEL),
    case("shoe_80", 0.080, SHOE, reach=0.28, h=0.008),
    case("heel_80_lip", 0.080, HEEL, middle=0.040, h=0.008),
    case("heel_25_beside", 0.025, HEEL, middle=0.0375, h=0.008),
    case("heel_40_bottom", 0.040, HEEL, cut=(0.0, 0.6)),
    case("hung_heel_25", 0.025, HEEL, lower=PLY),
    case("hung_shoe_80", 0.080, SHOE, lower=PLY, reach=0.28, h=0.008),
    case("heel_80_ends", 0.080, HEEL, ends=0.040),
    case("heel_80_ends_far", 0.080, HEEL, ends=0.120),
    # The same void turned, the heel flush with its end from within: x runs along the void and the grain.
    case("heel_80_at_end", 0.240, HEEL, ends=0.040, middle=0.095, skin=TURNED, h=0.008),
]

if __name__ == "__main__":
    only = sys.argv[2:]
    for one in CASES:
        if only and one["id"] not in only:
            continue
        for what, value in solve(one).items():
            print(f"{one['id']},{what},{value:.6g}", flush=True)
