"""Reference for the whole axle: both wheels by a general root finder, every rate by re-solving.

The right wheel is the mirror image (y -> -y) of a left one whose rack moves the other way. All places are in the BODY's axes;
the road is a plane that moves: a body rolled by phi about +x (it leans to the right) sees the road's normal at (0, sin phi, cos phi).
Pairs in the JSON are [left, right]; steer angles are positive to the left on both wheels. Nothing here knows a Jacobian row.
"""
from copy import copy
from pathlib import Path

import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from axles import COLUMNS, EZ, Axle, axles, main, unit
from scipy_reference import ANGLE, Solver, derivative, rates, table_row, textbook_double_wishbone, twist

DEMOS = ("strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered")
ROLLS, POSITIONS = (-4, -2, 0, 1, 3), ((0, 0), (20, 0), (0, 20))  # degrees; mean travel and rack, mm
RACKS, TRAVELS = range(-60, 61, 20), (-40, 0, 40)
REAR_LINE, WHEELBASE = -2650.0, 2650.0
MIRROR = np.diag([1.0, -1, 1])
PARALLEL = 1e-3  # rad: two lines that cross at less have no place to cross at
BARS = {  # axis through (x, 0, z) along y, lever end, far end of the drop link, the part that end rides on
    "strut": ([-180, 0, 260], [20, 480, 250], [20, 640, 330], "carrier"),
    "double-wishbone": ([-200, 0, 200], [-20, 480, 210], [0, 560, 190], "lower"),
    "four-arm": ([-200, 0, 200], [-20, 480, 210], [14, 600, 185], "lower.front"),
}
ROCKER = {"foot": [0, 640, 165], "on": "lower", "rod": [0, 480, 560], "pivot": [0, 430, 520], "axis": [1, 0, 0],
          "spring": [0, 400, 575], "top": [0, 230, 560]}


class Side:
    """One wheel in the body's axes, its contact point the lowest against a road with the given normal."""

    def __init__(self, solver, x, image, normal):
        self.solver, self.x, self.image = solver, x, image
        wheel, axle, seen = solver.wheel(x), solver.axle, image @ normal  # the road as the unmirrored wheel sees it
        down = -unit(seen - (seen @ wheel.n) * wheel.n)
        turn = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        self.on_carrier = turn.T @ (axle.loaded_radius * down)
        self.centre, self.spin = image @ wheel.centre, image @ wheel.n
        self.contact = image @ (wheel.centre + axle.loaded_radius * down)
        self.toe, self.steer = -wheel.steer, wheel.steer * image[1, 1]
        self.camber_body, self.camber_road = wheel.camber, -float(np.degrees(np.arcsin(wheel.n @ seen)))

    def velocity(self):
        """Of the carrier's point at the contact, per mm of this wheel's own travel, rack held; and the last Romberg change."""
        travel, rack = self.x[2] - self.solver.axle.centre[2], self.x[6]

        def at(step):
            y = self.solver.solve(self.x, travel=travel + step, rack=rack)
            return self.image @ (y[:3] + Rotation.from_rotvec(y[3:6] / ANGLE).apply(self.on_carrier))
        return derivative(at, 0.5)


def both(solver, left, right, rack, normal=EZ):
    return (Side(solver, solver.state(travel=left, rack=rack), np.eye(3), normal),
            Side(solver, solver.state(travel=right, rack=-rack), MIRROR, normal))


def roll_centre(left, right, normal):
    """Front view: the normals to both contact points' paths meet in (sideways from the middle, height over the road)."""
    along, up = np.array([normal[2], -normal[1]]), normal[1:]  # (y, z): to the left along the road, and off it
    paths = [side.velocity() for side in (left, right)]
    places, middle = [side.contact[1:] for side in (left, right)], (left.contact + right.contact)[1:] / 2

    def meet(rows):
        if abs(np.linalg.det([unit(row) for row in rows])) < PARALLEL:
            return [None, None]
        point = np.linalg.solve(rows, [v @ p for v, p in zip(rows, places)])
        return [float((point - middle) @ along), float((point - middle) @ up)]
    best, before = (meet(np.array([path[i][1:] for path in paths])) for i in (0, 1))
    return best, max(abs(a - b) for a, b in zip(best, before)) if None not in best + before else 0.0


def rolled(solver, roll, travel, rack):
    """The state of both wheels on a road at `roll`, their mean travel given; None where it can't be assembled."""
    phi = np.radians(roll)
    normal = np.array([0, np.sin(phi), np.cos(phi)])

    def gaps(t):
        left, right = both(solver, *t, rack, normal)
        return [(left.contact - right.contact) @ normal, (t[0] + t[1]) / 2 - travel]
    lean = solver.axle.centre[1] * np.tan(phi)
    start = np.array([travel - lean, travel + lean])
    try:  # counted from start - 100, for the difference steps are relative to each unknown
        t = root(lambda u: gaps(start + u - 100), [100.0, 100.0], tol=1e-13).x + start - 100
        left, right = both(solver, *t, rack, normal)
        assert np.abs(gaps(t)).max() < 1e-10, gaps(t)
        (sideways, height), doubt = roll_centre(left, right, normal)
    except ArithmeticError:
        return None
    pair = lambda name: [float(getattr(side, name)) for side in (left, right)]
    return {"roll_deg": roll, "travel_mm": travel, "rack_mm": rack, "travels_mm": t, "steer_deg": pair("steer"), "toe_deg": pair("toe"),
            "toe_total_deg": sum(pair("toe")), "axle_steer_deg": sum(pair("steer")) / 2, "camber_road_deg": pair("camber_road"),
            "camber_body_deg": pair("camber_body"), "contacts_mm": [left.contact, right.contact],
            "track_mm": float((left.contact - right.contact)[1:] @ [normal[2], -normal[1]]),
            "roll_centre_height_mm": height, "roll_centre_sideways_mm": sideways, "roll_centre_doubt_mm": doubt}


def share(inner, outer, track):
    """What an axle has of the ideal difference of both angles (their sizes); negative if the outer wheel turns further."""
    ideal = np.degrees(np.arctan2(1, 1 / np.tan(np.radians(inner)) + track / WHEELBASE))
    return float((inner - outer) / (inner - ideal))


def turning(solver, rack):
    """Two readings of "inner": by place (the side the car turns to), and by size (the larger angle), which can't be negative."""
    rest, now = both(solver, 0, 0, 0), both(solver, 0, 0, rack)
    track = float(rest[0].contact[1] - rest[1].contact[1])
    angles = np.array([side.steer for side in now])
    changes = angles - [side.steer for side in rest]
    out = {"rack_mm": rack, "steer_deg": angles, "change_deg": changes, "track_mm": track}
    if rack == 0:
        return out
    inside = 0 if sum(changes) > 0 else 1
    inner, outer = abs(changes)[[inside, 1 - inside]]
    on_line = [float(side.centre[1] + (REAR_LINE - side.centre[0]) * side.spin[1] / side.spin[0]) if abs(side.steer) >= 0.5 else None
               for side in now]
    contact, far = now[1 - inside].contact, on_line[1 - inside]
    return out | {"inside": ("left", "right")[inside], "inner_deg": float(inner), "outer_deg": float(outer),
                  "ackermann_share": share(inner, outer, track), "ackermann_share_by_size": share(max(inner, outer), min(inner, outer), track),
                  "ackermann_share_by_size_toe_included": share(max(abs(angles)), min(abs(angles)), track), "on_rear_line_mm": on_line,
                  "outer_radius_mm": None if far is None else float(np.hypot(contact[0] - REAR_LINE, contact[1] - far))}


def swing_centres(solver):
    """Instantaneous centres of the bump motion at rest in front view [y, z] and side view [x, z]."""
    rest = solver.rest
    centre, contact = solver.axle.centre, solver.wheel(rest).contact
    (v, w), (v_before, w_before) = (twist(rate) for rate in rates(solver, rest, 0.5, travel=0, rack=0))

    def at(v, w):
        front = np.array([centre[1] - v[2] / w[0], centre[2] + v[1] / w[0]])
        side = np.array([centre[0] + v[2] / w[1], centre[2] - v[0] / w[1]])
        return front, side
    front, side = at(v, w)
    doubt = max(np.abs(a - b).max() for a, b in zip((front, side), at(v_before, w_before)))
    return {"front_mm": front, "front_swing_arm_mm": float(abs(contact[1] - front[0])), "side_mm": side,
            "side_swing_arm_mm": float(abs(contact[0] - side[0])), "doubt_mm": float(doubt)}


def wheel_rates(solver, rate):
    """d(wheel force)/d(travel), the force by virtual work and 4000 N at rest; and the spring's free length that makes it so."""
    length = lambda t: solver.spring_length(solver.state(travel=t, rack=0))
    ratio = lambda t: -derivative(lambda h: length(t + h), 1.0)[0]
    free = length(0) + 4000 / ratio(0) / rate
    force = lambda t: rate * (free - length(t)) * ratio(t)
    return free, [{"travel_mm": t, "force_n": float(force(t)), "n_per_mm": float(k), "doubt_n_per_mm": float(abs(k - before))}
                  for t in TRAVELS for k, before in [derivative(lambda h: force(t + h), 2.0)]]


class Rider:
    """A rod from a turning lever to a point that rides on a part as a spring's foot does: the lever's angle keeps the rod's length."""

    def __init__(self, axle, foot, on, pivot, axis, joint):
        self.pivot, self.axis, self.arm = np.array(pivot, float), np.array(axis, float), np.subtract(joint, pivot)
        axle = copy(axle)
        axle.spring, axle.spring_on = np.array([joint, foot], float), on  # spring_length is then the rod's length
        self.solver, self.length, self.found = Solver(axle), np.linalg.norm(np.subtract(foot, joint)), {0.0: 0.0}

    def turned(self, angle, arm):
        return self.pivot + Rotation.from_rotvec(angle * self.axis).apply(arm)

    def angle(self, travel):
        """In steps of at most 1 mm from the nearest travel that is known: the branch that goes on from rest."""
        known = min(self.found, key=lambda t: abs(t - travel))
        turn = self.found[known]
        for t in np.linspace(known, travel, int(np.ceil(abs(travel - known))) + 1)[1:]:
            x = self.solver.state(travel=t, rack=0)

            def too_long(u):
                self.solver.axle.spring[0] = self.turned(turn + u[0] - 1, self.arm)
                return self.solver.spring_length(x) - self.length
            u = root(too_long, [1.0], tol=1e-14).x
            if not (abs(too_long(u)) < 1e-10 and abs(u[0] - 1) < 0.1):
                raise ArithmeticError(f"the rod doesn't reach at {t}")
            turn += u[0] - 1
            self.found[t] = turn
        return turn


def bar(axle, name):
    pivot, lever, link, on = BARS[name]
    rider = Rider(axle, link, on, pivot, [0, -1, 0], lever)  # about -y: the lever, which points ahead, rises
    states = []
    for t in TRAVELS:
        per_mm, before = derivative(lambda h: rider.angle(t + h), 0.5)
        states.append({"travel_mm": t, "turn_deg": float(np.degrees(rider.angle(t))), "per_travel_rad": float(per_mm),
                       "per_travel_deg": float(np.degrees(per_mm)), "doubt_rad": float(abs(per_mm - before))})
    return {"pivot": pivot, "lever": lever, "link": link, "on": on, "states": states}


def rocker(axle):
    rider = Rider(axle, ROCKER["foot"], ROCKER["on"], ROCKER["pivot"], ROCKER["axis"], ROCKER["rod"])
    spring = np.subtract(ROCKER["spring"], ROCKER["pivot"])
    length = lambda t: np.linalg.norm(rider.turned(rider.angle(t), spring) - ROCKER["top"])
    return ROCKER | {"states": [{"travel_mm": t, "turn_deg": float(np.degrees(rider.angle(t))), "spring_length_mm": float(length(t)),
                                 "motion_ratio": float(-slope), "doubt": float(abs(slope - before))}
                                for t in TRAVELS for slope, before in [derivative(lambda h: length(t + h), 0.5)]]}


def lifted(solver, rack):
    """Rise of both contact points, body level, when only the rack moves and each spring keeps its length."""
    spring, ground = solver.spring_length(solver.rest), solver.wheel(solver.rest).contact[2]
    states = [solver.state(spring=spring, rack=sign * rack) for sign in (1, -1)]
    return {"rack_mm": rack, "contact_rise_mm": [float(solver.wheel(x).contact[2] - ground) for x in states],
            "travels_mm": [float(x[2] - solver.axle.centre[2]) for x in states]}


def reference(axle, name):
    solver, steered = Solver(axle), axle.steered
    states = [rolled(solver, roll, *at) for roll in ROLLS for at in POSITIONS if steered or at[1] == 0]
    free, rates_at = wheel_rates(solver, axle.layout["spring"]["rate"])
    out = {"layout": axle.layout, "rolled": [s for s in states if s], "turning": [turning(solver, r) for r in RACKS] if steered else [],
           "swing_centres": swing_centres(solver), "spring_free_length_mm": float(free), "wheel_rate": rates_at,
           "lift": lifted(solver, 40) if steered else None}
    if name in BARS:
        out["bar"] = bar(axle, name)
    if name == "double-wishbone":
        out["rocker"] = rocker(axle)
    return out


def make():
    every = axles()
    seven = {name: every[name] for name in DEMOS} | {"textbook-double-wishbone": Axle(textbook_double_wishbone()["layout"])}
    return {name: reference(axle, name) for name, axle in seven.items()}


def laws(made):
    """What must hold whatever the numbers are."""
    wrong = []
    for name, axle in made.items():
        solver = Solver(Axle(axle["layout"]))
        table = dict(zip(COLUMNS, table_row(solver, solver.rest)))["roll_centre_height_mm"]
        at = next(s for s in axle["rolled"] if (s["roll_deg"], s["travel_mm"], s["rack_mm"]) == (0, 0, 0))
        if not (abs(at["roll_centre_height_mm"] - table) < 1e-7 and abs(at["roll_centre_sideways_mm"]) < 1e-7):
            wrong.append(f"{name}: roll centre {at} against the table's {table}")
        rack = 20 if solver.axle.steered else 0
        one, other = rolled(solver, 3, 0, rack), rolled(solver, -3, 0, -rack)
        if np.abs(np.subtract(one["travels_mm"], other["travels_mm"][::-1])).max() > 1e-9:
            wrong.append(f"{name}: not its own mirror image")
        # The wheel rate again, as the second difference of the spring's energy (coarse: it divides rounding by the step squared).
        rate, free = axle["layout"]["spring"]["rate"], axle["spring_free_length_mm"]
        energy = lambda t: rate / 2 * (free - solver.spring_length(solver.state(travel=t, rack=0))) ** 2
        for s in axle["wheel_rate"]:
            second = lambda h: (energy(s["travel_mm"] + h) - 2 * energy(s["travel_mm"]) + energy(s["travel_mm"] - h)) / h**2
            if abs((4 * second(1) - second(2)) / 3 - s["n_per_mm"]) > 1e-4:
                wrong.append(f"{name}: wheel rate {s} against {second(1)}")
    arm = lambda z: {"kind": "wishbone", "front": [100, 350, z], "rear": [-100, 350, z], "outer": [0, 700, z]}
    layout = made["double-wishbone"]["layout"] | {"lower": arm(200), "upper": arm(420),
                                                  "track_rod": {"inner": [-120, 350, 300], "outer": [-120, 700, 300]}}
    parallel = Solver(Axle(layout))
    for travel in (-50, -20, 35, 60):
        if abs(parallel.wheel(parallel.state(travel=travel, rack=0)).camber - layout["wheel"]["camber"]) > 1e-9:
            wrong.append(f"equal parallel arms: camber changes at travel {travel}")
    return wrong


if __name__ == "__main__":
    # Poses to 1e-11 mm; a roll centre far out and a rate of a rate are the coarsest, by their own `doubt` columns.
    main(Path(__file__).resolve().with_name("axle.json"), make, 1e-7, laws)
