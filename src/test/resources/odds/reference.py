"""Values that OddsReferenceTest must find again, computed by NumPy and SciPy: a second implementation of docs/models.md
that shares no code with the first. `python3 reference.py > reference.csv` writes them; it was run with SciPy 1.17.1.
"""
import numpy as np
from scipy import optimize, special, stats

out = []


def say(key, value):
    out.append((key, float(value)))


# Rates as Gamma distributions
for shape, rate in [(0.02, 3000.0), (0.5, 500.0), (3.2, 80000.0), (250.0, 1000.0)]:
    name = f"gamma {shape} {rate}"
    for p in (0.05, 0.5, 0.95):
        say(f"{name} quantile {p}", stats.gamma.ppf(p, shape, scale=1 / rate))
    say(f"{name} exactly 2", stats.nbinom.pmf(2, shape, rate / (rate + 2500)))
    say(f"{name} at least one", 1 - stats.nbinom.pmf(0, shape, rate / (rate + 2500)))

# Exact intervals and tests
for count in (0, 1, 5, 40, 700):
    say(f"count {count} low", stats.chi2.ppf(0.05, 2 * count) / 2 if count else 0)
    say(f"count {count} high", stats.chi2.ppf(0.95, 2 * count + 2) / 2)
for hit, of in ((0, 59), (4, 40), (40, 40), (1, 3000)):
    say(f"share {hit}/{of} low", stats.beta.ppf(0.05, hit, of - hit + 1) if hit else 0)
    say(f"share {hit}/{of} high", stats.beta.ppf(0.95, hit + 1, of - hit) if hit < of else 1)
for count, mean in ((0, 2.0), (1, 2.0), (9, 3.5), (200, 170.0)):
    say(f"poisson at least {count} of {mean}", stats.poisson.sf(count - 1, mean))
for hit, of, share in ((0, 10, 0.1), (3, 10, 0.1), (14, 2500, 0.004)):
    say(f"binomial at least {hit} of {of} at {share}", stats.binom.sf(hit - 1, of, share))

# Counts that clump
for mean, size in ((5.0, 2.0), (0.3, 0.4), (120.0, 7.5)):
    name = f"nb {mean} {size}"
    d = stats.nbinom(size, size / (size + mean))
    for k in (0, 1, 7, 130):
        say(f"{name} exactly {k}", d.pmf(k))
        say(f"{name} at most {k}", d.cdf(k))
        say(f"{name} at least {k}", d.sf(k - 1))
    for p in (0.01, 0.05, 0.5, 0.95, 0.999):
        say(f"{name} quantile {p}", d.ppf(p))

# A look at the ends of a closed box
for coins, a, b, seen, hit in ((2500, 1.7, 400.0, 48, 3), (2500, 1.7, 400.0, 48, 0), (60, 0.5, 2.0, 20, 20), (100, 3.0, 0.5, 10, 2)):
    name = f"enders {coins} {a} {b} {seen} {hit}"
    d = stats.betabinom(coins - seen, a + hit, b + seen - hit)
    say(f"{name} mean", hit + d.mean())
    say(f"{name} before", stats.betabinom(coins, a, b).mean())
    for p in (0.05, 0.1, 0.5, 0.9, 0.95):
        say(f"{name} quantile {p}", hit + d.ppf(p))

# The prior of enders, by likelihood over the grid of the model
whole = [(2500, k) for k in (12, 11, 3, 4, 20, 18, 7, 8, 15, 14, 2, 3, 0, 0)] + [(1250, 9), (1000, 1)]
total, coins = sum(k for _, k in whole), sum(n for n, _ in whole)
best = (-np.inf, 0, 0)
for i in range(31):
    mean = min(0.9, total / coins * np.exp(2 * (2 * i / 30 - 1)))
    for j in range(31):
        weight = np.exp(np.linspace(np.log(10), np.log(100000), 31)[j])
        log = sum(special.betaln(k + mean * weight, n - k + (1 - mean) * weight) - special.betaln(mean * weight, (1 - mean) * weight)
                  for n, k in whole)
        log += stats.norm.logpdf(np.log(weight), np.log(400), 2)
        if log > best[0]:
            best = (log, mean * weight, (1 - mean) * weight)
say("ender prior a", best[1])
say("ender prior b", best[2])

# Varieties: chance in the next hundred, Jeffreys
for hit, of in ((0, 59), (4, 40), (7, 7)):
    a, b = hit + 0.5, of - hit + 0.5
    say(f"variety {hit}/{of} next 25", 1 - np.exp(special.betaln(a, b + 25) - special.betaln(a, b)))

# A trend: quasi-Poisson regression on time
trends = {
    "falling": ([0, 45, 90, 150, 200, 260, 330, 400, 470, 560, 640, 730], [22, 30, 9, 14, 25, 8, 12, 3, 9, 2, 7, 1], [1] * 12),
    "rising": ([0, 30, 70, 110, 170, 240, 300, 365, 420], [3, 4, 3, 6, 7, 6, 9, 11, 12], [1, 1, 0.5, 1, 1, 0.8, 1, 1, 1]),
    "level": ([0, 10, 20, 30, 100, 150, 200, 250, 300, 360], [8, 0, 22, 3, 14, 1, 9, 17, 2, 10], [1] * 10),
}
for name, (days, found, full) in trends.items():
    t = np.array(days) / 365.25
    y, full = np.array(found, float), np.array(full)

    def deviance(beta):
        mean = full * np.exp(beta[0] + beta[1] * t)
        return np.sum(mean - y * np.log(mean))

    beta = optimize.minimize(deviance, [np.log(y.sum() / full.sum()), 0], method="Nelder-Mead",
                             options={"xatol": 1e-11, "fatol": 1e-13, "maxiter": 20000, "maxfev": 20000}).x
    mean = full * np.exp(beta[0] + beta[1] * t)
    x = np.stack([np.ones_like(t), t], 1)
    cov = np.linalg.inv(x.T @ (x * mean[:, None]))
    scale = max(1, np.sum((y - mean) ** 2 / mean) / (len(y) - 2))
    spread = np.sqrt(cov[1, 1] * scale)
    say(f"trend {name} per year", np.exp(beta[1]))
    say(f"trend {name} low", np.exp(beta[1] - stats.norm.ppf(0.95) * spread))
    say(f"trend {name} high", np.exp(beta[1] + stats.norm.ppf(0.95) * spread))

# Clustering: index of dispersion, and the best window by two million scatters
random = np.random.default_rng(5)
rolls = {"spread": [0, 1, 0, 2, 1, 0, 0, 1, 0, 1, 1, 0], "close": [0, 0, 5, 4, 0, 0, 1, 0, 0, 0, 0, 0]}


def windows(counts, w):
    sums = np.concatenate([np.zeros((len(counts), 1)), np.cumsum(counts, 1)], 1)
    return (sums[:, w:] - sums[:, :-w]).max(1)


for name, per in rolls.items():
    per = np.array(per)
    n, m = len(per), per.sum()
    d = np.sum((per - per.mean()) ** 2) / per.mean()
    say(f"cluster {name} d", d)
    say(f"cluster {name} p", stats.chi2.sf(d, n - 1))
    drawn = random.multinomial(m, [1 / n] * n, 1_000_000)
    tails, held = [], []
    for w in range(1, 7):
        best_drawn, own = windows(drawn, w), windows(per[None], w)[0]
        say(f"cluster {name} window {w}", own)
        say(f"cluster {name} window {w} chance", np.mean(best_drawn >= own))
        tail = np.array([np.mean(best_drawn >= v) for v in range(m + 1)])
        tails.append(tail[best_drawn.astype(int)])
        held.append(tail[int(own)])
    say(f"cluster {name} widest", 1 + int(np.argmin(held)))
    say(f"cluster {name} widest chance", np.mean(np.min(tails, 0) <= min(held)))

# A mixture of dates under a Dirichlet-multinomial
usual = {"1944": 60, "1945": 50, "1946": 40, "1957-D": 80, "1958-D": 70, "1919-S": 1}
for name, here in {"usual": {"1944": 3, "1957-D": 5, "1958-D": 3, "1945": 2}, "odd": {"1944": 6, "1946": 5, "1957-D": 1}}.items():
    dates = sorted(set(usual) | set(here))
    alpha = np.array([usual.get(d, 0) + 0.5 for d in dates])
    mine = np.array([here.get(d, 0) for d in dates])

    def log(counts):
        return np.sum(special.gammaln(counts + alpha) - special.gammaln(counts + 1.0), -1)

    drawn = np.array([random.multinomial(mine.sum(), s) for s in random.dirichlet(alpha, 200_000)])
    say(f"mixture {name} p", np.mean(log(drawn) <= log(mine) + 1e-9))

# Gamma draws: their distribution function
for shape in (0.05, 0.4, 1.0, 3.7, 60.0):
    for p in (0.1, 0.25, 0.5, 0.75, 0.9):
        say(f"draw {shape} below {p}", stats.gamma.ppf(p, shape))

# How common each issue is: Poisson regression with a ridge, shares drawn towards what was found
issues = [  # year, mint, mintage, found, coins
    (1910, "P", 146801218, 3, 400000), (1910, "S", 6045000, 0, 400000), (1919, "P", 392021000, 14, 400000),
    (1926, "D", 28020000, 1, 400000), (1936, "P", 309632000, 31, 400000), (1939, "S", 52070000, 4, 400000),
    (1944, "D", 430578000, 60, 250000), (1946, "S", 198100000, 25, 250000), (1955, "D", 563257500, 71, 250000),
    (1957, "D", 1051342000, 190, 250000), (1958, "P", 252525000, 44, 250000), (1931, "S", 866000, 0, 400000)]
mints = sorted({m for _, m, _, _, _ in issues})
x = np.array([[1, (y - 1940) / 10, np.log(n / 1e8)] + [float(m == other) for other in mints[1:]] for y, m, n, _, _ in issues])
y = np.array([f for *_, f, _ in issues], float)
coins = np.array([c for *_, c in issues], float)
ridge, centre = np.array([1e-6, 1, 4] + [1] * (len(mints) - 1)), np.array([0, 0, 1] + [0] * (len(mints) - 1))


def penalised(beta):
    mean = coins * np.exp(x @ beta)
    return np.sum(mean - y * np.log(mean)) + 0.5 * np.sum(ridge * (beta - centre) ** 2)


def slope(beta):
    mean = coins * np.exp(x @ beta)
    return x.T @ (mean - y) + ridge * (beta - centre)


start = np.array([np.log(y.sum() / np.sum(coins * np.exp(x[:, 2]))), 0, 1] + [0] * (len(mints) - 1))
beta = optimize.minimize(penalised, start, jac=slope, method="BFGS", options={"gtol": 1e-9}).x
mean = np.exp(x @ beta)
say("issues per decade", np.exp(beta[1]))
for m, effect in zip(mints[1:], beta[3:]):
    say(f"issues mint {m}", np.exp(effect))
weights = [1e3, 3e3, 1e4, 3e4, 1e5, 3e5, 1e6, 3e6, 1e7, 3e7, 1e8]
weight = max(weights, key=lambda w: np.sum(stats.nbinom.logpmf(y, mean * w, w / (w + coins))))
say("issues weight", weight)
for (year, mint, *_), m, f, c in zip(issues, mean, y, coins):
    say(f"issues {year}-{mint} shape", m * weight + f)
    say(f"issues {year}-{mint} rate", weight + c)

# Yield: the grid of the model, source by source
seen = [("A", 1, 1, 10), ("A", 1, 1, 12), ("A", 1, 0.5, 3), ("A", 1, 1, 0), ("B", 1, 1, 2), ("B", 1, 1, 5), ("B", 4, 4, 21), ("C", 1, 0.2, 4)]
rates = np.exp(np.linspace(np.log(0.002), np.log(2000), 90))


def around(median, spread, steps):
    z = np.linspace(-2.6, 2.6, steps)
    return np.exp(np.log(median) + spread * z), stats.norm.logpdf(z)


mus, log_mu = around(5, 1.5, 21)
shapes, log_shape = around(4, 1, 7)
sizes, log_size = around(2, 0.9, 11)
sources = ["A", "B", "C"]
like = np.zeros((3, len(sizes), len(rates)))
for s, source in enumerate(sources):
    for k, size in enumerate(sizes):
        for name, boxes, full, found in seen:
            if name == source:
                n = size * boxes
                like[s, k] += stats.nbinom.logpmf(found, n, n / (n + rates * full))
cells = []
for mu, lm in zip(mus, log_mu):
    for shape, ls in zip(shapes, log_shape):
        across = rates ** shape * np.exp(-shape * rates / mu)
        across /= across.sum()
        for k, lk in enumerate(log_size):
            joint = across * np.exp(like[:, k])
            cells.append((lm + ls + lk + np.log(joint.sum(1)).sum(), k, across, joint / joint.sum(1, keepdims=True)))
w = np.array([c[0] for c in cells])
w = np.exp(w - w.max())
w /= w.sum()
post = {s: sum(wi * c[3][i] for wi, c in zip(w, cells)) for i, s in enumerate(sources)}
post["new"] = sum(wi * c[2] for wi, c in zip(w, cells))
for s, p in post.items():
    say(f"yield {s} mean", np.sum(p * rates))
    step = np.log(rates[1] / rates[0])
    edges = np.exp(np.log(rates[0]) - step / 2 + step * np.arange(91))
    for q in (0.05, 0.25, 0.75, 0.95):
        say(f"yield {s} quantile {q}", np.exp(np.interp(q, np.concatenate([[0], np.cumsum(p)]), np.log(edges))))
say("yield size", sum(wi * sizes[c[1]] for wi, c in zip(w, cells)))
say("yield A better than B", sum(wi * np.sum(c[3][0] * (np.cumsum(c[3][1]) - c[3][1] / 2)) for wi, c in zip(w, cells)))
say("yield new better than C", sum(wi * np.sum(c[2] * (np.cumsum(c[3][2]) - c[3][2] / 2)) for wi, c in zip(w, cells)))
counts = np.arange(3000)


def predict(parts):
    p = sum(weight * stats.nbinom.pmf(counts, size, size / (size + mean)) for weight, mean, size in parts)
    return p / p.sum()


for s, full in (("A", 1.0), ("C", 0.6), ("new", 2.0)):
    index = sources.index(s) if s in sources else None
    joint = np.zeros((len(sizes), len(rates)))
    for wi, c in zip(w, cells):
        joint[c[1]] += wi * (c[2] if index is None else c[3][index])
    p = predict([(joint[k, r], rates[r] * full, sizes[k]) for k in range(len(sizes)) for r in range(len(rates)) if joint[k, r] > 1e-7])
    say(f"next {s} {full} mean", np.sum(p * counts))
    say(f"next {s} {full} none", p[0])
    for q in (0.05, 0.25, 0.75, 0.95):
        say(f"next {s} {full} quantile {q}", np.searchsorted(np.cumsum(p), q))
    parts = []
    for k in range(len(sizes)):
        for r in range(len(rates)):
            if joint[k, r] > 1e-7:
                size, done = sizes[k], rates[r] * 0.4
                parts.append((joint[k, r] * stats.nbinom.pmf(9, size, size / (size + done)),
                              rates[r] * 0.6 * (size + 9) / (size + done), size + 9))
    p = predict(parts)
    say(f"rest {s} mean", np.sum(p * counts))
    say(f"rest {s} none", p[0])

# Completion of an album hole by hole
holes = [(3.2, 80000.0)] * 4 + [(0.3, 60000.0), (12.0, 2500.0)]


def complete(coins):
    return np.prod([1 - (1 + coins / rate) ** -shape for shape, rate in holes])


for p in (0.1, 0.5, 0.9):
    say(f"complete {p}", optimize.brentq(lambda c: complete(c) - p, 1, 1e12, xtol=1e-6, rtol=1e-14))
say("complete within 250000", complete(250000))
say("filled within 250000", sum(1 - (1 + 250000 / rate) ** -shape for shape, rate in holes))

# Clumping boxes: completion by simulation
draws = 200_000
boxes = random.gamma(1.5, 1 / 1.5, (draws, 40)).cumsum(1)
when = np.stack([random.exponential(1, draws) / (random.gamma(shape, 1 / rate, draws) * 2500) for shape, rate in [(4.0, 40000.0)] * 5 + [(2.0, 2500.0)]], 1)
for n in (5, 20, 40):
    say(f"clumped complete {n}", np.mean(when.max(1) <= boxes[:, n - 1]))
    say(f"clumped filled {n}", np.mean((when <= boxes[:, n - 1: n]).sum(1)))
say("clumped half", 1 + np.median((when.max(1)[:, None] > boxes).sum(1)))

print("key,value")
for key, value in out:
    print(f"{key},{value!r}")
