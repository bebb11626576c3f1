"""Makes field.fits and the tables of what sep and source-extractor find in it. See README.md.

    /usr/bin/python3 make.py"""

import os
import subprocess
import tempfile

import numpy as np
import sep
from astropy.io import fits

import frames

HERE = os.path.dirname(os.path.abspath(__file__))
HFD = 3.2  # pixels, of the stars


def main():
    image, truth = frames.field(12, 384, 352, 80, hfd=HFD, faint=4000, bright=8e5, hot=40, gradient=200, apart=12)
    frame = os.path.join(HERE, "field.fits")
    fits.PrimaryHDU(image).writeto(frame, overwrite=True)
    save("truth.csv", "x,y,flux", truth, ["%.2f", "%.2f", "%.1f"])

    data = image.astype(np.float32)
    background = sep.Background(data)
    data -= background.back()
    found = sep.extract(data, 1.5, err=background.globalrms, minarea=5)
    sigma = np.full(len(found), HFD / 2.3548)
    x, y, _ = sep.winpos(data, found["x"], found["y"], sigma, subpix=11)
    radius, _ = sep.flux_radius(data, x, y, np.full(len(x), 3 * HFD), 0.5, subpix=11)
    flux, error, _ = sep.sum_circle(data, x, y, 3 * HFD, err=background.globalrms, subpix=11)
    save("sep.csv", "x,y,flux,error,radius,flag,npix",
         np.column_stack([x, y, flux, error, radius, found["flag"], found["npix"]]),
         ["%.4f", "%.4f", "%.1f", "%.1f", "%.4f", "%d", "%d"])

    with tempfile.TemporaryDirectory() as folder:
        table = source_extractor(folder, frame)
    table[:, :2] -= 1  # FITS counts pixels from one
    save("source-extractor.csv", "x,y,flux,error,radius,flag", table, ["%.4f", "%.4f", "%.1f", "%.1f", "%.3f", "%d"])


def source_extractor(folder, frame):
    param, out = os.path.join(folder, "columns.param"), os.path.join(folder, "found.cat")
    with open(param, "w") as f:
        f.write("XWIN_IMAGE\nYWIN_IMAGE\nFLUX_AUTO\nFLUXERR_AUTO\nFLUX_RADIUS\nFLAGS\n")
    share = "/usr/share/source-extractor/"
    subprocess.run(["source-extractor", frame, "-c", share + "default.sex", "-PARAMETERS_NAME", param,
                    "-CATALOG_NAME", out, "-FILTER_NAME", share + "default.conv",
                    "-STARNNW_NAME", share + "default.nnw", "-VERBOSE_TYPE", "QUIET"], check=True)
    return np.loadtxt(out)


def save(name, header, table, form):
    np.savetxt(os.path.join(HERE, name), table, fmt=form, delimiter=",", header=header, comments="")


main()
