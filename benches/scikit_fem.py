"""How long a general-purpose library takes for the plate of `benches/check.rs`, for the ratio to our own solver.

    /tmp/fem/bin/pip install -r tests/second_route/requirements.txt
    OMP_NUM_THREADS=1 /tmp/fem/bin/python benches/scikit_fem.py

The same grid and the same number of unknowns: bilinear rectangles, five fields, shear by one point (selective reduced
integration, Hughes, Taylor and Kanoknukulchai 1977, from memory). Assembled once, solved once for an even load by the
sparse direct solver of SciPy. CPU time of the process, so that other work on the machine does not count.
"""

import time

import numpy as np
import scipy.sparse.linalg as spla
from skfem import Basis, BilinearForm, ElementQuad1, ElementVector, LinearForm, MeshQuad, condense

A, D, NU, KS = 44.8e6, 20.7424e3, 0.25, 115.5625e3
LENGTHS = (2.0, 1.25)


def in_plane(stiffness, e, f):
    """Energy of an isotropic membrane or bending part."""
    direct = e[0] * f[0] + e[1] * f[1] + NU * (e[0] * f[1] + e[1] * f[0])
    return stiffness * (direct + (1 - NU) / 2 * e[2] * f[2])


@BilinearForm
def membrane_and_bending(u, v, _):
    """Stretch and curvature, two points a direction."""
    stretch = lambda g: (g[0, 0], g[1, 1], g[0, 1] + g[1, 0])
    bend = lambda g: (g[3, 0], g[4, 1], g[3, 1] + g[4, 0])
    return in_plane(A, stretch(u.grad), stretch(v.grad)) + in_plane(D, bend(u.grad), bend(v.grad))


@BilinearForm
def shear(u, v, _):
    """Transverse shear, one point."""
    strain = lambda f: (f.grad[2, 0] + f[3], f.grad[2, 1] + f[4])
    (ux, uy), (vx, vy) = strain(u), strain(v)
    return KS * (ux * vx + uy * vy)


def once(cells):
    """Assembles and solves; returns unknowns, CPU seconds of each part, and the largest sag."""
    size = np.sqrt(LENGTHS[0] * LENGTHS[1] / cells)
    start = time.process_time()
    lines = [np.linspace(0, length, int(np.ceil(length / size - 1e-9)) + 1) for length in LENGTHS]
    mesh = MeshQuad.init_tensor(*lines)
    basis = Basis(mesh, ElementVector(ElementQuad1(), 5), intorder=3)
    k = membrane_and_bending.assemble(basis) + shear.assemble(Basis(mesh, basis.elem, intorder=1))
    f = LinearForm(lambda v, _: 1000.0 * v[2]).assemble(basis)
    at = basis.doflocs
    edge = (np.minimum(at[0], LENGTHS[0] - at[0]) < 1e-9) | (np.minimum(at[1], LENGTHS[1] - at[1]) < 1e-9)
    w = np.zeros(basis.N, bool)
    w[basis.nodal_dofs[2]] = True
    nodes = basis.nodal_dofs
    corner = lambda x, y: int(np.argmin(np.hypot(mesh.p[0] - x, mesh.p[1] - y)))
    a, b = corner(0, 0), corner(0, LENGTHS[1])
    held = np.unique(np.concatenate([np.nonzero(edge & w)[0], [nodes[0, a], nodes[1, a], nodes[0, b]]]))
    inner, right, x, free = condense(k, f, D=held)
    assembled = time.process_time()
    lu = spla.splu(inner.tocsc(), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    x[free] = lu.solve(right)
    return len(free), assembled - start, time.process_time() - assembled, x[nodes[2]].max()


for cells in (2_500, 10_000, 40_000):
    best = min((once(cells) for _ in range(2)), key=lambda r: r[1] + r[2])
    print(f"{best[0]} unknowns: assembled in {best[1]:.2f} s, solved in {best[2]:.2f} s, sag {best[3]:.6e} m")
