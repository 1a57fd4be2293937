"""Reads the two forms of GHCN-Daily with pandas and NumPy: values that are neither missing nor failed
by the archive, counted and summed. No other check, no checksum of the file, nothing kept of the rest."""

import time

import numpy as np
import pandas as pd

RUNS = 5
KEPT = ["TMAX", "TMIN", "PRCP", "SNOW", "SNWD"]
WANTED = ["TMAX", "TMIN", "PRCP"]


def sums(element, value):
    out = []
    for e in WANTED:
        v = value[element == e]
        out += [v.size, int(v.sum())]
    return out


def dly_by_columns():
    """What the pandas manual leads to: every column by its place."""
    places, names = [(0, 11), (11, 15), (15, 17), (17, 21)], ["id", "year", "month", "element"]
    for d in range(31):
        at = 21 + 8 * d
        places += [(at, at + 5), (at + 6, at + 7)]
        names += ["v%d" % d, "q%d" % d]
    flags = {"q%d" % d: str for d in range(31)}
    t = pd.read_fwf("station.dly", colspecs=places, names=names, header=None, dtype=flags)
    t = t[t.element.isin(KEPT)]
    value = t[["v%d" % d for d in range(31)]].to_numpy()
    failed = t[["q%d" % d for d in range(31)]].notna().to_numpy()
    element = np.repeat(t.element.to_numpy(), 31).reshape(value.shape)
    good = (value != -9999) & ~failed
    return sums(element[good], value[good])


def dly_by_bytes():
    """What a reader of NumPy's manual may write: lines of one width are a table of bytes."""
    with open("station.dly", "rb") as f:
        lines = np.frombuffer(f.read(), np.uint8).reshape(-1, 270)
    days = np.ascontiguousarray(lines[:, 21:269]).reshape(-1, 31, 8)
    value = np.ascontiguousarray(days[:, :, :5]).view("S5")[:, :, 0].astype(int)
    element = np.ascontiguousarray(lines[:, 17:21]).view("S4").astype(str)
    good = (value != -9999) & (days[:, :, 6] == ord(" ")) & np.isin(element, KEPT)
    return sums(np.broadcast_to(element, value.shape)[good], value[good])


def csv_of_days():
    names = ["id", "day", "element", "value", "m", "q", "s", "time"]
    t = pd.read_csv("station.csv", names=names, header=None, dtype={"m": str, "q": str, "s": str, "time": str})
    t = t[t.element.isin(KEPT) & (t.value != -9999) & t.q.isna()]
    return sums(t.element.to_numpy(), t.value.to_numpy())


for name, how, read in (
    ("dly", "pandas %s, read_fwf" % pd.__version__, dly_by_columns),
    ("dly", "NumPy %s, table of bytes" % np.__version__, dly_by_bytes),
    ("csv", "pandas %s, read_csv" % pd.__version__, csv_of_days),
):
    best = np.inf
    for _ in range(RUNS):
        start = time.perf_counter()
        answer = read()
        best = min(best, time.perf_counter() - start)
    print(name, how, "%.6f" % best, *answer, sep="\t")
