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

    with open(os.path.join(HERE, "pixels.csv"), "w") as f:
        f.write("file,x,y,value\n" + "\n".join(rows) + "\n")


TILED = [(0, 0), (16, 0), (0, 10), (16, 10), (5, 3), (11, 7), (7, 5), (3, 9)]


def tiled():
    """Frames compressed in tiles, with tiled.csv of what astropy reads back."""
    rng = np.random.default_rng(10)
    rows = []

    def write(name, hdu):
        common(hdu.header)
        path = os.path.join(HERE, name)
        fits.HDUList([fits.PrimaryHDU(), hdu]).writeto(path, overwrite=True)
        with fits.open(path) as f:
            data = f[1].data[1] if f[1].data.ndim == 3 else f[1].data
            for x, y in TILED:
                rows.append(f"{name},{x},{y},{float(data[y, x])!r}")

    def sky(dtype, shape=(H, W)):
        data = rng.normal(1000, 12, shape)
        data[..., 3:5, 5:8] += 20000
        return data.astype(dtype)

    def packed(data, method, **how):
        return fits.CompImageHDU(data, compression_type=method, **how)

    write("rice8.fits.fz", packed(rng.integers(0, 256, (H, W)).astype(np.uint8), "RICE_1"))
    write("rice16.fits.fz", packed(sky(np.int16), "RICE_1"))
    write("riceu16.fits.fz", packed(rng.integers(0, 65536, (H, W)).astype(np.uint16), "RICE_1", tile_size=(8, 4)))
    write("rice32.fits.fz", packed(sky(np.int32), "RICE_1", tile_size=(W, H)))
    write("riceflat.fits.fz", packed(np.full((H, W), -7, np.int16), "RICE_1", tile_size=(W, H)))
    write("ricewild.fits.fz", packed(rng.integers(-(2**31), 2**31, (H, W)).astype(np.int32), "RICE_1"))
    write("gzip16.fits.fz", packed(sky(np.int16), "GZIP_1"))
    write("gzip2u16.fits.fz", packed(sky(np.uint16), "GZIP_2", tile_size=(5, 3)))
    write("gzip2i32.fits.fz", packed(sky(np.int32), "GZIP_2"))
    write("planes.fits.fz", packed(sky(np.int16, (3, H, W)), "RICE_1"))
    # Floating point: kept whole, without dither, with either dither (a nought and a pixel without a value in it).
    write("floatwhole.fits.fz", packed(sky(np.float32), "GZIP_2", quantize_level=0))
    write("doublewhole.fits.fz", packed(sky(np.float64), "GZIP_1", quantize_level=0))
    write("floatnone.fits.fz", packed(sky(np.float32), "RICE_1", quantize_method=-1, quantize_level=8))
    odd = sky(np.float32)
    odd[5, 7], odd[9, 3] = 0, np.nan
    write("dither1.fits.fz", packed(odd, "RICE_1", quantize_method=1, dither_seed=9998, quantize_level=8))
    write("dither2.fits.fz", packed(odd, "RICE_1", quantize_method=2, dither_seed=77, quantize_level=8, tile_size=(W, H)))
    write("ditherzip.fits.fz", packed(odd, "GZIP_1", quantize_method=1, dither_seed=5000, quantize_level=8))
    # A tile of one value cannot be made whole and is kept as it stands.
    even = sky(np.float32)
    even[3] = 1234.5
    write("floatmixed.fits.fz", packed(even, "RICE_1", quantize_method=1, dither_seed=1, quantize_level=8))

    # One tile of more pixels than there are random numbers.
    large = rng.normal(1000, 12, (80, 150)).astype(np.float32)
    hdu = packed(large, "RICE_1", quantize_method=1, dither_seed=10000, quantize_level=2, tile_size=(150, 80))
    path = os.path.join(HERE, "ditherlong.fits.fz")
    fits.HDUList([fits.PrimaryHDU(), hdu]).writeto(path, overwrite=True)
    with fits.open(path) as f:
        for x, y in ((0, 0), (149, 66), (0, 67), (149, 79)):
            rows.append(f"ditherlong.fits.fz,{x},{y},{float(f[1].data[y, x])!r}")

    # Tiles that are not compressed: astropy 5.2 does not write them, so the table is made by hand.
    for method, column in (("NOCOMPRESS", "COMPRESSED_DATA"), ("RICE_1", "UNCOMPRESSED_DATA")):
        data = sky(np.int16)
        tiles = np.empty(H, dtype=object)
        for i in range(H):
            tiles[i] = data[i]
        hdu = fits.BinTableHDU.from_columns([fits.Column(column, "PI()", array=tiles)])
        common(hdu.header)
        for keyword, v in (("ZIMAGE", True), ("ZCMPTYPE", method), ("ZBITPIX", 16), ("ZNAXIS", 2), ("ZNAXIS1", W), ("ZNAXIS2", H)):
            hdu.header[keyword] = v
        name = "plain.fits.fz" if method == "NOCOMPRESS" else "plaintile.fits.fz"
        fits.HDUList([fits.PrimaryHDU(), hdu]).writeto(os.path.join(HERE, name), overwrite=True)
        for x, y in TILED:
            rows.append(f"{name},{x},{y},{float(data[y, x])!r}")

    other = packed(sky(np.int16), "HCOMPRESS_1", tile_size=(W, H))
    fits.HDUList([fits.PrimaryHDU(), other]).writeto(os.path.join(HERE, "other.fits.fz"), overwrite=True)
    with open(os.path.join(HERE, "tiled.csv"), "w") as f:
        f.write("file,x,y,value\n" + "\n".join(rows) + "\n")


main()
tiled()
