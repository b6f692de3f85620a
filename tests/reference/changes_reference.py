"""Reference for a car that differs from its design: every kind of change, alone and five at once, on every kind of axle.

How the layout format is read, and how a pose is found, says `changed.py`. In the JSON a case is one of `layouts` with the case's
`changes` put into it; its rows, one for each of `states` (travel and the car's rack), hold `columns`, the right wheel's as if it
were a left one, so with the rack's sign turned. Sweeps and roads name their case by its place in `cases`, null: no changes.
"""
import json
from pathlib import Path
from random import Random

import numpy as np
from scipy.spatial.transform import Rotation

from axle_reference import BARS, ROCKER, rolled
from axles import COLUMNS, HERE, Axle, axles, main
from changed import PLACES, Changed, amounts_of, doubts, joints, on_one_road, parameters, readings, sides, sweep, turn
from scipy_reference import Solver, table_row

DEMOS = ("strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered")
CAR_ONLY = ("subframe.x", "subframe.y", "subframe.yaw", "ride")  # under `both` only
KEPT = """travel_mm rack_mm camber_deg toe_deg track_change_mm wheelbase_change_mm caster_deg kingpin_inclination_deg
    scrub_radius_mm caster_offset_ground_mm kingpin_offset_wheel_centre_mm spring_length_mm motion_ratio""".split() + PLACES + ["bar_turn_deg"]


def layouts():
    """The demos, one layout for every other place of a spring, rockers and bars."""
    every = {name: axle.layout for name, axle in axles().items()}
    rocker = lambda on: {"on": on, "top": ROCKER["top"], "foot": ROCKER["foot"], "rate": 60,
                         "rocker": {key: ROCKER[key] for key in ("pivot", "axis", "rod", "spring")}}
    bar = lambda name: {"anti_roll_bar": dict(zip(("pivot", "lever", "link", "on"), BARS[name])) | {"stiffness": 500}}
    for name in BARS:
        every[f"{name}-bar"] = every[name] | bar(name)
    every["double-wishbone-rocker"] = every["double-wishbone"] | {"spring": rocker("lower")}
    every["four-arm-rocker"] = every["four-arm"] | {"spring": rocker("lower.front")}
    return {name: layout for name, layout in every.items() if name not in ("double-wishbone-unsteered", "strut-over-arms-unsteered")}


def cases(name, layout):
    """(changes, [(travel, rack), …]): every key alone, the left wheel's beside the right one's; then five at once."""
    random, steered = Random(name), layout["rack"] is not None
    at = lambda *states: [(t, r if steered else 0) for t, r in states]

    def amount(key):
        if key == "ride":
            return random.choice((-15, 20, 30))
        size = random.choice((0.2, 0.5, 1.2, 2)) if key in ("carrier.camber", "carrier.toe", "subframe.yaw") else random.choice((1, 2.5, 4, 7))
        return size * random.choice((1, -1)) * (2 if key.startswith("wheel.") else 1)
    single = parameters(layout) + [f"wheel.{key}" for key in ("spacer", "offset", "width", "free_radius", "loaded_radius")]
    out = []
    if name in DEMOS:
        random.shuffle(single)
        for i in range(0, len(single) - 1, 2):
            states = at((0, 0), (30, -25)) if i % 4 else at((-40, 20), (15, 45))
            out.append(({"left": {single[i]: amount(single[i])}, "right": {single[i + 1]: amount(single[i + 1])}}, states))
        out += [({"both": {single[-1]: amount(single[-1])}}, at((-10, 10)))]
        out += [({"both": {key: amount(key)}}, at((0, 0), (25, -30))) for key in CAR_ONLY]
        out += [({}, at((0, 0), (-30, 40)))]
    for _ in range(3 if name in DEMOS else 2):
        both, left, right = (random.sample(keys, k) for keys, k in ((single + list(CAR_ONLY[:3]), 4), (single, 3), (single, 3)))
        ride = amount("ride")
        five = {"both": {"ride": ride} | {key: amount(key) for key in both}, "left": {both[0]: 1.5} if both[0] in single else {}, "right": {}}
        five["left"] |= {key: amount(key) for key in left}
        five["right"] |= {key: amount(key) for key in right}
        out.append((five, at((ride, 0), (ride + 20, 30), (-35, -40))))
    return out


def case(axle, changes, states):
    rows = {side: [] for side in ("left", "right")}
    for (side, solver), sign in zip(sides(axle, changes).items(), (1, -1)):
        for travel, rack in states:
            at = readings(solver, solver.state(travel=travel, rack=sign * rack))
            rows[side].append([at[column] for column in KEPT])
    return {"changes": changes, "states": states} | rows


def make():
    made = {"columns": KEPT, "layouts": layouts(), "cases": [], "sweeps": [], "roads": []}
    for name, layout in made["layouts"].items():
        axle, todo = Axle(layout), cases(name, layout)
        made["cases"] += [{"layout": name} | case(axle, *one) for one in todo]
        fives = [(len(made["cases"]) - i, todo[-i][0]) for i in (2, 1)]
        for at, changes in [(None, {}), *fives] if axle.steered else []:
            stand = changes.get("both", {}).get("ride", 0)
            for side, solver in list(sides(axle, changes).items())[:2 if changes else 1]:
                made["sweeps"] += [{"layout": name, "case": at, "side": side} | sweep(solver, angle, travel)
                                   for angle, travel in ((20, stand), (10, stand), (20, stand + 25))[:3 if name in DEMOS else 1]]
        if name in ("double-wishbone", "four-arm", "strut"):
            made["roads"] += [{"layout": name, "case": at} | on_one_road(axle, changes, *asked) for at, changes in fives
                              for asked in ((0, 0, 0), (2, 10, 0), (-3, -10, 25), (0, changes["both"]["ride"], -30))]
    return made


def frozen(solver):
    """The built wheel as a design of its own: every joint where it is at the design's height. Its spring is not the same."""
    axle, x = solver.design, solver.rest
    layout, now = dict(axle.layout), x[:3] + solver.arms @ turn(x).T
    wheel, rods = solver.wheel(x), list(axle.rods)
    layout["wheel"] = {"centre": list(wheel.centre), "camber": wheel.camber, "toe": -wheel.steer, "loaded_radius": solver.axle.loaded_radius}
    for place in ("lower", "upper"):
        i = rods.index(f"{place}_front") if f"{place}_front" in rods else None
        if layout[place]["kind"] == "arms":
            layout[place] = {"kind": "arms"} | {side: {"inner": solver.inner[j], "outer": now[j]} for side, j in (("front", i), ("rear", i + 1))}
        elif layout[place]["kind"] == "wishbone":
            layout[place] = {"kind": "wishbone", "front": solver.inner[i], "rear": solver.inner[i + 1], "outer": now[i]}
        else:
            layout[place] = {"kind": "strut", "top": solver.top, "foot": x[:3] + turn(x) @ solver.foot}
    layout["track_rod"] = {"inner": solver.inner[-1], "outer": now[-1]}
    return Solver(Axle(layout))


def laws(made):
    """What must hold whatever the numbers are."""
    wrong = [f"doubt of {column}: {size}" for column, size in doubts.items() if not size < 1e-8]

    def same(what, a, b, tolerance=1e-8):
        if not np.allclose(a, b, rtol=0, atol=tolerance):
            wrong.append(f"{what}: {a} against {b}")
    for name in DEMOS:
        axle = Axle(made["layouts"][name])
        rack = 25 if axle.steered else 0
        plain, none = Solver(axle), Changed(axle, {})
        at = readings(none, none.state(travel=20, rack=rack))
        same(f"{name}: no change", *zip(*[(at[c], v) for c, v in zip(COLUMNS, table_row(plain, plain.state(travel=20, rack=rack))) if v is not None]))
        pose = lambda solver, travel=20: (lambda w: [w.camber, w.steer, *w.contact])(solver.wheel(solver.state(travel=travel, rack=rack)))
        inner = [path for path, _, on_carrier, _ in joints(axle.layout) if not on_carrier] + ["upper.top"]
        ahead = pose(Changed(axle, {f"build.{path}.x": 5 for path in inner}))
        same(f"{name}: everything in the body 5 mm ahead", ahead, np.add(pose(none), [0, 0, 5, 0, 0]))
        if axle.strut is None:  # the foot of a strut isn't moved on the carrier
            outer = [path for path, _, on_carrier, _ in joints(axle.layout) if on_carrier]
            away = {f"build.{path}.{c}": 12 * v for path in outer for c, v in zip("xyz", axle.spin_axis)} | {"wheel.spacer": 12}
            sunk = 12 * none.wheel(none.state(travel=20, rack=rack)).n[2]
            same(f"{name}: all joints go with the spacer", pose(Changed(axle, away), 20 - sunk), pose(none))
        all_of_it = {"subframe": {"carries": ["lower.front", "lower.rear", "upper.front", "upper.rear", "strut.top", "rack", "track_rod"]}}
        yawed = pose(Changed(Axle(axle.layout | all_of_it), {"subframe.yaw": 1.5, "subframe.x": 4}))
        back = Rotation.from_euler("z", -1.5, degrees=True).apply(np.subtract(yawed[2:], [4, 0, 0]))
        same(f"{name}: everything in the body yawed", [*yawed[:2], *back], np.add(pose(none), [0, 1.5, 0, 0, 0]))
        # The built car drawn as a design poses alike. Its wheel centre, no longer the design's, finds the height that is asked for.
        changes, _ = cases(name, axle.layout)[-1]
        built = Changed(axle, {key: amount for key, amount in amounts_of(changes, "left").items() if key != "subframe.yaw"})
        again = frozen(built)
        x = built.state(travel=20, rack=rack)
        rise = built.wheel(x).centre[2] - again.axle.centre[2]
        same(f"{name}: drawn as it is built", pose(built), pose(again, rise), 1e-8)
    for s in made["sweeps"]:
        if s["case"] is None and s["layout"] in ("strut", "double-wishbone") and s["travel_mm"] == 0:
            none = Changed(Axle(made["layouts"][s["layout"]]), {})
            at = readings(none, none.state(travel=0, rack=s["racks_mm"][2]))
            same(f"{s['layout']}: caster by sweep", s["caster_sweep_deg"], at["caster_deg"], 0.02)
            same(f"{s['layout']}: inclination by sweep", s["kingpin_inclination_sweep_deg"], at["kingpin_inclination_deg"], 0.4)
    # A rocker and bars, against the ones that were turned step by step.
    known = json.loads((HERE / "axle.json").read_text())
    for name, part in (("double-wishbone", "rocker"), *((name, "bar") for name in BARS)):
        solver = Changed(Axle(made["layouts"][f"{name}-{part}"]), {})
        for s in known[name][part]["states"]:
            x = solver.state(travel=s["travel_mm"], rack=0)
            same(f"{name}: {part}", solver.spring_length(x) if part == "rocker" else solver.bar_turn(x),
                 s["spring_length_mm" if part == "rocker" else "turn_deg"])
    axle = Axle(made["layouts"]["four-arm"])
    one, other = on_one_road(axle, {}, 3, 20, 0), rolled(Solver(axle), 3, 20, 0)
    for key in ("travels_mm", "steer_deg", "camber_road_deg", "contacts_mm", "roll_centre_height_mm"):
        same(f"both wheels of a design: {key}", one[key], other[key])
    # Both wheels in the mirror: left and right change places, rack, roll and the subframe's place across turn their signs.
    changes = {"both": {"subframe.y": 3, "subframe.x": 2}, "left": {"wheel.spacer": 10}, "right": {"length.upper.rear": 2}}
    image = {"both": {"subframe.y": -3, "subframe.x": 2}, "left": changes["right"], "right": changes["left"]}
    one, other = on_one_road(axle, changes, 2, 5, 20), on_one_road(axle, image, -2, 5, -20)
    for key in ("travels_mm", "toe_deg", "camber_road_deg"):
        same(f"both wheels in the mirror: {key}", one[key], other[key][::-1])
    same("roll centre in the mirror", one["roll_centre_sideways_mm"], -other["roll_centre_sideways_mm"])
    same("roll centre in the mirror", one["roll_centre_height_mm"], other["roll_centre_height_mm"])
    return wrong


if __name__ == "__main__":
    main(Path(__file__).resolve().with_name("changes.json"), make, 1e-8, laws)
