"""Reference by a multibody engine: MuJoCo's own constraint Jacobian, driven to zero by Newton steps.

The carrier floats on a free joint at the wheel centre. An arm is a tendon of constant length; a wishbone is a
hinged body whose ball joint is a `connect`; a strut is a slide in the carrier whose end is connected to the top mount.
Velocities, screws and member forces come from the same Jacobian, where the spring is a tendon too. (A spring on
an arm is left to SciPy: no MuJoCo body follows "the smallest rotation".)
"""
import json

import mujoco
import numpy as np

from axles import (COLUMNS, HERE, ROAD_FORCES, STEERING_COLUMNS, Wheel, axles, bump_readings, differences, force_states, grid, main,
                   steering_readings, unit)


class Model:
    def __init__(self, axle):
        self.axle, place = axle, {}
        vec = lambda v: " ".join(repr(float(c)) for c in v)
        site = lambda name, p, origin=np.zeros(3): f'<site name="{name}" pos="{vec(p - origin)}"/>'
        mass = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'
        world, carrier, tendons, equalities = [], [], [], []
        tie = lambda name: tendons.append(f'<spatial name="{name}"><site site="{name}_in"/><site site="{name}_out"/></spatial>')
        self.rows = []  # (name, how many), in the order of the equalities

        def tendon(name, inner):
            world.append(inner)
            tie(name)
            equalities.append(f'<tendon tendon1="{name}"/>')
            self.rows.append((name, 1))

        def connect(name):
            equalities.append(f'<connect site1="{name}_out" site2="{name}_in"/>')
            self.rows.append((name, 3))

        for part in ("lower", "upper"):
            kind = axle.layout[part]["kind"]
            if kind == "wishbone":
                (front, ball), (rear, _) = axle.rods[f"{part}_front"], axle.rods[f"{part}_rear"]
                spring = site("spring_out", axle.spring[1], front) if axle.spring_on == part else ""
                world.append(f'<body pos="{vec(front)}">{mass}<joint type="hinge" axis="{vec(rear - front)}"/>'
                             f'{site(part + "_in", ball, front)}{spring}</body>')
                carrier.append(site(f"{part}_out", ball, axle.centre))
                connect(part)
            elif kind == "arms":
                for name in (f"{part}_front", f"{part}_rear"):
                    carrier.append(site(f"{name}_out", axle.rods[name][1], axle.centre))
                    tendon(name, site(f"{name}_in", axle.rods[name][0]))
            else:
                top, foot = axle.strut
                carrier.append(f'<body pos="{vec(foot - axle.centre)}">{mass}<joint type="slide" axis="{vec(top - foot)}"/>'
                               f'{site("strut_out", top, foot)}</body>')
                world.append(site("strut_in", top))
                connect("strut")
        inner, outer = axle.rods["track_rod"]
        carrier.append(site("track_rod_out", outer, axle.centre))
        tendon("track_rod", f'<body pos="{vec(inner)}">{mass}<joint name="rack" type="slide" axis="0 1 0"/>'
                            f'{site("track_rod_in", inner, inner)}</body>')
        equalities.append('<joint joint1="rack"/>')
        self.rows.append(("rack", 1))
        self.has_spring = "." not in axle.spring_on
        if self.has_spring:
            if axle.spring_on in ("strut", "carrier"):
                carrier.append(site("spring_out", axle.spring[1], axle.centre))
            tendon("spring", site("spring_in", axle.spring[0]))
        self.m = mujoco.MjModel.from_xml_string(f"""<mujoco><option jacobian="dense" gravity="0 0 0"/>
            <compiler angle="radian"/><worldbody>
            <body name="carrier" pos="{vec(axle.centre)}">{mass}<freejoint/>{"".join(carrier)}</body>{"".join(world)}
            </worldbody><tendon>{"".join(tendons)}</tendon><equality>{"".join(equalities)}</equality></mujoco>""")
        self.d = mujoco.MjData(self.m)
        self.eq_rack = [name for name, _ in self.rows].index("rack")

    def look(self):
        """Residual and Jacobian of every equality by name; the carrier's free joint is velocities 0..5."""
        mujoco.mj_fwdPosition(self.m, self.d)
        residual, jacobian = self.d.efc_pos.copy(), self.d.efc_J.reshape(-1, self.m.nv).copy()
        spans, at = {}, 0
        for name, count in self.rows:
            spans[name] = slice(at, at + count)
            at += count
        assert at == len(residual)
        return residual, jacobian, spans

    def solve(self, travel, rack):
        """Newton from wherever the model is now; the spring's row gives way to wheel travel."""
        self.m.eq_data[self.eq_rack, 0] = rack
        for _ in range(30):
            residual, jacobian, spans = self.look()
            keep = len(residual) - self.has_spring  # the spring's row is the last
            residual = np.append(residual[:keep], self.centre[2] - self.axle.centre[2] - travel)
            step = -np.linalg.solve(np.vstack([jacobian[:keep], np.eye(self.m.nv)[2]]), residual)
            mujoco.mj_integratePos(self.m, self.d.qpos, step, 1)
            if np.abs(step).max() < 1e-12:
                break
        self.look()
        assert np.abs(residual).max() < 1e-10, f"travel {travel}, rack {rack}: off by {np.abs(residual).max():.1e}"

    def state(self, travel, rack):
        mujoco.mj_resetData(self.m, self.d)
        for s in np.linspace(0, 1, 4)[1:]:
            self.solve(s * travel, s * rack)

    @property
    def centre(self):
        return self.d.body("carrier").xpos.copy()

    @property
    def rotation(self):
        return self.d.body("carrier").xmat.reshape(3, 3).copy()

    def wheel(self):
        return Wheel(self.axle, self.centre, self.rotation)

    def jacobian_at(self, point):
        """Of a point of the carrier: rows of its velocity, rows of the carrier's angular velocity."""
        v, w = np.zeros((2, 3, self.m.nv))
        mujoco.mj_jac(self.m, self.d, v, w, point, self.m.body("carrier").id)
        return v, w

    def table_row(self, at_rest):
        wheel, (_, jacobian, spans) = self.wheel(), self.look()
        (to_centre, turn), (to_contact, _) = self.jacobian_at(wheel.centre), self.jacobian_at(wheel.contact)
        keep = len(jacobian) - self.has_spring
        bump = np.linalg.solve(np.vstack([jacobian[:keep], to_centre[2]]), np.eye(keep + 1)[-1])
        steering, spring, ratio = [None] * len(STEERING_COLUMNS), None, None
        if self.has_spring:
            spring, ratio = self.d.tendon("spring").length[0], -(jacobian[spans["spring"]] @ bump)[0]
            if self.axle.steered:
                motion = np.linalg.solve(jacobian, np.eye(keep + 1)[spans["rack"].start])
                steering = steering_readings(wheel, to_centre @ motion, turn @ motion)
        n, dn = wheel.n, np.cross(turn @ bump, wheel.n)
        d_toe = np.degrees((dn[0] * n[1] - n[0] * dn[1]) / (n[0]**2 + n[1]**2))
        d_camber = np.degrees(-dn[2] / np.sqrt(1 - n[2]**2))
        moved = wheel.contact - at_rest.contact
        return [wheel.centre[2] - at_rest.centre[2], self.d.joint("rack").qpos[0], wheel.camber, wheel.steer, -wheel.steer, moved[1],
                moved[0], *steering, spring, ratio, d_toe, d_camber, *bump_readings(wheel, to_centre @ bump, to_contact @ bump)]

    def member_forces(self, force):
        """Equality forces that hold the road force: a row's force acts along its gradient, so tension is its negative."""
        wheel, (_, jacobian, spans) = self.wheel(), self.look()
        pushed = np.linalg.solve(jacobian.T, -(self.jacobian_at(wheel.contact)[0].T @ (wheel.road.T @ force)))
        out = {"force": force}
        for name, span in spans.items():
            if name in ("lower", "upper"):  # the ball joint's force on the carrier, resolved along the legs and across them
                ball = self.d.site(f"{name}_out").xpos
                legs = [unit(ball - self.axle.rods[f"{name}_{side}"][0]) for side in ("front", "rear")]
                front, rear, _ = np.linalg.solve(np.transpose([*legs, np.cross(*legs)]), -pushed[span])
                out |= {f"force_{name}_front_n": front, f"force_{name}_rear_n": rear}
            elif name == "strut":
                out["force_strut_side_n"] = np.linalg.norm(pushed[span])
            elif name != "rack":
                out[f"force_{name}_n"] = pushed[span][0] * (1 if name == "spring" else -1)
        return out


def reference(axle):
    model, states, forces = Model(axle), [], []
    model.look()
    at_rest = model.wheel()
    for travel, rack in grid(axle):
        model.state(travel, rack)
        states.append({"travel_mm": travel, "rack_mm": rack, "centre": model.centre, "rotation": model.rotation,
                       "row": model.table_row(at_rest)})
    for travel, rack in force_states(axle) if model.has_spring else ():
        model.state(travel, rack)
        forces.append({"travel_mm": travel, "rack_mm": rack,
                       "members": [model.member_forces(f) for f in np.array(ROAD_FORCES, float)]})
    return {"states": states, "forces": forces}


def disagreements(made):
    """With the SciPy reference, written to 12 digits: positions to 1e-8 mm, rotations to 1e-10, and readings and
    forces, which SciPy gets by differences, to 1e-8 of their size (or 1e-8 where they are below 1)."""
    wrong, scipy = [], json.loads((HERE / "scipy.json").read_text())["axles"]
    for name, ours in made["axles"].items():
        for a, b in zip(ours["states"], scipy[name]["states"], strict=True):
            wrong += differences([p - q for p, q in zip(a["centre"], b["centre"])], [0, 0, 0], 1e-8, f"{name} centre")
            wrong += differences(a["rotation"], b["rotation"], 1e-10, f"{name} rotation")
            known = [i for i, value in enumerate(a["row"]) if value is not None]
            wrong += differences([a["row"][i] for i in known], [b["row"][i] for i in known], 1e-8, f"{name} row")
        for a, b in zip(ours["forces"], scipy[name]["forces"]):
            wrong += differences(a, b, 1e-8, f"{name} forces")
    return [f"{w} (SciPy)" for w in wrong]


def make():
    return {"columns": COLUMNS, "axles": {name: reference(axle) for name, axle in axles().items()}}


if __name__ == "__main__":
    main("mujoco.json", make, 1e-9, disagreements)  # no differencing here: only 12 digits and another processor's rounding
