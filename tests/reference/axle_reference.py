"""Reference for the whole axle: both wheels found together by a general root finder, rates by differences of solved states.

The right wheel is the mirror image of a left one with the rack the other way. Everything in the body's axes; the road is a plane with
normal N = Rx(-roll) e_z, which both wheels touch with the lowest point of their circle.
"""
import numpy as np
from scipy.optimize import newton, root
from scipy.spatial.transform import Rotation

from axles import EZ, axles, main, unit
from loads_reference import spring_foot
from scipy_reference import ANGLE, Solver, derivative

NAMES = ("strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered")
ROLLS, POSITIONS = (-4, -2, 1, 3), ((0, 0), (20, 0), (0, 20))
MIRROR = np.diag([1.0, -1, 1])
WHEELBASE = 2650
BARS = {  # pivot, lever end, lower end of the drop link, what that rides on
    "strut": ([-220, 0, 240], [0, 600, 235], [5, 625, 330], "carrier"),
    "double-wishbone": ([-220, 0, 320], [-10, 540, 315], [0, 560, 190], "lower"),
    "four-arm": ([-220, 0, 320], [0, 585, 315], [14, 600, 185], "lower.front"),
}


class Side:
    """One wheel in the car's axes, from a left wheel's pose."""

    def __init__(self, solver, x, image, normal):
        self.image, self.normal = image, normal
        wheel = solver.wheel(x)
        n, seen = wheel.n, image @ normal
        # The lowest point of the circle against the road, by turning the wheel plane's own directions to it.
        a, b = np.linalg.svd(n[None])[2][1:]
        angle = np.arctan2(b @ seen, a @ seen)
        self.local = -solver.axle.loaded_radius * (np.cos(angle) * a + np.sin(angle) * b)
        self.contact = image @ (x[:3] + self.local)
        self.centre, self.spin = image @ x[:3], image @ n
        self.steer = wheel.steer * (1 if image[1, 1] > 0 else -1)
        self.camber_body, self.camber_road = wheel.camber, 90 - float(np.degrees(np.arccos(-n @ seen)))
        self.solver, self.x = solver, x

    def velocity(self):
        """Of the carrier's point at the contact, per mm of this wheel's travel."""
        solver, x = self.solver, self.x
        turn = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        fixed = turn.T @ self.local

        def at(step):
            y = solver.solve(x, travel=x[2] - solver.axle.centre[2] + step, rack=x[6])
            return y[:3] + Rotation.from_rotvec(y[3:6] / ANGLE).as_matrix() @ fixed
        return self.image @ derivative(at, 0.5)[0]


def both(solver, left, right, rack, normal):
    return [Side(solver, solver.state(travel=left, rack=rack), np.eye(3), normal),
            Side(solver, solver.state(travel=right, rack=-rack), MIRROR, normal)]


def rolled(solver, roll, travel, rack):
    normal = Rotation.from_euler("x", -roll, degrees=True).apply(EZ)

    def gap(u):
        left, right = both(solver, u[0], u[1], rack, normal)
        return [(left.contact - right.contact) @ normal, (u[0] + u[1]) / 2 - travel]
    slope = np.tan(np.radians(roll)) * solver.axle.centre[1]
    u = root(gap, [travel - slope, travel + slope], tol=1e-13).x
    assert np.abs(gap(u)).max() < 1e-8
    left, right = both(solver, *u, rack, normal)
    ahead = unit(np.array([0, normal[2], -normal[1]]))  # along the road, to the left
    # Roll centre: where the lines square to both velocities meet, by least squares of their two equations.
    rows = np.array([side.velocity()[1:] for side in (left, right)])
    places = np.array([side.contact[1:] for side in (left, right)])
    meet = np.linalg.solve(rows, (rows * places).sum(axis=1))
    middle = (left.contact + right.contact)[1:] / 2
    return {"roll_deg": roll, "travel_mm": travel, "rack_mm": rack, "travels_mm": u, "steer_deg": [left.steer, right.steer],
            "camber_road_deg": [left.camber_road, right.camber_road], "camber_body_deg": [left.camber_body, right.camber_body],
            "track_mm": float((left.contact - right.contact) @ ahead), "roll_centre_height_mm": float((meet - left.contact[1:]) @ normal[1:]),
            "roll_centre_sideways_mm": float((meet - middle) @ ahead[1:])}


def turning(solver, rack):
    ahead, now = both(solver, 0, 0, 0, EZ), both(solver, 0, 0, rack, EZ)
    angles = [b.steer - a.steer for a, b in zip(ahead, now)]
    inner, outer = (angles if sum(angles) > 0 else [-angles[1], -angles[0]])
    cross = [float(side.centre[1] + (-WHEELBASE - side.centre[0]) * side.spin[1] / side.spin[0]) for side in now]
    return {"rack_mm": rack, "inner_deg": inner, "outer_deg": outer, "on_rear_line_mm": cross}


def wheel_rate(solver, rate, travel):
    """Force at the wheel by virtual work, preloaded to 4000 N at rest."""
    length = lambda t: solver.spring_length(solver.state(travel=t, rack=0))
    ratio = lambda t: float(-derivative(lambda h: np.array([length(t + h)]), 0.5)[0][0])
    free = length(0) + 4000 / ratio(0) / rate
    force = lambda t: rate * (free - length(t)) * ratio(t)
    return float(derivative(lambda h: np.array([force(travel + h)]), 2.0)[0][0])


def bar(name, travel):
    """Turn of the half bar: the drop link's lower end is found as a spring's foot is, the lever's by a root in its one angle."""
    pivot, lever, link, on = BARS[name]
    axle = axles()[name]
    axle.spring, axle.spring_on = np.array([axle.spring[0], link], float), on
    solver, arm, length = Solver(axle), np.subtract(lever, pivot), np.linalg.norm(np.subtract(link, lever))

    def turn(t):
        b = spring_foot(solver, solver.state(travel=t, rack=0))
        end = lambda angle: pivot + Rotation.from_rotvec([0, -angle, 0]).apply(arm)
        return newton(lambda angle: np.linalg.norm(b - end(angle)) - length, 0.0, x1=0.01, tol=1e-13)
    return {"travel_mm": travel, "turn_deg": float(np.degrees(turn(travel))),
            "per_travel_rad": float(derivative(lambda h: np.array([turn(travel + h)]), 0.5)[0][0])}


def make():
    made = {}
    for name in NAMES:
        axle = axles()[name]
        solver = Solver(axle)
        positions = POSITIONS if axle.steered else POSITIONS[:2]
        rate = axle.layout["spring"]["rate"]
        out = {"layout": axle.layout, "rolled": [rolled(solver, roll, *at) for roll in ROLLS for at in positions],
               "turning": [turning(solver, rack) for rack in (-60, -20, 40)] if axle.steered else [],
               "wheel_rate": [{"travel_mm": t, "n_per_mm": wheel_rate(solver, rate, t)} for t in (-40, 0, 40)]}
        if name in BARS:
            pivot, lever, link, on = BARS[name]
            out["bar"] = {"pivot": pivot, "lever": lever, "link": link, "on": on, "states": [bar(name, t) for t in (-40, 0, 40)]}
        made[name] = out
    return made


if __name__ == "__main__":
    # Roots to 1e-8 mm; second derivatives from differences of differences to about 1e-7.
    main("axle.json", make, 1e-5)
