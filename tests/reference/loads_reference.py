"""Reference for loads: every body of a corner cut free, its six equations of balance, all unknown joint forces solved at once.

Nothing here knows a Jacobian row or virtual work of the carrier. Bodies: the carrier, each wishbone, each arm, the track rod. What no
statics of rigid bodies can tell, how two body joints of a wishbone share a force along their line, is left out of the file: there
stand the sum along the line and each joint's force across it. An arm's bush lets it swing but not spin against the smallest rotation
from rest: its couple does no work on any swing, which closes the arm's equations.
"""
import numpy as np
from scipy.spatial.transform import Rotation

from axles import axles, main, unit
from scipy_reference import ANGLE, Solver, derivative

STATES = ((0, 0), (30, 15), (-40, -20))
CASES = (  # road force along (e_x', e_y', e_z), force at the wheel centre and couple along the car's axes
    ((-3000, 800, 4200), (0, 0, 0), (0, 0, 0)),
    ((0, 0, 4000), (2500, 0, 0), (0, 0, 0)),
    ((0, -3500, 5000), (0, 0, 0), (1e5, -2e5, 5e4)),
)


class Balance:
    """Linear equations for named unknown vectors, three columns each."""

    def __init__(self):
        self.names, self.rows, self.right = [], [], []

    def unknown(self, name):
        if name not in self.names:
            self.names.append(name)
        return 3 * self.names.index(name)

    def equation(self, terms, right):
        """Sum of row·unknown = right; terms are (name, 3-vector)."""
        self.rows.append([(self.unknown(name), np.asarray(row, float)) for name, row in terms])
        self.right.append(right)

    def body(self, at, forces, couples=(), force=np.zeros(3), moment=np.zeros(3)):
        """A body in balance: unknown forces (name, sign, place), unknown couples (name, sign), a known force at `at` and a moment."""
        for axis in np.eye(3):
            self.equation([(name, sign * axis) for name, sign, _ in forces], -force @ axis)
            arms = [(name, sign * np.cross(axis, place - at)) for name, sign, place in forces]
            self.equation(arms + [(name, sign * axis) for name, sign in couples], -moment @ axis)

    def across(self, name, line):
        """The unknown has no part across a line: a two-force member, a frictionless pin."""
        for row in np.linalg.svd(unit(line)[None])[2][1:]:
            self.equation([(name, row)], 0.0)

    def along(self, name, line):
        self.equation([(name, unit(line))], 0.0)

    def solve(self):
        matrix = np.zeros((len(self.rows), 3 * len(self.names)))
        for row, terms in zip(matrix, self.rows):
            for column, values in terms:
                row[column:column + 3] += values
        right = np.array(self.right)
        # Forces in kN and lengths in m would do as well; scaling each row makes the rank plain.
        size = np.linalg.norm(matrix, axis=1)
        x, _, rank, _ = np.linalg.lstsq(matrix / size[:, None], right / size, rcond=1e-12)
        assert np.abs(matrix @ x - right).max() < 1e-6, "not in balance"
        return {name: x[3 * i:3 * i + 3] for i, name in enumerate(self.names)}


def swing_directions(inner, outer, now):
    """Angular velocities of an arm for its two swings: of the smallest rotation from its direction at rest, differentiated."""
    d0 = unit(outer - inner)

    def turn(direction):
        d = unit(direction)
        axis = np.cross(d0, d)
        angle = np.arctan2(np.linalg.norm(axis), d0 @ d)
        return Rotation.from_rotvec(axis / max(np.linalg.norm(axis), 1e-300) * angle).as_matrix()

    out, here = [], turn(now - inner)
    for way in np.linalg.svd(unit(now - inner)[None])[2][1:]:
        rate, _ = derivative(lambda h: (turn(now - inner + h * way) @ here.T).ravel(), 0.5)
        rate = rate.reshape(3, 3)
        out.append(np.array([rate[2, 1] - rate[1, 2], rate[0, 2] - rate[2, 0], rate[1, 0] - rate[0, 1]]) / 2)
    return out


def corner(solver, x, case):
    axle, wheel = solver.axle, solver.wheel(x)
    w, rotation = x[:3], Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
    at = lambda p: w + rotation @ (p - axle.centre)
    rack = np.array([0, x[6], 0])
    top, foot = axle.spring[0], spring_foot(solver, x)
    road, hub, couple = (np.array(part, float) for part in case)
    balance, carrier = Balance(), []
    on = axle.spring_on
    balance.across("spring", foot - top)  # force on whatever carries the foot
    for place in ("lower", "upper"):
        kind = axle.layout[place]["kind"]
        if kind == "wishbone":
            a, b = axle.rods[f"{place}_front"][0], axle.rods[f"{place}_rear"][0]
            ball = at(axle.rods[f"{place}_front"][1])
            carrier.append((place, 1, ball))
            forces = [(place, -1, ball), (f"{place}_front_inner", -1, a), (f"{place}_rear_inner", -1, b)]
            balance.body(a, forces + ([("spring", 1, foot)] if on == place else []))
        elif kind == "arms":
            for side in ("front", "rear"):
                name = f"{place}_{side}"
                inner, outer = axle.rods[name]
                carrier.append((name, 1, at(outer)))
                forces = [(name, -1, at(outer)), (f"{name}_inner", -1, inner)]
                if on == f"{place}.{side}":
                    balance.body(inner, forces + [("spring", 1, foot)], [("bush", -1)])
                    for way in swing_directions(inner, outer, at(outer)):
                        balance.equation([("bush", way)], 0.0)
                else:
                    balance.body(inner, forces)
        else:
            strut_top, strut_foot = axle.strut
            carrier.append(("strut_top", 1, strut_top))
            balance.along("strut_top", at(strut_foot) - strut_top)
    inner, outer = axle.rods["track_rod"]
    carrier.append(("track_rod", 1, at(outer)))
    balance.body(inner + rack, [("track_rod", -1, at(outer)), ("track_rod_inner", -1, inner + rack)])
    if on in ("strut", "carrier"):
        carrier.append(("spring", 1, foot))
    force = wheel.road.T @ road
    moment = np.cross(wheel.contact - w, force) + couple
    balance.body(w, carrier, (), force + hub, moment)
    found = balance.solve()
    out = {"carrier": {name: found[name] for name, _, _ in carrier if name != "spring"}, "track_rod_inner": found["track_rod_inner"],
           "spring_n": float(unit(foot - top) @ found["spring"])}
    if "bush" in found:
        out["bush"] = found["bush"]
    for place in ("lower", "upper"):
        if axle.layout[place]["kind"] == "wishbone":
            line = unit(axle.rods[f"{place}_rear"][0] - axle.rods[f"{place}_front"][0])
            pair = [found[f"{place}_{side}_inner"] for side in ("front", "rear")]
            out[f"{place}_inner"] = {"across": [p - line * (line @ p) for p in pair], "along": float(line @ (pair[0] + pair[1]))}
        elif axle.layout[place]["kind"] == "arms":
            out[f"{place}_inner"] = {side: found[f"{place}_{side}_inner"] for side in ("front", "rear")}
    return out


def spring_foot(solver, x):
    """Where the foot is: the solver knows the spring's length only, so the place is found as it finds it."""
    axle, (top, foot) = solver.axle, solver.axle.spring
    rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
    at = lambda p: x[:3] + rotation @ (p - axle.centre)
    if axle.spring_on in ("strut", "carrier"):
        return at(foot)
    place, _, side = axle.spring_on.partition(".")
    inner, outer = axle.rods[f"{place}_{side or 'front'}"]
    if side:
        d0, d = unit(outer - inner), unit(at(outer) - inner)
        m = unit(d0 + d)
        half = 2 * d0 * (d0 @ (foot - inner)) - (foot - inner)
        moved = inner + 2 * m * (m @ half) - half
    else:
        axis = unit(axle.rods[f"{place}_rear"][0] - inner)
        a, b = np.cross(axis, outer - inner), np.cross(axis, at(outer) - inner)
        moved = inner + Rotation.from_rotvec(np.arctan2(axis @ np.cross(a, b), a @ b) * axis).apply(foot - inner)
    assert abs(np.linalg.norm(moved - top) - solver.spring_length(x)) < 1e-9
    return moved


def half_shaft(solver, x, shaft, torque):
    """Joint angles, plunge, and the couple on the carrier: the moment across a constant-velocity joint is square to the plane that
    mirrors the shaft into the wheel's axis, found here as the plane's normal and not from the half angle."""
    axle, wheel = solver.axle, solver.wheel(x)
    rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
    outer = x[:3] + rotation @ (shaft["outer"] - axle.centre)
    s = unit(outer - shaft["inner"])
    # The plane through the joint that mirrors direction -s into n has the normal along s + n; it passes moments along that only.
    normal = unit(s + wheel.n)
    size = torque / (normal @ wheel.n)
    angle = lambda a, b: float(np.degrees(np.arctan2(np.linalg.norm(np.cross(a, b)), a @ b)))
    return {"inner_angle_deg": angle(s, np.array([0, 1.0, 0])), "outer_angle_deg": angle(s, wheel.n),
            "plunge_mm": float(np.linalg.norm(outer - shaft["inner"]) - np.linalg.norm(shaft["outer"] - shaft["inner"])),
            "couple": size * normal - torque * wheel.n}


def make():
    shaft = {"inner": np.array([-20.0, 200, 330]), "outer": np.array([0.0, 700, 305])}
    made = {"shaft": shaft, "torque": 500_000.0, "axles": {}}
    for name, axle in axles().items():
        solver, states = Solver(axle), []
        for travel, rack in STATES:
            rack = rack if axle.steered else 0
            x = solver.state(travel=travel, rack=rack)
            states.append({"travel_mm": travel, "rack_mm": rack, "half_shaft": half_shaft(solver, x, shaft, made["torque"]),
                           "cases": [{"road": case[0], "hub": case[1], "couple": case[2]} | corner(solver, x, case) for case in CASES]})
        made["axles"][name] = {"layout": axle.layout, "states": states}
    return made


if __name__ == "__main__":
    # Forces of 1e4 N from poses good to 1e-12 mm on arms of 1e2 mm.
    main("loads.json", make, 1e-8)
