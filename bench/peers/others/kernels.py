"""The two kernels in plain Python, a loop over days and fields. Best of two runs, as the loop is slow."""

import csv
import math
import time

RUNS = 2
FIELDS = 1000

with open("base.csv") as f:
    DAYS = [tuple(map(float, row)) for row in list(csv.reader(f))[1:]]


def sky(day):
    near = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
    decl = 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)
    lat = math.radians(42.955)
    sets = math.acos(-math.tan(lat) * math.tan(decl))
    light = sets * math.sin(lat) * math.sin(decl) + math.cos(lat) * math.cos(decl) * math.sin(sets)
    return 0.408 * 24 * 60 / math.pi * 0.082 * near * light


ABOVE = [0.0] + [sky(d) for d in range(1, 367)]


def offsets(i):
    return 0.01 * ((37 * i) % 101 - 50), 0.01 * ((53 * i) % 97 - 48)


def heat():
    total, kept = 0.0, None
    for i in range(FIELDS):
        dx, dn = offsets(i)
        now, s = DAYS[0][0], 0.0
        for year, _, max_f, min_f, _, _, _ in DAYS:
            if year != now:
                total += s
                if now == 2012 and i == 7:
                    kept = s
                s, now = 0.0, year
            tx = max_f + dx
            tn = min_f + dn
            if tn > tx:
                tn = tx
            if tn >= 48:
                s += (tx + tn) / 2 - 48
            elif tx > 48:
                mean = (tx + tn) / 2
                half = (tx - tn) / 2
                q = math.asin((48 - mean) / half)
                s += ((mean - 48) * (math.pi / 2 - q) + half * math.cos(q)) / math.pi
        total += s
    return total, kept


def water():
    used = drained = stress = 0.0
    cuts = 0
    sqrt = math.sqrt
    for i in range(FIELDS):
        dx, dn = offsets(i)
        wetter = 0.8 + 0.4 * ((53 * i) % 97) / 96
        holds = 100.0 + ((29 * i) % 151)
        left, scarce, grown = holds, 0.45 * holds, 0.0
        for _, doy, _, _, max_c, min_c, rain in DAYS:
            if doy == 1:
                grown = 0.0
            tx = max_c + dx
            tn = min_c + dn
            if tn > tx:
                tn = tx
            mean = (tx + tn) / 2
            et0 = 0.0023 * (mean + 17.8) * sqrt(tx - tn) * ABOVE[int(doy)]
            if et0 < 0:
                et0 = 0.0
            if mean > 5:
                grown += mean - 5
            kc = 0.4 + 0.75 * (grown / 300 if grown < 300 else 1.0)
            ks = 1.0 if left >= scarce else left / scarce
            et = kc * ks * et0
            if et > left:
                et = left
            left += rain * wetter - et
            if left > holds:
                drained += left - holds
                left = holds
            if grown >= 550:
                cuts += 1
                grown = 0.0
            used += et
            stress += 1 - ks
    return used, drained, cuts, stress


for name, kernel in (("A", heat), ("B", water)):
    best = math.inf
    for _ in range(RUNS):
        start = time.perf_counter()
        answer = kernel()
        best = min(best, time.perf_counter() - start)
    print(name, "Python, loop", "%.6f" % best, *("%.11f" % x for x in answer), sep="\t")
