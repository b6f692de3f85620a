"""Reference for compliance: both wheels with every body free, bushes as springs, one stiffness solve.

Bodies: carriers, wishbones, arms, track rods, strut rods, the rack's bar, the subframe; six coordinates each, finite rotations.
A rigid joint is a constraint with a Lagrange multiplier, a bush a spring whose matrix stands in the car's axes; an arm that gives way
along itself has its stretch as a seventh coordinate. All first derivatives are complex steps (exact to the last digit) of places; the pose
is a general root finder's. Nothing here knows a Jacobian row of a rod, a compliance of a member, or a lever arm.

Axes, signs: x forward, y left, z up; mm, N, degrees; the left wheel; both wheels loaded, at the same travel, one rack; the carriers' points at
the contact points keep their height. What could be read in more than one way, and how it is read:

1. The side force is the same vector in car axes on both wheels, -e_y' of the left one; a braking or driving force acts along each wheel's *own*
   heading. `readings_other` has it the other way round: each wheel's own side direction, and the left wheel's heading for both. They differ
   only where rack or subframe couple the wheels, by what the wheels' headings differ.
2. A force on the axle (`force`, along e_x', e_y', e_z) is one vector too, by the left wheel's directions (`same`); or by each wheel's (`own`).
3. Under load the spring's length is held. `spring: member`: the foot sits on the moving member, whose bushes bear the foot's force as well, and
   a strut's own spring stands on the top mount: the free body. `spring: row`: the foot goes by the direction from the inner joint's place in
   its anchor to the ball joint, as if the bush had not given way (a strut's spring stands on the anchor): the spring's force strains no bush
   of its own member directly. That is one of several such approximations, for comparison.
4. Caster under load is the change of the steering screw's caster: all bushes frozen as they are deflected, springs held, the rack moved.
   `caster_of_carrier`, for comparison: the axis as a direction that turns with the carrier.
5. A rod's spin about its own axis is fixed as a spring's foot needs it, by the smallest rotation from rest as seen from its anchor; on a rod
   without a foot that constraint carries nothing. A wishbone with both joints rigid is a hinge (five rows).
6. The bar is guided in its housing in five ways; the rack's `along` acts between them. A given `carries` replaces the default altogether.
7. The no-steer point is -100 toe_side/toe_aligning, mm (deg/kN over deg/100 N m); null where a moment does not steer.
"""
import numpy as np
from scipy.linalg import lu_solve

from axles import COLUMNS as TABLE
from axles import axles, main, unit
from compliance_bodies import STEP, Model
from scipy_reference import derivative, rates, table_row

COLUMNS = """toe_side_force_deg_per_kn camber_side_force_deg_per_kn axle_steer_side_force_deg_per_kn contact_sideways_mm_per_kn
    toe_brake_force_deg_per_kn toe_drive_force_deg_per_kn wheel_centre_lengthwise_mm_per_kn toe_aligning_moment_deg_per_100_nm
    side_force_no_steer_point_mm""".split()
LOADED_COLUMNS = """toe_under_load_deg camber_under_load_deg caster_under_load_deg wheel_centre_x_under_load_mm wheel_centre_y_under_load_mm
    wheel_centre_z_under_load_mm caster_of_carrier_deg""".split()
STATES, FORCE = ((0, 0), (40, 0), (0, 20)), (-1500.0, -2400.0, 3800.0)
KINDS = ("strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered", "wishbone-under-arms")
SPRINGS = ("strut-tilted-spring", "double-wishbone-upper-spring", "four-arm-carrier-spring")  # the same kinds, for the loaded sets alone
NOTHING = 1e-9  # deg: an aligning moment that turns less has no no-steer point


def couple(model, side, moment):
    """A moment about the vertical as two forces along y, 100 mm before and behind the contact point."""
    ahead = side.carrier.rotation(model.still())[0].T @ [100.0, 0, 0]
    return [(np.array([0, sign * moment / 200, 0]), side, side.contact + sign * ahead) for sign in (1, -1)]


def unit_loads(model, own_side, own_ahead):
    """The four loads on both wheels; whether the right wheel's goes by its own heading or by the left wheel's."""
    along = lambda axis, sign, own, point: [(sign * 1000 * (s if own else model.sides[0]).road[axis], s, getattr(s, point)) for s in model.sides]
    return {"side": along(1, -1, own_side, "contact"), "brake": along(0, -1, own_ahead, "contact"), "drive": along(0, 1, own_ahead, "centre"),
            "moment": [load for s in model.sides for load in couple(model, s, 1e5)]}


def readings(model, own_side=False, own_ahead=True):
    left, right = model.sides
    q = {name: model.answer(loads) for name, loads in unit_loads(model, own_side, own_ahead).items()}
    side, brake, drive, moment = (left.rates(v) for v in q.values())
    steer = -(side[0] + right.rates(q["side"])[0]) / 2
    row = [side[0], side[1], steer, -left.road[1] @ side[3], brake[0], drive[0], left.road[0] @ drive[2], moment[0]]
    return [*map(float, row), None if abs(moment[0]) < NOTHING else float(-100 * side[0] / moment[0])]


def screw(model, at):
    """Direction of the left wheel's steering screw, displaced by `at`: bushes frozen, held quantities held, the rack moves."""
    frozen = [f for f in (*model.rows, *(f for f, _ in model.springs), *model.held) if f is not model.steer]
    a = np.vstack([model.stacked(frozen, at), model.slope(model.steer, at)])
    right = np.eye(len(a))[-1]
    t = np.linalg.lstsq(a, right, rcond=1e-11)[0]
    assert np.abs(a @ t - right).max() < 1e-8, "steering is not free"
    carrier = model.sides[0].carrier
    spin = (carrier.rotation(at + 1j * STEP * t[None]).imag / STEP)[0] @ carrier.rotation(at[None])[0].T
    k = unit(np.array([spin[2, 1], spin[0, 2], spin[1, 0]]))
    return k * np.sign(k[2])


def caster(k):
    return np.degrees(np.arctan2(-k[0], k[2]))


def under_load(layout, travel, rack):
    """Changes under FORCE on both wheels, springs' length held."""
    out = []
    for hold in ("member", "row"):
        model = Model(layout, travel, rack, hold)
        left = model.sides[0]
        for own in (False, True):
            q = model.answer([((s if own else left).road.T @ np.array(FORCE), s, s.contact) for s in model.sides])
            toe, camber, centre, _ = left.rates(q)
            by_screw = of_carrier = None
            if model.axle.steered:
                by_screw, before = derivative(lambda h: caster(screw(model, h * q)), 0.02)
                assert abs(by_screw - before) < 1e-8, (by_screw, before)
                now = left.carrier.rotation(model.still())[0].T @ screw(model, np.zeros(model.n))
                of_carrier, _ = derivative(lambda h: caster(left.carrier.rotation(h * q[None])[0] @ now), 0.02)
            out.append({"spring": hold, "force": "own" if own else "same", "row": [toe, camber, by_screw, *centre, of_carrier]})
    return out


BUSHES = {
    "lower.front": {"radial": 9000, "axial": 900, "torsion": 1.2}, "lower.rear": {"radial": 1500, "axial": 500},
    "upper.front": {"radial": 6000, "axial": 800}, "upper.rear": {"radial": 4500, "axial": 700, "torsion": 0.8},
    "strut.top": {"radial": 1500, "axial": 900}, "track_rod": {"radial": 7000, "axial": 900}, "rack": {"along": 8000}}
AXIS = [1.0, 0.3, -0.2]  # of a bush that stands askew
MOUNTS = [{"at": [180, 400, 250], "stiffness": [3000, 4000, 2500]}, {"at": [-380, 420, 260], "stiffness": [3500, 4500, 2000]}]
LOADED = (("everything", "subframe, rack on it"), ("bushes", "no subframe"))  # sets that also bear FORCE
MIDDLE = {"at": [-420, 0, 270], "stiffness": [1500, 1000, 2000]}


def stiffnesses(layout):
    """Sets of joints: rigid, bushes alone, a few (one bush of a wishbone, an arm's `along` alone), everything."""
    arms = [f"{place}.{end}" for place in ("lower", "upper") for end in ("front", "rear") if layout[place]["kind"] == "arms"]
    bones = [f"{place}.{end}" for place in ("lower", "upper") for end in ("front", "rear") if layout[place]["kind"] == "wishbone"]
    strut, rack = ["strut.top"] if layout["upper"]["kind"] == "strut" else [], layout["rack"] is not None
    rod = [] if rack else ["track_rod"]
    bushes = {name: BUSHES[name] for name in (*arms, *bones, *strut, *rod)}
    one = {name: BUSHES[name] for name in bones if name in ("lower.rear", "upper.front")}
    few = one | {name: {"along": 30000 + 5000 * i} for i, name in enumerate(arms)} | {"track_rod": {"along": 25000}} | {
        name: BUSHES[name] for name in strut}
    every = bushes | {name: BUSHES[name] | {"along": 40000} for name in arms} | ({"rack": BUSHES["rack"]} if rack else {})
    every["track_rod"] = bushes.get("track_rod", {}) | {"along": 25000}
    every["lower.front"] = every["lower.front"] | {"axis": AXIS}
    return {"rigid joints": {}, "bushes": bushes, "few": few, "everything": every}


def cases(layout):
    """(joints, frame, layout) of every set of joints with every subframe; one mount on the centre plane, which counts twice."""
    rack, lower, upper = layout["rack"], layout["lower"]["kind"], layout["upper"]["kind"]
    on_body, on_frame = ({"rack": rack and rack | {"mount": mount}} for mount in ("body", "subframe"))
    named = ["lower.front", "lower.rear"] if lower == "wishbone" else ["lower.rear"]
    named += ["strut.top"] if upper == "strut" else ["upper.front", "upper.rear"]
    given = {"mounts": [*MOUNTS, MIDDLE], "carries": [*named, "rack" if rack else "track_rod"]}
    frames = {"no subframe": on_frame, "subframe, rack on it": on_frame | {"subframe": {"mounts": MOUNTS}},
              "subframe, rack on the body": on_body | {"subframe": {"mounts": MOUNTS}}, "subframe, carries given": on_frame | {"subframe": given}}
    if not rack:
        del frames["subframe, rack on the body"]
    for joints, stiffness in stiffnesses(layout).items():
        for frame, parts in frames.items():
            if stiffness or "subframe" in parts:
                yield joints, frame, layout | parts | ({"stiffness": stiffness} if stiffness else {})


def reference(layout, joints, frame):
    states = []
    for travel, rack in STATES if layout["rack"] else STATES[:2]:
        model = Model(layout, travel, rack)
        state = {"travel_mm": travel, "rack_mm": rack, "readings": readings(model), "readings_other": readings(model, True, False)}
        if (joints, frame) in LOADED:
            state["under_load"] = under_load(layout, travel, rack)
        states.append(state)
    return {"joints": joints, "frame": frame, "layout": layout, "states": states}


def layouts():
    every = axles()
    return {name: every[name].layout for name in KINDS + SPRINGS}


def make():
    return {"columns": COLUMNS, "loaded_columns": LOADED_COLUMNS, "force": FORCE, "axles": {
        name: [reference(part, *sets) for *sets, part in cases(layout) if name in KINDS or tuple(sets) in LOADED]
        for name, layout in layouts().items()}}


def finite(model, loads):
    """The place of all coordinates in balance under loads, by Newton on the displaced bodies: nothing is linear, turned forces do turn."""
    k, n = model.bushes[1], model.n
    deflect = [f for f, _ in model.springs]
    value = lambda functions, q: np.concatenate([f(q[None])[0] for f in functions])
    still, guides = np.zeros(n), model.rows + model.held
    at_rest = value(deflect, still), value(guides, still)
    z = np.zeros(n + model.system[1])
    for _ in range(20):
        q, g = z[:n], model.stacked(guides, z[:n])
        pull = model.stacked(deflect, q).T @ k @ (value(deflect, q) - at_rest[0]) + g.T @ z[n:]
        force = sum(model.slope(lambda q: s.carrier.point(q, p), q).T @ f for f, s, p in loads)
        gap = np.concatenate([(force - pull) / model.system[2], at_rest[1] - value(guides, q)])
        step = lu_solve(model.system[0], gap)
        z = z + np.concatenate([step[:n], step[n:] * model.system[2]])
    return z[:n]


def by_hand():
    """Horizontal wishbones on parallel lines, worked on paper: side force H at the road, joints at z1, z2, the track rod outside at (xt, zt).

    Soft joints: the wishbones bear H z2/(z2 - z1) inward and H z1/(z2 - z1) outward, each on two bushes k; the carrier goes along, and turns
    about the joints' vertical line until the track rod, which bears nothing, keeps its length. Soft frame that carries everything: it goes
    sideways by 2 H/(4 ky), and rolls by 2 H h/(4 kz b^2) about the height h of its mounts at y = +-b; the wheels go with it.
    """
    z1, z2, xt, zt, k, ky, kz, h, b = 200, 420, -120, 300, 2000, 4000, 2500, 250, 400
    arm = lambda z: {"kind": "wishbone", "front": [100, 350, z], "rear": [-100, 350, z], "outer": [0, 700, z]}
    layout = axles()["double-wishbone"].layout | {"lower": arm(z1), "upper": arm(z2), "track_rod": {"inner": [xt, 350, zt], "outer": [xt, 700, zt]}}
    layout["wheel"] = layout["wheel"] | {"camber": 0, "toe": 0}
    joints = [f"{place}.{end}" for place in ("lower", "upper") for end in ("front", "rear")]
    soft = layout | {"stiffness": {name: {"radial": k, "axial": k} for name in joints}}
    mounts = [{"at": [x, b, h], "stiffness": [3000, ky, kz]} for x in (200, -200)]
    frame = layout | {"subframe": {"mounts": mounts, "carries": joints + ["rack"]}}
    low, camber = 1000 * z2 / (z2 - z1) / (2 * k), 1000 * (z1 + z2) / (z2 - z1)**2 / (2 * k)
    toe, roll = (camber * (zt - z1) - low) / xt, 2000 * h / (4 * kz * b**2)
    return [(f"by hand, {name}", got, value) for name, part, worked in (
                ("soft joints", soft, [*np.degrees([toe, camber, -toe]), low + camber * z1]),
                ("soft frame", frame, [0, np.degrees(roll), 0, 2000 / (4 * ky) + roll * h]))
            for got, value in zip(readings(Model(part, 0, 0)), worked)]


def pairs(name, sets):
    """(what, got, expected): what must hold whatever the numbers are."""
    every, rigid, soft = (sets[joints, "subframe, rack on it"] for joints in ("everything", "rigid joints", "bushes"))
    for travel, rack in ((0, 0), (40, 20 if every["rack"] else 0)):
        model = Model(every, travel, rack)
        left, right = model.sides
        # The wheels lifted without a load move as the rigid axle does, its rates by re-solving: nothing of the bushes shows.
        lifted, pose = model.answer(held=(1, 1)), model.solver.state(travel=travel, rack=rack)
        toe, camber, centre, contact = left.rates(lifted)
        rigid_rates = rates(model.solver, pose, 0.5, travel=travel, rack=rack)[0]
        yield from ((f"{name}: lifted", *both) for both in zip(np.array([toe, camber, *centre, *contact]) / centre[2],
                                                              [*rigid_rates[15:17], *rigid_rates[:6]]))
        if model.axle.steered:
            for hold in ("member", "row"):
                held = Model(every, travel, rack, hold)
                yield f"{name}: caster", caster(screw(held, np.zeros(held.n))), dict(zip(TABLE, table_row(model.solver, pose)))["caster_deg"]
        # Maxwell: what a load here moves there is what the load there moves here; across the wheels, and forces against couples.
        loads = [[(1000 * axis, s, p)] for s in (left, right) for axis in np.eye(3) for p in (s.contact, s.centre)]
        loads += [couple(model, s, 1e5) for s in (left, right)]
        work = np.array([model.force(load) for load in loads]) @ np.transpose([model.answer(load) for load in loads])
        yield f"{name}: reciprocity", np.abs(work - work.T).max() / np.abs(work).max(), 0
        # Finite displacements under 10 N one way and the other: their difference has no second order.
        small = [(f / 100, s, p) for f, s, p in unit_loads(model, False, True)["side"]]
        one, other = finite(model, small), finite(model, [(-f, s, p) for f, s, p in small])
        yield f"{name}: finite", np.abs((one - other) / 2 - model.answer(small)).max() / np.abs(one).max(), 0
    # Straight ahead and braked, the right wheel is the left one's mirror image, skew bushes and all.
    model = Model(every, 40, 0)
    one, other = (side.rates(model.answer(unit_loads(model, False, True)["brake"])) for side in model.sides)
    yield from ((f"{name}: mirror", *both) for both in zip([one[0], one[1], *one[2]], [-other[0], other[1], *(model.sides[1].image @ other[2])]))
    # Bushes a million times as stiff are rigid joints (whose rows they replace), soft mounts staying.
    hard = {joint: {key: 1e6 * entry[key] for key in ("radial", "axial")} for joint, entry in soft["stiffness"].items()}
    both = [readings(Model(layout, 40, 0))[:8] for layout in (soft | {"stiffness": hard}, rigid)]
    yield from ((f"{name}: hard bushes", *pair) for pair in zip(*both))


# A bush a million times as stiff still gives way by a millionth of a reading; Newton on 10 N ends with the third order; the rest is rounding.
AGREES = {"by hand": 1e-9, "lifted": 1e-8, "caster": 1e-8, "reciprocity": 1e-10, "mirror": 1e-11, "finite": 1e-6, "hard bushes": 1e-5}


def laws(_):
    found = by_hand()
    for name, layout in layouts().items():
        found += pairs(name, {(joints, frame): part for joints, frame, part in cases(layout)})
    return [f"{what}: {got} against {value}" for what, got, value in found
            if not abs(got - value) <= next(t for law, t in AGREES.items() if law in what) * max(1, abs(value))]


if __name__ == "__main__":
    # Poses to 1e-11 mm on bodies of 1e2 mm; caster by differences good to 1e-8.
    main("compliance.json", make, 1e-8, laws)
