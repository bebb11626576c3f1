"""Measures one large frame with source-extractor and with this package, in one run, and compares.

    /usr/bin/python3 compare.py FOLDER PROGRAM

FOLDER is for files; PROGRAM is the built ./figures."""

import json
import os
import resource
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
    begin = time.monotonic()
    subprocess.run(command, check=True)
    return np.loadtxt(out), time.monotonic() - begin


def measure(program, path):
    begin = time.monotonic()
    out = subprocess.run([program, path], check=True, stdout=subprocess.PIPE).stdout
    return json.loads(out), time.monotonic() - begin


def main():
    folder, program = sys.argv[1:3]
    path = os.path.join(folder, "large.fits")
    if not os.path.exists(path):
        image, truth = frames.field(26, 6248, 4176, 4000, hot=2000)
        fits.PrimaryHDU(image).writeto(path)
        np.save(os.path.join(folder, "truth.npy"), truth)
    truth = np.load(os.path.join(folder, "truth.npy"))
    for _ in range(3):
        theirs, their_time = extract(folder, path)
        ours, our_time = measure(program, path)
        print(f"source-extractor {their_time:.2f} s, here {our_time:.2f} s: {our_time / their_time:.2f} of it; "
              f"inside {ours['seconds']:.2f} s; resident {ours['resident_mb']:.0f} MB")
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
