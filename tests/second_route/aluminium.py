#!/usr/bin/env python3
"""Aluminium tubes and lone braces once more, from the books' formulas and the closed forms, apart from the Rust code.

Prints the rows of data/verification/aluminium.csv; with a path to the built program it also asks that program through
its command line and lists how far it lies off.

    python3 tests/second_route/aluminium.py > data/verification/aluminium.csv
    python3 tests/second_route/aluminium.py target/debug/bracewright

ADM 2020: B.4, B.5, D.2, E.2 to E.4, F.2 to F.4, G.2. EN 1999-1-1:2007: 6.1.4, 6.1.5, 6.2.3 to 6.2.6, 6.3.1, 6.3.2.
Arches: force method by quadrature with bending, stretch and shear; shallow arches by
EI v'''' + N v'' = q - N/R (Timoshenko and Gere 1961; Pi, Bradford and Uy 2002) solved piece by piece.
No number here was taken from the program.
"""
import json
import subprocess
import sys
from math import asin, cos, log, pi, sin, sqrt

IN, KSI, KIP = 0.0254, 6.894757293168e6, 4448.2216152605

# ADM 2020 part VI, ksi: Ftu, Fty, Fcy, Ftuw, Ftyw, kt, aged temper
ADM = {
    "6061-T6": (38, 35, 35, 24, 15, 1.0, True),
    "6061-T6 drawn": (42, 35, 35, 24, 15, 1.0, True),
    "6063-T5": (22, 16, 16, 17, 8, 1.0, True),
    "6063-T52": (22, 16, 16, 17, 8, 1.0, True),
    "6063-T6": (30, 25, 25, 17, 8, 1.0, True),
    "6082-T6": (45, 38, 38, 28, 16, 1.0, True),
    "5052-H32": (31, 23, 20.7, 25, 9.5, 1.0, False),
    "6005A-T61": (38, 35, 35, 24, 13, 1.25, True),
}
E_ADM, G_ADM = 10100.0, 3800.0
# EN 1999-1-1:2007 Table 3.2, MPa: fo, fu, fo,haz, fu,haz, class
EN = {
    "6061-T6": (240, 260, 115, 175, "A"),
    "6063-T5 thin": (130, 175, 60, 100, "B"),
    "6063-T5 thick": (110, 160, 60, 100, "B"),
    "6063-T6": (160, 195, 65, 110, "A"),
    "6063-T66": (200, 245, 75, 130, "A"),
    "6060-T6": (140, 170, 60, 100, "A"),
    "6060-T66 thin": (160, 215, 65, 110, "A"),
    "6005A-T6 thin": (215, 255, 115, 165, "A"),
    "6082-T6 thin": (250, 290, 125, 185, "A"),
    "6082-T6 thick": (260, 310, 125, 185, "A"),
    "5052-H32": (130, 210, 80, 170, "B"),
}


def section(b, h, t):
    bi, hi = b - 2 * t, h - 2 * t
    area = b * h - bi * hi
    ix, iy = (b * h**3 - bi * hi**3) / 12, (h * b**3 - hi * bi**3) / 12
    return dict(b=b, h=h, t=t, A=area, Ix=ix, Iy=iy, Sx=2 * ix / h, Zx=(b * h * h - bi * hi * hi) / 4,
                J=2 * t * (b - t) ** 2 * (h - t) ** 2 / (b + h - 2 * t), bi=bi, hi=hi)


def steep(b):
    d = b / 20 * sqrt(6 * b / E_ADM)
    return b, d, 2 * b / (3 * d)


def adm_line(y, ref, power, aged):
    b = y * (1 + (y / ref) ** power)
    if not aged:
        return steep(b)
    d = b / 10 * sqrt(b / E_ADM)
    return b, d, 0.41 * b / d


def adm(alloy, s, length, held, weld, factors):
    """Strengths in kip and kip in; weld is None, "end" or "within"; factors of yield and rupture."""
    fy_, fr_ = factors
    ftu, fty, fcy, ftuw, ftyw, kt, aged = ADM[alloy]
    sound, soft = (ftu, fty, fcy, aged), (ftuw, ftyw, ftyw, False)
    sec = soft if weld else sound
    mem = soft if weld == "within" else sound
    ftu_, fty_, fcy_, aged_ = sec
    t, h, b = s["t"], s["h"], s["b"]
    out = {}
    out["tension"] = min(fy_ * fty_ * s["A"], fr_ * ftu_ * s["A"] / kt)

    def flat(fcy, aged, x, edge=1.6):
        bp, dp, _ = adm_line(fcy, 1500 if aged else 440, 1 / 3, aged)
        k1, k2 = (0.35, 2.27) if aged else (0.50, 2.04)
        l1, l2 = (bp - fcy) / (edge * dp), k1 * bp / (edge * dp)
        return fcy if x <= l1 else bp - edge * dp * x if x < l2 else k2 * sqrt(bp * E_ADM) / (edge * x)

    def web(fcy, x):
        bb, db, _ = steep(1.3 * fcy * (1 + (fcy / 340) ** (1 / 3)))
        l1, l2 = (bb - 1.5 * fcy) / (0.65 * db), 0.5 * bb / (0.65 * db)
        return 1.5 * fcy if x <= l1 else bb - 0.65 * db * x if x < l2 else 2.04 * sqrt(bb * E_ADM) / (0.65 * x)

    # E.2: the slenderer way
    lam = max(length / sqrt(s["Ix"] / s["A"]), held / sqrt(s["Iy"] / s["A"]))
    _, _, mfcy, maged = mem
    bc, dc, cc = adm_line(mfcy, 2250 if maged else 1000, 0.5, maged)
    l1 = (bc - mfcy) / dc
    fc = (mfcy if lam <= l1 else (bc - dc * lam) * (0.85 + 0.15 * (cc - lam) / (cc - l1)) if lam < cc
          else 0.85 * pi**2 * E_ADM / lam**2)
    member = fc * s["A"]
    wb, wh = 2 * (b - t) * t, 2 * (h - t) * t
    local = flat(fcy_, aged_, s["bi"] / t) * wb + flat(fcy_, aged_, s["hi"] / t) * wh
    fe = pi**2 * E_ADM / (1.6 * max(s["bi"], s["hi"]) / t) ** 2
    all_ = [member, local]
    if fe < fc:
        all_.append((0.85 * pi**2 * E_ADM / lam**2) ** (1 / 3) * fe ** (2 / 3) * s["A"])
    out["compression"] = fy_ * min(all_)

    def mny(fcy, fty):
        return min(s["Zx"] * fcy, 1.5 * s["Sx"] * fty, 1.5 * s["Sx"] * fcy)

    iw = 2 * t * s["hi"] ** 3 / 12
    mlb = (flat(fcy_, aged_, s["bi"] / t) * (s["Ix"] - iw) / (h / 2 - t / 2)
           + web(fcy_, s["hi"] / t) * iw / (h / 2 - t))
    lam = 2.3 * sqrt(held * s["Sx"] / sqrt(s["Iy"] * s["J"]))
    y = mny(mfcy, mem[1])
    mltb = (y * (1 - lam / cc) + pi**2 * E_ADM * lam * s["Sx"] / cc**3 if lam < cc
            else pi**2 * E_ADM * s["Sx"] / lam**2)
    out["yield"] = fy_ * mny(fcy_, fty_)
    out["rupture"] = fr_ * s["Zx"] * ftu_ / kt
    out["local"] = fy_ * mlb
    out["lateral-torsional"] = fy_ * mltb
    out["bending"] = min(out["yield"], out["rupture"], out["local"], out["lateral-torsional"])
    # G.2
    fsy, fsu, x = 0.6 * fty_, 0.6 * ftu_, s["hi"] / t
    bs, ds, cs = adm_line(fsy, 800 if aged_ else 240, 1 / 3, aged_)
    fs = (fsy if x <= (bs - fsy) / (1.25 * ds) else bs - 1.25 * ds * x if x <= cs / 1.25
          else pi**2 * E_ADM / (1.25 * x) ** 2)
    out["shear"] = min(fy_ * fs * 2 * h * t, fr_ * fsu * 2 * t * s["hi"] / kt)
    return out


ASD, LRFD = (1 / 1.65, 1 / 1.95), (0.90, 0.75)


def en(alloy, s, length, held, weld=None, m1=1.10, m2=1.25):
    """Resistances in N and N mm; weld is its place in mm or None."""
    fo, fu, foh, fuh, cls = EN[alloy]
    e, g = 70000.0, 27000.0
    welded = weld is not None
    eps = sqrt(250 / fo)
    lim, c1, c2 = {("A", False): ((11, 16, 22), 32, 220), ("A", True): ((9, 13, 18), 29, 198),
                   ("B", False): ((13, 16.5, 18), 29, 198), ("B", True): ((10, 13.5, 15), 25, 150)}[cls, welded]

    def part(beta):
        x = beta / eps
        c = 1 + sum(x > l for l in lim)
        return c, (1.0 if c < 4 else min(1.0, c1 / x - c2 / x**2)), x

    t, b, h = s["t"], s["b"], s["h"]
    out = {}
    out["tension"] = s["A"] * fo / m1
    if welded:
        out["tension"] = min(out["tension"], s["A"] * fuh / m2)
    pf, pw = part(s["bi"] / t), part(s["hi"] / t)
    aeff = s["A"] - 2 * t * ((1 - pf[1]) * (b - t) + (1 - pw[1]) * (h - t))
    ncr = min(pi**2 * e * s["Ix"] / length**2, pi**2 * e * s["Iy"] / held**2)
    lam = sqrt(aeff * fo / ncr)
    al, l0 = (0.20, 0.10) if cls == "A" else (0.32, 0.0)
    phi = 0.5 * (1 + al * (lam - l0) + lam**2)
    chi = min(1.0, 1 / (phi + sqrt(max(phi**2 - lam**2, 0))))
    squash = aeff * fo / m1
    if welded:
        w0 = min(1.0, fuh / m2 * m1 / fo)
        wx = min(1.0, w0 / (chi + (1 - chi) * sin(pi * weld / length)))
        out["compression"] = min(w0 * squash, chi * wx * squash)
    else:
        out["compression"] = min(squash, chi * squash)
    qf, qw = part(s["bi"] / t), part(0.4 * s["hi"] / t)
    worst = max(qf[0], qw[0])
    if worst <= 2:
        alpha = s["Zx"] / s["Sx"]
    elif worst == 3:
        share = min((lim[2] - p[2]) / (lim[2] - lim[1]) for p in (qf, qw) if p[0] == 3)
        alpha = 1 + share * (s["Zx"] / s["Sx"] - 1)
    else:
        # thinned flange, thinned compressed half of the webs, about the shifted axis
        lf, lw = (1 - qf[1]) * t * (b - t), 2 * (1 - qw[1]) * t * s["hi"] / 2
        arm, half = (h - t) / 2, s["hi"] / 2
        area = s["A"] - lf - lw
        down = (lf * arm + lw * half / 2) / area
        second = s["Ix"] - lf * arm**2 - lw * half**2 / 3 - area * down**2
        alpha = second / (h / 2 + down) / s["Sx"]
    m = alpha * s["Sx"] * fo / m1
    if welded:
        m = min(m, s["Sx"] * fuh / m2)
    if h > b * (1 + 1e-9):
        mcr = pi / held * sqrt(e * s["Iy"] * g * s["J"])
        l = sqrt(alpha * s["Sx"] * fo / mcr)
        ai, ll = (0.10, 0.6) if worst <= 2 else (0.20, 0.4)
        p = 0.5 * (1 + ai * (l - ll) + l * l)
        m *= min(1.0, 1 / (p + sqrt(max(p * p - l * l, 0))))
    out["bending"], out["class"] = m, worst
    f = foh if welded else fo
    stocky = sqrt(250 / f) * t / s["hi"]
    nu = 1.0
    if 39 * stocky <= 1:
        nu = min(1.0, 17 * sqrt(5.34) * stocky, 430 * 5.34 * stocky**2)
    out["shear"] = nu * 2 * s["hi"] * t * f / (sqrt(3) * m1)
    return out


def simpson(f, a, b, n=400):
    hstep = (b - a) / n
    return hstep / 3 * sum((1 if i in (0, n) else 4 if i % 2 else 2) * f(a + i * hstep) for i in range(n + 1))


def solve(a, y):
    n = len(y)
    m = [row[:] + [v] for row, v in zip(a, y)]
    for i in range(n):
        p = max(range(i, n), key=lambda r: abs(m[r][i]))
        m[i], m[p] = m[p], m[i]
        for r in range(n):
            if r != i:
                k = m[r][i] / m[i][i]
                m[r] = [x - k * z for x, z in zip(m[r], m[i])]
    return [m[i][n] / m[i][i] for i in range(n)]


class Arch:
    """Circular arch of small movements, force method."""

    def __init__(self, span, rise, ei, ea, gas, ends, spring=None):
        self.l, self.h, self.ei, self.ea, self.gas, self.ends = span, rise, ei, ea, gas, ends
        self.r = (span**2 / 4 + rise**2) / (2 * rise)
        self.th = asin(span / 2 / self.r)
        self.spring = spring

    def primary(self, loads):
        """Moment, thrust along the axis and shear of the simply supported bar, as functions of the angle."""
        l, r = self.l, self.r
        left = sum(p * (l - x) / l for k, p, x in loads if k == "P") + sum(q * l / 2 for k, q, _ in loads if k == "q")

        def vert(x):
            return left - sum(p for k, p, at in loads if k == "P" and at < x) - sum(q * x for k, q, _ in loads if k == "q")

        def mom(x):
            return (left * x - sum(p * (x - at) for k, p, at in loads if k == "P" and at < x)
                    - sum(q * x * x / 2 for k, q, _ in loads if k == "q"))

        def at(f):
            x = l / 2 + r * sin(f)
            v = vert(x)
            return mom(x), -v * sin(f), v * cos(f)
        return at

    def units(self):
        """Of a thrust of one and of end moments of one left and right (sagging)."""
        l, r, h = self.l, self.r, self.h

        def thrust(f):
            return -(r * cos(f) - (r - h)), cos(f), sin(f)

        def left(f):
            s = 0.5 - r * sin(f) / l
            return s, sin(f) / l, -cos(f) / l

        def right(f):
            s = 0.5 + r * sin(f) / l
            return s, -sin(f) / l, cos(f) / l
        return [thrust, left, right] if self.ends == "fixed" else [thrust] if self.ends == "pinned" else []

    def virtual(self, a, b, breaks):
        def f(phi):
            (m1, n1, v1), (m2, n2, v2) = a(phi), b(phi)
            return (m1 * m2 / self.ei + n1 * n2 / self.ea + v1 * v2 / self.gas) * self.r
        edges = sorted({-self.th, self.th, 0.0, *breaks})
        eps = 1e-12
        return sum(simpson(f, a0 + eps, b0 - eps) for a0, b0 in zip(edges, edges[1:]))

    def solve(self, loads):
        breaks = [asin((x - self.l / 2) / self.r) for k, _, x in loads if k == "P"]
        p0, us = self.primary(loads), self.units()
        red = []
        if us:
            a = [[self.virtual(u, w, breaks) for w in us] for u in us]
            if self.spring:
                a[0][0] += 2 / self.spring
            red = solve(a, [-self.virtual(p0, u, breaks) for u in us])

        def state(f):
            parts = [p0(f)] + [tuple(k * c for c in u(f)) for k, u in zip(red, us)]
            return tuple(sum(c) for c in zip(*parts))
        unit = self.primary([("P", 1.0, self.l / 2)])
        sag = self.virtual(state, unit, breaks)
        return dict(thrust=red[0] if red else 0.0, crown=state(-1e-13)[0], end=red[1] if len(red) > 1 else 0.0,
                    sag=sag, state=state)


def shallow(a, rc, ei, ea, ends, kind, spring=None, lopsided=0.0, load=None):
    """First limit point or sway of a flat arch, half span a: total load and kind; None if it does neither.

    A pinned arch may be lopsided by e sin(pi x/a): the thrust N bends that further, to e/(1 - N/N_sway). With a load
    given (force, or force per length): thrust and moment at the crown under it, on the first branch.
    """
    def pieces(mu, q, p):
        """Coefficients of v = C1 + C2 x + C3 cos + C4 sin + c5 x^2/2 for the load (q even, p central)."""
        n = mu * mu * ei
        c5 = q / n
        rows = [[0, 1, 0, mu], [0, 0, 0, -mu**3], [1, a, cos(mu * a), sin(mu * a)]]
        rhs = [0, p / 2 / ei, -c5 * a * a / 2]
        if ends == "pinned":
            rows.append([0, 0, -mu**2 * cos(mu * a), -mu**2 * sin(mu * a)])
            rhs.append(-c5)
        else:
            rows.append([0, 1, -mu * sin(mu * a), mu * cos(mu * a)])
            rhs.append(-c5 * a)
        return solve(rows, rhs) + [c5]

    def fields(c, mu):
        v = lambda x: c[0] + c[1] * x + c[2] * cos(mu * x) + c[3] * sin(mu * x) + c[4] * x * x / 2
        d = lambda x: c[1] - mu * c[2] * sin(mu * x) + mu * c[3] * cos(mu * x) + c[4] * x
        return v, d

    def loads_at(mu):
        n = mu * mu * ei
        one = pieces(mu, 1.0, 0.0) if kind == "q" else pieces(mu, 0.0, 1.0)
        bow = pieces(mu, -n / rc, 0.0)
        (v1, d1), (v0, d0) = fields(one, mu), fields(bow, mu)
        flex = 2 * a * n / ea + (2 * n / spring if spring else 0.0)
        i = lambda f: 2 * simpson(f, 0, a, 120)
        # quadratic in the load
        qa = -0.5 * i(lambda x: d1(x) ** 2)
        qb = i(v1) / rc - i(lambda x: d0(x) * d1(x))
        more = lopsided * n / (ei * (pi / a) ** 2 - n) if lopsided else 0.0
        aside = 0.5 * pi**2 / a * (more**2 + 2 * more * lopsided)
        qc = i(v0) / rc - 0.5 * i(lambda x: d0(x) ** 2) - flex - aside
        disc = qb * qb - 4 * qa * qc
        if disc < 0:
            return []
        return sorted([(-qb + sqrt(disc)) / (2 * qa), (-qb - sqrt(disc)) / (2 * qa)])

    if load is not None:
        # On the way out the smaller load belongs to the thrust, beyond the crossing of both lines the larger; the thrust
        # grows with the load.
        cross = pi / 2 if ends == "pinned" else pi
        at_cross = loads_at(cross * 0.9999 / a)
        early = not at_cross or at_cross[0] >= load
        low, high = (1e-3, cross * 0.9999) if early else (cross * 1.0001, cross * 1.9)
        while high - low > 1e-10:
            b = (low + high) / 2
            found = loads_at(b / a)
            low, high = (b, high) if found and found[0 if early else 1] < load else (low, b)
        mu = low / a
        n = mu * mu * ei
        one = pieces(mu, load, 0.0) if kind == "q" else pieces(mu, 0.0, load)
        bow = pieces(mu, -n / rc, 0.0)
        c = [x + y for x, y in zip(one, bow)]
        return n, ei * (mu * mu * c[2] - c[4])
    bif = pi if ends == "pinned" else 4.493409458
    whole = 2 * a if kind == "q" else 1.0
    steps = 1500
    grid = [b for b in (0.02 * bif + 0.98 * bif * i / steps for i in range(steps))
            if min(abs(b - k * pi) for k in (1, 2)) > 1e-6]
    # Two equilibria to a thrust; both lines cross where a half wave fits, so each is followed along its slope.
    path, back = [], []
    for b in grid:
        two = loads_at(b / a)
        if not two:
            break
        if len(path) > 1:
            ahead = 2 * path[-1] - path[-2]
            two.sort(key=lambda load: abs(load - ahead))
        path.append(two[0])
        back.append(two[1])
    turned = len(path) < len(grid)
    if turned:
        path += back[::-1]
    for one, two in zip(path, path[1:]):
        if two < one:
            return one * whole, "snaps through"
    return None if turned else (path[-1] * whole, "sways")


def winkler(b, t, r):
    """Stress at the inside of a bent square tube over that of a straight one."""
    h = b
    s = section(b, h, t)
    whole = b * log((r + h / 2) / (r - h / 2)) - (b - 2 * t) * log((r + h / 2 - t) / (r - h / 2 + t))
    rn = s["A"] / whole
    e = r - rn
    return (rn - (r - h / 2)) / (s["A"] * e * (r - h / 2)) / ((h / 2) / s["Ix"])


def adm_seat(b, h, t, alloy, seat):
    """J.9.3.1, one web, nominal, kip."""
    fty = ADM[alloy][1]
    return 0.40 * t**2 * (1 + 3 * min(seat, h) / h) * sqrt(E_ADM * fty)


def en_seat(b, h, t, fo, seat, m1=1.10):
    """6.7.5, type c, seat flush with the end, both webs, N."""
    e, hw = 70000.0, h - 2 * t
    ss = min(seat, hw)
    kf = min(6.0, 2 + 6 * ss / hw)
    fcr = 0.9 * kf * e * t**3 / hw
    le = min(ss, kf * e * t**2 / (2 * fo * hw))
    mm1 = min(b / 2, 25 * t) / t

    def ly(mm2):
        return min(le + t * sqrt(mm1 / 2 + (le / t) ** 2 + mm2), le + t * sqrt(mm1 + mm2))
    length = ly(0.0)
    if sqrt(length * t * fo / fcr) > 0.5:
        length = ly(0.02 * (hw / t) ** 2)
    chi = min(1.0, 0.5 / sqrt(length * t * fo / fcr))
    return 2 * chi * length * t * fo / m1


# width, depth, wall, alloy, length, held or None, place of a weld or None; inches and the manual
ADM_CASES = [
    ("6061-T6", 1.5, 1.5, 0.125, 90, None, None, "ASD"), ("6061-T6", 1.5, 1.5, 0.125, 90, None, None, "LRFD"),
    ("6061-T6", 2, 3, 0.0625, 84, 16, None, "ASD"), ("6063-T5", 3, 2, 0.083, 100, None, None, "ASD"),
    ("6063-T6", 2, 2, 0.125, 92, None, 30, "ASD"), ("6063-T6", 2, 2, 0.125, 92, None, 2, "LRFD"),
    ("5052-H32", 4, 4, 0.063, 48, None, None, "ASD"), ("5052-H32", 4, 4, 0.063, 48, None, 20, "LRFD"),
    ("6082-T6", 4, 4, 0.25, 60, None, None, "ASD"), ("6061-T6 drawn", 1, 4, 0.0625, 120, 40, None, "ASD"),
    ("6063-T6", 1, 6, 0.05, 120, None, None, "LRFD"), ("6005A-T61", 1.5, 1.5, 0.125, 84, None, None, "ASD"),
    ("6061-T6", 6, 6, 0.0625, 40, None, None, "ASD"), ("6063-T52", 1, 1, 0.125, 92, None, None, "LRFD"),
]
# row, its name in the table, width, depth, wall, length, held, weld, gamma_M1, gamma_M2; mm and EN 1999-1-1
EN_CASES = [
    ("6063-T66", "6063-T66", 40, 40, 3, 2300, None, None, None, None),
    ("6060-T6", "6060-T6", 40, 40, 3, 2300, None, None, None, None),
    ("6082-T6 thin", "6082-T6", 50, 100, 2, 2300, 500, None, None, None),
    ("6061-T6", "6061-T6", 80, 80, 2, 1500, None, None, None, None),
    ("6005A-T6 thin", "6005A-T6", 25, 120, 1.5, 3000, None, None, None, None),
    ("6063-T5 thin", "6063-T5", 50, 50, 3, 2000, None, 700, None, None),
    ("6063-T5 thick", "6063-T5", 50, 50, 4, 2000, None, None, None, None),
    ("5052-H32", "5052-H32", 60, 60, 2, 2000, None, None, None, None),
    ("6060-T66 thin", "6060-T66", 100, 40, 2, 2000, None, None, None, None),
    ("6082-T6 thick", "6082-T6", 60, 60, 6, 2000, None, 1000, None, None),
    ("6063-T6", "6063-T6", 30, 60, 2, 2400, 300, None, 1.15, 1.30),
]
# width, depth, wall, span, rise, ends, P, at, q, spring; kip and inches, 6061-T6
BRACE_CASES = [
    (1.5, 1.5, 0.125, 84, 3, "pinned", 0.3, None, None, None), (1.5, 1.5, 0.125, 84, 3, "pinned", 0.3, None, None, 5),
    (1.5, 1.5, 0.125, 84, 3, "fixed", 0.3, None, None, None), (1.5, 1.5, 0.125, 84, 3, "roller", 0.3, None, None, None),
    (1, 2, 0.125, 90, 2, "pinned", None, None, 0.001, None), (1, 2, 0.125, 90, 2, "fixed", None, None, 0.001, None),
    (1, 2, 0.125, 90, 2, "fixed", None, None, 0.001, 50), (2, 2, 0.125, 92, 6, "pinned", 0.2, 20, None, None),
    (2, 2, 0.125, 92, 6, "fixed", 0.2, 60, 0.001, None), (1, 1, 0.0625, 96, 3.5, "pinned", 0.05, None, None, None),
    (1, 1, 0.0625, 96, 3.5, "fixed", 0.05, None, None, None), (1, 1, 0.125, 92.5, 1.75, "pinned", 0.1, None, None, None),
    (1, 1, 0.125, 92.5, 1.75, "pinned", 0.1, None, None, 20), (1, 1, 0.125, 92.5, 4, "pinned", None, None, 0.002, 20),
    (1, 1, 0.125, 92.5, 0.9, "pinned", 0.02, None, None, None), (1.5, 1.5, 0.125, 40, 20, "pinned", 0.3, None, None, None),
    (1.5, 1.5, 0.125, 40, 20, "roller", None, None, 0.01, None),
]


def rows():
    """Id, route, quantity, value, unit, within, shift, source, inputs."""
    for i, (alloy, b, h, t, length, held, weld, fmt) in enumerate(ADM_CASES, 1):
        place = None if weld is None else "end" if min(weld, length - weld) <= 0.05 * length else "within"
        w = adm(alloy, section(b, h, t), length, held or length, place, ASD if fmt == "ASD" else LRFD)
        inputs = f"b[in]={b}; h[in]={h}; t[in]={t}; alloy={alloy}; length[in]={length}; rules=ADM 2020 {fmt}"
        inputs += f"; held[in]={held}" if held else ""
        inputs += f"; weld[in]={weld}" if weld is not None else ""
        for q, key, unit, src in [
            ("tension", "tension", "kip", "D.2"), ("compression", "compression", "kip", "E.2 to E.4"),
            ("bending, yield", "yield", "kip in", "F.2"), ("bending, rupture", "rupture", "kip in", "F.2"),
            ("bending, local buckling", "local", "kip in", "F.3.1"),
            ("bending, lateral-torsional buckling", "lateral-torsional", "kip in", "F.4.2.3"),
            ("bending", "bending", "kip in", "chapter F"), ("shear", "shear", "kip", "G.1 and G.2"),
        ]:
            yield f"LT-ADM-{i:02}-{key}", "lone tube", q, w[key], unit, "1e-9", "h", f"ADM 2020 {fmt} {src}", inputs
    for i, (row, alloy, b, h, t, length, held, weld, m1, m2) in enumerate(EN_CASES, 1):
        w = en(row, section(b, h, t), length, held or length, weld, m1 or 1.10, m2 or 1.25)
        inputs = f"b[mm]={b}; h[mm]={h}; t[mm]={t}; alloy={alloy}; length[mm]={length}; rules=EN 1999-1-1"
        inputs += f"; held[mm]={held}" if held else ""
        inputs += f"; weld[mm]={weld}" if weld is not None else ""
        inputs += f"; gamma_m1[-]={m1}; gamma_m2[-]={m2}" if m1 else ""
        for q, unit, src in [("tension", "N", "6.2.3"), ("compression", "N", "6.2.4 and 6.3.1"),
                             ("bending", "N mm", "6.2.5 and 6.3.2"), ("shear", "N", "6.2.6 and 6.5.5")]:
            yield f"LT-EN-{i:02}-{q}", "lone tube", q, w[q], unit, "1e-9", "t" if q == "shear" else "h", f"EN 1999-1-1:2007 {src}", inputs
    for i, (b, h, t, span, rise, ends, p, at, q, k) in enumerate(BRACE_CASES, 1):
        s = section(b, h, t)
        loads = ([("P", p, span / 2 if at is None else at)] if p else []) + ([("q", q, 0)] if q else [])
        arch = Arch(span, rise, E_ADM * s["Ix"], E_ADM * s["A"], G_ADM * 2 * h * t, ends, k)
        w = arch.solve(loads)
        inputs = f"b[in]={b}; h[in]={h}; t[in]={t}; alloy=6061-T6; span[in]={span}; rise[in]={rise}; ends={ends}"
        inputs += (f"; P[kip]={p}" if p else "") + (f"; at[in]={at}" if at is not None else "")
        inputs += (f"; w[kip/in]={q}" if q else "") + (f"; hold[kip/in]={k}" if k else "")
        force = "force method by quadrature: bending, stretch, shear of the webs"
        shift = "P" if p else "w"
        wanted = [("crown moment", w["crown"], "kip in"), ("sag", w["sag"], "in")]
        wanted += [("thrust", w["thrust"], "kip")] if ends != "roller" else []
        wanted += [("end moment", w["end"], "kip in")] if ends == "fixed" and at is None else []
        for name, value, unit in wanted:
            yield f"LB-{i:02}-{name.replace(' ', '-')}", "lone brace", name, value, unit, "1e-6", shift, force, inputs
        if ends != "roller" and len(loads) == 1 and at is None and rise < span / 8:
            snap = shallow(span / 2, arch.r, arch.ei, arch.ea, ends, "q" if q else "P", k)
            along = "q" if q else "P"
            args = (span / 2, arch.r, arch.ei, arch.ea, ends, along, k)
            total = p or q * span
            beyond = snap is not None and total >= snap[0]
            thrust, crown = (0.0, 0.0) if beyond else shallow(*args, load=q or p)
            # The thrust of this theory is the force along the arc, a little more than the push on a wall.
            for name, value, unit, within in [("thrust, large movements", thrust, "kip", "0.02"),
                                              ("crown moment, large movements", crown, "kip in", "0.01")]:
                if beyond:
                    continue
                yield (f"LB-{i:02}-{name[:6].strip()}-2", "lone brace", name, value, unit, within, shift,
                       "shallow arch that moves far; EI v'''' + N v'' = q - N/R", inputs)
            aside = shallow(*args, lopsided=span / 500) if ends == "pinned" else None
            if aside:
                yield (f"LB-{i:02}-snap-lopsided", "lone brace", "snap load, lopsided", aside[0], "kip", "0.01", "span",
                       "shallow arch, lopsided by 1/500 of its span; EI v'''' + N v'' = q - N/R", inputs)
            if snap:
                yield (f"LB-{i:02}-snap", "lone brace", "snap load", snap[0], "kip", "0.015", "span",
                       f"shallow arch, {snap[1]}; EI v'''' + N v'' = q - N/R", inputs)
    for i, (b, h, t, alloy, seat) in enumerate([(1, 1, 0.125, "6061-T6", 1.5), (1.5, 3, 0.0625, "6063-T5", 1.0)], 1):
        fty = ADM[alloy][1]
        yield (f"SEAT-ADM-{i}", "adm crippling", "one web, nominal", adm_seat(b, h, t, alloy, seat), "kip", "1e-9", "t",
               "ADM 2020 J.9.3.1", f"b[in]={b}; h[in]={h}; t[in]={t}; fty[ksi]={fty}; e[ksi]=10100; bearing[in]={seat}")
    for i, (b, h, t, fo, seat) in enumerate([(40, 40, 3, 160, 30), (25, 25, 2, 240, 40), (50, 150, 1.5, 240, 40),
                                             (60, 120, 2, 200, 25)], 1):
        yield (f"SEAT-EN-{i}", "EN 1999 seat", "both webs", en_seat(b, h, t, fo, seat), "N", "1e-9", "t",
               "EN 1999-1-1:2007 6.7.5, type c, from memory",
               f"b[mm]={b}; h[mm]={h}; t[mm]={t}; fo[MPa]={fo}; gamma[-]=1.1; bearing[mm]={seat}")
    # H.2.2: stress of the wall in shear around the enclosed area
    torque = min(0.6 * 35 / 1.65, 0.6 * 38 / 1.95) * 2 * 0.125 * 1.375**2
    yield ("TORSION-1", "adm torsion", "torque", torque, "kip in", "1e-9", "b", "ADM 2020 H.2.2, Bredt",
           "b[in]=1.5; t[in]=0.125; ftu[ksi]=38; fty[ksi]=35; fcy[ksi]=35; e[ksi]=10100")
    yield ("H31-1", "adm wall combined", "used", 3 / 15.2 + (9 / 22.7) ** 2 + (4 / 9.1) ** 2, "-", "1e-9", "fb",
           "ADM 2020 H.3.1", "fc[ksi]=3; Fc[ksi]=15.2; fb[ksi]=9; Fb[ksi]=22.7; fs[ksi]=4; Fs[ksi]=9.1")
    # Half circle: inner fibre of a sharply bent tube, N/A + K M/S under a central load between rollers
    r = 10.0
    t2 = section(2, 2, 0.25)
    k = winkler(2, 0.25, r)
    yield ("LB-ring", "lone brace", "largest stress", k * 0.5 * 20 / 4 / t2["Sx"], "ksi", "2e-3", "b",
           "Winkler-Bach at the crown of a half circle on rollers, P L/4; the crown carries no thrust",
           "b[in]=2; t[in]=0.25; alloy=6061-T6; span[in]=20; rise[in]=10; ends=roller; P[kip]=0.5")


def table():
    print("# Printed by tests/second_route/aluminium.py, which works every number apart from the code under test.")
    print("id,route,quantity,printed,unit,within,shift,kind,source,inputs")
    for ident, route, quantity, value, unit, within, shift, source, inputs in rows():
        quoted = [f'"{c}"' if "," in c else c for c in (quantity, source)]
        print(f"{ident},{route},{quoted[0]},{value:.12g},{unit},{within},{shift},computed,{quoted[1]},{inputs}")


def asked(program):
    """How far the built program lies off, through its command line."""
    options = {"length": "--length", "held": "--held-every", "weld": "--weld-at", "alloy": "--alloy", "rules": "--rules",
               "span": "--span", "rise": "--rise", "ends": "--ends", "P": "--load", "at": "--at", "w": "--uniform",
               "hold": "--thrust-spring", "gamma_m1": "--gamma-m1", "gamma_m2": "--gamma-m2", "t": "--wall"}
    sizes = {"kip": KIP, "kip in": KIP * IN, "N": 1.0, "N mm": 1e-3, "in": IN, "ksi": KSI}
    keys = {"tension": ("strength", "tension"), "compression": ("strength", "compression"),
            "shear": ("strength", "shear"), "bending": ("strength", "bending", "least"),
            "bending, yield": ("strength", "bending", "yield"), "bending, rupture": ("strength", "bending", "rupture"),
            "bending, local buckling": ("strength", "bending", "local"),
            "bending, lateral-torsional buckling": ("strength", "bending", "lateral_torsional"),
            "thrust": ("thrust",), "crown moment": ("crown_moment",), "end moment": ("end_moment",),
            "sag": ("crown_sag",), "snap load": ("snap_load",),
            "snap load, lopsided": ("snap_load_lopsided",),
            "thrust, large movements": ("second_order", "thrust"),
            "crown moment, large movements": ("second_order", "crown_moment"), "largest stress": ("max_stress",)}
    answers, worst = {}, {}
    for ident, route, quantity, value, unit, within, _, _, inputs in rows():
        if not route.startswith("lone"):
            continue
        if inputs not in answers:
            given = dict(part.strip().split("=", 1) for part in inputs.split(";"))
            command = [program, route.split()[1], "--format", "json"]
            pick = {}
            for name, v in given.items():
                key, _, of = name.partition("[")
                pick[key] = v + (" " + of.rstrip("]") if of and of != "-]" else "")
            command += ["--outside", f"{pick.pop('b')} x {pick.pop('h', None) or dict(given)['b[in]'] + ' in'}"]
            for key, v in pick.items():
                command += [options[key], v]
            answers[inputs] = json.loads(subprocess.run(command, capture_output=True, text=True, check=False).stdout)
        found = answers[inputs]
        for key in keys[quantity]:
            found = found[key]
        off = abs(found / sizes[unit] / value - 1) if abs(value) > 1e-12 else abs(found)
        flag = "  OFF" if off > float(within) else ""
        print(f"{ident:28} {quantity:36} {value:14.6g} {unit:7} {off:8.1e}{flag}")
        worst[route] = max(worst.get(route, 0.0), off)
    print(f"{len(answers)} questions, worst {worst}")


if __name__ == "__main__":
    asked(sys.argv[1]) if len(sys.argv) > 1 else table()
