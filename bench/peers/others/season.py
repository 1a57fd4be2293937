"""The season kernel in plain Python, a loop over stands, years and days. One run, as the loop is slow."""

import csv
import math
import time

YEARS, DAYS, FIELDS = 30, 210, 1000
BASE, BLOOM, BUD = (4.6, 3.5, 7.5, 10.0), (984.3, 585.0, 425.0, 425.0), (60.0, 78.5, 58.0, 48.0)
FADE, BUD_SHARE = 10 ** (1 / 12.734), 10 ** (-1.5 / 12.734)

with open("season.csv") as f:
    ROWS = [tuple(map(float, row)) for row in list(csv.reader(f))[1:]]


def season():
    exp, log10 = math.exp, math.log10
    cut_kg = grown_kg = tall = roots = lacking = 0.0
    for i in range(FIELDS):
        holds = 100.0 + (29 * i) % 151
        scarce = (1 - 0.55) * holds
        first = 0.4 + 0.6 * ((53 * i) % 97) / 96
        for y in range(YEARS):
            reserve = start = first
            heat = leaves = root = kg = field = height = lacks = 0.0
            lai, growth, d = 0.05, 1, 0
            for light, shoots, leaf, warm, eto, rain in ROWS[y * DAYS : (y + 1) * DAYS]:
                cover = 1 - exp(-0.93 * lai)
                left = holds - lacks
                ks = left / scarce if left < scarce else 1.0
                lacks = max(0.0, lacks + min(left, ks * eto * (0.40 + 0.80 * cover)) - rain)
                made = light * cover * ks
                if heat > FADE:
                    made *= max(0.0, 1 - (min(9.0, max(0.0, 5 + 12.734 * log10(heat))) - 6) / 3)
                added = made * shoots
                kg += added
                begun = max(leaves, 40 * (2 - start))
                leaves += leaf
                area = lai + 0.016 * (0.5 + 0.5 * start) * ks * max(0.0, leaves - begun)
                lai = min(6.0, area)
                field = max(0.0, field + 0.79 * added - 260 * (area - lai))
                if warm > BASE[growth]:
                    g = (warm - BASE[growth]) / BLOOM[growth]
                    heat += g
                    height = min(110.0, height + BUD[growth] / BUD_SHARE * g * ks)
                if warm > 5:
                    before = root
                    root += warm - 5
                    if before < 200:
                        reserve -= 0.55 * start * (min(root, 200.0) - before) / 200
                if root > 200:
                    reserve = min(1.0, reserve + 1.9e-4 * (made - added))
                if d in (56, 89, 121, 154):
                    grown_kg += kg
                    tall += height
                    cut_kg += max(0.0, field - 210)
                    start = reserve
                    growth = min(3, growth + 1)
                    heat = leaves = root = kg = field = height = 0.0
                    lai = 0.05
                d += 1
            roots += reserve
            lacking += lacks
    return cut_kg, grown_kg, tall, roots, lacking


begin = time.perf_counter()
answer = season()
took = time.perf_counter() - begin
print("S", "Python", "%.6f" % took, *("%.11f" % x for x in answer), sep="\t")
