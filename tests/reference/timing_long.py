"""Time of the questions that `kernel/examples/long.rs` answers, by SciPy's solvers: one line `name seconds` each, for as much of the question.

 axles  toe and camber alone at 13 travels, of 20 drawn axles, times 500.
 goals  one start, the present axle, by `scipy.optimize.least_squares`, times 16.
"""
import json
import sys
from time import perf_counter

import numpy as np

from axles import axles
from vary_reference import DRAWN_READINGS, goals, looked_at, numbers_of, solver_of

errors, asked = (json.load(open(file)) for file in sys.argv[1:])
layout = axles()["four-arm"].layout
numbers, random, count = numbers_of(errors), np.random.default_rng(1), 20
starts = {travel: solver_of(layout, {}).state(travel=travel, rack=0) for travel in errors["travel"]}
most = np.array(list(numbers.values()))

start = perf_counter()
for _ in range(count):
    solver = solver_of(layout, dict(zip(numbers, random.uniform(-most, most))))
    for travel, x in starts.items():
        looked_at(solver, solver.solve(x, travel=travel, rack=0), DRAWN_READINGS)
print("axles", f"{(perf_counter() - start) * 10_000 / count:.3e}")

start = perf_counter()
goals("four-arm", layout, asked)
print("goals", f"{(perf_counter() - start) * asked['starts']:.3e}")
