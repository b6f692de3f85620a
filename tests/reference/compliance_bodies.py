"""Both wheels as free bodies with springs between them, for the compliance reference; what is meant and how is said there."""
from functools import cached_property

import numpy as np
from scipy.linalg import block_diag, lu_factor, lu_solve
from scipy.spatial.transform import Rotation

from axles import EZ, Axle, unit
from scipy_reference import ANGLE, Solver

IMAGES = (np.eye(3), np.diag([1.0, -1, 1]))  # left, right
STEP = 1e-30  # of complex derivatives: no difference is taken, so it can't be too small
CLOSED = 1e-8  # mm: how far a joint may gape in the state, from poses good to 1e-11 mm on bodies turned by their joints


def skew(w):
    out = np.zeros(w.shape + (3,), w.dtype)
    for i, j, k in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        out[..., k, j], out[..., j, k] = w[..., i], -w[..., i]
    return out


def times(matrix, v):
    return (matrix @ v[..., None])[..., 0]


def dot(a, b):
    return (a * b).sum(-1)


def direction(v):
    return v / np.sqrt(dot(v, v))[..., None]


def turn(w):
    """Rotation matrix of a rotation vector; the series has all digits below 0.05 rad, and coordinates turn less from their state."""
    t, s = dot(w, w)[..., None, None], skew(w)
    return np.eye(3) + (1 - t / 6 + t**2 / 120 - t**3 / 5040) * s + (0.5 - t / 24 + t**2 / 720 - t**3 / 40320) * (s @ s)


def smallest(d0, d):
    """The smallest rotation that takes one unit vector to another."""
    s = skew(np.cross(d0, d))
    return np.eye(3) + s + s @ s / (1 + dot(d0, d))[..., None, None]


def hinge(axis, a, b):
    """The rotation about an axis that takes the direction of a to that of b, both seen along the axis."""
    a, b = (direction(v - dot(v, axis)[..., None] * axis) for v in (a, b))
    s = skew(axis)
    return np.eye(3) + dot(np.cross(a, b), axis)[..., None, None] * s + (1 - dot(a, b))[..., None, None] * (s @ s)


class Body:
    """A rigid body: where its `origin` (a point at rest) is in the state, and its rotation from rest. Rows of q are sets of coordinates."""

    def __init__(self, first=None, origin=np.zeros(3), now=np.zeros(3), rotation=np.eye(3)):
        self.first, self.origin, self.now, self.start = first, origin, now, rotation

    def rotation(self, q):
        return self.start if self.first is None else turn(q[:, self.first + 3:self.first + 6] / ANGLE) @ self.start

    def place(self, q):
        return self.now if self.first is None else self.now + q[:, self.first:self.first + 3]

    def point(self, q, rest):
        """Where the body's point is that lies at `rest` at rest."""
        return self.place(q) + times(self.rotation(q), rest - self.origin)

    def back(self, q, place):
        """Which point (as at rest) of the body is at a place."""
        return self.origin + times(np.swapaxes(self.rotation(q), -1, -2), place - self.place(q))


class Side:
    """One wheel's carrier and what is read of it."""

    def __init__(self, model, image, pose):
        axle, wheel = model.axle, model.solver.wheel(pose)
        turned = image @ Rotation.from_rotvec(pose[3:6] / ANGLE).as_matrix() @ image
        self.image, self.centre = image, image @ axle.centre
        self.carrier = model.body(self.centre, image @ wheel.centre, turned)
        self.contact = self.centre + turned.T @ image @ (wheel.contact - wheel.centre)  # the carrier's point, as at rest
        self.road = np.array([image @ wheel.ahead, image @ wheel.side * image[1, 1], EZ])  # heading, to the left, up
        self.spin_axis = image @ axle.spin_axis * image[1, 1]  # to the left on both wheels
        self.model = model

    def spin(self, q):
        return times(self.carrier.rotation(q), self.spin_axis)

    @cached_property
    def slopes(self):
        point = lambda p: self.model.slope(lambda q: self.carrier.point(q, p))
        return self.model.slope(self.spin), point(self.centre), point(self.contact)

    def rates(self, q):
        """Turn of the spin axis to the right (on the left wheel: toe) and camber, degrees; wheel centre, contact point, mm: along q."""
        n, (v, centre, contact) = self.spin(self.model.still())[0], (slope @ q for slope in self.slopes)
        to_the_right = (v[0] * n[1] - n[0] * v[1]) / (n[0]**2 + n[1]**2)
        camber = -self.image[1, 1] * v[2] / np.sqrt(1 - n[2]**2)
        return np.degrees(to_the_right), np.degrees(camber), centre, contact


class Model:
    """All bodies of both sides in one state. `hold`: what keeps the wheels up: `pad`, or the springs' length as `member` or as `row`."""

    def __init__(self, layout, travel, rack, hold="pad"):
        self.axle, self.layout = Axle(layout), layout
        self.solver, self.stiffness = Solver(self.axle), layout.get("stiffness", {})
        self.n, self.rows, self.springs, self.held, self.steer = 0, [], [], [], None
        self.ground, frame = Body(), layout.get("subframe")
        rack_on = ["rack"] if self.axle.steered and layout["rack"]["mount"] == "subframe" else []
        self.carries = frame.get("carries", ["lower.front", "lower.rear", *rack_on]) if frame else []
        self.frame = self.body() if frame else self.ground
        for mount in frame["mounts"] if frame else ():
            for image in IMAGES:
                at = image @ mount["at"]
                self.spring(lambda q, at=at: self.frame.point(q, at) - at, np.diag(np.array(mount["stiffness"], float)))
        self.bar = self.rack(rack) if self.axle.steered else None
        self.sides = [self.side(image, self.solver.state(travel=travel, rack=rack * image[1, 1]), hold) for image in IMAGES]
        gaps = [f(self.still()) for f in (*self.rows, *(f for f, _ in self.springs))]
        assert max(np.abs(gap).max() for gap in gaps) < CLOSED, "a joint gapes"

    def body(self, origin=np.zeros(3), now=None, rotation=np.eye(3)):
        self.n += 6
        return Body(self.n - 6, origin, origin if now is None else now, rotation)

    def still(self):
        return np.zeros((1, self.n))

    def here(self, body, rest):
        return body.point(self.still(), rest).reshape(3)

    def on(self, name):
        return self.frame if name in self.carries else self.ground

    def row(self, f):
        self.rows.append(f)

    def spring(self, f, matrix):
        self.springs.append((f, matrix))

    def rack(self, rack):
        bar, house = self.body(now=np.array([0.0, rack, 0])), self.on("rack")
        seen = lambda q: house.back(q, bar.point(q, np.zeros(3)))
        turned = lambda q: np.swapaxes(house.rotation(q), -1, -2) @ bar.rotation(q)
        self.row(lambda q: seen(q)[:, ::2])
        self.row(lambda q: ANGLE * np.stack([turned(q)[:, i, j] for i, j in ((0, 1), (1, 2), (2, 0))], -1))
        self.steer = lambda q: seen(q)[:, 1:2] - rack
        if "rack" in self.stiffness:
            self.spring(self.steer, np.array([[float(self.stiffness["rack"]["along"])]]))
        else:
            self.row(self.steer)
        return bar

    def joint(self, name, part, anchor, at, side, axis, rows=np.eye(3)):
        """The part's point at its anchor's: through the bush of that name, or rigid."""
        entry = self.stiffness.get(name, {})
        gap = lambda q: part.point(q, at) - anchor.point(q, at)
        if "radial" in entry:
            axis = unit(np.array(entry["axis"], float)) if "axis" in entry else axis
            line = np.outer(axis, axis)
            self.spring(gap, side.image @ (entry["axial"] * line + entry["radial"] * (np.eye(3) - line)) @ side.image)
        else:
            self.row(lambda q: gap(q) @ rows.T)

    def rod(self, name, inner, outer, anchor, side, bush):
        """An arm or a track rod; returns the body and how its rotation follows from its ball joint's place seen from the anchor."""
        d0 = unit(outer - inner)
        follow = lambda ball: smallest(d0, direction(ball - inner))
        seen = anchor.back(self.still(), self.here(side.carrier, outer)).reshape(3)
        rod = self.body(inner, self.here(anchor, inner), follow(seen))
        self.joint(bush, rod, anchor, inner, side, np.array([1.0, 0, 0]))
        tip = lambda q: rod.point(q, outer)
        if "along" in self.stiffness.get(name, {}):
            stretch, self.n = self.n, self.n + 1
            tip = lambda q: rod.point(q, outer + q[:, stretch, None] * d0)
            self.spring(lambda q: q[:, stretch, None], np.array([[float(self.stiffness[name]["along"])]]))
        self.row(lambda q: tip(q) - side.carrier.point(q, outer))
        self.no_spin(rod, anchor, d0)
        return rod, follow

    def no_spin(self, rod, anchor, d0):
        across = unit(np.cross(d0, np.eye(3)[np.argmin(abs(d0))]))

        def spin(q):
            seen = np.swapaxes(anchor.rotation(q), -1, -2) @ rod.rotation(q)
            return ANGLE * dot(times(seen, across), times(smallest(d0, times(seen, d0)), np.cross(d0, across)))[:, None]
        self.row(spin)

    def wishbone(self, place, side):
        front, rear, outer = (side.image @ p for p in (*(self.axle.rods[f"{place}_{end}"][0] for end in ("front", "rear")),
                                                      self.axle.rods[f"{place}_front"][1]))
        axis, along = unit(front - rear), side.image @ unit(front - rear)  # here; and before the image, for the bush
        follow = lambda ball: hinge(axis, outer - front, ball - front)
        bone = self.body(front, rotation=follow(self.here(side.carrier, outer)))
        hinged = not any("radial" in self.stiffness.get(f"{place}.{end}", {}) for end in ("front", "rear"))
        across = np.linalg.svd(axis[None])[2][1:]
        self.joint(f"{place}.front", bone, self.on(f"{place}.front"), front, side, along)
        self.joint(f"{place}.rear", bone, self.on(f"{place}.rear"), rear, side, along, across if hinged else np.eye(3))
        self.row(lambda q: bone.point(q, outer) - side.carrier.point(q, outer))
        return bone, (outer, follow)

    def strut(self, side):
        """The strut's rod: its top on the mount, coaxial with the carrier's line, free to slide."""
        top, foot = (side.image @ p for p in self.axle.strut)
        d0, anchor = unit(foot - top), self.on("strut.top")
        rod = self.body(top, rotation=smallest(d0, direction(self.here(side.carrier, foot) - top)))
        across = np.linalg.svd(d0[None])[2][1:]
        self.joint("strut.top", rod, anchor, top, side, side.image @ d0)
        for p in (top, foot):
            self.row(lambda q, p=p: (side.carrier.back(q, rod.point(q, p)) - foot) @ across.T)
        self.no_spin(rod, anchor, d0)
        return rod

    def side(self, image, pose, hold):
        side, axle, members = Side(self, image, pose), self.axle, {}
        for place in ("lower", "upper"):
            kind = self.layout[place]["kind"]
            if kind == "wishbone":
                members[place] = *self.wishbone(place, side), self.on(f"{place}.front")
            elif kind == "strut":
                members["strut"] = self.strut(side), None, self.on("strut.top")
            else:
                for end in ("front", "rear"):
                    name, (inner, outer) = f"{place}.{end}", (image @ p for p in axle.rods[f"{place}_{end}"])
                    rod, follow = self.rod(name, inner, outer, self.on(name), side, name)
                    members[name] = rod, (outer, follow), self.on(name)
        inner, outer = (image @ p for p in axle.rods["track_rod"])
        self.rod("track_rod", inner, outer, self.bar or self.on("track_rod"), side, None if self.bar else "track_rod")
        length = self.spring_length(side, members, hold)
        height = lambda q: side.carrier.point(q, side.contact)[:, 2:]
        self.held.append(height if hold == "pad" else length)
        return side

    def spring_length(self, side, members, hold):
        top, foot = (side.image @ p for p in self.axle.spring)
        on, upper = self.axle.spring_on, self.ground
        lower = lambda q: side.carrier.point(q, foot)
        if on == "strut" and "top" not in self.layout["spring"]:
            rod, _, anchor = members["strut"]
            upper = anchor if hold == "row" else rod
        elif on not in ("strut", "carrier"):
            part, (outer, follow), anchor = members[on]
            inner = part.origin
            by_row = lambda q: anchor.point(q, inner + times(follow(anchor.back(q, side.carrier.point(q, outer))), foot - inner))
            lower = by_row if hold == "row" else lambda q: part.point(q, foot)

        def length(q):
            line = lower(q) - upper.point(q, top)
            return np.sqrt(dot(line, line))[:, None]
        return length

    def slope(self, f, at=None):
        """Derivatives of f by all coordinates (rows: components of f), at the state or displaced from it."""
        q = (np.zeros(self.n) if at is None else at) + 1j * STEP * np.eye(self.n)
        return f(q).imag.T / STEP

    def stacked(self, functions, at=None):
        return np.vstack([self.slope(f, at) for f in functions])

    @cached_property
    def bushes(self):
        """Slopes of all deflections, and the springs' matrices."""
        if not self.springs:
            return np.zeros((0, self.n)), np.zeros((0, 0))
        return self.stacked([f for f, _ in self.springs]), block_diag(*(matrix for _, matrix in self.springs))

    @cached_property
    def system(self):
        """Stiffness over constraints, factored; stiffness in units of the largest, so that it and the constraints are of one size."""
        (d, k), g = self.bushes, self.stacked(self.rows + self.held)
        size = np.max(k, initial=1.0)
        return lu_factor(np.block([[d.T @ k @ d / size, g.T], [g, np.zeros((len(g), len(g)))]])), len(g), size

    def force(self, loads):
        """What (force, side, carrier's point as at rest) do on every coordinate."""
        return sum((self.slope(lambda q: s.carrier.point(q, p)).T @ f for f, s, p in loads), np.zeros(self.n))

    def answer(self, loads=(), held=(0.0, 0.0)):
        """Movement of all coordinates under loads, what holds the wheels moving by `held`."""
        (d, k), (lu, rows, size), force = self.bushes, self.system, self.force(loads)
        q = lu_solve(lu, np.concatenate([force / size, np.zeros(rows - 2), held]))[:self.n]
        work, energy = force @ q, (d @ q) @ k @ (d @ q)
        assert any(held) or abs(work - energy) < 1e-9 * max(1, work), "energy is not work"
        return q
