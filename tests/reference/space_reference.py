"""Reference for wheel space: solids as meshes, united and measured by manifold3d.

Poses are found by the general root finder (`scipy_reference.py`); tyre, rim, disc, members and boxes are triangle meshes there, the envelope is
their boolean union, cut by a plane, and a distance is that of two meshes. Nothing here knows a support function, a column or a section. Meshes of
round bodies lie inside them, two together by up to `MESH` mm, which is what a distance may be too large by; that of the barrel, hollow, lies up to `BARREL`
nearer to the axis, which is what one may be too small by. Volumes are too small by a few parts in ten thousand.
A gap of 0 says that two meshes meet; one of `FAR` that they are at least so far apart.
"""
import json

import numpy as np
from manifold3d import CrossSection, Manifold, OpType
from scipy.spatial.transform import Rotation

from axles import HERE, Axle, main, unit
from scipy_reference import ANGLE, Solver

TRAVELS, RACKS = (-60, -30, 0, 30, 60), (-75, -37.5, 0, 37.5, 75)
GAP_STATES = ((0, 0), (60, 75), (-60, 50), (30, -37.5))
ROUND, SHOULDER, BALL = 180, 16, 64  # corners of a circle about the axis, of a quarter of the shoulder, of a ball
FAR, MESH, BARREL = 60, 0.2, 0.04
SIDES = (1e4, 850)
SIZES = {"arm": 30, "track_rod": 18, "strut": 55, "spring": 110, "spring_seat": 300, "half_shaft": 30}
BOXES = [{"name": "engine", "from": [-250, -300, 330], "to": [200, 420, 800], "mirrored": True},
         {"name": "in the barrel", "from": [60, 560, 330], "to": [100, 700, 380]},
         {"name": "panel ahead", "from": [420, 500, 100], "to": [422, 900, 700]},
         {"name": "panel through", "from": [-500, 740, 0], "to": [500, 741, 900]},
         {"name": "before the spokes", "from": [-30, 655, 275], "to": [-10, 690, 320]},
         {"name": "above", "from": [-400, 700, 655], "to": [-200, 800, 700]}]
# What each demo has besides; other thicknesses on some.
EXTRA = {"strut": {"rim_radius": None, "via": {"lower.rear": [[-160, 560, 205]]}},
         "double-wishbone": {"rim_radius": 190, "via": {"upper.front": [[60, 560, 520], [20, 640, 530]]}},
         "strut-over-arms": {"rim_radius": None, "via": {"lower.rear": [[-190, 560, 200], [-120, 640, 190]]}},
         "wishbone-over-arms": {"rim_radius": 170, "via": {"lower.front": [[40, 520, 160]]}},
         "four-arm": {"rim_radius": None, "via": {"lower.rear": [[-230, 560, 205]], "upper.rear": [[-150, 560, 660]]}},
         "five-rod-unsteered": {"rim_radius": 200, "via": {"lower.rear": [[-90, 560, 200]]}}}
EY = np.array([0.0, 1, 0])


def layout_of(name):
    layout = json.loads((HERE / f"../../demo-layouts/{name}.json").read_text())
    layout["name"], layout["note"] = name, ""
    if EXTRA[name]["rim_radius"]:
        layout["wheel"]["rim_radius"] = EXTRA[name]["rim_radius"]
    thick = {"arm": 26, "spring": 96, "spring_seat": 260} if name in ("strut", "four-arm") else {}
    layout["solid"] = thick | {"via": EXTRA[name]["via"]}
    layout["boxes"] = BOXES
    return layout


def round_body(section):
    """A body of revolution about z: (rho, z) of a closed section, corners of the circle on it."""
    return CrossSection([section]).revolve(ROUND)


def wheel_meshes(wheel):
    radius, half = wheel["free_radius"], wheel["width"] / 2
    s = min(40, half, radius / 2)
    inner = wheel.get("rim_radius", 0.58 * radius)
    arc = [(radius - s + s * np.cos(a), half - s + s * np.sin(a)) for a in np.linspace(0, np.pi / 2, SHOULDER)]
    outer = [(rho, -h) for rho, h in reversed(arc)] + arc
    disc = Manifold.cylinder(20, inner, inner, ROUND).translate((0, 0, 20))
    return {"tyre": round_body([(0, -half)] + outer + [(0, half)]), "wheel": round_body([(inner, -half)] + outer + [(inner, half)]) + disc}


def placed(mesh, axis, at):
    """A body of revolution with its z along an axis."""
    x = unit(np.cross(EY, axis) if abs(axis[1]) < 0.9 else np.cross([1, 0, 0], axis))
    return mesh.transform(np.column_stack([x, np.cross(axis, x), axis, at]))


def member(line, diameter):
    balls = [Manifold.sphere(diameter / 2, BALL).translate(tuple(at)) for at in line]
    return Manifold.batch_boolean([Manifold.batch_hull(list(ends)) for ends in zip(balls, balls[1:])], OpType.Add)


class Corner:
    """The pieces of the left wheel of a layout at a pose."""

    def __init__(self, layout):
        self.layout, self.axle = layout, Axle(layout)
        self.solver = Solver(self.axle)
        self.meshes = wheel_meshes(layout["wheel"])
        self.sizes = SIZES | {key: value for key, value in layout["solid"].items() if key != "via"}
        self.poses = {(0.0, 0.0): self.solver.rest}

    def pose(self, travel, rack):
        """From rest along one way, in small steps."""
        key = (float(travel), float(rack))
        if key not in self.poses:
            x = self.solver.rest
            for part in np.linspace(0, 1, 16)[1:]:
                x = self.solver.solve(x, travel=part * travel, rack=part * rack)
            self.poses[key] = x
        return self.poses[key]

    def wheel(self, x, which):
        rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        return placed(self.meshes[which], rotation @ self.axle.spin_axis, x[:3])

    def rides(self, x, name, point):
        """Where a point is that at rest is on an arm or a wishbone's leg."""
        axle, rotation = self.axle, Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        inner, outer = axle.rods[name]
        now = x[:3] + rotation @ (outer - axle.centre)
        place, side = name.split("_")
        if self.layout[place]["kind"] == "arms":
            a, b = unit(outer - inner), unit(now - inner)
            cross = np.cross(a, b)
            sine = max(np.linalg.norm(cross), 1e-300)
            return inner + Rotation.from_rotvec(cross / sine * np.arctan2(sine, a @ b)).apply(point - inner)
        axis = unit(axle.rods[f"{place}_rear"][0] - axle.rods[f"{place}_front"][0])
        a, b = np.cross(axis, outer - inner), np.cross(axis, now - inner)
        return inner + Rotation.from_rotvec(np.arctan2(axis @ np.cross(a, b), a @ b) * axis).apply(point - inner)

    def members(self, x):
        """Lines and diameters by name."""
        layout, axle, sizes = self.layout, self.axle, self.sizes
        rotation = Rotation.from_rotvec(x[3:6] / ANGLE).as_matrix()
        on_carrier = lambda p: x[:3] + rotation @ (np.asarray(p, float) - axle.centre)
        made = {}
        for name, (inner, outer) in axle.rods.items():
            file_name = name if name == "track_rod" else name.replace("_", ".")
            bends = [self.rides(x, name, np.array(p, float)) for p in layout["solid"]["via"].get(file_name, [])]
            start = inner + EY * x[6] if name == "track_rod" else inner
            made[file_name] = [start, *bends, on_carrier(outer)], sizes["track_rod" if name == "track_rod" else "arm"]
        spring = layout["spring"]
        if axle.strut is not None:
            top, foot = axle.strut
            made["strut"] = [top, on_carrier(foot)], sizes["strut"]
        if spring["on"] == "strut":
            made["spring"] = [top, on_carrier(top + unit(foot - top) * sizes["spring_seat"])], sizes["spring"]
        else:
            place, _, side = spring["on"].partition(".")  # any leg tells how a wishbone has turned
            made["spring"] = [axle.spring[0], self.rides(x, f"{place}_{side or 'front'}", axle.spring[1])], sizes["spring"]
        if "half_shaft" in layout:
            made["half_shaft"] = [np.array(layout["half_shaft"]["inner"], float), on_carrier(layout["half_shaft"]["outer"])], sizes["half_shaft"]
        return made

    def gaps(self, x):
        lines, layout = self.members(x), self.layout
        solids = {name: member(*line) for name, line in lines.items()}
        wheel = self.wheel(x, "wheel")
        boxes = {}
        for box in layout["boxes"]:
            a, b = np.array(box["from"], float), np.array(box["to"], float)
            one = Manifold.cube(tuple(b - a)).translate(tuple(a))
            boxes[box["name"]] = one + one.mirror((0, 1, 0)) if box.get("mirrored") else one
        out = {}
        on = layout["spring"]["on"]
        rides = {on, f"{on}.front", f"{on}.rear"}
        ends = {name: (np.round(line[0], 9).tolist(), np.round(line[-1], 9).tolist()) for name, (line, _) in lines.items()}
        for name, solid in solids.items():
            out["wheel", name] = wheel, solid
            for box, cube in boxes.items():
                out[name, box] = solid, cube
            for other, theirs in solids.items():
                apart = name < other and not any(a in ends[other] for a in ends[name])
                if apart and not ("spring" in (name, other) and rides & {name, other}):
                    out[name, other] = solid, theirs
        for box, cube in boxes.items():
            out["wheel", box] = wheel, cube
        return [[a, b, round(one.min_gap(other, FAR), 4)] for (a, b), (one, other) in sorted(out.items())]


def litres(tyres):
    whole = Manifold.batch_boolean(tyres, OpType.Add)
    return [whole.trim_by_plane((0, -1, 0), -side).volume() / 1e6 for side in SIDES]


def reference(name):
    corner = Corner(layout_of(name))
    steered = corner.axle.steered
    racks = RACKS if steered else (0,)
    tyres, unreached = {}, []
    for at in ((t, r) for t in TRAVELS for r in racks):
        try:
            tyres[at] = corner.wheel(corner.pose(*at), "tyre")
        except ArithmeticError:  # the track rod can't follow so far
            unreached.append(at)
    states = [(t, r if steered else 0) for t, r in GAP_STATES]
    return {"layout": corner.layout, "unreached": unreached, "litres": litres(list(tyres.values())), "ahead": litres([tyres[t, 0] for t in TRAVELS]),
            "gaps": [{"travel": t, "rack": r, "pairs": corner.gaps(corner.pose(t, r))} for t, r in states]}


def make():
    fixed = {"travels": TRAVELS, "racks": RACKS, "sides": SIDES, "far": FAR, "mesh": MESH, "barrel": BARREL}
    return fixed | {"axles": {name: reference(name) for name in EXTRA}}


if __name__ == "__main__":
    main("space.json", make, 1e-6)
