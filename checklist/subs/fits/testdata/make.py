"""Makes the frames of this folder with astropy, and pixels.csv of some of their values. See README.md.

    /usr/bin/python3 make.py"""

import os

import numpy as np
from astropy.io import fits

HERE = os.path.dirname(os.path.abspath(__file__))
W, H = 17, 11  # no multiple of anything


def common(header):
    header["DATE-OBS"] = ("2026-10-03T21:15:30.250", "start, UTC")
    header["EXPTIME"] = (60.0, "[s]")
    header["FILTER"] = "Ha 3nm"
    header["OBJECT"] = "NGC 2070"
    header["IMAGETYP"] = "Light Frame"
    header["CCD-TEMP"] = -10.5
    header["XBINNING"] = 2
    header["YBINNING"] = 2


def main():
    rng = np.random.default_rng(5)
    rows = []

    def write(name, hdus):
        fits.HDUList(hdus).writeto(os.path.join(HERE, name), overwrite=True, output_verify="silentfix")
        with fits.open(os.path.join(HERE, name)) as f:
            data = next(h.data for h in f if h.data is not None and getattr(h.data, "ndim", 0) >= 2)
            if data.ndim == 3:
                data = data[1 if data.shape[0] == 3 else 0]
            for x, y in ((0, 0), (16, 0), (0, 10), (16, 10), (5, 3), (11, 7)):
                rows.append(f"{name},{x},{y},{float(data[y, x])!r}")

    def image(dtype, low, high, shape=(H, W)):
        data = rng.integers(low, high, shape, endpoint=True, dtype=np.int64) if low is not None else rng.normal(0, 1000, shape)
        hdu = fits.PrimaryHDU(data.astype(dtype))
        common(hdu.header)
        return hdu

    write("uint8.fits", [image(np.uint8, 0, 255)])
    write("int16.fits", [image(np.int16, -32768, 32767)])
    write("uint16.fits", [image(np.uint16, 0, 65535)])
    write("int32.fits", [image(np.int32, -(2**31), 2**31 - 1)])
    write("uint32.fits", [image(np.uint32, 0, 2**32 - 1)])
    write("int64.fits", [image(np.int64, -(2**40), 2**40)])
    write("float32.fits", [image(np.float32, None, None)])
    write("float64.fits", [image(np.float64, None, None)])
    write("planes.fits", [image(np.uint16, 0, 65535, (3, H, W))])

    scaled = image(np.float64, 0, 1000)
    scaled.scale("int16", bscale=0.5, bzero=100)
    scaled.header["BLANK"] = -32768
    scaled.data.flat[3 * W + 5] = -32768
    write("scaled.fits", [scaled])

    words = image(np.uint16, 0, 65535)
    words.header["OBJECT"] = "O'Brien's field, " + "which has a long name " * 5 + "and ends"
    words.header["HIERARCH OBSERVATORY SITE name"] = "a keyword that we pass over"
    words.header["FILTER"] = "'quoted' / not a comment"
    words.header.add_comment("EXPTIME = 999 is not a card but a comment")
    words.header.add_history("IMAGETYP= 'Dark'")
    words.header["BLANKVAL"] = None
    words.header["SIMPLEX"] = True
    write("words.fits", [words])

    extension = fits.ImageHDU(rng.integers(0, 65535, (H, W)).astype(np.uint16))
    primary = fits.PrimaryHDU()
    common(primary.header)
    table = fits.BinTableHDU.from_columns([fits.Column("a", "J", array=np.arange(900))])
    extension.header["FILTER"] = "OIII"
    write("extension.fits", [primary, table, extension])

    data = rng.integers(0, 1000, (H, W)).astype(np.int16)
    fits.HDUList([fits.PrimaryHDU(), fits.CompImageHDU(data)]).writeto(os.path.join(HERE, "compressed.fits"), overwrite=True)

    with open(os.path.join(HERE, "pixels.csv"), "w") as f:
        f.write("file,x,y,value\n" + "\n".join(rows) + "\n")


main()
