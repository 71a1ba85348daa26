#!/usr/bin/env python3
"""What races teach, worked out with numpy and scipy from docs/model.md and docs/learning.md alone.

The prior is drawn by chance, a million riders, and each gets the likelihood of what was told
from scipy's multivariate normal. Writes learned.json beside this file (apt: python3-scipy):

    /usr/bin/python3 planner/learn/testdata/learned.py
"""
import json
import os

import numpy as np
from scipy.special import ndtr
from scipy.stats import multivariate_normal, norm

rng = np.random.default_rng(20260301)
KEEP = 1_000_000
FREE = 0.5  # of the riders whose sizes agree get one that the gain of a taper alone gives
WIDER = 1.4  # days are drawn wider than the prior, and weigh less far out


def prior():
    """Riders whose two published sizes agree: time constants, turn, per cent a unit. Half of them forget what usual training is worth."""
    out = []
    kept = 0
    while kept < KEEP:
        n = 1_000_000
        t1 = 45 * np.exp(np.log(59 / 17) / 3.92 * rng.standard_normal(n))
        t2 = 15 * np.exp(np.log(32 / 6) / 3.92 * rng.standard_normal(n))
        ok = t1 >= 1.3 * t2
        t1, t2 = t1[ok], t2[ok]
        n = len(t1)
        span = t1 * t2 / (t1 - t2)
        z = WIDER * rng.standard_normal(n)
        turn = 45 * 15 / 30 * np.log(2) * np.exp(np.log(35 / 7) / 3.92 * z)
        wide = np.exp(z**2 / (2 * WIDER**2) - z**2 / 2)
        k2 = np.exp(turn / span)
        trained = 1 / (np.exp(1 / t1) - 1) - k2 / (np.exp(1 / t2) - 1)
        gain = np.clip(3 + 1.4 * rng.standard_normal(n), 0.5, 6)
        share = 0.3 * np.exp(0.3 * rng.standard_normal(n))
        best = np.zeros(n)
        for u in range(1, 200):
            here = (u == 1) | (u <= turn)
            best -= np.where(here, np.exp(-u / t1) - k2 * np.exp(-u / t2), 0) / 2
        with np.errstate(invalid="ignore", divide="ignore"):
            by_taper, by_training = gain / best, 100 * share / (1 + share) / np.where(trained > 0, trained, np.nan)
            good = np.abs(np.log(by_taper / by_training)) <= 0.3
            percent = np.sqrt(by_taper * by_training)
        free = rng.random(n) < FREE
        percent[free] = (np.clip(3 + 1.4 * rng.standard_normal(n), 0.5, 6) / best)[free]
        out.append(np.stack([t1, t2, k2, turn, percent, wide])[:, good])
        kept += good.sum()
    return np.concatenate(out, axis=1)[:, :KEEP]


def posterior(riders, races):
    t1, t2, k2, turn, percent, wide = riders
    values, means, slopes, form = [], [], [], []
    for race in races:
        f = np.zeros_like(turn)
        for i, load in enumerate(race["change"]):
            u = i + 1
            f += load * (np.exp(-u / t1) - k2 * np.exp(-u / t2))
        for kind in ("legs", "compared"):
            if kind in race:
                values.append((kind, len(form), race[kind]))
        form.append(percent * f)
    weight = wide.copy()
    if any(k == "legs" and v in (1, 10) for k, _, v in values):
        weight = wide * ends(values, form)
    elif values:
        slope = {"legs": 1.0, "compared": 0.47}
        noise = {"legs": 0.7, "compared": 0.40}
        habit = {"legs": (5.0, 2.0), "compared": (0.0, 1.0)}
        resid = np.stack([v - habit[k][0] - slope[k] * form[i] for k, i, v in values], axis=1)
        logs = []
        for scale in (0.8, 1.2, 1.8, 3):
            cov = np.array([[(k == l) * habit[k][1] ** 2 + scale**2 * ((i == j) * 0.36 * slope[k] * slope[l] + ((k, i) == (l, j)) * noise[k] ** 2)
                             for l, j, _ in values] for k, i, _ in values])
            logs.append(multivariate_normal(np.zeros(len(values)), cov).logpdf(resid).reshape(-1))
        logs = np.stack(logs)
        weight = wide * np.exp(logs - logs.max()).sum(axis=0)
    weight /= weight.sum()
    mean = (weight * turn).sum()
    print("as good as", round(1 / (weight**2).sum()), "equal ones:", end=" ")
    order = np.argsort(turn)
    cum = np.cumsum(weight[order])
    return {"mean": mean, "sd": np.sqrt((weight * (turn - mean) ** 2).sum()),
            **{q: turn[order][np.searchsorted(cum, p)] for q, p in (("low", 0.1), ("mid", 0.5), ("high", 0.9))}}


def ends(values, form):
    """Likelihood of legs alone, 1 and 10 being the ends of the scale, over habits step by step."""
    assert all(k == "legs" for k, _, _ in values)
    total = np.zeros_like(form[0])
    for scale in (0.8, 1.2, 1.8, 3):
        sd = scale * np.sqrt(0.36 + 0.7**2)
        for habit in np.arange(-3, 13.01, 0.5):
            at = np.full_like(form[0], norm.pdf(habit, 5, 2))
            for _, i, v in values:
                legs = habit + form[i]
                at *= ndtr((legs - 9.5) / sd) if v == 10 else ndtr((1.5 - legs) / sd) if v == 1 else np.exp(-(((v - legs) / sd) ** 2) / 2) / sd / np.sqrt(2 * np.pi)
            total += at
    return total


def even(days, cut):
    return [-cut] * days


def cases():
    yield "no race", []
    yield "one race", [{"change": even(9, 0.4), "legs": 7}]
    yield "three, compared alone", [{"change": even(n, 0.4), "compared": c} for n, c in ((7, -1), (10, 0), (14, 1))]
    yield "short tapers suit", [{"change": even(n, 0.4), "legs": v, "compared": c} for n, v, c in
                                ((6, 8, 1), (14, 6, -1), (7, 7, 0), (12, 6, 0), (6, 7, 1), (10, 7, 0))]
    yield "long tapers suit", [{"change": even(n, 0.5), "legs": v, "compared": c} for n, v, c in
                               ((6, 6, -1), (14, 8, 1), (7, 6, 0), (12, 7, 0), (8, 7, -1), (13, 8, 1), (0, 4, -1), (14, 7, 1), (5, 6, 0), (11, 7, 0), (9, 6, 0), (14, 8, 1))]
    yield "answers that jump", [{"change": even(n, 0.4), "legs": v} for n, v in ((6, 10), (14, 1), (8, 2), (12, 9), (7, 1), (10, 10))]
    yield "legs at the top", [{"change": even(n, 0.4), "legs": v} for n, v in ((6, 10), (14, 9), (7, 10), (12, 8), (5, 10), (10, 9), (8, 9), (13, 10))]
    yield "weeks that vary", [{"change": [round(float(x), 3) for x in rng.uniform(-0.8, 0.3, 40)], "legs": int(v), "compared": int(c)}
                              for v, c in zip(rng.integers(4, 9, 8), rng.integers(-1, 2, 8))]


def main():
    riders = prior()
    out = [{"name": name, "races": races, **{k: round(float(v), 5) for k, v in posterior(riders, races).items()}} for name, races in cases()]
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "learned.json")
    with open(path, "w") as f:
        f.write("[\n" + ",\n".join(json.dumps(c) for c in out) + "\n]\n")
    for c in out:
        print(c["name"], c["mean"], c["sd"])


if __name__ == "__main__":
    main()
