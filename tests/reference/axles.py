"""What both references share: layouts, states, and the readings of a known pose and known velocities.

Axes and signs: x forward, y to the left, z up, left wheel, mm, degrees. How a pose or a velocity is
*found* is each reference's own affair; nothing here solves anything.
"""
import json
import sys
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
TRAVELS, RACKS = (-60, -30, 0, 30, 60), (-50, -25, 0, 25, 50)
FORCE_STATES = ((0, 0), (-60, 50), (30, -25), (60, -50), (-30, 0))
ROAD_FORCES = ((-3000, 0, 0), (0, 2000, 0), (0, 0, 4000), (-1500, 1200, 3800))
STEERING_COLUMNS = """caster_deg kingpin_inclination_deg scrub_radius_mm caster_offset_ground_mm
    kingpin_offset_wheel_centre_mm caster_offset_wheel_centre_mm screw_pitch_mm_per_rad brake_lever_arm_mm
    drive_lever_arm_mm side_lever_arm_mm wheel_load_lever_arm_mm""".split()
COLUMNS = ["travel_mm", "rack_mm", "camber_deg", "steer_deg", "toe_deg", "track_change_mm", "wheelbase_change_mm",
           *STEERING_COLUMNS, "spring_length_mm", "motion_ratio", "bump_steer_deg_per_mm", "bump_camber_deg_per_mm",
           "roll_centre_height_mm", "support_angle_brake_deg", "support_angle_wheel_centre_deg"]
EX, EY, EZ = np.eye(3)


def unit(v):
    return v / np.linalg.norm(v)


class Axle:
    """A layout as arrays. A wishbone's legs are its two rods; a strut has none."""

    def __init__(self, layout):
        self.layout, self.steered = layout, layout["rack"] is not None
        wheel = layout["wheel"]
        self.centre, self.loaded_radius = np.array(wheel["centre"], float), wheel["loaded_radius"]
        camber, toe = np.radians([wheel["camber"], wheel["toe"]])
        self.spin_axis = np.array([np.sin(toe) * np.cos(camber), np.cos(toe) * np.cos(camber), -np.sin(camber)])
        self.rods = {}  # name: (inner, outer)
        for place in ("lower", "upper"):
            part = layout[place]
            for side in ("front", "rear"):
                if part["kind"] == "arms":
                    self.rods[f"{place}_{side}"] = part[side]["inner"], part[side]["outer"]
                elif part["kind"] == "wishbone":
                    self.rods[f"{place}_{side}"] = part[side], part["outer"]
        self.rods["track_rod"] = layout["track_rod"]["inner"], layout["track_rod"]["outer"]
        self.rods = {name: np.array(ends, float) for name, ends in self.rods.items()}
        self.strut = None
        if layout["upper"]["kind"] == "strut":
            self.strut = np.array([layout["upper"]["top"], layout["upper"]["foot"]], float)
        spring = layout["spring"]
        line = spring if "top" in spring else layout["upper"]  # a strut's spring may leave out its own line
        self.spring_on, self.spring = spring["on"], np.array([line["top"], line["foot"]], float)


def axles():
    """The demo layouts, and variants of them that fill every gap in: lower x upper x steered x spring."""
    layouts = {f.stem: json.loads(f.read_text()) for f in sorted((HERE / "../../demo-layouts").glob("*.json"))}
    assert len(layouts) == 6, "six demo layouts expected in demo-layouts/"
    split = {"kind": "arms", "front": {"inner": [100, 440, 500.5], "outer": [5, 680, 510]},
             "rear": {"inner": [-140, 445, 499.3], "outer": [-50, 686, 512]}}
    shock = {"on": "carrier", "top": [-20, 560, 700], "foot": [-10, 640, 300], "rate": 40}
    tilted = {"on": "strut", "top": [-30, 575, 845], "foot": [-8, 640, 480], "rate": 25}
    for name, demo, changes in (
        ("wishbone-under-arms", "double-wishbone", {"upper": split, "spring": shock | {"on": "upper.front", "foot": [60, 540, 503]}}),
        ("wishbone-under-arms-unsteered", "double-wishbone", {"upper": split, "rack": None, "spring": shock | {"on": "upper.rear", "foot": [-100, 560, 505]}}),
        ("double-wishbone-upper-spring", "double-wishbone", {"spring": shock | {"on": "upper", "foot": [-20, 560, 512]}}),
        ("double-wishbone-unsteered", "double-wishbone", {"rack": None, "spring": shock}),
        ("strut-tilted-spring", "strut", {"spring": tilted}),
        ("strut-unsteered", "strut", {"rack": None, "spring": shock | {"on": "lower", "foot": [-60, 560, 212]}}),
        ("strut-over-arms-unsteered", "strut-over-arms", {"rack": None, "spring": tilted}),
        ("strut-over-arms-arm-spring", "strut-over-arms", {"spring": shock | {"on": "lower.rear", "foot": [-150, 560, 215]}}),
        ("wishbone-over-arms-unsteered", "wishbone-over-arms", {"rack": None, "spring": shock | {"on": "upper", "foot": [-25, 570, 645]}}),
        ("four-arm-carrier-spring", "four-arm", {"spring": shock}),
        ("five-rod-steered", "five-rod-unsteered", {"rack": {"travel": 75, "per_turn": 52, "mount": "subframe"}}),
    ):
        layouts[name] = layouts[demo] | changes
    geometry = "layout wheel lower upper track_rod rack spring".split()  # no prose: rewording a demo's note changes nothing here
    return {name: Axle({"name": name, "note": ""} | {key: layout[key] for key in geometry}) for name, layout in layouts.items()}


def grid(axle):
    return [(t, r) for t in TRAVELS for r in (RACKS if axle.steered else (0,))]


def force_states(axle):
    return [(t, r) for t, r in FORCE_STATES] if axle.steered else [(t, 0) for t in TRAVELS]


class Wheel:
    """The wheel at a pose: spin axis, heading, side direction, contact point."""

    def __init__(self, axle, centre, rotation):
        self.centre, self.n = centre, rotation @ axle.spin_axis
        self.contact = centre - axle.loaded_radius * unit(EZ - self.n[2] * self.n)
        self.ahead = unit(np.cross(self.n, EZ))
        self.side = np.cross(EZ, self.ahead)
        self.road = np.array([self.ahead, self.side, EZ])  # rows: the directions of a road force
        self.camber = -np.degrees(np.arcsin(self.n[2]))
        self.steer = np.degrees(np.arctan2(-self.n[0], self.n[1]))


def steering_readings(wheel, v, w):
    """Columns of the screw with velocity v at the wheel centre and angular velocity w."""
    k = unit(w) * np.sign(w[2])
    v = v / np.linalg.norm(w) * np.sign(w[2])  # 1 rad about k
    on_axis = wheel.centre + np.cross(k, v)
    at_height = lambda z: on_axis + k * (z - on_axis[2]) / k[2]
    ground, hub = at_height(wheel.contact[2]), at_height(wheel.centre[2])
    v_contact = v + np.cross(k, wheel.contact - wheel.centre)
    return [np.degrees(np.arctan2(-k[0], k[2])), np.degrees(np.arctan2(-k[1], k[2])),
            (wheel.contact - ground) @ wheel.side, (ground - wheel.contact) @ wheel.ahead,
            (wheel.centre - hub) @ wheel.side, (hub - wheel.centre) @ wheel.ahead, k @ v,
            -v_contact @ wheel.ahead, -v @ wheel.ahead, -v_contact @ wheel.side, v_contact[2]]


def bump_readings(wheel, v_centre, v_contact):
    """Roll centre height and the two support angles; the contact point moves as a point of the carrier."""
    return [wheel.contact[1] * v_contact[1] / v_contact[2],
            *np.degrees([np.arctan2(v[0], v[2]) for v in (v_contact, v_centre)])]


def rounded(value):
    """For JSON: 12 significant digits, and nothing below 1e-12 (noise)."""
    if isinstance(value, dict):
        return {key: rounded(v) for key, v in value.items()}
    if isinstance(value, (list, tuple, np.ndarray)):
        return [rounded(v) for v in value]
    return float(f"{round(float(value), 12):.12g}") if isinstance(value, float) else value


def differences(a, b, tolerance, path=""):
    """Every place where two JSON values differ by more than tolerance * max(1, |b|)."""
    if isinstance(a, dict) and isinstance(b, dict) and a.keys() == b.keys():
        return [d for key in a for d in differences(a[key], b[key], tolerance, f"{path}/{key}")]
    if isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        return [d for i in range(len(a)) for d in differences(a[i], b[i], tolerance, f"{path}/{i}")]
    if type(a) in (int, float) and type(b) in (int, float):
        return [] if abs(a - b) <= tolerance * max(1, abs(b)) else [f"{path}: {a!r} against {b!r}"]
    return [] if a == b else [f"{path}: {str(a)[:60]} against {str(b)[:60]}"]


def main(file, make, tolerance, further_check=lambda made: []):
    """Write the reference, or with --check compare a fresh one with the file that is there."""
    made, file = rounded(make()), HERE / file
    wrong = further_check(made)
    if "--check" in sys.argv[1:]:
        wrong = differences(made, json.loads(file.read_text()), tolerance) + wrong
    if wrong:
        sys.exit(f"{file.name}: {len(wrong)} values differ, the first: {wrong[0]}")
    if "--check" not in sys.argv[1:]:
        file.write_text(json.dumps(made, separators=(",", ":")) + "\n")
    print(f"{file.name}: {'agrees' if '--check' in sys.argv[1:] else 'written'}")
