"""Reference by a general root finder: poses from length equations, every rate by re-solving.

Nothing here knows a Jacobian row. A velocity is a central difference of solved poses (steps h, 2h, 4h, 8h,
Romberg extrapolated), a member force the virtual work of the road force when that member is lengthened.
"""
import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from axles import (COLUMNS, EY, EZ, ROAD_FORCES, STEERING_COLUMNS, Axle, Wheel, axles, bump_readings, force_states, grid, main,
                   steering_readings, unit)

ANGLE = 100  # mm: makes a rotation vector as large a number as a length
# Worst difference of the last two Romberg orders, so an upper bound; at least the 12 digits of a coordinate.
accuracy = dict.fromkeys(COLUMNS + ["force_n"], 1e-9)


class Solver:
    """Unknowns: wheel centre, rotation vector from rest, rack. Two of the seven equations say what is held."""

    def __init__(self, axle):
        self.axle = axle
        self.inner, self.outer = np.array(list(axle.rods.values())).transpose(1, 0, 2)
        self.length = np.linalg.norm(self.outer - self.inner, axis=1)
        self.arms = self.outer - axle.centre
        if axle.strut is not None:
            self.top, self.foot = axle.strut[0], axle.strut[1] - axle.centre
            self.across = np.linalg.svd((self.top - axle.strut[1])[None])[2][1:]  # two directions, fixed in the carrier
        self.guides = [*axle.rods] + ["strut_1", "strut_2"] * (axle.strut is not None)
        self.rest = np.append(axle.centre, np.zeros(4))

    def spring_length(self, x):
        axle, (top, foot), rotation = self.axle, self.axle.spring, Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        if axle.spring_on in ("strut", "carrier"):
            return np.linalg.norm(x[:3] + rotation @ (foot - axle.centre) - top)
        place, _, side = axle.spring_on.partition(".")
        inner, outer = axle.rods[f"{place}_{side or 'front'}"]
        now = x[:3] + rotation @ (outer - axle.centre)
        if side:  # an arm: two half turns compose the smallest rotation from d0 to d
            d0, d = unit(outer - inner), unit(now - inner)
            m = unit(d0 + d)
            half_turned = 2 * d0 * (d0 @ (foot - inner)) - (foot - inner)
            moved = inner + 2 * m * (m @ half_turned) - half_turned
        else:
            axis = unit(axle.rods[f"{place}_rear"][0] - inner)
            a, b = np.cross(axis, outer - inner), np.cross(axis, now - inner)
            angle = np.arctan2(axis @ np.cross(a, b), a @ b)
            moved = inner + Rotation.from_rotvec(angle * axis).apply(foot - inner)
        return np.linalg.norm(moved - top)

    def held(self, x):
        """The quantities a state can be given by."""
        return {"travel": lambda: x[2] - self.axle.centre[2], "rack": lambda: x[6],
                "spring": lambda: self.spring_length(x), "steer": lambda: self.wheel(x).steer}

    def wheel(self, x):
        return Wheel(self.axle, x[:3], Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix())

    def solve(self, start, changes=0, **hold):
        """Pose with every held quantity at its value and every guide longer by `changes`."""
        def equations(x):
            rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
            joints = x[:3] + self.arms @ rotation.T
            joints[-1, 1] -= x[6]  # the track rod's inner end moves with the rack
            guides = np.linalg.norm(joints - self.inner, axis=1) - self.length
            if self.axle.strut is not None:
                guides = np.append(guides, self.across @ (rotation.T @ (self.top - x[:3]) - self.foot))
            held = self.held(x)
            return np.append(guides - changes, [held[name]() - value for name, value in hold.items()])

        # root's difference steps are relative to each unknown, so none may start near zero: count from start - 100
        x = root(lambda u: equations(start + (u - 100)), np.full(7, 100.0), tol=1e-14).x - 100 + start
        error = np.abs(equations(x)).max()
        if not error < 1e-11:
            raise ArithmeticError(f"can't be assembled: {hold}, off by {error:.1e}")
        return x

    def state(self, **hold):
        """From rest to the state in small steps, so as to stay on the branch that holds the rest position."""
        rest = {name: f() for name, f in self.held(self.rest).items()}
        x = self.rest
        for s in np.linspace(0, 1, 4)[1:]:
            x = self.solve(x, **{name: rest[name] + s * (value - rest[name]) for name, value in hold.items()})
        return x


def derivative(f, h):
    """Central differences at h, 2h, 4h, 8h, extrapolated; and the change the last extrapolation made."""
    d = [(f(k * h) - f(-k * h)) / (2 * k * h) for k in (1, 2, 4, 8)]
    for order in (1, 2, 3):
        before, d = d[0], [d[i] + (d[i] - d[i + 1]) / (4**order - 1) for i in range(len(d) - 1)]
    return d[0], before


def rates(solver, x, h, **motion):
    """Velocities while one held quantity moves: wheel centre, contact point (as a point of the carrier), rotation, readings."""
    (moving, value), *fixed = motion.items()
    rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
    contact = rotation.T @ (solver.wheel(x).contact - x[:3])

    def look(step):
        y = solver.solve(x, **{moving: value + step}, **dict(fixed))
        now, wheel = Rotation.from_rotvec(y[3:6] / ANGLE).as_matrix(), solver.wheel(y)
        return np.concatenate([y[:3], y[:3] + now @ contact, (now @ rotation.T).ravel(),
                               [-wheel.steer, wheel.camber, solver.spring_length(y)]])
    return derivative(look, h)


def twist(rate):
    turn = rate[6:15].reshape(3, 3)
    return rate[:3], np.array([turn[2, 1] - turn[1, 2], turn[0, 2] - turn[2, 0], turn[1, 0] - turn[0, 1]]) / 2


def table_row(solver, x):
    axle, wheel, spring = solver.axle, solver.wheel(x), solver.spring_length(x)
    rest = solver.wheel(solver.rest)
    moved = wheel.contact - rest.contact
    bump = rates(solver, x, 0.5, travel=x[2] - axle.centre[2], rack=x[6])
    steering = rates(solver, x, 0.5, rack=x[6], spring=spring) if axle.steered else (None, None)
    rows = [[x[2] - axle.centre[2], x[6], wheel.camber, wheel.steer, -wheel.steer, moved[1], moved[0],
             *(steering_readings(wheel, *twist(s)) if axle.steered else [None] * len(STEERING_COLUMNS)),
             spring, -b[17], b[15], b[16], *bump_readings(wheel, b[:3], b[3:6])] for b, s in zip(bump, steering)]
    for column, best, before in zip(COLUMNS, *rows):
        if best is not None:
            accuracy[column] = max(accuracy[column], abs(best - before))
    return rows[0]


def member_forces(solver, x, forces, hold="spring"):
    """Member forces for road forces: a member in tension T works -T per mm it is lengthened, a compressed spring +T."""
    wheel, value = solver.wheel(x), solver.held(x)[hold]()
    contact = Rotation.from_rotvec(x[3:6] / ANGLE).inv().apply(wheel.contact - x[:3])

    def moves(**how):  # of the contact point, per mm; `how` says what the step changes
        at = lambda y: y[:3] + Rotation.from_rotvec(y[3:6] / ANGLE).apply(contact)
        hold_at = lambda s: {"rack": x[6], hold: value + how.get("held", 0) * s}
        return np.array(derivative(lambda s: at(solver.solve(x, s * how.get("longer", 0), **hold_at(s))), 0.25))

    per_mm = {name: moves(longer=row) for name, row in zip(solver.guides, np.eye(5))}
    per_mm["spring"] = moves(held=1 if hold == "travel" else -1)
    out = []
    for force in forces:
        members = {name: m @ (force @ wheel.road) for name, m in per_mm.items()}
        if solver.axle.strut is not None:
            members["strut_side"] = np.hypot(members.pop("strut_1"), members.pop("strut_2"))
        accuracy["force_n"] = max([accuracy["force_n"], *(abs(best - before) for best, before in members.values())])
        out.append({"force": force} | {f"force_{name}_n": best for name, (best, _) in members.items()})
    return out


def pose(x):
    return {"centre": x[:3], "rotation": Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()}


def demand(solver, **hold):
    x = solver.state(**hold)
    return {"hold": hold, "travel_mm": x[2] - solver.axle.centre[2], "rack_mm": x[6],
            "spring_length_mm": solver.spring_length(x), "steer_deg": solver.wheel(x).steer} | pose(x)


def reference(axle):
    solver, states, forces = Solver(axle), [], []
    for travel, rack in grid(axle):
        try:
            x = solver.state(travel=travel, rack=rack)
            states.append({"travel_mm": travel, "rack_mm": rack} | pose(x) | {"row": table_row(solver, x)})
        except ArithmeticError:  # no such state, or no neighbourhood to differentiate in
            states.append({"travel_mm": travel, "rack_mm": rack, "centre": None, "rotation": None, "row": None})
    for travel, rack in force_states(axle):
        x = solver.state(travel=travel, rack=rack)
        forces.append({"travel_mm": travel, "rack_mm": rack, "members": member_forces(solver, x, np.array(ROAD_FORCES, float))})
    spring = solver.spring_length(solver.rest)
    demands = [demand(solver, spring=spring - 15, rack=20), demand(solver, spring=spring + 10, rack=-40),
               demand(solver, travel=25, steer=12), demand(solver, travel=-40, steer=-15),
               demand(solver, spring=spring - 10, steer=8)] if axle.steered else [
               demand(solver, spring=spring - 15, rack=0), demand(solver, spring=spring + 10, rack=0)]
    return {"layout": axle.layout, "states": states, "demands": demands, "forces": forces}


def textbook_double_wishbone():
    """Nine joints of a worked example, mm, moved up by the tyre radius; the spring's place is ours (it holds the lower arm).

    Two of the source's habits show in its last digits: its spin axis is (0, 1, -0.8 pi/180), whose camber is 0.799948,
    and its camber under travel is the angle in the car's yz plane, atan2(-n_z, n_y), not ours, -asin(n_z).
    """
    at = lambda *p: [1000 * p[0], 1000 * p[1], 1000 * p[2] + 285]
    layout = {"layout": 1, "name": "Textbook double wishbone",
        "wheel": {"centre": at(0, .768, 0), "camber": float(np.degrees(np.arctan(np.radians(0.8)))), "toe": 0, "loaded_radius": 285, "free_radius": 295, "width": 195},
        "lower": {"kind": "wishbone", "front": at(.148, .320, -.094), "rear": at(-.251, .320, -.080), "outer": at(.013, .737, -.145)},
        "upper": {"kind": "wishbone", "front": at(.122, .435, .230), "rear": at(-.105, .435, .196), "outer": at(-.025, .680, .162)},
        "track_rod": {"inner": at(-.150, .380, -.038), "outer": at(-.137, .690, -.088)},
        "rack": {"travel": 75, "per_turn": 52, "mount": "subframe"},
        "spring": {"on": "lower", "top": [0, 560, 600], "foot": [0, 600, 150], "rate": 50}}
    solver = Solver(Axle(layout))
    rest = solver.rest
    steps = {t: solver.state(travel=t, rack=0) for t in (-60, -30, 30, 60)}
    row = dict(zip(COLUMNS, table_row(solver, rest)))
    heights_held, _ = rates(solver, rest, 0.5, rack=0, travel=0)
    members = member_forces(solver, rest, np.array([[-3000., 0, 0], [0, 0, 4000.]]), hold="travel")
    return {"source": "Rill, Arrieta Castro, Road Vehicle Dynamics, 2nd ed., CRC Press 2020, ch. 5 (attribution from memory)",
            "grade": "computed from textbook inputs", "layout": layout,
            "travel": [{"travel_mm": t, "centre_change": x[:3] - rest[:3], "steer_deg": solver.wheel(x).steer, "camber_deg": solver.wheel(x).camber,
                        "camber_in_yz_plane_deg": float(np.degrees(np.arctan2(-solver.wheel(x).n[2], solver.wheel(x).n[1])))}
                       for t, x in steps.items()],
            "rest": row, "screw_pitch_wheel_height_held_mm_per_rad": steering_readings(solver.wheel(rest), *twist(heights_held))[6],
            "forces_with_vertical_support": [{k.replace("spring", "support"): v for k, v in m.items()} for m in members]}


def planar_strut():
    """A planar arm and strut as a spatial axle that stays planar: every rod turns about one line parallel to x.

    The published pose does not close, so the rest pose is closed first, in the plane.
    """
    pin, length, top, height, angle = np.array([120., 290]), 450, np.array([410., 830]), 358.6, 6.0819
    joint, on_line, along = np.array([0, -70.]), np.array([-170., 250]), np.array([.47, -.88])
    turn = lambda a: np.array([[np.cos(a), -np.sin(a)], [np.sin(a), np.cos(a)]])

    def open_by(u):
        frame, (a, b) = np.array([u[0], height]), turn(u[1]).T @ (top - [u[0], height]) - on_line
        return [np.linalg.norm(frame + turn(u[1]) @ joint - pin) - length, a * along[1] - b * along[0]]
    y, angle = root(open_by, [584, angle], tol=1e-14).x
    frame = np.array([y, height])
    at = lambda x, p: [x, *map(float, p)]
    ball, foot = frame + turn(angle) @ joint, frame + turn(angle) @ on_line
    layout = {"layout": 1, "name": "Planar strut",
        "wheel": {"centre": at(0, frame), "camber": 0, "toe": 0, "loaded_radius": 300, "free_radius": 310, "width": 195},
        "lower": {"kind": "wishbone", "front": at(150, pin), "rear": at(-150, pin), "outer": at(0, ball)},
        "upper": {"kind": "strut", "top": at(0, top), "foot": at(0, foot)},
        "track_rod": {"inner": at(-100, pin), "outer": at(-100, ball)}, "rack": None, "spring": {"on": "strut", "rate": 25}}
    solver = Solver(Axle(layout))
    states = []
    for travel in (-60, -30, 30, 60):
        x = solver.state(travel=travel, rack=0)
        states.append({"travel_mm": travel, "frame_y_mm": height + travel, "frame_x_mm": x[1], "angle_rad": angle + x[3] / ANGLE,
                       "strut_length_mm": solver.spring_length(x), "out_of_plane_mm": abs(x[0])})
    return {"source": "Nikravesh, Planar Multibody Dynamics, 2nd ed., CRC Press", "grade": "inputs published, travel computed",
            "layout": layout, "rest_angle_rad": angle, "states": states}


def published_digits(made):
    """The digits as printed by the published sources, each good to half of its last place; it gives the wheel-load lever arm's size without a sign."""
    book, plane = made["published"]["textbook_double_wishbone"], made["published"]["planar_strut"]
    steps = [[s["centre_change"][0], s["centre_change"][1], s["steer_deg"], s["camber_in_yz_plane_deg"]] for s in book["travel"]]
    rest = [book["rest"][column] for column in (
        "kingpin_inclination_deg", "caster_deg", "caster_offset_ground_mm", "scrub_radius_mm", "kingpin_offset_wheel_centre_mm",
        "caster_offset_wheel_centre_mm", "brake_lever_arm_mm", "drive_lever_arm_mm", "side_lever_arm_mm",
        "wheel_load_lever_arm_mm", "roll_centre_height_mm", "support_angle_brake_deg", "screw_pitch_mm_per_rad")]
    rods = [[m[f"force_{name}_n"] for name in ("lower_rear", "lower_front", "upper_rear", "upper_front", "track_rod", "support")]
            for m in book["forces_with_vertical_support"]]
    plane = [[s["frame_x_mm"] / 1000, s["angle_rad"], s["strut_length_mm"] / 1000, s["out_of_plane_mm"]] for s in plane["states"]]
    got = [*sum(steps, []), *rest, book["screw_pitch_wheel_height_held_mm_per_rad"], *sum(rods, []), *sum(plane, [])]
    printed = """3.039500 -16.308438 0.192330650 -0.556595489  1.50787 -6.39420 0.083677 0.340541
        -1.485939 3.297393 -0.070626519 0.935606208  -2.949899 3.715521 -0.134213492 0.802052817
        10.518207 7.056096 30.325552 1.032709 57.921824 -4.947883 1.007920 56.531468 29.597617 -5.620082 86.013 6.841 0.00000000
        5.84  -5400.959 4874.151 1500.569 -1786.056 -6.228 -360.144  -16.416 -29.871 38.943 23.601 -14.608 4002.638
        0.582323 6.048591 0.257108 0.00000000  0.584088 6.066161 0.229179 0.00000000
        0.582019 6.096273 0.172033 0.00000000  0.578206 6.108305 0.142685 0.00000000""".split()
    assert len(got) == len(printed)
    return [f"published {p} against {g!r}" for g, p in zip(got, printed)
            if not abs(g - float(p)) <= 0.501 * 10.0 ** -len(p.partition(".")[2])]


def make():
    made = {"columns": COLUMNS, "axles": {name: reference(axle) for name, axle in axles().items()},
            "published": {"textbook_double_wishbone": textbook_double_wishbone(), "planar_strut": planar_strut()}}
    return {"accuracy": {name: float(f"{worst:.1g}") for name, worst in accuracy.items()}} | made


if __name__ == "__main__":
    # Another processor rounds differently: a solved pose moves by 1e-12 mm, and the rates from it by up to 1e-9 of their size.
    main("scipy.json", make, 1e-8, published_digits)
