#!/usr/bin/env python3
"""What a first race could teach at best, for docs/learning.md (apt: python3-scipy):

    /usr/bin/python3 planner/learn/testdata/first.py

Answers are few: legs of 1 to 10, and worse, same, better or nothing. So the chance of each answer
is worked out for each rider, and for each answer the day that leaves the smallest mean error: the
median of those who give it. Prints by how many days of taper the error falls.
"""
import numpy as np
from scipy.special import ndtr

import learned

N = 40_000
NOISES = np.array([0.8, 1.2, 1.8, 3])
rng = np.random.default_rng(5)


def of_prior():
    learned.FREE, learned.WIDER, learned.KEEP, learned.rng = 0, 1.0, N, rng
    t1, t2, k2, turn, percent, _ = learned.prior()
    ways = (5 + 2 * rng.standard_normal(N), np.ones(N), NOISES[rng.integers(0, 4, N)], 2 + 1.5 * rng.standard_normal(N))
    return (t1, t2, k2, turn, percent), ways


def of_elsewhere():
    t1 = rng.uniform(25, 80, N)
    t2, turn = t1 * rng.uniform(0.15, 0.7, N), rng.uniform(6, 26, N)
    k2 = np.exp(turn * (t1 - t2) / (t1 * t2))
    best = sum(np.where((u == 1) | (u <= turn), k2 * np.exp(-u / t2) - np.exp(-u / t1), 0) / 2 for u in range(1, 200))
    ways = (rng.uniform(2, 8, N), rng.uniform(0.5, 1.5, N), rng.uniform(0.7, 2.5, N), rng.uniform(0, 4, N))
    return (t1, t2, k2, turn, rng.uniform(0.5, 6, N) / best), ways


def answers(rider, ways, days):
    """The chance of each of 40 answers after a taper of so many days, a row a rider."""
    t1, t2, k2, _, percent = rider
    habit, slope, noise, expects = ways
    taper = percent * sum((-0.25 - 0.3 * (days - i) / days) * (np.exp(-(i + 1) / t1) - k2 * np.exp(-(i + 1) / t2)) for i in range(days))
    points, weights = np.polynomial.hermite_e.hermegauss(15)  # the day's luck
    edges = np.array([-1e9] + [k + 0.5 for k in range(1, 10)] + [1e9])
    out = np.zeros((N, 10, 4))
    for x, weight in zip(points, weights / weights.sum()):
        form = taper + 0.6 * noise * x
        legs = np.diff(ndtr((edges - (habit + slope * form)[:, None]) / (0.7 * noise)[:, None]), axis=1)
        worse, better = ndtr((-1 - form + expects) / (0.6 * noise)), 1 - ndtr((1 - form + expects) / (0.6 * noise))
        told = np.stack([np.full(N, 1 / 3), 2 / 3 * worse, 2 / 3 * (1 - worse - better), 2 / 3 * better], axis=1)
        out += weight * legs[:, :, None] * told[:, None]
    return out.reshape(N, 40)


def medians(turn, chance):
    order = np.argsort(turn)
    below = np.cumsum(chance[order], axis=0)
    return np.array([turn[order][np.searchsorted(below[:, k], below[-1, k] / 2)] for k in range(40)])


def main():
    prior, prior_ways = of_prior()
    others, others_ways = of_elsewhere()
    both = np.concatenate([prior[3], others[3]])
    mid, all_mid = np.median(prior[3]), np.median(both)
    falls = np.zeros(2)
    cases = [(table, days) for table in (7, 9, 11) for days in (table, table + 3 if table < 10 else table - 3)]
    for table, days in cases:
        p, o = answers(prior, prior_ways, days), answers(others, others_ways, days)

        def error(found, chances, turn):
            return (chances * np.abs(turn[:, None] - found)).sum(axis=1).mean() * table / mid

        alone, mixed = medians(prior[3], p), medians(both, np.concatenate([p, o]))
        falls += np.array([error(mid, p, prior[3]) - error(alone, p, prior[3]),
                           (error(all_mid, p, prior[3]) + error(all_mid, o, others[3]) - error(mixed, p, prior[3]) - error(mixed, o, others[3])) / 2]) / len(cases)
    print("riders of the prior, by one who knows how they are drawn: %.4f" % falls[0])
    print("both kinds, by one who knows how both are drawn: %.4f" % falls[1])


main()
