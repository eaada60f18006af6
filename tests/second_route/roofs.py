"""Whole roofs by a general-purpose finite-element library: a second route to the numbers of the two-way model.

    python3 -m venv /tmp/fem && /tmp/fem/bin/pip install -r tests/second_route/requirements.txt
    /tmp/fem/bin/python tests/second_route/roofs.py

reads the surveys in `data/second_route/` and writes `data/second_route/values.csv` anew. The library is scikit-fem
(Gustafsson and McBain 2020, JOSS 5:2369). Nothing here comes from the Rust code: layers are summed here, the field
equations are written out below, and the elements are others:

- straight triangles with six nodes, all five fields quadratic, fully integrated, no strain tied and no mode added; the
  mesh is fine enough that locking has died out, which the second mesh shows;
- the crown's slope is taken where it is needed, not at the middle of an element;
- members have three nodes an element, two Gauss points for bending, shear, stretch and slip.

Theory (first order in shear, shallow in the crown): `u(z) = u + z bx`, `v(z) = v + z by`, `w`;
`exx = u,x + z0,x w,x`, `gxy = u,y + v,x + z0,x w,y`, `gxz = w,x + bx`, `gyz = w,y + by` (Mindlin 1951; Marguerre 1938;
from memory), transverse shear stiffness by energy of the parabolic stress (Whitney 1973, from memory). Walls hold `w` at
the reference plane, the middle of the sound panel, and nothing else; three points hold the roof in its plane.

Values: each is given on two meshes, the second with half the size of cells, so that a reader sees what the mesh does.
"""

import csv
import pathlib
import re
import sys
import tomllib

import numpy as np
import scipy
import scipy.sparse as sp
import scipy.sparse.linalg as spla
import skfem
from skfem import Basis, BilinearForm, ElementTriP2, ElementVector, LinearForm, MeshTri

DATA = pathlib.Path(__file__).parents[2] / "data" / "second_route"
GRAVITY = 9.80665
KSI = 6.894757293168361e6
# Aluminum Design Manual 2020, Table A.4.x: modulus of the alloys, and shear modulus; density 0.098 lb/in3.
ALLOYS = {"6061-T6": (10100.0 * KSI, 3800.0 * KSI, 0.098 * 0.45359237 / 0.0254**3)}
# Shear modulus of a glue, Pa: the judged middle value of the project's own table; what is tested is what follows from it.
GLUES = {"rigid polyurethane": 300.0e6}
U, V, W, BX, BY = range(5)


def metres(text):
    """A length of a survey written in millimetres."""
    return float(text.removesuffix(" mm")) / 1000.0


def pascal(text):
    """A modulus."""
    number, unit = text.split()
    return float(number) * {"GPa": 1e9, "MPa": 1e6}[unit]


class Roof:
    """A survey as far as it is needed here."""

    def __init__(self, path):
        survey = tomllib.loads(path.read_text())
        assert survey["lengths"] == "mm" and survey["weights"] == "kg"
        roof = survey["roof"]
        self.name = path.stem
        self.span, self.length, self.rise = (metres(roof[k]) for k in ("span", "length", "rise"))
        self.held = [roof["front"] == "cross wall", roof["rear"] == "cross wall"]
        total = sum(metres(layer["thickness"]) for layer in survey["layer"])
        self.layers, top = [], total / 2
        for layer in survey["layer"]:
            bottom = top - metres(layer["thickness"])
            self.layers.append(Layer(layer, survey["material"][layer["material"]], bottom, top))
            top = bottom
        box = lambda d: [metres(v) for v in d["across"] + d["along"]]
        self.openings = [box(o) for o in survey.get("opening", [])]
        names = [layer.name for layer in self.layers]
        self.damages = []
        for damage in survey.get("damage", []):
            left = 0.0 if damage.get("state") == "missing" else damage["remaining"]["stiffness"]
            self.damages.append((box(damage), names.index(damage["layer"]), left))
        self.loads = [(box(d), float(d["weight"]) * GRAVITY) for d in survey.get("load", [])]
        self.readings = [(r["name"], metres(r["across"]), metres(r["along"])) for r in survey["reading"]]
        self.braces = [Tube(b, self) for b in survey.get("brace", [])]

    def rise_slope(self, x):
        """Slope of a circular arc of the roof's span and rise."""
        if self.rise == 0.0:
            return 0.0 * x
        radius = self.span**2 / (8 * self.rise) + self.rise / 2
        off = x - self.span / 2
        return -off / np.sqrt(radius**2 - off**2)

    def left(self, x, y):
        """What is left of the stiffness of each layer at a place."""
        left = [1.0] * len(self.layers)
        for (x0, x1, y0, y1), layer, share in self.damages:
            if x0 < x < x1 and y0 < y < y1:
                left[layer] = min(left[layer], share)
        return tuple(left)


class Layer:
    """One layer in roof axes."""

    def __init__(self, layer, material, bottom, top):
        self.name, self.bottom, self.top = layer["name"], bottom, top
        self.density = float(material["density"].split()[0])
        if "E" in material:
            e1 = e2 = pascal(material["E"])
            nu12, g12 = material["nu"], pascal(material["G"])
            g13 = g23 = g12
        else:
            e1, e2, g12, g13, g23 = (pascal(material[k]) for k in ("E1", "E2", "G12", "G13", "G23"))
            nu12 = material["nu12"]
        nu21 = nu12 * e2 / e1
        q = np.array([[e1, nu12 * e2, 0], [nu12 * e2, e2, 0], [0, 0, g12 * (1 - nu12 * nu21)]]) / (1 - nu12 * nu21)
        if layer.get("grain") == "along":
            q, g13, g23 = q[np.ix_([1, 0, 2], [1, 0, 2])], g23, g13
        self.q, self.g = q, (g13, g23)


class Tube:
    """A square tube with sharp corners, glued to the underside of the outer skin."""

    def __init__(self, brace, roof):
        b, d, t = (float(v) / 1000 for v in re.split(" x ", brace["tube"]))
        e, g, density = ALLOYS[brace["alloy"]]
        area = b * d - (b - 2 * t) * (d - 2 * t)
        second = (b * d**3 - (b - 2 * t) * (d - 2 * t) ** 3) / 12
        torsion = 4 * ((b - t) * (d - t)) ** 2 / (2 * ((b - t) + (d - t)) / t)  # Bredt
        self.ea, self.ei, self.gas, self.gj = e * area, e * second, g * 2 * d * t, g * torsion
        self.weight = density * area * GRAVITY
        self.y = metres(brace["along"])
        self.z_glue = roof.layers[0].bottom
        self.z_axis = self.z_glue - d / 2
        glue = brace["glue"]
        self.slip = GLUES[glue["product"]] * metres(glue["width"]) * glue["coverage"] / metres(glue["bed"])


class LayUp:
    """Stiffness of the layers that are left at a place, about the reference plane."""

    def __init__(self, roof, left):
        there = [(layer, share) for layer, share in zip(roof.layers, left) if share > 0]
        a, b, d = (
            sum(s * l.q * (l.top**n - l.bottom**n) / n for l, s in there) for n in (1, 2, 3)
        )
        self.c = np.zeros((8, 8))
        self.c[:3, :3], self.c[:3, 3:6], self.c[3:6, :3], self.c[3:6, 3:6] = a, b, b, d
        self.weight = GRAVITY * sum(l.density * (l.top - l.bottom) for l, _ in there)
        self.there = {layer.name: share for layer, share in there}
        self.peak = []
        for i in range(2):
            ks, peak = self.shear(there, i)
            self.c[6 + i, 6 + i] = ks
            self.peak.append(peak)

    @staticmethod
    def shear(there, i):
        """Shear stiffness by energy, and the largest stress in the core for a unit shear force, in fine slices."""
        z, q, g, core, dz = [], [], [], [], []
        for layer, share in there:
            step = (layer.top - layer.bottom) / 4000
            z.append(layer.top - step * (np.arange(4000) + 0.5))
            q.append(np.full(4000, share * layer.q[i, i]))
            g.append(np.full(4000, share * layer.g[i]))
            core.append(np.full(4000, layer.name == "core"))
            dz.append(np.full(4000, step))
        z, q, g, core, dz = map(np.concatenate, (z, q, g, core, dz))
        neutral = (q * z * dz).sum() / (q * dz).sum()
        arm = z - neutral
        bending = (q * (arm**2 + dz**2 / 12) * dz).sum()
        moment = q * arm * dz
        flow = (np.cumsum(moment) - moment / 2) / bending
        return 1 / (flow**2 / g * dz).sum(), np.abs(flow[core]).max()


def lines(length, breaks, size):
    """Grid lines: every break, equal parts between, finer by the breaks that are edges."""
    breaks = sorted({0.0, length, *(round(b, 9) for b in breaks if 0 < b < length)})
    parts = [np.linspace(p, q, max(2, int(np.ceil((q - p) / size))) + 1)[:-1] for p, q in zip(breaks, breaks[1:])]
    return np.append(np.concatenate(parts), length)


def strains(u, slope):
    """`exx eyy gxy kx ky kxy gxz gyz` of the five fields."""
    g = u.grad
    return [
        g[U, 0] + slope * g[W, 0],
        g[V, 1],
        g[U, 1] + g[V, 0] + slope * g[W, 1],
        g[BX, 0],
        g[BY, 1],
        g[BX, 1] + g[BY, 0],
        g[W, 0] + u[BX],
        g[W, 1] + u[BY],
    ]


class Model:
    """A roof on one mesh: assembled, ready for members and loads."""

    def __init__(self, roof, size):
        self.roof = roof
        boxes = roof.openings + [d[0] for d in roof.damages] + [l[0] for l in roof.loads]
        x = [v for b in boxes for v in b[:2]] + [r[1] for r in roof.readings]
        y = [v for b in boxes for v in b[2:]] + [r[2] for r in roof.readings] + [t.y for t in roof.braces]
        mesh = MeshTri.init_tensor(lines(roof.span, x, size), lines(roof.length, y, size))
        xc, yc = mesh.p[:, mesh.t].mean(axis=1)
        gone = np.zeros(len(xc), bool)
        for x0, x1, y0, y1 in roof.openings:
            gone |= (x0 < xc) & (xc < x1) & (y0 < yc) & (yc < y1)
        self.mesh = mesh = mesh.remove_elements(np.nonzero(gone)[0])
        self.xc, self.yc = mesh.p[:, mesh.t].mean(axis=1)
        self.basis = Basis(mesh, ElementVector(ElementTriP2(), 5), intorder=4)
        states = [roof.left(*at) for at in zip(self.xc, self.yc)]
        self.lay_ups = {state: LayUp(roof, state) for state in set(states)}
        self.states = states
        c = np.stack([self.lay_ups[s].c for s in states], axis=-1)[..., None]
        self.weights = np.array([self.lay_ups[s].weight for s in states])[:, None]
        slope = roof.rise_slope(self.basis.global_coordinates()[0])
        pairs = [(i, j) for i in range(8) for j in range(8) if np.any(c[i, j])]

        @BilinearForm
        def energy(u, v, _):
            eu, ev = strains(u, slope), strains(v, slope)
            return sum(c[i, j] * ev[i] * eu[j] for i, j in pairs)

        self.k = energy.assemble(self.basis).tocsr()
        at = self.basis.doflocs
        field = np.zeros(self.basis.N, int)
        for i in range(5):
            field[self.basis.nodal_dofs[i]] = i
            field[self.basis.facet_dofs[i]] = i
        self.at, self.field = at, field
        near = lambda v, to: np.abs(v - to) < 1e-9
        walls = [near(at[0], 0), near(at[0], roof.span), near(at[1], 0), near(at[1], roof.length)]
        # A corner belongs to the side wall.
        sides = walls[0] | walls[1]
        self.walls = [
            np.nonzero((field == W) & m)[0]
            for m in (walls[0], walls[1], walls[2] & ~sides, walls[3] & ~sides)
        ]
        held = [self.walls[0], self.walls[1]] + [w for w, h in zip(self.walls[2:], roof.held) if h]
        corner = lambda f, y: np.nonzero((field == f) & near(at[0], 0) & near(at[1], y))[0]
        self.held = np.unique(np.concatenate([*held, corner(U, 0), corner(U, roof.length), corner(V, 0)]))

    def load(self, pressure):
        """Nodal forces of a downward pressure given by element."""
        return LinearForm(lambda v, w: -pressure * v[W]).assemble(self.basis)

    def test_load(self):
        """The test loads of the survey."""
        pressure = np.zeros((len(self.xc), 1))
        for (x0, x1, y0, y1), force in self.roof.loads:
            inside = (x0 < self.xc) & (self.xc < x1) & (y0 < self.yc) & (self.yc < y1)
            pressure[inside] += force / ((x1 - x0) * (y1 - y0))
        return self.load(pressure)

    def solve(self, forces, bond):
        """Solves several loads with the members in (bond True, False) or out (None)."""
        k = self.k
        members = []
        if bond is not None:
            members = [Member(self, tube, bond) for tube in self.roof.braces]
            size = k.shape[0] + sum(m.own for m in members)
            k = k.copy()
            k.resize((size, size))
            start = self.k.shape[0]
            for member in members:
                k = k + member.stiffness(start, size)
                start += member.own
        free = np.setdiff1d(np.arange(k.shape[0]), self.held)
        inner = k[free][:, free].tocsc()
        symmetric = {"permc_spec": "MMD_AT_PLUS_A", "diag_pivot_thresh": 0.0, "options": {"SymmetricMode": True}}
        lu = spla.splu(inner, **symmetric)
        for force in forces:
            force = np.concatenate([force, np.zeros(k.shape[0] - len(force))])
            x = np.zeros(k.shape[0])
            x[free] = lu.solve(force[free])
            x[free] += lu.solve(force[free] - inner @ x[free])
            yield Solution(self, x, k @ x - force, members)


class Member:
    """A tube on a line of edges, with a rotation and, on a bed, a movement of its own at every node."""

    GAUSS = 1 / np.sqrt(3)

    def __init__(self, model, tube, bond):
        self.model, self.tube, self.bond = model, tube, bond
        mesh, basis = model.mesh, model.basis
        facets = mesh.facets_satisfying(lambda x: np.abs(x[1] - tube.y) < 1e-9)
        ends = mesh.facets[:, facets]
        flip = mesh.p[0, ends[0]] > mesh.p[0, ends[1]]
        ends[:, flip] = ends[::-1, flip]
        order = np.argsort(mesh.p[0, ends[0]])
        facets, ends = facets[order], ends[:, order]
        self.x = mesh.p[0, ends]
        count = 2 * len(facets) + 1
        self.nodes = 2 * np.arange(len(facets))[:, None] + np.array([0, 1, 2])
        self.panel = np.zeros((5, count), int)
        for f in range(5):
            self.panel[f, 0:-1:2] = basis.nodal_dofs[f, ends[0]]
            self.panel[f, 1::2] = basis.facet_dofs[f, facets]
            self.panel[f, -1] = basis.nodal_dofs[f, ends[1, -1]]
        self.count, self.own = count, (2 if bond else 1) * count

    def places(self, start, nodes):
        """Unknowns of an element: u w bx by of the panel, th, and on a bed the axis."""
        own = [start + nodes] + ([start + self.count + nodes] if self.bond else [])
        return np.concatenate([self.panel[f, nodes] for f in (U, W, BX, BY)] + own)

    def rows(self, element, xi):
        """Strain rows at a point: axial, curvature, shear, twist, slip."""
        length = self.x[1, element] - self.x[0, element]
        n = np.array([xi * (xi - 1) / 2, 1 - xi**2, xi * (xi + 1) / 2])
        d = np.array([xi - 0.5, -2 * xi, xi + 0.5]) * 2 / length
        zero = np.zeros(3)
        arm = self.tube.z_axis - self.tube.z_glue
        slope = self.model.roof.rise_slope(self.x[:, element].mean() + xi * length / 2)
        if not self.bond:
            return {
                "curvature": np.concatenate([zero, zero, zero, zero, d]),
                "shear": np.concatenate([zero, d, zero, zero, n]),
            }
        return {
            "axial": np.concatenate([zero, slope * d, zero, zero, zero, d]),
            "curvature": np.concatenate([zero, zero, zero, zero, d, zero]),
            "shear": np.concatenate([zero, d, zero, zero, n, zero]),
            "twist": np.concatenate([zero, zero, zero, d, zero, zero]),
            "slip": np.concatenate([-n, zero, -self.tube.z_glue * n, zero, -arm * n, n]),
        }

    def stiffness(self, start, size):
        """Stiffness of the whole member."""
        t = self.tube
        stiff = {"axial": t.ea, "curvature": t.ei, "shear": t.gas, "twist": t.gj, "slip": t.slip}
        rows, columns, values = [], [], []
        for e, nodes in enumerate(self.nodes):
            at = self.places(start, nodes)
            half = (self.x[1, e] - self.x[0, e]) / 2
            k = np.zeros((len(at), len(at)))
            for xi in (-self.GAUSS, self.GAUSS):
                for name, row in self.rows(e, xi).items():
                    k += stiff[name] * half * np.outer(row, row)
            rows.append(np.repeat(at, len(at)))
            columns.append(np.tile(at, len(at)))
            values.append(k.ravel())
        self.start = start
        return sp.csr_matrix(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(size, size)
        )

    def middle(self, x):
        """Axial force and moment, sagging positive, at mid-span: from the Gauss points on both sides of it."""
        middle = self.model.roof.span / 2
        at, axial, moment = [], [], []
        for e, nodes in enumerate(self.nodes):
            length = self.x[1, e] - self.x[0, e]
            for xi in (-self.GAUSS, self.GAUSS):
                rows, q = self.rows(e, xi), x[self.places(self.start, nodes)]
                at.append(self.x[:, e].mean() + xi * length / 2)
                axial.append(self.tube.ea * rows["axial"] @ q if self.bond else 0.0)
                # u = z th: compression on top, th falling, is sagging.
                moment.append(-self.tube.ei * rows["curvature"] @ q)
        return np.interp(middle, at, axial), np.interp(middle, at, moment)


class Solution:
    """Displacements and what is read off them."""

    def __init__(self, model, x, residual, members):
        self.model, self.x, self.residual, self.members = model, x, residual, members

    def values(self):
        """Named values: SI, sag positive down, tension positive, reactions positive up."""
        model, roof = self.model, self.model.roof
        w = np.where(model.field == W, -self.x[: model.basis.N], 0.0)
        yield "largest sag", w.max()
        for name, x, y in roof.readings:
            here = (model.field == W) & (np.hypot(model.at[0] - x, model.at[1] - y) < 1e-9)
            yield f"sag, {name}", w[here][0]
            yield from self.stresses(name, x, y)
        for wall, dofs, held in zip(("left", "right", "front", "rear"), model.walls, (True, True, *roof.held)):
            if held:
                yield f"reaction, {wall}", self.residual[dofs].sum()
        for member in self.members:
            axial, moment = member.middle(self.x)
            if member.bond:
                yield "axial force in the middle of the tube", axial
            yield "moment in the middle of the tube", moment

    def stresses(self, name, x, y):
        """Skin stress at mid-thickness and core shear at a place: the mean of the triangles that meet there."""
        model, roof = self.model, self.model.roof
        corner = np.argmin(np.hypot(model.mesh.p[0] - x, model.mesh.p[1] - y))
        elements = np.nonzero((model.mesh.t == corner).any(axis=0))[0]
        on_edge = x <= 0 or y <= 0 or any(abs(tube.y - y) < 1e-9 for tube in roof.braces)
        if on_edge or len({model.states[e] for e in elements}) != 1:
            return  # stress steps there
        found = []
        for e in elements:
            local = int(np.nonzero(model.mesh.t[:, e] == corner)[0][0])
            point = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])[:, [local]]
            basis = Basis(
                model.mesh, model.basis.elem, elements=np.array([e]), quadrature=(point, np.array([1.0]))
            )
            u = basis.interpolate(self.x[: model.basis.N])
            found.append([s[0, 0] for s in strains(u, roof.rise_slope(x))])
        # The angle that each triangle fills at the place is its weight.
        corners = model.mesh.p[:, model.mesh.t[:, elements]]
        weight = []
        for n, e in enumerate(elements):
            local = int(np.nonzero(model.mesh.t[:, e] == corner)[0][0])
            a, b = (corners[:, (local + k) % 3, n] - corners[:, local, n] for k in (1, 2))
            weight.append(np.arccos(a @ b / np.linalg.norm(a) / np.linalg.norm(b)))
        strain = np.average(np.array(found), axis=0, weights=weight)
        lay_up = model.lay_ups[model.states[elements[0]]]
        for layer in roof.layers:
            share = lay_up.there.get(layer.name, 0.0)
            if layer.name == "core" or share == 0.0:
                continue
            middle = (layer.top + layer.bottom) / 2
            stress = share * layer.q @ (strain[:3] + middle * strain[3:6])
            for part, value in zip(("sx", "sy", "sxy"), stress):
                yield f"{part} of the {layer.name}, {name}", value
        for part, value, peak, ks in zip(("xz", "yz"), strain[6:], lay_up.peak, np.diag(lay_up.c)[6:]):
            # Positive where the sagging moment grows.
            yield f"{part} of the core, {name}", -value * ks * peak


def main():
    """Writes the values of every roof."""
    out = []
    for path in sorted(DATA.glob("*.toml")):
        roof = Roof(path)
        bonds = [("without", None)] + ([("loose", False), ("glued", True)] if roof.braces else [])
        meshes = []
        for size in (0.07, 0.035):
            model = Model(roof, size)
            found = {}
            own = model.load(model.weights)
            for bond, how in bonds:
                # Members weigh as well: left to the test load.
                cases = [("test weight", model.test_load())] + ([("self-weight", own)] if how is None else [])
                solutions = model.solve([force for _, force in cases], how)
                for (load, _), solution in zip(cases, solutions):
                    found.update({(bond, load, name): v for name, v in solution.values()})
            print(roof.name, size, model.basis.N, "unknowns", file=sys.stderr)
            meshes.append(found)
        out.extend((roof.name, *key, meshes[0][key], meshes[1][key]) for key in meshes[1])
    with (DATA / "values.csv").open("w", newline="") as file:
        file.write(
            "# Written by tests/second_route/roofs.py: SI; sag down, tension, upward reaction, sagging moment positive.\n"
            f"# Python {sys.version.split()[0]}, scikit-fem {skfem.__version__}, numpy {np.__version__}, "
            f"scipy {scipy.__version__}; cells of 70 mm (coarse) and 35 mm (fine).\n"
        )
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["roof", "tube", "load", "value", "coarse", "fine"])
        rows.writerows((*row[:4], f"{row[4]:.6g}", f"{row[5]:.6g}") for row in out)


if __name__ == "__main__":
    main()
