"""Measures one large frame with source-extractor and with this package, in one run, and compares.

    /usr/bin/python3 compare.py FOLDER PROGRAM [STARS]

FOLDER is for files; PROGRAM is the built ./figures; STARS is how many the frame has (4000). Times are given as wall
time, and as processor time, which other programs on the machine disturb less; each as the least of five."""

import json
import os
import subprocess
import sys
import time

import numpy as np
from astropy.io import fits

import frames

CONFIG = "/usr/share/source-extractor/default.sex"


def extract(folder, path):
    """source-extractor with its default values; the tables that these name are given by their whole paths."""
    param = os.path.join(folder, "columns.param")
    with open(param, "w") as f:
        f.write("X_IMAGE\nY_IMAGE\nXWIN_IMAGE\nYWIN_IMAGE\nFLUX_AUTO\nFLUXERR_AUTO\nFLUX_RADIUS\nFLAGS\n"
                "FWHM_IMAGE\nELONGATION\n")
    out = os.path.join(folder, "found.cat")
    command = ["source-extractor", path, "-c", CONFIG, "-PARAMETERS_NAME", param, "-CATALOG_NAME", out,
               "-FILTER_NAME", "/usr/share/source-extractor/default.conv",
               "-STARNNW_NAME", "/usr/share/source-extractor/default.nnw", "-VERBOSE_TYPE", "QUIET"]
    used = run(command)[1]
    return np.loadtxt(out), used


def measure(program, path):
    out, used = run([program, path])
    return json.loads(out), used


def run(command):
    """What it printed, and what it used: wall time and processor time, seconds."""
    begin = time.monotonic()
    child = subprocess.Popen(command, stdout=subprocess.PIPE)
    out = child.stdout.read()
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = status
    if status != 0:
        raise SystemExit(f"{command[0]} failed")
    return out, (time.monotonic() - begin, used.ru_utime + used.ru_stime)


def main():
    folder, program = sys.argv[1:3]
    many = int(sys.argv[3]) if len(sys.argv) > 3 else 4000
    path, known = os.path.join(folder, f"large{many}.fits"), os.path.join(folder, f"truth{many}.npy")
    if not os.path.exists(path):
        image, truth = frames.field(26, 6248, 4176, many, hot=2000)
        fits.PrimaryHDU(image).writeto(path)
        np.save(known, truth)
    truth = np.load(known)
    their_use, our_use = [], []
    for _ in range(5):
        theirs, use = extract(folder, path)
        their_use.append(use)
        ours, use = measure(program, path)
        our_use.append((use[0], ours['processor_seconds'], use[1]))
    their_wall, their_cpu = np.min(their_use, axis=0)
    our_wall, our_cpu, whole = np.min(our_use, axis=0)
    print(f"wall time: source-extractor {their_wall:.2f} s, here {our_wall:.2f} s: {our_wall / their_wall:.2f} of it")
    print(f"processor time: source-extractor {their_cpu:.2f} s, here {our_cpu:.2f} s: {our_cpu / their_cpu:.2f} of it "
          f"({whole / their_cpu:.2f} with printing {len(ours['stars'])} stars as JSON)")
    print(f"most memory here {ours['resident_mb']:.0f} MB")
    stars = np.array(ours["stars"])
    real = near(theirs[:, 2] - 1, theirs[:, 3] - 1, truth)[0] < 2
    sure = (theirs[:, 4] > 10 * theirs[:, 5])
    distance, which = near(theirs[:, 2] - 1, theirs[:, 3] - 1, stars)
    print(f"source-extractor {len(theirs)}, here {ours['count']} ({len(stars)} given), true {len(truth)}")
    for name, of in (("its detections over 10 sigma", sure), ("those of them that are stars", sure & real)):
        hit = of & (distance < 2)
        print(f"{name}: {of.sum()}, found {hit.sum()} = {100 * hit.sum() / of.sum():.2f} %")
        lone = hit & (theirs[:, 7] == 0)
        print(f"  {100 * np.mean(distance[lone] < 0.1):.1f} % of the unflagged within 0.1 pixel of its windowed position")
        print(f"  windowed positions apart: rms {rms(distance[hit]):.3f}, largest {distance[hit].max():.3f} pixel; "
              f"unflagged only: rms {rms(distance[lone]):.3f}, largest {distance[lone].max():.3f}")
    faint = (theirs[:, 4] > 10 * theirs[:, 5]) & (theirs[:, 4] < 20 * theirs[:, 5]) & real
    print(f"of those at 10 to 20 sigma {100 * np.mean(distance[faint] < 2):.1f} % of {faint.sum()}")
    missed = sure & (distance >= 2)
    print("missed (x, y, flux/error, radius, flags):")
    print(np.column_stack([theirs[missed][:, :2], theirs[missed, 4] / theirs[missed, 5], theirs[missed][:, 6:8]])[:40].round(1))
    of_truth, which = near(stars[:, 0], stars[:, 1], truth)
    print(f"here: {(of_truth >= 2).sum()} are no star; from the truth rms {rms(of_truth[of_truth < 1]):.3f} pixel")
    snr = stars[:, 2] / stars[:, 3]
    for low, high in ((5, 10), (10, 20), (20, 50), (50, 1e9)):
        some = (snr >= low) & (snr < high) & (of_truth < 2) & (stars[:, 5] < 1)
        print(f"  at {low} to {high:g} sigma: {some.sum()} stars, from the truth rms {rms(of_truth[some]):.3f}, "
              f"diameter {np.median(stars[some, 4]):.3f}, flux {np.median(stars[some, 2] / truth[which[some], 2]):.3f} of the truth, elongation {np.median(stars[some, 6]):.3f}")
    print(f"frame: diameter {ours['hfd']:.3f}, elongation {ours['elongation']:.3f}, background {ours['background']:.1f}, noise {ours['noise']:.2f}")


def near(x, y, table):
    """Distance to the nearest of table's x, y and which it is."""
    distance, which = np.full(len(x), np.inf), np.zeros(len(x), int)
    for i in range(len(x)):
        d = np.hypot(table[:, 0] - x[i], table[:, 1] - y[i])
        which[i] = d.argmin()
        distance[i] = d[which[i]]
    return distance, which


def rms(values):
    return float(np.sqrt(np.mean(np.square(values)))) if len(values) else float("nan")


main()
