"""The season kernel in NumPy: all stands a day at a time."""

import time

import numpy as np

YEARS, DAYS, FIELDS, RUNS = 30, 210, 1000, 3
BASE, BLOOM, BUD = (4.6, 3.5, 7.5, 10.0), (984.3, 585.0, 425.0, 425.0), (60.0, 78.5, 58.0, 48.0)
FADE, BUD_SHARE = 10 ** (1 / 12.734), 10 ** (-1.5 / 12.734)

rows = np.loadtxt("season.csv", delimiter=",", skiprows=1)
i = np.arange(FIELDS)
holds = 100.0 + (29 * i) % 151
scarce = (1 - 0.55) * holds
first = 0.4 + 0.6 * ((53 * i) % 97) / 96


def season():
    cut_kg = grown_kg = tall = roots = lacking = 0.0
    for y in range(YEARS):
        reserve, start, lacks = first.copy(), first.copy(), np.zeros(FIELDS)
        kg, field, height, lai = np.zeros(FIELDS), np.zeros(FIELDS), np.zeros(FIELDS), np.full(FIELDS, 0.05)
        heat = leaves = root = 0.0
        growth = 1
        for d in range(DAYS):
            light, shoots, leaf, warm, eto, rain = rows[y * DAYS + d]
            cover = 1 - np.exp(-0.93 * lai)
            left = holds - lacks
            ks = np.minimum(1, left / scarce)
            lacks = np.maximum(0, lacks + np.minimum(left, ks * eto * (0.40 + 0.80 * cover)) - rain)
            made = light * cover * ks
            if heat > FADE:
                made *= max(0.0, 1 - (min(9.0, max(0.0, 5 + 12.734 * np.log10(heat))) - 6) / 3)
            added = made * shoots
            kg += added
            begun = np.maximum(leaves, 40 * (2 - start))
            leaves += leaf
            area = lai + 0.016 * (0.5 + 0.5 * start) * ks * np.maximum(0, leaves - begun)
            lai = np.minimum(6, area)
            field = np.maximum(0, field + 0.79 * added - 260 * (area - lai))
            if warm > BASE[growth]:
                g = (warm - BASE[growth]) / BLOOM[growth]
                heat += g
                height = np.minimum(110, height + BUD[growth] / BUD_SHARE * g * ks)
            if warm > 5:
                before = root
                root += warm - 5
                if before < 200:
                    reserve = reserve - 0.55 * start * (min(root, 200.0) - before) / 200
            if root > 200:
                reserve = np.minimum(1, reserve + 1.9e-4 * (made - added))
            if d in (56, 89, 121, 154):
                grown_kg += kg.sum()
                tall += height.sum()
                cut_kg += np.maximum(0, field - 210).sum()
                start = reserve.copy()
                growth = min(3, growth + 1)
                heat = leaves = root = 0.0
                kg, field, height, lai = np.zeros(FIELDS), np.zeros(FIELDS), np.zeros(FIELDS), np.full(FIELDS, 0.05)
        roots += reserve.sum()
        lacking += lacks.sum()
    return cut_kg, grown_kg, tall, roots, lacking


best = np.inf
for _ in range(RUNS):
    begin = time.perf_counter()
    answer = season()
    best = min(best, time.perf_counter() - begin)
print("S", "NumPy " + np.__version__, "%.6f" % best, *("%.11f" % x for x in answer), sep="\t")
