"""The forecast of OddsBench in vectorised NumPy: 150 holes, boxes that clump, 10,000 draws. Prints milliseconds and results."""
import time

import numpy as np


def forecast(draws, seed):
    rng = np.random.default_rng(seed)
    i = np.arange(150)
    shape = 0.3 + (i % 20) * 0.2
    rate = 40000.0 + 1000.0 * i
    boxes = np.array([10, 50, 100, 200, 400])
    lengths = np.cumsum(rng.gamma(1.5, 1 / 1.5, size=(draws, boxes[-1])), axis=1)
    rates = rng.gamma(shape, 2500.0 / rate, size=(draws, 150))
    with np.errstate(divide="ignore"):
        when = rng.exponential(size=(draws, 150)) / rates
    longest = when.max(axis=1)
    complete = [float((longest <= lengths[:, b - 1]).mean()) for b in boxes]
    filled = [float((when <= lengths[:, b - 1, None]).sum(axis=1).mean()) for b in boxes]
    return complete, filled


for _ in range(2):
    forecast(10000, 1)
best = float("inf")
for seed in range(5):
    start = time.perf_counter()
    result = forecast(10000, seed)
    best = min(best, (time.perf_counter() - start) * 1000)
print(best, *result)
