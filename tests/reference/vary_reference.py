"""Reference for spread, goals and fit: by SciPy's least squares and NumPy's random numbers, on poses from length equations.

Source: design contract of these questions alone (what an error, an aim, a pull and a prior are); equations and readings as in
`changed.py`, slopes as in `scipy_reference.py` (differences of re-solved poses, Romberg extrapolated), least values by
`scipy.optimize.least_squares` (trust region reflective, three-point Jacobian), random numbers by NumPy's PCG64.
Grade: computed, no published source.

 1. Spread. An error is +-e of each coordinate of a point, or of a length: uniform, sigma e / sqrt 3, or normal, sigma e / 2.
    `sigma` is the root of the sum of (slope sigma)^2, `worst` the sum of |slope| e. `drawn`: mean and sigma of `count` axles.
    A sample of n knows a mean to sigma / sqrt n (here 2 % of sigma) and a sigma to sigma / sqrt 2n (1.4 %).
    `samples`: the same axles on every machine. Numbers of a seed by SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014, fig. 14), a
    unit one its upper 53 bits / 2^53, uniform 2 u - 1, normal the sum of twelve units less 6; points in the order of their names, x y z.
    `hash`: FNV-1a, 64 bits (G. Fowler, L. C. Noll, K.-P. Vo; RFC 9923), over the eight bytes, least first, of each error of 1000 axles.
 2. Goals. Residuals: (outcome - value) / tolerance; the distance outside a range / tolerance, or / a tenth of its width where none
    is given; a rod's mm outside its range / 1 mm; 0.01 for each mm or degree from the present value. `sum`: of their squares.
 3. Fit. Residuals: (outcome - value) / error; (number - measured) / its sigma; `wheel.camber` and `wheel.toe` have none of their own.
    `left`: the root of the diagonal of the inverse normal matrix at the least. `ensemble`: means and sigmas of axles that have these
    readings, without any slope: drawn somewhat wider than that matrix says, each weighted by exp(-chi2/2) over how often it is drawn
    (importance sampling; C. Robert, G. Casella, *Monte Carlo Statistical Methods*, 2004, 3.3). `effective`: (sum w)^2 / sum w^2, the
    number of axles of equal weight that say as much; so many know a mean to sigma / sqrt n, a sigma to sigma / sqrt 2n.
"""
import struct

import numpy as np
from scipy.optimize import least_squares

from axles import STEERING_COLUMNS, Axle, axles, main, steering_readings
from changed import Changed
from scipy_reference import derivative, rates, twist
from sensitivity_reference import design_parameters, redrawn

SPREAD_READINGS = ("toe_deg", "camber_deg", "caster_deg", "kingpin_offset_wheel_centre_mm")
DRAWN_READINGS = SPREAD_READINGS[:2]
TRAVELS, STEP, COUNT, SEED = (-40, 0, 40), 0.5, 2500, 20
READ, PULL = 20, 0.01
WIDER, AXLES, ENSEMBLE = 1.3, 2000, "strut"

ERRORS = {
    "strut": ({"lower.outer": 1, "upper.top": 2, "track_rod.inner": 1.5}, {"track_rod": 1, "lower.front": 0.5}),
    "double-wishbone": ({"lower.front": 1.5, "upper.outer": 1, "track_rod.outer": 0.5}, {"upper.rear": 0.7, "track_rod": 0.4}),
    "four-arm": ({"lower.front.inner": 2, "upper.rear.outer": 1, "track_rod.inner": 1}, {"lower.rear": 0.5, "upper.front": 0.8}),
}
DRAWN = ("double-wishbone", "build")


class Quick(Changed):
    """The same equations by Newton's method, its slopes differences at a pose nearby, kept for all axles of a layout's kind and hold."""
    known = {}

    def solve(self, start, **hold):
        x, key = start, (self.axle.layout["name"], *hold, *np.round(start / 10))
        for _ in range(40):
            if key not in self.known:
                slopes = np.transpose([(self.equations(x + row, hold) - self.equations(x - row, hold)) / 2e-3 for row in np.eye(7) * 1e-3])
                self.known[key] = np.linalg.inv(slopes)
            off = self.equations(x, hold)
            if np.abs(off).max() < 1e-12:
                return x
            x = x - self.known[key] @ off
        if np.abs(off).max() < 1e-11:
            return x
        raise ArithmeticError(f"can't be assembled: {hold}, off by {np.abs(off).max():.1e}")


def solver_of(layout, numbers):
    """The left wheel with so much added to each number."""
    design, changes = set(design_parameters(layout)), {}
    for name, by in numbers.items():
        if name in design:
            layout = redrawn(layout, name, by)
        else:
            changes[name] = by
    return Quick(Axle(layout), changes, 1)


def number_of(layout, name):
    """What a number of the layout is; what is built otherwise starts from 0."""
    if name not in design_parameters(layout):
        return 0.0
    for key in name.split("."):
        layout = layout[{"x": 0, "y": 1, "z": 2}.get(key, key) if isinstance(layout, list) else key]
    return float(layout)


def looked_at(solver, x, readings):
    wheel = solver.wheel(x)
    at = {"toe_deg": -wheel.steer, "camber_deg": wheel.camber}
    if set(readings) - set(at):
        at |= dict(zip(STEERING_COLUMNS, steering_readings(wheel, *twist(rates(solver, x, STEP, rack=x[6], spring=solver.spring_length(x))[0]))))
    return np.array([at[reading] for reading in readings])


def outcomes(solver, asked):
    """Readings at (reading, travel, rack)s."""
    out, poses = [], {}
    for reading, travel, rack in asked:
        if (travel, rack) not in poses:
            poses[travel, rack] = solver.state(travel=travel, rack=rack)
        out.append(looked_at(solver, poses[travel, rack], [reading])[0])
    return np.array(out)


def split_mix(seed):
    """Units of a seed."""
    mask = 2 ** 64 - 1
    while True:
        seed = (seed + 0x9E3779B97F4A7C15) & mask
        z = ((seed ^ seed >> 30) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ z >> 27) * 0x94D049BB133111EB) & mask
        yield ((z ^ z >> 31) >> 11) / 2 ** 53


def fnv(numbers):
    """Hash of floats, bit for bit."""
    value = 0xCBF29CE484222325
    for byte in struct.pack(f"<{len(numbers)}d", *numbers):
        value = (value ^ byte) * 0x100000001B3 % 2 ** 64
    return f"{value:016x}"


def samples(name, layout, distribution):
    """What is drawn with a seed, and what the first axles read."""
    errors = {"kind": "build", "points": {"lower.front": 1.5, "track_rod.outer": 0.7}, "distribution": distribution,
              "travel": list(TRAVELS), "rack": 0}
    numbers, units = numbers_of(errors), split_mix(SEED)

    def drawn_once(most):
        if distribution == "uniform":
            return most * (2 * next(units) - 1)
        total = 0.0
        for _ in range(12):
            total += next(units)
        return sigma_of(distribution, most) * (total - 6)
    drawn = [[drawn_once(most) for most in numbers.values()] for _ in range(1000)]
    starts = {travel: solver_of(layout, {}).state(travel=travel, rack=0) for travel in TRAVELS}
    axles = [solver_of(layout, dict(zip(numbers, errors))) for errors in drawn[:READ]]
    read = [[looked_at(axle, axle.solve(x, travel=travel, rack=0), DRAWN_READINGS) for axle in axles] for travel, x in starts.items()]
    return {"axle": name, "errors": errors, "seed": SEED, "hash": fnv([error for axle in drawn for error in axle]),
            "rows": [[travel, reading, [axle[j] for axle in read[i]]] for i, travel in enumerate(TRAVELS) for j, reading in enumerate(DRAWN_READINGS)]}


def sigma_of(distribution, most):
    return most / 3 ** 0.5 if distribution == "uniform" else most / 2


def numbers_of(errors):
    """Each number with its error: coordinates, then lengths."""
    prefix = "build." if errors["kind"] == "build" else ""
    points = {f"{prefix}{point}.{c}": most for point, most in errors["points"].items() for c in "xyz"}
    return points | {f"length.{rod}": most for rod, most in errors.get("lengths", {}).items()}


def spread(name, layout, kind):
    points, lengths = ERRORS[name]
    errors = {"kind": kind, "points": points, "distribution": "uniform" if kind == "build" else "normal", "travel": list(TRAVELS), "rack": 0}
    if kind == "build":
        errors["lengths"] = lengths
    numbers, design = numbers_of(errors), solver_of(layout, {})
    starts = {travel: design.state(travel=travel, rack=0) for travel in TRAVELS}
    sigmas = np.array([sigma_of(errors["distribution"], most) for most in numbers.values()])
    rows = []
    for travel, start in starts.items():
        def look(number, by):
            solver = solver_of(layout, {number: by})
            return looked_at(solver, solver.solve(start, travel=travel, rack=0), SPREAD_READINGS)
        values = looked_at(design, start, SPREAD_READINGS)
        slopes = np.array([derivative(lambda by: look(number, by), STEP)[0] for number in numbers])
        parts = zip(SPREAD_READINGS, values, np.sqrt(((slopes.T * sigmas) ** 2).sum(axis=1)), np.abs(slopes.T) @ list(numbers.values()))
        rows += [[travel, *part] for part in parts]
    out = {"axle": name, "errors": errors, "rows": rows}
    if (name, kind) == DRAWN:
        out["drawn"] = drawn(layout, numbers, starts)
    return out


def drawn(layout, numbers, starts):
    """Mean and sigma of axles with uniform errors."""
    random, most = np.random.default_rng(SEED), np.array(list(numbers.values()))
    found = []
    for _ in range(COUNT):
        solver = solver_of(layout, dict(zip(numbers, random.uniform(-most, most))))
        found.append([looked_at(solver, solver.solve(x, travel=travel, rack=0), DRAWN_READINGS) for travel, x in starts.items()])
    found = np.array(found)
    means, sigmas = found.mean(axis=0), found.std(axis=0, ddof=1)
    rows = [[travel, reading, means[i, j], sigmas[i, j]] for i, travel in enumerate(starts) for j, reading in enumerate(DRAWN_READINGS)]
    return {"count": COUNT, "rows": rows}


GOALS = [
    ("four-arm", {  # values only; toe at each travel its own
        "free": [{"parameter": "track_rod.inner.z", "range": [285, 310]}, {"parameter": "track_rod.inner.y", "range": [355, 390]},
                 {"parameter": "upper.front.outer.y", "range": [655, 690]}],
        "aims": [{"reading": "toe_deg", "travel": [-40, -20, 20, 40], "value": [0.12, 0.1, 0.12, 0.17], "tolerance": 0.02},
                 {"reading": "kingpin_offset_wheel_centre_mm", "value": 14, "tolerance": 0.5}]}),
    ("strut", {  # values only, a rod kept in a range that holds it back
        "free": [{"parameter": "lower.outer.z", "range": [180, 215]}, {"parameter": "upper.top.y", "range": [545, 580]},
                 {"parameter": "track_rod.inner.z", "range": [235, 265]}],
        "aims": [{"reading": "camber_deg", "travel": [-40, 40], "value": [-0.1, -0.9], "tolerance": 0.1},
                 {"reading": "kingpin_inclination_deg", "value": 13.2, "tolerance": 0.1},
                 {"reading": "toe_deg", "travel": [-30, 30], "value": 0.1, "tolerance": 0.02}],
        "lengths": [{"member": "track_rod", "range": [359.9, 360.3]}]}),
    ("double-wishbone", {  # a range without a tolerance; two boxes whose ends hold
        "free": [{"parameter": "upper.front.z", "range": [495, 503]}, {"parameter": "upper.outer.y", "range": [680, 686]},
                 {"parameter": "track_rod.inner.z", "range": [220, 232]}, {"parameter": "upper.rear.z", "range": [490, 502]}],
        "aims": [{"reading": "toe_deg", "travel": [-40, -20, 20, 40], "range": [0.09, 0.14]},
                 {"reading": "camber_deg", "travel": [-40, 40], "value": [0.3, -1.9], "tolerance": 0.1},
                 {"reading": "kingpin_offset_wheel_centre_mm", "value": 50, "tolerance": 1}]}),
]


def places(aim):
    """(reading, travel, rack) and what is wanted there."""
    travels = aim.get("travel", 0)
    travels = travels if isinstance(travels, list) else [travels]
    value = aim.get("value")
    values = value if isinstance(value, list) else [value] * len(travels)
    return [((aim["reading"], travel, aim.get("rack", 0)), value) for travel, value in zip(travels, values)]


def outside(value, low, high):
    return max(low - value, 0) + max(value - high, 0)


def goals(name, layout, asked):
    free = [entry["parameter"] for entry in asked["free"]]
    now, bounds = np.array([number_of(layout, number) for number in free]), np.transpose([entry["range"] for entry in asked["free"]])

    def residuals(numbers):
        solver, out = solver_of(layout, dict(zip(free, numbers - now))), []
        for aim in asked["aims"]:
            at, wanted = zip(*places(aim))
            for is_now, value in zip(outcomes(solver, at), wanted):
                if "range" in aim:
                    low, high = aim["range"]
                    out.append(outside(is_now, low, high) / aim.get("tolerance", (high - low) / 10))
                else:
                    out.append((is_now - value) / aim["tolerance"])
        for kept in asked.get("lengths", []):
            rod = list(solver.axle.rods).index(kept["member"].replace(".", "_"))
            out.append(outside(solver.length[rod], *kept["range"]))
        return np.array([*out, *(PULL * (numbers - now))])
    found = least_squares(residuals, now, jac="3-point", bounds=bounds, x_scale=10, ftol=1e-15, xtol=1e-13, gtol=1e-13, max_nfev=200)
    return {"axle": name, "question": asked | {"starts": 6, "seed": 1}, "numbers": found.x, "sum": 2 * found.cost}


RIG = [("toe_deg", travel, 0, 0.01) for travel in (-50, -30, -10, 10, 30, 50)] + [("camber_deg", travel, 0, 0.03) for travel in (-40, 0, 40)]
FITS = [  # axle, errors, what the real axle has more, readings with errors
    ("four-arm", {"kind": "design", "points": {"track_rod.inner": 3, "lower.front.inner": 2}, "distribution": "normal"},
     {"track_rod.inner.z": 1.8, "lower.front.inner.y": -1.1, "wheel.toe": 0.06, "wheel.camber": -0.2},
     RIG + [("toe_deg", 0, 20, 0.03), ("caster_deg", 0, 0, 0.05)]),
    ("strut", {"kind": "build", "points": {"track_rod.outer": 2}, "lengths": {"lower.front": 1}, "distribution": "uniform"},
     {"build.track_rod.outer.z": 1.3, "length.lower.front": 0.6, "wheel.toe": -0.04}, RIG),
]


def fit(name, layout, errors, real, rig):
    priors = numbers_of(errors)
    numbers = [*priors, "wheel.camber", "wheel.toe"]
    measured = np.array([number_of(layout, number) for number in numbers])
    sigmas = np.array([sigma_of(errors["distribution"], most) for most in priors.values()])
    asked, error = [at[:3] for at in rig], np.array([at[3] for at in rig])
    values = outcomes(solver_of(layout, real), asked).round(2)  # as a rig prints them

    def residuals(x):
        solver = solver_of(layout, dict(zip(numbers, x - measured)))
        return np.append((outcomes(solver, asked) - values) / error, (x - measured)[:-2] / sigmas)
    found = least_squares(residuals, measured, jac="3-point", x_scale=[1.0] * len(priors) + [0.1, 0.1], ftol=1e-15, xtol=1e-13, gtol=1e-13)
    question = {"values": [{"reading": r, "travel": t, "rack": rack, "value": v, "error": e} for (r, t, rack, e), v in zip(rig, values.tolist())],
                "errors": errors}
    covariance = np.linalg.inv(found.jac.T @ found.jac)
    out = {"axle": name, "question": question, "parameters": numbers, "numbers": found.x, "chi2": 2 * found.cost,
           "left": np.sqrt(np.diag(covariance))}
    return out | ({"ensemble": ensemble(residuals, found, covariance)} if name == ENSEMBLE else {})


def ensemble(residuals, found, covariance):
    """Axles that have the readings, weighted."""
    random, wide = np.random.default_rng(SEED), WIDER * np.linalg.cholesky(covariance)
    axles, weights = [], []
    for z in random.standard_normal((AXLES, len(found.x))):
        axles.append(found.x + wide @ z)
        weights.append((found.cost - (residuals(axles[-1]) ** 2).sum() / 2) + z @ z / 2)
    axles, weights = np.array(axles), np.exp(weights)
    weights /= weights.sum()
    means = weights @ axles
    return {"effective": 1 / (weights ** 2).sum(), "means": means, "sigmas": np.sqrt(weights @ (axles - means) ** 2)}


def make():
    every = {name: axle.layout for name, axle in axles().items()}
    return {"layouts": {name: every[name] for name in ERRORS},
            "spread": [spread(name, every[name], kind) for name in ERRORS for kind in ("design", "build")],
            "samples": [samples("double-wishbone", every["double-wishbone"], distribution) for distribution in ("uniform", "normal")],
            "goals": [goals(name, every[name], asked) for name, asked in GOALS],
            "fit": [fit(name, every[name], *rest) for name, *rest in FITS]}


def laws(made):
    """An end of a box holds in the third goal: else it would show nothing of boxes."""
    bounds = [entry["range"] for entry in made["goals"][2]["question"]["free"]]
    ends = sum(min(abs(number - low), abs(number - high)) < 1e-4 for number, (low, high) in zip(made["goals"][2]["numbers"], bounds))
    return [] if ends else ["no end of a box holds"]


if __name__ == "__main__":
    # Where a least value lies is known only to what its sum can tell: 1e-7 mm and less.
    main("vary.json", make, 1e-6, laws)
