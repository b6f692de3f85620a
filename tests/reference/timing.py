"""Time of one warm solve, pose only, on the four-arm demo: one line `name seconds` for each reference."""
from itertools import cycle
from statistics import median
from time import perf_counter

from axles import axles
from mujoco_reference import Model
from scipy_reference import Solver

axle = axles()["four-arm"]
solver, model = Solver(axle), Model(axle)
x = solver.state(travel=20, rack=10)
model.state(20, 10)


def scipy_solve(travel, rack):
    global x
    x = solver.solve(x, travel=travel, rack=rack)


for name, solve in (("scipy", scipy_solve), ("mujoco", model.solve)):
    times = []
    for _, (travel, rack) in zip(range(1000), cycle([(21, 10.5), (20, 10)])):  # a slider's step, to and fro
        start = perf_counter()
        solve(travel, rack)
        times.append(perf_counter() - start)
    print(name, f"{median(times):.3e}")
