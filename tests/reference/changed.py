"""A car that differs from its design: one wheel's guides with changes, its readings, its steering sweep; both wheels on one road.

Poses are found by a general root finder from lengths, every rate by re-solving; nothing here knows a Jacobian row.

A right wheel is solved as the left wheel it mirrors, its changes as written, the rack the other way; of the changes only the
subframe's are in car axes, so its y and its yaw are mirrored. How the layout format is read where more than one reading is possible:

 1. A build shift of a joint on the subframe (or on its rack) turns with the subframe: p' = Rz(yaw) (p + shift) + (x, y, 0).
    `rack` goes along only where `carries` has it, whose default has it when the rack is mounted on the subframe.
 2. What rides on a wishbone keeps its place in the wishbone's own frame: the body axis (front to rear joint), the ball joint's
    direction across it, the origin midway between both body joints. So it goes along with a shift of the axis, a longer leg
    doesn't carry it away, and front and rear may change names.
 3. What rides on an arm: inner joint as it is now + the smallest rotation from the design's direction, in car axes, of the
    design's (foot - inner joint). Spring tops, pivots of rockers and bars stay in the body; a spring without a line of its own
    has the top mount as its top, moved or not. A push-rod and a drop link keep the design's length.
 4. `length.strut.*` moves no point of the carrier, so not a tilted spring's foot either.
 5. Spacer and offset move the wheel along the spin axis as it is with `carrier.camber` and `carrier.toe`.
 6. Rates per mm of travel, `motion_ratio` too, count the rise of the design's wheel centre; lever arms, offsets, support angles
    and `wheel_centre_*` are those of the wheel as it is fitted.
 7. The sweep holds the spring's length at the named travel, rack 0, and turns the wheel to its own steer angle; where the
    car stands is travel = `ride`. Where the rack's stroke ends before it reaches A there are only nulls.
"""
from copy import copy
from math import sin, sqrt

import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from axle_reference import MIRROR, Side, roll_centre
from axles import COLUMNS, EY, Axle, Wheel, bump_readings, steering_readings, unit
from scipy_reference import ANGLE, Solver, rates, twist

I = np.eye(3)
PLACES = [f"{what}_{c}_mm" for what in ("wheel_centre", "contact") for c in "xyz"]
doubts = {}  # worst relative change the last extrapolation of a rate made
SWEEP_COLUMNS = ["caster_sweep_deg", "kingpin_inclination_sweep_deg"]


def turn(x):
    """The carrier's rotation, by Rodrigues' formula."""
    a, b, c = (x[3:6] / ANGLE).tolist()
    angle = sqrt(a * a + b * b + c * c) or 1e-300
    across = np.array([[0, -c, b], [c, 0, -a], [-b, a, 0]])
    return I + sin(angle) / angle * across + 2 * (sin(angle / 2) / angle) ** 2 * (across @ across)


def frame(axis, across):
    """Columns: a wishbone's body axis, the ball joint's direction across it, and what is square to both."""
    a = unit(axis)
    b = unit(across - a * (a @ across))
    return np.column_stack([a, b, np.cross(a, b)])


def joints(layout):
    """Every joint as (path, rods that end there, on the carrier?, the part of a subframe it belongs to)."""
    out = []
    for place in ("lower", "upper"):
        kind, both = layout[place]["kind"], [f"{place}_front", f"{place}_rear"]
        for side in ("front", "rear"):
            if kind == "arms":
                out += [(f"{place}.{side}.inner", [f"{place}_{side}"], False, f"{place}.{side}"),
                        (f"{place}.{side}.outer", [f"{place}_{side}"], True, None)]
            elif kind == "wishbone":
                out += [(f"{place}.{side}", [f"{place}_{side}"], False, f"{place}.{side}")]
        out += [(f"{place}.outer", both, True, None)] * (kind == "wishbone")
    return out + [("track_rod.inner", ["track_rod"], False, "rack" if layout["rack"] else "track_rod"),
                  ("track_rod.outer", ["track_rod"], True, None)]


def parameters(layout):
    """The keys one wheel may have: build, length, carrier."""
    places = [path for path, *_ in joints(layout)]
    if layout["upper"]["kind"] == "strut":
        places.append("upper.top")
    rods = ["length." + rod.replace("r_", "r.") for rod in Axle(layout).rods]
    return [f"build.{path}.{c}" for path in places for c in "xyz"] + rods + [
        key for key in ("length.strut.x", "length.strut.y") if layout["upper"]["kind"] == "strut"] + ["carrier.camber", "carrier.toe"]


def amounts_of(changes, side):
    """What one wheel has of it, as the left wheel it is or mirrors."""
    out = dict(changes.get("both", {}))
    if side == "right":
        out |= {key: -out[key] for key in ("subframe.y", "subframe.yaw") if key in out}
    for key, amount in changes.get(side, {}).items():
        out[key] = out.get(key, 0) + amount
    return out


class Changed(Solver):
    """One wheel's guides with changes. The first three unknowns are the carrier's point at the design's wheel centre."""

    def __init__(self, axle, amounts, parts=4):
        """The changes come on in so many parts, so as to stay on the branch that holds the design's rest position."""
        super().__init__(axle)
        self.slopes = {}
        self.design, self.design_inner, self.design_outer = axle, self.inner, self.outer
        change = lambda key: amounts.get(key, 0.0)
        shift = lambda path: np.array([change(f"build.{path}.{c}") for c in "xyz"])
        layout, rack = axle.layout, axle.layout["rack"] or {}
        carries = layout.get("subframe", {}).get("carries", ["lower.front", "lower.rear"] + ["rack"] * (rack.get("mount") == "subframe"))
        yaw, slid = Rotation.from_euler("z", change("subframe.yaw"), degrees=True), np.array([change("subframe.x"), change("subframe.y"), 0])
        moved = lambda point, of: yaw.apply(point) + slid if of in carries else point

        rods = list(axle.rods)
        self.inner, self.arms = self.inner.copy(), self.arms.copy()
        for path, ends, on_carrier, of in joints(layout):
            for i in map(rods.index, ends):
                if on_carrier:
                    self.arms[i] = self.arms[i] + shift(path)
                else:
                    self.inner[i] = moved(self.inner[i] + shift(path), of)
        self.stroke = yaw.apply(EY) if "rack" in carries else EY
        self.length = self.length + [change("length." + rod.replace("r_", "r.")) for rod in rods]
        self.spring_top = axle.spring[0]
        if axle.strut is not None:
            top, foot = axle.strut
            self.top = moved(top + shift("upper.top"), "strut.top")
            self.across = np.linalg.svd((top + [change("length.strut.x"), change("length.strut.y"), 0] - foot)[None])[2][1:]
            if "top" not in layout["spring"]:
                self.spring_top = self.top

        wheel, self.axle = layout["wheel"], copy(axle)
        camber, toe = np.radians([wheel["camber"] + change("carrier.camber"), wheel["toe"] + change("carrier.toe")])
        n = np.array([np.sin(toe) * np.cos(camber), np.cos(toe) * np.cos(camber), -np.sin(camber)])
        self.axle.spin_axis, self.axle.loaded_radius = n, wheel["loaded_radius"] + change("wheel.loaded_radius")
        self.hub = n * (change("wheel.spacer") - change("wheel.offset"))  # from the design's wheel centre, on the carrier
        before = Changed(axle, {key: amount * (parts - 1) / parts for key, amount in amounts.items()}, parts - 1) if parts > 1 else self
        self.rest = self.solve(before.rest, travel=0, rack=0)

    def equations(self, x, hold):
        rotation = turn(x)
        joints = x[:3] + self.arms @ rotation.T
        joints[-1] -= x[6] * self.stroke  # the track rod's inner end moves with the rack
        guides = np.sqrt(((joints - self.inner) ** 2).sum(axis=1)) - self.length
        if self.axle.strut is not None:
            guides = np.append(guides, self.across @ (rotation.T @ (self.top - x[:3]) - self.foot))
        held = self.held(x)
        return np.append(guides, [held[name]() - value for name, value in hold.items()])

    def solve(self, start, **hold):
        """As the base's; the root finder starts from slopes that were differences at a pose nearby, which saves it most of its time."""
        at, slopes = self.slopes.get(tuple(hold), (None, None))
        if at is None or np.abs(start - at).max() > 10:
            middle = self.equations(start, hold)
            slopes = np.transpose([(self.equations(start + row, hold) - middle) / 1e-4 for row in np.eye(7) * 1e-4])
            self.slopes[tuple(hold)] = start, slopes
        x = root(lambda u: self.equations(start + (u - 100), hold), np.full(7, 100.0), jac=lambda u: slopes, tol=1e-14).x - 100 + start
        error = np.abs(self.equations(x, hold)).max()
        if not error < 1e-11:
            raise ArithmeticError(f"can't be assembled: {hold}, off by {error:.1e}")
        return x

    def wheel(self, x):
        return Wheel(self.axle, x[:3] + turn(x) @ self.hub, turn(x))

    def riding(self, x, on, point):
        """Where a point of the design that rides on a part is at a pose."""
        if on in ("strut", "carrier"):
            return x[:3] + turn(x) @ (point - self.axle.centre)
        place, _, side = on.partition(".")
        i = list(self.axle.rods).index(f"{place}_{side or 'front'}")
        inner, outer = self.design_inner[i], self.design_outer[i]
        now = x[:3] + turn(x) @ self.arms[i]
        if side:
            d0, d = unit(outer - inner), unit(now - self.inner[i])
            m, half_turned = unit(d0 + d), 2 * d0 * (d0 @ (point - inner)) - (point - inner)  # two half turns: the smallest rotation
            return self.inner[i] + 2 * m * (m @ half_turned) - half_turned
        (front, rear), (front_now, rear_now) = self.design_inner[i:i + 2], self.inner[i:i + 2]
        middle, middle_now = (front + rear) / 2, (front_now + rear_now) / 2
        return middle_now + frame(rear_now - front_now, now - front_now) @ frame(rear - front, outer - front).T @ (point - middle)

    def lever(self, x, pivot, axis, end, on, far):
        """Turn from rest, rad, of a lever whose end holds a rod of the design's length to a riding point."""
        q, axis = np.subtract(end, pivot), unit(np.array(axis, float))
        along = axis * (axis @ q)
        level, up = q - along, np.cross(axis, q)

        def turns(far_now):  # far end to lever end: |g - level cos - up sin| is the rod
            g = far_now - pivot - along
            middle, half = np.arctan2(g @ up, g @ level), (g @ g + level @ level - np.sum(np.subtract(far, end) ** 2)) / 2
            return middle + np.array([1, -1]) * np.arccos(half / np.hypot(g @ up, g @ level))
        branch = int(np.argmin(np.abs(turns(np.array(far, float)))))
        return turns(self.riding(x, on, np.array(far, float)))[branch]

    def spring_length(self, x):
        top, foot = self.design.spring
        spring = self.design.layout["spring"]
        if "rocker" not in spring:
            return np.linalg.norm(self.riding(x, spring["on"], foot) - self.spring_top)
        rocker = spring["rocker"]
        angle = self.lever(x, rocker["pivot"], rocker["axis"], rocker["rod"], spring["on"], foot)
        arm = Rotation.from_rotvec(angle * unit(np.array(rocker["axis"], float))).apply(np.subtract(rocker["spring"], rocker["pivot"]))
        return np.linalg.norm(rocker["pivot"] + arm - top)

    def bar_turn(self, x):
        """Degrees from the design's rest; positive where a lever that points ahead rises."""
        bar = self.design.layout.get("anti_roll_bar")
        return None if bar is None else float(np.degrees(self.lever(x, bar["pivot"], -EY, bar["lever"], bar["on"], bar["link"])))


def readings(solver, x):
    """The table's columns and where the wheel and its contact point are."""
    wheel, rest = solver.wheel(x), Wheel(solver.design, solver.design.centre, np.eye(3))
    to_hub, contact_moved = wheel.centre - x[:3], wheel.contact - rest.contact
    at_hub = lambda v, w: (v + np.cross(w, to_hub), w)
    bumps = rates(solver, x, 0.5, travel=x[2] - solver.axle.centre[2], rack=x[6])
    screws = rates(solver, x, 0.5, rack=x[6], spring=solver.spring_length(x)) if solver.axle.steered else (None, None)
    rows = [[x[2] - solver.axle.centre[2], x[6], wheel.camber, wheel.steer, -wheel.steer, contact_moved[1], contact_moved[0],
             *([None] * 11 if screw is None else steering_readings(wheel, *at_hub(*twist(screw)))),
             solver.spring_length(x), -bump[17], bump[15], bump[16], *bump_readings(wheel, at_hub(*twist(bump))[0], bump[3:6])]
            for bump, screw in zip(bumps, screws)]
    for column, best, before in zip(COLUMNS, *rows):
        if best is not None:
            doubts[column] = max(doubts.get(column, 0.0), abs(best - before) / max(1, abs(best)))
    return dict(zip(COLUMNS, rows[0])) | dict(zip(PLACES, [*wheel.centre, *wheel.contact])) | {"bar_turn_deg": solver.bar_turn(x)}


def sweep(solver, angle, travel):
    """Caster and inclination by sweep at +-angle, and the three racks it takes."""
    stand = solver.state(travel=travel, rack=0)
    spring, found = solver.spring_length(stand), []
    for steer in (angle, -angle, 0):
        x = stand
        for step in np.linspace(solver.wheel(stand).steer, steer, 9)[1:]:
            x = solver.solve(x, steer=step, spring=spring)
        found.append((solver.wheel(x).camber, float(x[6])))
    (left, right, ahead), racks = zip(*found)
    out = {"angle_deg": angle, "travel_mm": travel, "racks_mm": racks} | dict.fromkeys(SWEEP_COLUMNS)
    if max(map(abs, racks)) <= solver.axle.layout["rack"]["travel"]:
        a = np.radians(angle)
        out |= dict(zip(SWEEP_COLUMNS, map(float, [(left - right) / (2 * np.sin(a)), (left + right - 2 * ahead) / (2 * (1 - np.cos(a)))])))
    return out


def sides(axle, changes):
    return {side: Changed(axle, amounts_of(changes, side)) for side in ("left", "right")}


class FittedSide(Side):
    """A wheel of the whole axle whose hub isn't the design's wheel centre."""

    def __init__(self, solver, x, image, normal):
        super().__init__(solver, x, image, normal)
        self.on_carrier = self.on_carrier + solver.hub


def on_one_road(axle, changes, roll, travel, rack):
    """Both wheels on a road at `roll`, their mean travel given. Pairs are [left, right], places in the body's axes."""
    left_solver, right_solver = sides(axle, changes).values()
    phi = np.radians(roll)
    normal = np.array([0, np.sin(phi), np.cos(phi)])

    def wheels(lift):
        return (FittedSide(left_solver, left_solver.state(travel=travel + lift, rack=rack), np.eye(3), normal),
                FittedSide(right_solver, right_solver.state(travel=travel - lift, rack=-rack), MIRROR, normal))

    def gap(lift):
        left, right = wheels(lift)
        return float((left.contact - right.contact) @ normal)
    start = -axle.centre[1] * np.tan(phi)
    lift = float(root(lambda u: gap(start + u[0] - 100), [100.0], tol=1e-13).x[0]) + start - 100
    assert abs(gap(lift)) < 1e-10, gap(lift)
    left, right = wheels(lift)
    (sideways, height), doubt = roll_centre(left, right, normal)
    pair = lambda name: [float(getattr(side, name)) for side in (left, right)]
    return {"roll_deg": roll, "travel_mm": travel, "rack_mm": rack, "travels_mm": [travel + lift, travel - lift], "steer_deg": pair("steer"),
            "toe_deg": pair("toe"), "camber_road_deg": pair("camber_road"), "camber_body_deg": pair("camber_body"),
            "contacts_mm": [left.contact, right.contact], "roll_centre_height_mm": height, "roll_centre_sideways_mm": sideways,
            "roll_centre_doubt_mm": doubt}
