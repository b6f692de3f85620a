"""Reference for sensitivities: each reading's derivative by each parameter, per mm or per degree, by re-solving.

A row is the central difference of readings of re-solved poses, Romberg extrapolated, so a reading that is a rate itself is a
difference of differences. Design parameters redraw the layout, the others build it differently (`changed.py`, which says
how the layout format is read). All for the left wheel, rack and travel held. The sweep's two readings belong to where the car
stands, travel 0, whatever the position of a row, and are kept apart.
"""
from copy import deepcopy

import numpy as np

from axles import COLUMNS, Axle, axles, main, unit
from changed import SWEEP_COLUMNS, Changed, joints, parameters, readings
from changes_reference import DEMOS
from scipy_reference import derivative

READINGS = [column for column in COLUMNS if column not in ("travel_mm", "rack_mm", "steer_deg")]  # steer is -toe
POSITIONS = ((0, 0), (25, 20))
ANGLES = ("wheel.camber", "wheel.toe", "carrier.camber", "carrier.toe", "subframe.yaw")
STEP_MM, STEP_DEG, SWEEP = 0.5, 0.1, 20
doubts = dict.fromkeys(READINGS + SWEEP_COLUMNS, 0.0)  # worst change the last extrapolation made


def design_parameters(layout):
    points = [path for path, *_ in joints(layout)]
    points += ["upper.top", "upper.foot"] * (layout["upper"]["kind"] == "strut")
    points += ["spring.top", "spring.foot"] * ("top" in layout["spring"]) + ["wheel.centre"]
    return [f"{point}.{c}" for point in points for c in "xyz"] + ["wheel.camber", "wheel.toe", "wheel.loaded_radius"]


def redrawn(layout, path, by):
    """The layout with one number of it changed."""
    layout = deepcopy(layout)
    *way, last = [{"x": 0, "y": 1, "z": 2}.get(key, key) for key in path.split(".")]
    place = layout
    for key in way:
        place = place[key]
    place[last] += by
    return layout


def solver_of(layout, parameter, step):
    if parameter in design_parameters(layout):
        return Changed(Axle(redrawn(layout, parameter, step)), {}, 1)
    return Changed(Axle(layout), {parameter: step}, 1)


def swept(layout):
    """The two readings of the sweep as a function of a parameter and its step."""
    design = Changed(Axle(layout), {}, 1)
    spring, poses = design.spring_length(design.rest), {}
    for steer in (SWEEP, -SWEEP, 0):
        x = design.rest
        for at in np.linspace(design.wheel(x).steer, steer, 9)[1:]:
            x = design.solve(x, steer=at, spring=spring)
        poses[steer] = x
    a = np.radians(SWEEP)

    def look(parameter, step):
        solver = solver_of(layout, parameter, step)
        stands = solver.spring_length(solver.rest)
        left, right, ahead = (solver.wheel(solver.solve(x, steer=steer, spring=stands)).camber for steer, x in poses.items())
        return np.array([(left - right) / (2 * np.sin(a)), (left + right - 2 * ahead) / (2 * (1 - np.cos(a)))])
    return look


def slope(columns, look, parameter):
    """A row of derivatives; columns the axle doesn't have are NaN, and null in the file."""
    best, before = derivative(lambda step: look(step), STEP_DEG if parameter in ANGLES else STEP_MM)
    for column, one, other in zip(columns, best, before):
        doubts[column] = max(doubts[column], 0.0 if np.isnan(one) else float(abs(one - other)))
    return [None if np.isnan(value) else round(float(f"{value:.9g}"), 10) + 0.0 for value in best]


def reference(layout):
    out, design = {"layout": layout, "rows": [], "sweep_rows": []}, Changed(Axle(layout), {}, 1)
    steered = layout["rack"] is not None
    every = design_parameters(layout) + parameters(layout) + ["wheel.spacer", "subframe.x", "subframe.y", "subframe.yaw"]
    look_at_sweep = swept(layout) if steered else None
    for parameter in every:
        unit_of = "deg" if parameter in ANGLES else "mm"
        for travel, rack in POSITIONS:
            rack = rack if steered else 0
            start = design.state(travel=travel, rack=rack)

            def look(step):
                solver = solver_of(layout, parameter, step)
                at = readings(solver, solver.solve(start, travel=travel, rack=rack))
                return np.array([at[column] for column in READINGS], float)
            out["rows"].append([parameter, unit_of, travel, rack, *slope(READINGS, look, parameter)])
        if steered:
            out["sweep_rows"].append([parameter, unit_of, *slope(SWEEP_COLUMNS, lambda step: look_at_sweep(parameter, step), parameter)])
    return out


def make():
    every = axles()
    made = {"columns": ["parameter", "unit", "travel_mm", "rack_mm", *READINGS], "sweep_columns": ["parameter", "unit", *SWEEP_COLUMNS],
            "axles": {name: reference(every[name].layout) for name in DEMOS}}
    return {"accuracy": {column: float(f"{max(doubt, 1e-10):.1g}") for column, doubt in doubts.items()}} | made


def laws(made):
    """What must hold whatever the numbers are: to redraw a joint is to move it on its part and to change its rod's length."""
    wrong = []
    for name, axle in made["axles"].items():
        rows = {(row[0], row[2]): np.array(row[4:], float) for row in axle["rows"]}
        layout, design = axle["layout"], Axle(axle["layout"])
        keep = [i for i, column in enumerate(READINGS) if "change" not in column]

        def same(what, a, b):
            if not np.allclose(a, b, rtol=1e-7, atol=1e-7, equal_nan=True):
                wrong.append(f"{name}: {what}: {np.nanmax(np.abs(np.subtract(a, b)))}")
        for path, rods, on_carrier, _ in joints(layout):
            if any(rod.startswith(layout["spring"]["on"].replace(".", "_")) for rod in rods):
                continue  # what rides on the member starts from another place then
            for axis, c in enumerate("xyz"):
                for _, travel in {(0, row[2]) for row in axle["rows"]}:
                    longer = sum((1 if on_carrier else -1) * unit(design.rods[rod][1] - design.rods[rod][0])[axis]
                                 * rows["length." + rod.replace("r_", "r."), travel] for rod in rods)
                    same(f"{path}.{c}", rows[f"{path}.{c}", travel], rows[f"build.{path}.{c}", travel] + longer)
        for travel in (0, 25):
            for angle in ("camber", "toe"):  # but for the place the design's contact point starts from
                same(angle, rows[f"wheel.{angle}", travel][keep], rows[f"carrier.{angle}", travel][keep])
            for c in "xy" if design.strut is not None else "":
                same(f"upper.top.{c}", rows[f"upper.top.{c}", travel], rows[f"build.upper.top.{c}", travel] + rows[f"length.strut.{c}", travel])
    return wrong


if __name__ == "__main__":
    main("sensitivity.json", make, 1e-7, laws)
