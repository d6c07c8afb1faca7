"""A vortex lattice of fins on a body, in numpy: horseshoe vortices placed as by Lan (1974, from memory), the body either as
mirror images at r -> R²/r in a cylinder without end, or with sources on the wall of its real shape besides.

Lengths in any unit; lifts are slopes on the dynamic pressure, in that unit squared a radian. x runs aft, z is where the
cross stream goes, one fin lies in the plane z = 0 on the side of y."""

import numpy as np


def trapezoid(root, tip, span, sweep):
    """Leading and trailing edge by the height above the root, and the span."""
    return (lambda y: sweep * y / span), (lambda y: root + (sweep + tip - root) * y / span), span


class Lattice:
    """`count` even fins on a body of a radius, which may be 0; one or two lie square to the cross stream."""

    def __init__(self, edges, radius, count, strips=24, rows=12, mach=0.0, x=0.0):
        leading, trailing, span = edges
        self.radius, self.count, self.beta = radius, count, np.sqrt(1 - mach**2)
        at = lambda i: span * np.sin(np.pi / 2 * i / strips)
        along = lambda i: (1 - np.cos(np.pi * i / rows)) / 2

        def points(y, share):
            y, share = (v.ravel() for v in np.meshgrid(y, share, indexing="ij"))
            station = x + leading(y) + share * (trailing(y) - leading(y))
            return np.column_stack([station / self.beta, radius + y, 0 * y])

        strip, row = np.arange(strips), np.arange(rows)
        self.inner = points(at(strip), along(row + 0.5))
        self.outer = points(at(strip + 1), along(row + 0.5))
        self.control = points(at(strip + 0.5), along(row + 1))
        self.station = self.beta * (self.inner[:, 0] + self.outer[:, 0]) / 2

    def velocity(self, at):
        """At points, by the fins' unit circulations times the cosine of each fin's angle: (points, panels, 3)."""
        total = 0.0
        for k in range(self.count):
            angle = 2 * np.pi * k / self.count
            ends = [turned(p, angle) for p in (self.inner, self.outer)]
            total = total + np.cos(angle) * horseshoes(at, *ends)
            if self.radius > 0:
                ends = [turned(mirrored(p, self.radius), angle) for p in (self.inner, self.outer)]
                total = total - np.cos(angle) * horseshoes(at, *ends)
        return total

    def lift(self):
        """((slope, station) on the fins, (slope, station) on the body between them)."""
        upwash = 1 + (self.radius / self.control[:, 1]) ** 2
        return self.forces(np.linalg.solve(self.velocity(self.control)[..., 2], -upwash))

    def forces(self, circulation):
        lifting = self.count if self.count < 3 else self.count / 2
        own = lifting * 2 * circulation * (self.outer[:, 1] - self.inner[:, 1])
        image = lambda p: self.radius**2 / p[:, 1] if self.radius > 0 else 0 * p[:, 1]
        body = lifting * 2 * circulation * (image(self.inner) - image(self.outer))
        return [(f.sum(), f @ self.station / f.sum() if f.any() else 0.0) for f in (own, body)]


def horseshoes(at, a, b):
    """Velocity at points by horseshoes of unit circulation from a to b with legs along x: (points, horseshoes, 3)."""
    return segments(at, a, b) + legs(at, b) - legs(at, a)


def segments(at, a, b):
    r1, r2 = at[:, None] - a, at[:, None] - b
    cross = np.cross(r1, r2)
    n1, n2 = np.linalg.norm(r1, axis=-1), np.linalg.norm(r2, axis=-1)
    square = (cross**2).sum(-1)
    near = square <= 1e-20 * (n1 * n2) ** 2
    along = ((b - a) * (r1 / n1[..., None] - r2 / n2[..., None])).sum(-1)
    return cross * (np.where(near, 0, along) / (4 * np.pi * np.where(near, 1, square)))[..., None]


def legs(at, start):
    d = at[:, None] - start
    square = d[..., 1] ** 2 + d[..., 2] ** 2
    near = square == 0
    size = np.where(near, 0, 1 + d[..., 0] / np.linalg.norm(d, axis=-1)) / (4 * np.pi * np.where(near, 1, square))
    return np.stack([0 * size, -d[..., 2] * size, d[..., 1] * size], -1)


def mirrored(points, radius):
    return points * np.column_stack([0 * points[:, 0] + 1, *2 * [(radius / points[:, 1]) ** 2]])


def turned(points, angle):
    cos, sin = np.cos(angle), np.sin(angle)
    x, y, z = points.T
    return np.column_stack([x, cos * y - sin * z, sin * y + cos * z])


def ring(diameter, chord, sides=96, rows=12):
    """Slope and station of an open tube alone in the stream, as a polygon of as much area."""
    half = np.pi / sides
    radius = diameter / 2 * np.sqrt(2 * half / np.sin(2 * half))
    along = lambda i: chord * (1 - np.cos(np.pi * i / rows)) / 2
    x, control = along(np.arange(rows) + 0.5), along(np.arange(rows) + 1)
    corner = lambda sign: np.column_stack([x, radius * np.cos(half) + 0 * x, sign * radius * np.sin(half) + 0 * x])
    at = np.column_stack([control, radius * np.cos(half) + 0 * x, 0 * x])
    matrix = 0.0
    for k in range(sides):
        angle = 2 * np.pi * k / sides
        ends = turned(corner(-1), angle), turned(corner(1), angle)
        matrix = matrix + np.cos(angle) * horseshoes(at, *ends)[..., 1]
    force = np.abs(np.linalg.solve(matrix, np.ones(rows))) * 2 * 2 * radius * np.sin(half) * sides / 2
    return force.sum(), force @ x / force.sum()


class Walled:
    """Nose (a tangent ogive), tube and fins with sources on the body's wall. Behind its end the wall goes on as a cylinder,
    as the air flows past a base; what is carried there can be counted in or left out."""

    def __init__(self, lattice, nose, end, around=24):
        self.lattice = lattice
        corners = self.wall(nose, end, around)
        self.middle = corners.mean(1)
        normal = np.cross(corners[:, 2] - corners[:, 0], corners[:, 1] - corners[:, 3])
        size = np.linalg.norm(normal, axis=-1)
        self.normal = normal / size[:, None] * np.sign((normal * self.middle)[:, 1:].sum(-1))[:, None]
        self.area, self.on_body = size / 2, self.middle[:, 0] < end
        by_sources = sources(self.middle, corners, self.area)
        i = np.arange(len(corners))
        by_sources[i, i] = self.normal / 2
        flow = np.linalg.inv((by_sources * self.normal[:, None]).sum(-1))
        self.by_sources = by_sources
        stopped = lambda field: flow @ -(field * self.normal).sum(-1)
        self.along, self.across = stopped(np.array([1.0, 0, 0])), stopped(np.array([0, 0, 1.0]))
        by_fins = lattice.velocity(self.middle)
        answer = flow @ -(by_fins * self.normal[:, None]).sum(-1)
        to_fins = sources(lattice.control, corners, self.area)[..., 2]
        matrix = lattice.velocity(lattice.control)[..., 2] + to_fins @ answer
        self.circulation = np.linalg.solve(matrix, -(1 + to_fins @ self.across))
        self.added = by_fins.transpose(0, 2, 1) @ self.circulation + self.flow_by(answer @ self.circulation)

    def wall(self, nose, end, around):
        radius = self.lattice.radius
        fins = self.lattice.inner[:, 0].min(), self.lattice.control[:, 0].max()
        step = min(radius / 2.2, (fins[1] - fins[0]) / 10)
        rho = (radius**2 + nose**2) / (2 * radius)
        x = nose * (1 - np.cos(np.linspace(0, np.pi / 2, int(nose / (radius / 1.8)) + 1)))
        r = np.maximum(np.sqrt(rho**2 - (nose - x) ** 2) + radius - rho, 0)
        tube = [nose]
        while tube[-1] < end:
            ahead = max(fins[0] - 2 * radius - tube[-1], 0)
            tube.append(min(tube[-1] + min(step + 0.15 * ahead, 1.2 * radius), end))
        while tube[-1] < end + 3 * radius:
            tube.append(tube[-1] + step)
        while tube[-1] < end + 25 * radius:
            tube.append(tube[-1] + 1.25 * (tube[-1] - tube[-2]))
        x = np.append(x, tube[1:])
        # A polygon of as much area as the circle.
        turn = 2 * np.pi / around
        r = np.append(r, np.full(len(tube) - 1, radius)) * np.sqrt(turn / np.sin(turn))
        angle = turn * np.arange(around + 1)
        grid = np.stack([np.tile(x[:, None], around + 1), np.outer(r, np.cos(angle)), np.outer(r, np.sin(angle))], -1)
        cells = np.stack([grid[:-1, :-1], grid[1:, :-1], grid[1:, 1:], grid[:-1, 1:]], 2)
        return cells.reshape(-1, 4, 3)

    def flow_by(self, strength):
        return np.einsum("nmi,m->ni", self.by_sources, strength)

    def carried(self, flow, where):
        """Lift on a share of the wall by pressure, to first order in the angle of attack."""
        steady = np.array([1.0, 0, 0]) + self.flow_by(self.along)
        force = 2 * (steady * flow).sum(-1) * self.normal[:, 2] * self.area * where
        return force.sum(), force @ self.middle[:, 0] / force.sum()

    def lift(self):
        """(slope, station) of the fins, of the body alone, and of what the fins put on it."""
        alone = np.array([0, 0, 1.0]) + self.flow_by(self.across)
        fins, _ = self.lattice.forces(self.circulation)
        return fins, self.carried(alone, self.on_body), self.carried(self.added, self.on_body)

    def put_on_all(self):
        """(slope, station) of what the fins put on the body and on the cylinder behind it."""
        return self.carried(self.added, 1.0)


def sources(at, corners, area):
    """Velocity at points by flat cells of sources: as points from afar, by Gauss' rule from near: (points, cells, 3)."""
    d = at[:, None] - corners.mean(1)
    distance = np.linalg.norm(d, axis=-1)
    distance[distance == 0] = np.inf
    out = (area / (4 * np.pi * distance**3))[..., None] * d
    i, j = np.nonzero(distance < 5 * np.sqrt(area))
    share, weight = np.polynomial.legendre.leggauss(6)
    share, weight = (share + 1) / 2, weight / 2
    near = np.zeros((len(i), 3))
    for u, wu in zip(share, weight):
        for v, wv in zip(share, weight):
            a, b, c, e = corners[j].transpose(1, 0, 2)
            d = at[i] - ((1 - u) * (1 - v) * a + u * (1 - v) * b + u * v * c + (1 - u) * v * e)
            near += wu * wv * d / (4 * np.pi * np.linalg.norm(d, axis=-1) ** 3)[:, None]
    out[i, j] = near * area[j][:, None]
    return out


def total(*parts):
    """(slope, station) of the sum."""
    slope = sum(f for f, _ in parts)
    return slope, sum(f * x for f, x in parts) / slope
