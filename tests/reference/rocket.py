"""A whole rocket worked out from its dimensions, independently of the Rust side: mass properties by sums over thin
frusta, Barrowman's centre of pressure, the drag build-up, the guided run and the flight by scipy.

A spec is plain data in SI units; `examples.py` holds those of the example designs and of small variants. Conventions that
the file format fixes (what a part is taken as) are followed: a load is a thin rod, small things are points, a lug is a
pipe beside the body. Formulas as published: Barrowman 1967, Hoerner 1965 (from memory), US Standard Atmosphere 1976."""

import math

import numpy as np
from free_flight import G, flight
from last_guide import turned
from outlines import fine_stations, outline, revolved
from test_guided import Scipy

R_AIR = 8.31432 / 0.0289644
# Hoerner 1965, from memory: planed wood, sprayed paint, a polished surface.
ROUGH = {"bare": 15e-6, "painted": 20e-6, "polished": 1e-6}


def standard_state(altitude):
    """Temperature and pressure of the standard troposphere at a geometric altitude."""
    h = 6356766.0 * altitude / (6356766.0 + altitude)
    t = 288.15 - 0.0065 * h
    return t, 101325.0 * (288.15 / t) ** (G / (R_AIR * -0.0065))


class Air:
    """The troposphere over a site, in balance with its own weight from what is read there."""

    def __init__(self, elevation=0.0, temperature=None, pressure=None):
        t, p = standard_state(elevation)
        self.elevation = elevation
        self.ground = temperature or t, pressure or p
        self.warmer = self.ground[0] - t

    def at(self, z):
        """Density, speed of sound and viscosity at a height."""
        t = standard_state(self.elevation + z)[0] + self.warmer
        t0, p0 = self.ground
        p = p0 * (t0 / t) ** (G / (R_AIR * -0.0065))
        return p / (R_AIR * t), math.sqrt(1.4 * R_AIR * t), 1.458e-6 * t**1.5 / (t + 110.4)


def pipe(length, outer, inner, rho):
    """(mass, x, axial, transverse) of a pipe from its front edge."""
    ro, ri = outer / 2, inner / 2
    m = rho * np.pi * (ro**2 - ri**2) * length
    return np.array([m, length / 2, m * (ro**2 + ri**2) / 2, m * (3 * (ro**2 + ri**2) + length**2) / 12])


def thin_rod(m, length=0.0):
    return np.array([m, length / 2, 0.0, m * length**2 / 12])


def moved(part, x, radius=0.0):
    m, x0, axial, transverse = part
    return np.array([m, x0 + x, axial + m * radius**2, transverse + m * radius**2 / 2])


def together(parts):
    parts = np.array(parts)
    m = parts[:, 0].sum()
    x = (parts[:, 0] * parts[:, 1]).sum() / m
    return np.array([m, x, parts[:, 2].sum(), (parts[:, 3] + parts[:, 0] * (parts[:, 1] - x) ** 2).sum()])


def turned(x, r, rho):
    v, m1, m2, a = rho * revolved(x, r)
    return np.array([v, m1, m2, a])


def shell(r, length, wall, rho):
    """A nose with a wall of even thickness, square to its surface."""
    x = fine_stations(length)
    radius = r(x)
    whole = turned(x, radius, rho)
    if wall:
        # Square to each thin frustum, from its middle; nearer the tip than the walls meet it is solid.
        dx, dr = np.diff(x), np.diff(radius)
        w = np.hypot(dx, dr)
        xi = (x[1:] + x[:-1]) / 2 + wall * dr / w
        ri = (radius[1:] + radius[:-1]) / 2 - wall * dx / w
        inside = (ri > 0) & (xi < length)
        xi, ri = xi[inside], ri[inside]
        end = ri[-1] + (length - xi[-1]) * (ri[-1] - ri[-2]) / (xi[-1] - xi[-2])
        whole = whole - turned(np.append(xi, length), np.append(ri, end), rho)
    m, first, second, axial = whole
    return np.array([m, first / m, axial, axial / 2 + second - first**2 / m])


def frustum(length, front, back, wall, rho):
    x = np.linspace(0, length, 4001)
    r = np.linspace(front / 2, back / 2, 4001)
    whole = turned(x, r, rho)
    if wall:
        inner = r - wall * math.hypot(1, (back - front) / 2 / length)
        whole = whole - turned(x, inner, rho)
    m, first, second, axial = whole
    return np.array([m, first / m, axial, axial / 2 + second - first**2 / m])


class Rocket:
    def __init__(self, spec):
        self.spec = spec
        nose, pieces = spec["nose"], spec["pieces"]
        self.d = max([nose["base"], *[d for p in pieces for d in p["d"]]])
        self.area = np.pi * self.d**2 / 4
        self.front = [0.0, nose["length"]]
        for piece in pieces:
            self.front.append(self.front[-1] + piece["length"])
        self.tail = self.front[-1]
        self.r = outline(nose["shape"], nose.get("parameter", 0.0), nose["length"], nose["base"] / 2)
        mount = spec["mount"]
        self.mount_back = self.front[mount["on"] + 2]
        self.nozzle = self.mount_back + mount["sticks_out"]
        self.lowest = max(self.tail, self.nozzle)
        motor = spec["motor"]
        self.whole_motor, self.propellant = (
            moved(pipe(motor["length"], motor["d"], 0, 1), self.nozzle - motor["length"]) for _ in range(2)
        )
        for part, m in ((self.whole_motor, motor["mass"]), (self.propellant, motor["propellant"])):
            part[2:] *= m / part[0]
            part[0] = m
        self.settle()

    def settle(self):
        """Guides placed ahead of the balance point move it in turn."""
        fixed = self.fixed_parts()
        balance = 0.5 * self.tail
        for _ in range(200):
            self.stations = [g["x"] if "x" in g else balance - g["ahead"] for g in self.spec["guides"]]
            guides = []
            for g, x in zip(self.spec["guides"], self.stations):
                if "bore" in g:
                    own = pipe(g["length"], g["bore"] + 2 * g["wall"], g["bore"], g["rho"])
                    arm = g["body"] + g["bore"] / 2 + g["wall"]
                else:
                    own = thin_rod(g["mass"], g["length"])
                    arm = g["body"] + g["standoff"] + g["mouth"] / 2
                guides.append(moved(own, x - g["length"] / 2, arm))
            self.bare = together([*fixed, *guides])
            self.computed = together([self.bare, self.whole_motor])
            if "weighed" in self.spec:
                # The rocket on the scale flies: what it has more sits where both measurements put it.
                mass, x = self.spec["weighed"]
                more = mass - self.computed[0]
                at = (mass * x - self.computed[0] * self.computed[1]) / more
                assert more > 0 and 0 < at < self.tail
                self.bare = together([self.bare, np.array([more, at, 0, 0])])
            self.loaded = together([self.bare, self.whole_motor])
            if abs(self.loaded[1] - balance) < 1e-14:
                break
            balance = self.loaded[1]
        case = self.whole_motor.copy()
        case[0] -= self.propellant[0]
        case[2:] -= self.propellant[2:]
        self.burnt = together([self.bare, case])

    def fixed_parts(self):
        spec, nose = self.spec, self.spec["nose"]
        parts = [shell(self.r, nose["length"], nose.get("wall"), nose["rho"])]
        if "shoulder" in nose:
            length, outer, wall = nose["shoulder"]
            inner = outer - 2 * wall if wall else 0
            parts.append(moved(pipe(length, outer, inner, nose["rho"]), nose["length"]))
        for piece, x in zip(spec["pieces"], self.front[1:]):
            if piece["d"][0] == piece["d"][1]:
                parts.append(moved(pipe(piece["length"], piece["d"][0], piece["inner"], piece["rho"]), x))
            else:
                parts.append(moved(frustum(piece["length"], *piece["d"], piece["wall"], piece["rho"]), x))
        parts += [moved(thin_rod(m, length), x - length / 2) for m, x, length in spec["masses"]]
        parts += [moved(pipe(*measures), x) for x, measures in spec["pipes"]]
        f = spec["fins"]
        root, tip, span, sweep = f["root"], f["tip"], f["span"], f["sweep"]
        # Over the span, chord by chord.
        y = np.linspace(0, span, 20001)
        c, lead = root + (tip - root) * y / span, sweep * y / span
        trapz = lambda values: np.trapezoid(values, y)
        s = trapz(c)
        xc, yc = trapz(c * (lead + c / 2)) / s, trapz(c * y) / s
        xx = trapz((lead + c) ** 3 / 3 - lead**3 / 3) / s - xc**2
        yy = trapz(c * y**2) / s - yc**2
        m = f["count"] * f["rho"] * f["t"] * s
        arm = f["body"] + yc
        axial = m * (arm**2 + yy + f["t"] ** 2 / 12)
        parts.append(np.array([m, f["x"] + xc, axial, axial / 2 + m * xx]))
        mount = spec["mount"]
        x = self.mount_back - mount["length"]
        parts.append(moved(pipe(mount["length"], mount["outer"], mount["bore"], mount["rho"]), x))
        if "rings" in mount:
            count, t, rho = mount["rings"]
            inner = spec["pieces"][mount["on"]]["inner"]
            for i in range(count):
                parts.append(moved(pipe(t, inner, mount["outer"], rho), x + i * (mount["length"] - t) / (count - 1)))
        return parts

    def pressure(self):
        """(CNa, x) of each part with a force, then of the whole, at low speed."""
        nose = self.spec["nose"]
        x = fine_stations(nose["length"])
        volume = revolved(x, self.r(x))[0]
        base = np.pi * nose["base"] ** 2 / 4
        parts = [(2 * base / self.area, nose["length"] - volume / base)]
        for piece, x0 in zip(self.spec["pieces"], self.front[1:]):
            f, b = piece["d"]
            if f != b:
                cna = 2 * ((b / self.d) ** 2 - (f / self.d) ** 2)
                parts.append((cna, x0 + piece["length"] / 3 * (1 + 1 / (1 + f / b))))
        body = list(parts)
        fin = self.spec["fins"]
        root, tip, span, sweep, n = fin["root"], fin["tip"], fin["span"], fin["sweep"], fin["count"]
        mid = math.hypot(span, sweep + tip / 2 - root / 2)
        k = 1 + fin["body"] / (span + fin["body"])
        k *= {5: 0.948, 6: 0.913, 7: 0.854, 8: 0.810}.get(n, 1.0)
        cna = k * 4 * n * (span / self.d) ** 2 / (1 + math.sqrt(1 + (2 * mid / (root + tip)) ** 2))
        x = fin["x"] + sweep * (root + 2 * tip) / (3 * (root + tip)) + (root + tip - root * tip / (root + tip)) / 6
        parts.append((cna, x))
        total = sum(c for c, _ in parts)
        return body, (total, sum(c * x for c, x in parts) / total)

    def side_view(self):
        """Area and centroid of the body's side view, and of body with half the fins."""
        nose = self.spec["nose"]
        x = fine_stations(nose["length"])
        r = self.r(x)
        trapz = lambda values: np.trapezoid(values, x)
        areas = [(trapz(2 * r), trapz(2 * r * x) / trapz(2 * r))]
        for piece, x0 in zip(self.spec["pieces"], self.front[1:]):
            (f, b), length = piece["d"], piece["length"]
            areas.append(((f + b) / 2 * length, x0 + length * (f + 2 * b) / (3 * (f + b))))
        add = lambda those: (sum(a for a, _ in those), sum(a * x for a, x in those) / sum(a for a, _ in those))
        fin = self.spec["fins"]
        root, tip, span, sweep = fin["root"], fin["tip"], fin["span"], fin["sweep"]
        own = (root + tip) / 2 * span
        at = sweep * (root + 2 * tip) / (3 * (root + tip)) + (root**2 + root * tip + tip**2) / (3 * (root + tip))
        return add(areas), add([*areas, (fin["count"] / 2 * own, fin["x"] + at)])

    def drag(self):
        """The drag coefficient by (speed, density, speed of sound, viscosity, burning)."""
        nose, pieces, fin = self.spec["nose"], self.spec["pieces"], self.spec["fins"]
        x = fine_stations(nose["length"])
        r = self.r(x)
        wet = [(np.sum(np.pi * (r[1:] + r[:-1]) * np.hypot(np.diff(x), np.diff(r))), nose["surface"])]
        disc = lambda d: np.pi * d**2 / 4
        near = nose["length"] * (1 - 1e-6)
        slope = (r[-1] - self.r(near)) / (nose["length"] - near)
        sloped = 0.8 * math.sin(math.atan(max(slope, 0))) ** 2 * disc(nose["base"])
        tails = 0.0
        for piece in pieces:
            (f, b), length = piece["d"], piece["length"]
            wet.append((np.pi * (f + b) / 2 * math.hypot(length, (b - f) / 2), piece["surface"]))
            if b > f:
                sloped += 0.8 * math.sin(math.atan((b - f) / 2 / length)) ** 2 * (disc(b) - disc(f))
            elif b < f:
                tails += min(max((3 - length / (f - b)) / 2, 0), 1) * (disc(f) - disc(b))
        base = disc(pieces[-1]["d"][1])
        jet = min(disc(self.spec["mount"]["bore"]), base)
        form = 1 + self.d / self.tail / 2
        root, tip, span, n, t = fin["root"], fin["tip"], fin["span"], fin["count"], fin["t"]
        chord = (root + tip) / 2
        fin_wet = 2 * n * chord * span * (1 + 2 * t / chord)
        edge = n * span * t
        cos2 = span**2 / (span**2 + fin["sweep"] ** 2)
        trailing = {"blunt": 1.0, "rounded": 0.5, "sharp": 0.0}[fin["trailing"]] * edge
        stuck_on = 0.0
        for g in self.spec["guides"]:
            if "bore" in g:
                stuck_on += 1.2 * disc(g["bore"] + 2 * g["wall"])
            else:
                stuck_on += 0.7 * (2 * g["standoff"] + g["mouth"]) ** 2
        wet = [(a, ROUGH.get(s, s)) for a, s in wet]
        fin_rough = ROUGH.get(fin["surface"], fin["surface"])

        def plate(length, rough, per_length, mach):
            re = max(per_length * length, 1e4)
            if re > 51 * (rough / length) ** -1.039:
                cf = 0.032 * (rough / length) ** 0.2
            else:
                cf = 1 / (1.50 * math.log(re) - 5.6) ** 2
            return cf * (1 - 0.1 * mach**2)

        def coefficient(v, rho, sound, mu, burning):
            mach, per = v / sound, v * rho / mu
            skin = sum(form * a * plate(self.tail, rough, per, mach) for a, rough in wet)
            skin += fin_wet * plate(chord, fin_rough, per, mach)
            suction = 0.12 + 0.13 * mach**2
            pushed = {
                "blunt": 0.85 * (1 + mach**2 / 4 + mach**4 / 40),
                "rounded": (1 - mach**2) ** -0.417 - 1,
                "sharp": 0.0,
            }[fin["leading"]]
            rear = tails + base - (jet if burning else 0) + trailing
            return (skin + sloped + suction * rear + pushed * edge * cos2 + stuck_on) / self.area

        return coefficient

    def air(self, pad):
        return Air(**pad.get("air", {}))

    def run(self, pad):
        """The guided run of one pad: travel, passages, and what it was computed from."""
        rho = self.air(pad).at(0)[0]
        held = sorted((self.stations[i], self.spec["guides"][i]["length"]) for i in pad["guides"])
        leaves = [pad["length"] - pad["stop"] - (self.lowest - x - length / 2) for x, length in held]
        front = leaves[0] - held[0][1] if len(held) == 1 else leaves[0]
        sound = Air().at(0)
        cd = self.drag()(13.4, *sound, True)
        _, (side, _) = self.side_view()
        wind = pad.get("wind", 0.0)
        run = Scipy(
            self.spec["motor"]["curve"],
            self.loaded[0],
            self.spec["motor"]["propellant"],
            rho * cd * self.area / 2,
            front,
            leaves[-1],
            tilt=pad.get("tilt", 0.0),
            friction=pad["friction"],
            side_force=rho * wind**2 / 2 * 1.2 * side,
            side_slope=rho / 2 * self.area * self.pressure()[1][0] * wind,
        )
        passages = [run.run(lambda t, y, s=s: y[0] - s) for s in (front, leaves[-1])]
        return run, front, leaves[-1], passages

    def meeting(self, pad, wind):
        """The angle at which the air meets the rocket as it leaves, from the two velocities, and the speed then."""
        _, _, travel, (_, (_, (_, speed))) = self.run({**pad, "wind": wind})
        tilt = pad.get("tilt", 0.0)
        axis = np.array([-math.sin(tilt), math.cos(tilt)])
        # The wind is read 2 m up, and less where the rocket leaves.
        there = wind * (travel * math.cos(tilt) / 2.0) ** (1 / 7)
        air = speed * axis - np.array([there, 0.0])
        return math.acos(axis @ air / np.hypot(*air)), speed

    def fly(self, pad):
        """Release to the ground."""
        run, _, travel, ((t_front, (_, v_front)), (t, (_, v))) = self.run(pad)
        air = self.air(pad)
        rho = air.at(0)[0]
        wind = pad.get("wind", 0.0)
        body, (cna, cp) = self.pressure()
        # The tip-off while only the last guide is on, mass and inertia as at the front one's leaving.
        left = (run.mass(t_front) - self.burnt[0]) / self.propellant[0]
        there = together([self.burnt, self.propellant * [left, 1, left, left]])
        last = max(self.stations[i] for i in pad["guides"])
        on_guide = dict(mass=there[0], balance=there[1], inertia=there[3], last_guide=last, reference_area=self.area,
                        cna=cna, pressure=cp, time=t - t_front, speed=v_front, wind=wind, density=rho)
        rate = turned(on_guide, (pad.get("tilt", 0.0), 0.0), (v - v_front) / (t - t_front))[1] if t > t_front else 0.0
        (plan, plan_x), _ = self.side_view()
        drag = self.drag()
        tilt = -pad.get("tilt", 0.0)
        f = self.spec["fins"]
        points = [(0, 0), (f["sweep"], f["span"]), (f["sweep"] + f["tip"], f["span"]), (f["root"], 0)]

        def cd(z, v, burning):
            rho, sound, mu = air.at(z)
            return drag(v, rho, sound, mu, burning)

        return rate, flight(
            dict(
                curve=self.spec["motor"]["curve"],
                dry=dict(mass=self.burnt[0], x=self.burnt[1], transverse=self.burnt[3]),
                propellant=dict(mass=self.propellant[0], x=self.propellant[1], transverse=self.propellant[3]),
                nozzle=self.nozzle,
                area=self.area,
                body=body,
                fins=[dict(points=points, count=f["count"], body_radius=f["body"], x=f["x"])],
                planform=plan,
                planform_x=plan_x,
                k=1.1,
                cd=cd,
                air=lambda z: air.at(z)[:2],
                drag_area=self.spec["drag_area"],
                delay=self.spec["motor"]["delay"],
                wind=wind,
                wind_height=2.0,
                wind_exponent=1 / 7,
                release=dict(time=t, height=travel * math.cos(tilt), speed=v, tilt=tilt, rate=rate),
            ),
            rtol=1e-7,
            atol=1e-8,
        )
