"""Reference for the tape network: places of points from distances, by a general least-squares solver.

From the mathematics alone: readings are distances between points, or between the marks straight below them on the floor, and known coordinates, each
with a standard deviation s; the places make sum(((f - value)/s)^2) least. SciPy's trust region finds them, with derivatives by complex steps; the
covariance is the inverse of the normal matrix, and where that has none, of the part of it that NumPy's eigenvectors leave. What all other readings
say of one is found by leaving it out and solving again, not by any formula. Errors of the readings are drawn by NumPy's generator; the joints are
the demos', which are only thought to be somewhere else.
"""
import numpy as np
from scipy.optimize import least_squares

from axles import axles, main

KINDS = ("strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered")
# Marks on the floor, their coordinates known: two on the centre plane, two under the car's side.
MARKS = np.array([[500.0, 0, 0], [-600, 0, 0], [450, 900, 0], [-550, 950, 0]])
OPEN = 50.0  # mm: a standard deviation above it is no measurement
SIGMA = 1.0  # mm: of a tape


def end(point, on_floor=False):
    return {"point": point, "floor": on_floor}


def readings(kind, points, joints, random):
    """Every joint from three or four marks and from its neighbours, some by way of their plumb marks; the marks' coordinates; one height open."""
    tapes = []
    tape = lambda a, b: tapes.append({"ends": [a, b]})
    for mark in range(4):
        for axis in range(3):
            tapes.append({"coordinate": [mark, axis], "error": 0.05})
    for at in range(joints):
        joint = 4 + at
        if kind == "open" and at == 0:
            # Only its plumb mark is known, and nothing of its height.
            for mark in range(4):
                tape(end(joint, True), end(mark))
            continue
        for mark in random.permutation(4)[: 3 if at % 3 == 0 else 4]:
            tape(end(joint), end(int(mark)))
        if at % 2 == 0:
            tape(end(joint), end(joint, True))  # its height over its own mark
        if at > 1:
            tape(end(joint), end(joint - 1))
    truth = [value(tape, points) for tape in tapes]
    for tape, true in zip(tapes, truth):
        tape.setdefault("error", SIGMA)
        tape["value"] = true + (0 if "coordinate" in tape else random.normal(0, tape["error"]))
        if "coordinate" in tape:
            tape["value"] = float(np.round(tape["value"], 6))
    if kind == "wrong":
        candidates = [i for i, tape in enumerate(tapes) if "ends" in tape and tape["ends"][1]["point"] < 4]
        tapes[candidates[len(candidates) // 2]]["value"] += 20
    return tapes


def value(tape, points):
    """What a reading would be with the points at places; complex numbers go through, and a last axis of many places at once."""
    if "coordinate" in tape:
        point, axis = tape["coordinate"]
        return points[point][axis]
    a, b = (points[e["point"]] * np.array([1, 1, 0 if e["floor"] else 1]).reshape((3,) + (1,) * (points.ndim - 2)) for e in tape["ends"])
    d = a - b
    return np.sqrt((d * d).sum(axis=0))


def solve(tapes, start):
    residuals = lambda x: np.array([(value(tape, x) - tape["value"]) / tape["error"] for tape in tapes])
    shaped = lambda x: x.reshape((-1, 3) + x.shape[1:])

    def slopes(x):
        # All complex steps at once: a column a coordinate.
        return residuals(shaped(x[:, None] + 1e-30j * np.eye(len(x)))).imag / 1e-30

    x = start.ravel()
    for _ in range(3):  # anew from where it ended: the trust region's own tests are on relative changes
        found = least_squares(lambda x: residuals(shaped(x)), x, jac=slopes, method="trf", xtol=1e-13, ftol=1e-15, gtol=1e-13, max_nfev=200)
        x = found.x
    return shaped(x), residuals(shaped(x)), slopes(x)


def errors(slopes):
    """Standard deviations of the coordinates, None where they are open."""
    values, vectors = np.linalg.eigh(slopes.T @ slopes)
    seen = values > 1e-9 * values.max()
    variance = (vectors[:, seen] ** 2 / values[seen]).sum(axis=1)
    unseen = (vectors[:, ~seen] ** 2).sum(axis=1)
    return [None if gone > 1e-12 or var > OPEN**2 else float(np.sqrt(var)) for var, gone in zip(variance, unseen)]


def network(kind, axle, seed):
    random = np.random.default_rng(seed)
    rods = list(axle.rods.values()) + ([] if axle.strut is None else [axle.strut])
    # A wishbone's two rods share their ball joint.
    joints = np.unique(np.array([p for rod in rods for p in rod]), axis=0)
    points = np.vstack([MARKS, joints])
    tapes = readings(kind, points, len(joints), random)
    start = points + np.vstack([np.zeros((4, 3)), random.uniform(-25, 25, joints.shape)])
    start = np.round(start, 3)
    places, left, slopes = solve(tapes, start)
    sigma = errors(slopes)
    others = []
    for at, tape in enumerate(tapes):
        rest = tapes[:at] + tapes[at + 1:]
        without, _, rest_slopes = solve(rest, places)
        # A reading that alone ties something leaves nothing to be said of it.
        alone = np.linalg.matrix_rank(rest_slopes, tol=1e-4) < np.linalg.matrix_rank(slopes, tol=1e-4)
        others.append(None if alone else tape["value"] - value(tape, without))
    # Where a coordinate is open, the search ends anywhere.
    known = [None if deviation is None else float(x) for x, deviation in zip(places.ravel(), sigma)]
    return {"kind": kind, "points": start.tolist(), "tapes": tapes, "places": np.array(known, dtype=object).reshape(-1, 3).tolist(),
            "errors": np.array(sigma, dtype=object).reshape(-1, 3).tolist(),
            "left": [-r * tape["error"] for r, tape in zip(left, tapes)], "chi2": float(left @ left),
            "spare": int(len(tapes) - np.linalg.matrix_rank(slopes, tol=1e-4)), "others": others}


def make():
    known = axles()
    return {name: [network(kind, known[name], seed) for seed, kind in enumerate(("good", "wrong", "open"))] for name in KINDS}


if __name__ == "__main__":
    main("tape.json", make, 1e-6)
