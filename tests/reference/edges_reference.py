"""Reference for the readings at the edge of the table: a spring against side force, roll, support of both wheels, half-shafts in
bump, righting moment, turning.

Poses are found by a general root finder from the lengths of the rods; every velocity is a central difference of solved poses
(Romberg extrapolated), every force a free body's balance or a virtual work of those velocities. The right wheel is solved as the
left wheel it mirrors (y -> -y), with the rack the other way and the road's normal mirrored; x and z need no mirroring back.
A pair in the JSON is [left, right]. A vehicle is the documented default one.
"""
from copy import copy
from functools import cache

import numpy as np
from scipy.optimize import newton
from scipy.spatial.transform import Rotation

from axles import EY, EZ, axles, main, unit
from scipy_reference import ANGLE, Solver, derivative

AXLES = ("strut", "double-wishbone", "four-arm", "wishbone-over-arms", "strut-over-arms")
VEHICLE = {"wheelbase": 2650.0, "mass": 1500.0, "front_share": 0.6, "cg_height": 550.0, "brake_share": 0.77, "unsprung_mass": 40.0,
           "drive_share": 1.0, "gravity": 9.80665}
WHEELBASE = VEHICLE["wheelbase"]
STANDING = VEHICLE["mass"] * VEHICLE["gravity"] * VEHICLE["front_share"] / 2  # N, on one front wheel
WEIGHT = VEHICLE["unsprung_mass"] * VEHICLE["gravity"]  # N, of one wheel and its carrier
SPRUNG = VEHICLE["mass"] * VEHICLE["front_share"] / 2 - VEHICLE["unsprung_mass"]  # kg over one front wheel
MIRROR = np.diag([1.0, -1, 1])
BRAKE, DRIVE, BELOW_TOP = 3000.0, 2942.0, 300.0
NM_PER_DEG = np.pi / 180 / 1000  # from N·mm/rad
doubts = {}  # worst relative change the last extrapolation made, by what it was for


def rate(what, f, h):
    """Derivative of f at 0, its doubt kept."""
    best, before = derivative(f, h)
    doubts[what] = max(doubts.get(what, 0.0), float(np.abs(best - before).max() / max(1.0, np.abs(best).max())))
    return best


def turn(x):
    return Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()


class Corner:
    """One wheel at a pose, as the left wheel it is or mirrors, on a road with the given normal (as this wheel sees it)."""

    def __init__(self, solver, x, normal=EZ):
        self.solver, self.x, self.normal, self.axle = solver, x, normal, solver.axle
        self.centre, self.n = x[:3], turn(x) @ solver.axle.spin_axis
        self.contact = self.centre - solver.axle.loaded_radius * unit(normal - (normal @ self.n) * self.n)
        self.ahead = unit(np.cross(self.n, normal))
        self.spring, self.steer = solver.spring_length(x), float(np.degrees(np.arctan2(-self.n[0], self.n[1])))

    def per_mm(self, what, look, **held):
        """d(look)/d(the first held quantity), the second held."""
        (moving, value), (fixed, at) = held.items()
        return rate(what, lambda s: look(self.solver.solve(self.x, **{moving: value + s, fixed: at})), 0.25)

    def bump(self, look):
        return self.per_mm("bump", look, travel=self.x[2] - self.axle.centre[2], rack=self.x[6])

    def steering(self, look):
        return self.per_mm("steering", look, rack=self.x[6], spring=self.spring)

    def riding(self, point):
        """Where the carrier's point that is at `point` now has gone in another pose."""
        on_carrier = turn(self.x).T @ (point - self.centre)
        return lambda y: y[:3] + turn(y) @ on_carrier

    def ratio(self):
        return -float(self.bump(self.solver.spring_length))

    def spin(self, motion):
        """Angular velocity of the carrier in a motion (`self.bump`, `self.steering`)."""
        w = motion(lambda y: (turn(y) @ turn(self.x).T).ravel()).reshape(3, 3)
        return np.array([w[2, 1] - w[1, 2], w[0, 2] - w[2, 0], w[1, 0] - w[0, 1]]) / 2

    def weights(self, motion):
        """Work of the standing load at the contact point less that of the unsprung weight, per mm of a motion, N."""
        return float(STANDING * motion(self.riding(self.contact))[2] - WEIGHT * motion(self.riding(self.centre))[2])


def pair(solver, rack, normal=EZ, **held):
    """Left and right wheel; a held quantity is (left, right)."""
    return [Corner(solver, solver.state(rack=sign * rack, **{name: both[i] for name, both in held.items()}), mirror @ normal)
            for i, (sign, mirror) in enumerate([(1, np.eye(3)), (-1, MIRROR)])]


# 1. A spring that leaves a strut's guides free of side force.
# The carrier is cut free: three rods (a wishbone's legs are two), one force through the top mount, whatever presses at the wheel.
# Six balances, six unknowns. Where the force at the mount is the spring's alone, the spring lies along that force.

def side_free(solver, travel, brake):
    axle = solver.axle
    corner = Corner(solver, solver.state(travel=travel, rack=0))
    at, (top, foot) = turn(corner.x), axle.strut
    out = lambda force, point: np.append(force, np.cross(point - corner.centre, force))
    columns = []
    for inner, outer in axle.rods.values():
        now = corner.centre + at @ (outer - axle.centre)
        columns.append(out(unit(now - inner), now))
    columns += [out(axis, top) for axis in np.eye(3)]
    load = out(STANDING * EZ - brake * corner.ahead, corner.contact) + out(-WEIGHT * EZ, corner.centre)
    push = np.linalg.solve(np.transpose(columns), -load)[3:]
    strut = unit(corner.centre + at @ (foot - axle.centre) - top)
    along = unit(push)
    offset = BELOW_TOP * (along / (along @ strut) - strut)
    # By virtual work too: the part along the strut in bump, the part across it when the strut's line is moved past the mount.
    work = corner.weights(corner.bump) - brake * float(corner.bump(corner.riding(corner.contact)) @ corner.ahead)
    across = []
    for guide in np.eye(5)[-2:]:
        moved = lambda look: derivative(lambda s: look(solver.solve(corner.x, s * guide, rack=0, spring=corner.spring)), 0.25)[0]
        across.append(corner.weights(moved) - brake * moved(corner.riding(corner.contact)) @ corner.ahead)
    both_ways = [push @ strut - work / corner.ratio(), np.linalg.norm(push - push @ strut * strut) - np.linalg.norm(across)]
    assert np.abs(both_ways).max() < 1e-5, both_ways
    tilt = np.degrees(np.arctan2(np.linalg.norm(np.cross(along, strut)), along @ strut))
    return {"travel_mm": travel, "rack_mm": 0, "brake_n": brake, "tilt_deg": float(tilt), "force_n": float(np.linalg.norm(push)),
            "along": along, "strut": strut, "offset_mm": offset, "offset_size_mm": float(np.linalg.norm(offset))}


# 2. Roll on springs alone.
# The body leans by phi to the right; in its axes the road's normal is (0, sin phi, cos phi). Both contact points lie on one road.
# A spring's force at rest is what virtual work asks of it: F i = standing load * rise of the contact point - unsprung weight.

def rolled(solver, phi, rack=0):
    """Both wheels on one road, mean travel 0."""
    normal = np.array([0, np.sin(phi), np.cos(phi)])

    def gap(lift):
        left, right = pair(solver, rack, normal, travel=(lift, -lift))
        return float(left.contact @ left.normal - right.contact @ right.normal)
    lean = -solver.axle.centre[1] * np.tan(phi)
    lift = float(newton(gap, lean, x1=lean + 1, tol=1e-12, maxiter=30))
    assert abs(gap(lift)) < 1e-10, gap(lift)
    return pair(solver, rack, normal, travel=(lift, -lift)), np.array([0, np.cos(phi), -np.sin(phi)])


def track(corners, along):
    left, right = corners
    return float((left.contact - MIRROR @ right.contact) @ along)


@cache
def preload(solver):
    rest = Corner(solver, solver.rest)
    return rest.weights(rest.bump) / rest.ratio(), rest.spring


def spring_force(solver, length):
    force, at = preload(solver)
    return force + solver.axle.layout["spring"]["rate"] * (at - length)


def wheel_rate(corner):
    """d(F i)/d(travel), rack held."""
    travel, rack, solver = corner.x[2] - corner.axle.centre[2], corner.x[6], corner.solver

    def at_wheel(step):
        there = Corner(solver, solver.solve(corner.x, travel=travel + step, rack=rack))
        return np.array(spring_force(solver, there.spring) * there.ratio())
    return float(rate("wheel rate", at_wheel, 1.0))


def energy_stiffness(solver):
    """Second derivative of both springs' energy by the roll angle at 0: second differences, extrapolated."""
    def energy(phi):
        return sum(spring_force(solver, corner.spring) ** 2 for corner in rolled(solver, phi)[0]) / 2 / solver.axle.layout["spring"]["rate"]
    middle = energy(0.0)
    d = [(energy(h) - 2 * middle + energy(-h)) / h**2 for h in (0.005, 0.01, 0.02, 0.04)]
    for order in (1, 2, 3):
        before, d = d[0], [d[i] + (d[i] - d[i + 1]) / (4**order - 1) for i in range(len(d) - 1)]
    doubts["energy"] = max(doubts.get("energy", 0.0), abs(d[0] / before - 1))
    return float(d[0]) * NM_PER_DEG


def roll(solver, degrees):
    corners, along = rolled(solver, np.radians(degrees))
    rates, width = [wheel_rate(corner) for corner in corners], track(corners, along)
    out = {"roll_deg": degrees, "travels_mm": [float(c.x[2] - c.axle.centre[2]) for c in corners], "spring_rest_n": preload(solver)[0],
           "spring_n": [float(spring_force(solver, c.spring)) for c in corners], "ratio": [c.ratio() for c in corners], "wheel_rate": rates,
           "track_mm": width, "roll_stiffness": sum(rates) * width**2 / 4 * NM_PER_DEG,
           "contact_rise": [float(c.bump(c.riding(c.contact)) @ c.normal) for c in corners],
           "ride_frequency": float(np.sqrt(1000 * sum(rates) / 2 / SPRUNG) / (2 * np.pi))}
    return out | ({"energy": energy_stiffness(solver)} if degrees == 0 else {})


# 3. Support. A force along the heading works F (v · heading) per mm of bump, the wheel load F_z (v · normal of the road) at the contact
# point: what the guides carry is F (v · heading) / (v_contact · normal). A braking force points back and the car dives, a driving
# force points ahead and the nose lifts: in both, a point that moves forward in bump helps. The car travels along x and is slowed by
# the forces' parts along x; `percent_of_sizes` counts their sizes instead, which differs only where a wheel is steered.

def support(solver, degrees, rack):
    corners = rolled(solver, np.radians(degrees), rack)[0]
    rise = [c.bump(c.riding(c.contact)) @ c.normal for c in corners]
    ahead = sum(c.ahead[0] for c in corners)
    out = {"roll_deg": degrees, "rack_mm": rack, "ahead": [float(c.ahead[0]) for c in corners]}
    for name, share, place in (("outboard", VEHICLE["brake_share"], "contact"), ("inboard", VEHICLE["brake_share"], "centre"),
                               ("drive", VEHICLE["drive_share"], "centre")):
        held = [float(c.bump(c.riding(getattr(c, place))) @ c.ahead / up) for c, up in zip(corners, rise)]
        size = 100 * share * sum(held) * WHEELBASE / VEHICLE["cg_height"]
        out[name] = {"held": held, "percent": float(size / ahead), "percent_of_sizes": float(size / 2)}
    return out


# 4. A half-shaft between a gearbox held still and the wheel. A constant-velocity joint carries the turn across by the smallest rotation
# between its two axes; so gearbox -> shaft -> wheel gives the wheel's full orientation at any pose, and the road force works on the
# contact point as a point of that wheel. The same by rates: the relative spin of a joint has no part along the sum of both axes.

def smallest(a, b):
    """The smallest rotation that takes unit vector a to b."""
    x, y, z = np.cross(a, b)
    across = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.eye(3) + across + across @ across / (1 + a @ b)


def half_shaft(solver, travel, rack):
    axle = solver.axle
    x, y, z = axle.centre
    inner, outer = np.array([x, 250, z - 10]), np.array([x, y - 60, z])
    corner = Corner(solver, solver.state(travel=travel, rack=rack))
    shaft = lambda pose: unit(pose[:3] + turn(pose) @ (outer - axle.centre) - inner)

    def wheel(pose):
        return smallest(shaft(pose), turn(pose) @ axle.spin_axis) @ smallest(EY, shaft(pose))
    on_wheel = wheel(corner.x).T @ (corner.contact - corner.centre)
    force = DRIVE * corner.ahead
    work = {name: float(motion(lambda pose: pose[:3] + wheel(pose) @ on_wheel) @ force)
            for name, motion in (("bump", corner.bump), ("rack", corner.steering))}
    s = shaft(corner.x)
    for name, motion in (("bump", corner.bump), ("rack", corner.steering)):
        across = np.cross(s, motion(shaft))
        of_shaft, of_carrier = across - s * (across @ EY) / (1 + s @ EY), corner.spin(motion)
        q = (of_shaft - of_carrier) @ (s + corner.n) / (1 + s @ corner.n)
        v = motion(corner.riding(corner.centre)) + np.cross(of_carrier + q * corner.n, corner.contact - corner.centre)
        assert abs(v @ force - work[name]) < 1e-4, (v @ force, work[name])
    on_carrier = {place: float(corner.bump(corner.riding(getattr(corner, place))) @ force) for place in ("contact", "centre")}
    return {"travel_mm": travel, "rack_mm": rack, "inner": inner, "outer": outer, "force_n": DRIVE, "torque_nmm": DRIVE * axle.loaded_radius,
            "work_per_bump_n": work["bump"], "work_per_rack_n": work["rack"], "work_per_bump_at_centre_n": on_carrier["centre"],
            "ratio": corner.ratio(), "spring_n": (work["bump"] + corner.weights(corner.bump)) / corner.ratio()}


# 5. Righting. Gravity's work on both wheels in the steering motion (the rack moves, each spring keeps its length), each per radian of
# its own carrier's turn, counted towards the left: for the right wheel's mirror image that is a turn the other way.

def righting(solver, rack):
    length, parts = solver.spring_length(solver.rest), []
    for corner, left in zip(pair(solver, rack, spring=(length, length)), (1, -1)):
        spin = corner.spin(corner.steering)
        # The wheel's lowest point, which is another of its points at every instant, rises as the one that is lowest now.
        lowest = corner.steering(lambda pose: Corner(solver, pose).contact[2])
        assert abs(lowest - corner.steering(corner.riding(corner.contact))[2]) < 1e-9, lowest
        parts.append(float(left * np.sign(spin[2]) * corner.weights(corner.steering) / np.linalg.norm(spin) / 1000))
    return {"rack_mm": rack, "wheels_nm": parts, "righting_nm": sum(parts)}


# 6. Turning. Seen from above each wheel's axis crosses the rear axle's line; the car turns about the middle of both crossings.
# Angles count from rack 0 at the same travel, so toe is in the crossings and not in the angles.

def turning(solver, travel, rack):
    straight, now = pair(solver, 0, travel=(travel, travel)), pair(solver, rack, travel=(travel, travel))
    change = [sign * (b.steer - a.steer) for a, b, sign in zip(straight, now, (1, -1))]  # positive to the left
    inside = 0 if sum(change) > 0 else 1
    inner, outer = abs(change[inside]), abs(change[1 - inside])

    k, v = straight[0].spin(straight[0].steering), straight[0].steering(straight[0].riding(straight[0].centre))
    on_axis = straight[0].centre + np.cross(k, v) / (k @ k)
    pins = 2 * float(on_axis[1] + k[1] / k[2] * (straight[0].contact[2] - on_axis[2]))
    ideal = float(np.degrees(np.arctan(1 / (1 / np.tan(np.radians(inner)) + pins / WHEELBASE))))

    crossing = [sign * float(c.centre[1] + (-WHEELBASE - c.centre[0]) * c.n[1] / c.n[0]) for c, sign in zip(now, (1, -1))]
    middle = np.array([-WHEELBASE, sum(crossing) / 2])
    radius = {}
    for name, half in (("middle", 0.0), ("edge", solver.axle.layout["wheel"]["width"] / 2)):
        places = [mirror @ (c.contact[:2] + half * unit(c.n[:2])) for c, mirror in zip(now, (np.eye(2), MIRROR[:2, :2]))]
        radius[name] = max(float(np.linalg.norm(place - middle)) for place in places) / 1000

    length = solver.spring_length(straight[0].x)
    lift = [float(a.contact[2] - b.contact[2]) for a, b in zip(straight, pair(solver, rack, spring=(length, length)))]
    return {"travel_mm": travel, "rack_mm": rack, "inside": ("left", "right")[inside], "inner_deg": inner, "outer_deg": outer, "pins_mm": pins,
            "ideal_outer_deg": ideal, "ackermann_percent": 100 * (inner - outer) / (inner - ideal), "crossings_mm": crossing,
            "kerb_radius_middle_m": radius["middle"], "kerb_radius_edge_m": radius["edge"],
            "kerb_circle_middle_m": 2 * radius["middle"], "kerb_circle_edge_m": 2 * radius["edge"], "lift_mm": lift}


def make():
    every, made = axles(), {"vehicle": VEHICLE, "layouts": {}}
    states = {
        side_free: [(travel, brake) for travel in (0, 30, -40) for brake in (0.0, BRAKE)],
        roll: [(0,), (3,), (-3,), (5,)],
        support: [(0, 0), (3, 0), (-3, 0), (0, 50), (0, -50)],
        half_shaft: [(0, 0), (0, 60), (0, -60), (40, 30)],
        righting: [(0,), (30,), (60,), (-30,)],
        turning: [(travel, rack) for travel in (-40, 0, 40) for rack in (60, -60)],
    }
    made |= {reading.__name__: [] for reading in states}
    for name in AXLES:
        solver = Solver(every[name])
        made["layouts"][name] = every[name].layout
        for reading, at in states.items():
            if reading is not side_free or solver.axle.strut is not None:
                made[reading.__name__] += [{"layout": name} | reading(solver, *state) for state in at]
    return made


def mirrored(axle):
    """The right wheel of an axle, at its own place."""
    axle = copy(axle)
    axle.centre, axle.spin_axis, axle.spring = axle.centre @ MIRROR, axle.spin_axis @ MIRROR, axle.spring @ MIRROR
    axle.rods = {rod: ends @ MIRROR for rod, ends in axle.rods.items()}
    axle.strut = None if axle.strut is None else axle.strut @ MIRROR
    return axle


def laws(made):
    """What must hold whatever the numbers are: mirrored states read the same; and the differences are fine enough."""
    wrong = [f"doubt of {what}: {size}" for what, size in doubts.items() if not size < 1e-9]

    def same(what, a, b, tolerance=1e-7):
        if not np.allclose(a, b, rtol=tolerance, atol=tolerance):
            wrong.append(f"{what}: {a} against {b}")
    for name in AXLES:
        # The right wheel solved where it stands, against the left one it is taken for here.
        left, right = (Solver(axle) for axle in (axles()[name], mirrored(axles()[name])))
        here, there = left.state(travel=30, rack=-40), right.state(travel=30, rack=40)
        same(f"{name}: mirror", here[:3] @ MIRROR, there[:3], 1e-11)
        same(f"{name}: mirror", MIRROR @ turn(here) @ MIRROR, turn(there), 1e-11)
        of = lambda reading, **at: next(s for s in made[reading] if s["layout"] == name and at.items() <= s.items())
        one, other, level = (of("roll", roll_deg=angle) for angle in (3, -3, 0))
        same(f"{name}: roll", one["wheel_rate"], other["wheel_rate"][::-1])
        same(f"{name}: roll", one["roll_stiffness"], other["roll_stiffness"])
        # A wheel rate is per mm of the wheel centre's rise, the road lifts the contact point.
        same(f"{name}: energy", level["roll_stiffness"] / level["contact_rise"][0] ** 2, level["energy"])
        for a, b in (((3, 0), (-3, 0)), ((0, 50), (0, -50))):
            one, other = (of("support", roll_deg=s[0], rack_mm=s[1]) for s in (a, b))
            for where in ("outboard", "inboard", "drive"):
                same(f"{name}: {where}", one[where]["percent"], other[where]["percent"])
        same(f"{name}: righting at rest", of("righting", rack_mm=0)["righting_nm"], 0)
        same(f"{name}: righting", of("righting", rack_mm=30)["righting_nm"], -of("righting", rack_mm=-30)["righting_nm"])
        for travel in (-40, 0, 40):
            one, other = (of("turning", travel_mm=travel, rack_mm=rack) for rack in (60, -60))
            same(f"{name}: lift", one["lift_mm"], other["lift_mm"][::-1])
            for what in ("inner_deg", "outer_deg", "ackermann_percent", "kerb_radius_middle_m", "kerb_radius_edge_m"):
                same(f"{name}: {what}", one[what], other[what])
    return wrong


if __name__ == "__main__":
    main("edges.json", make, 1e-6, laws)
