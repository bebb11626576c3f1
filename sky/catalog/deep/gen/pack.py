#!/usr/bin/python3
"""Makes stars.bin of package deep. Nothing runs it but a person who changes the layer.

    apt-get install python3-numpy python3-astropy           # 1.24.2 and 5.2.1 when the file was made
    apt-get download astrometry-data-tycho2-07-littleendian astrometry-data-tycho2-10-19-littleendian  # 2-4
    dpkg -x each of them into DIR
    python3 sky/catalog/deep/gen/pack.py DIR sky/catalog/stars.csv sky/catalog/deep/stars.bin

The index files hold the stars of Tycho-2 as a k-d tree: unit vectors as three u32 each (-1 to 1), and
MAG_VT of each star as a table beside it. Their equator and epoch are those of Tycho-2's mean places:
ICRS, J2000.0. Each file keeps the ten brightest stars of each HEALPix cell: file 07 of cells of 22.6', file
10 of cells of 64'. The layer takes both whole. All of file 10, and of file 07 what is not fainter than FLOOR,
are for drawing; the fainter rest is for solving, where it matters that small fields have stars. Stars of
sky/catalog that Tycho-2 lacks, or has only by light of a wrong size, come from stars.csv.

The format of stars.bin, version 2, little endian:

    bytes 0-3    "DEEP"
    u16          version, 2
    u16          NSIDE, the HEALPix cells per side of a base cell, ring order (Gorski et al. 2005)
    u32          number of stars
    12*NSIDE^2+1 times u32   index of the first star of each cell; the last is the number of stars
    12*NSIDE^2 times u8      magnitude to which the cell is complete, coded as below, rounded down
    12*NSIDE^2 times u8      how many of the cell's stars are for drawing: its first
    per star     u8 magnitude code m; u16 u; u16 v: place in the cell, in steps of 1/65536
                 of its side, u towards north-east and v towards north-west, from its southern corner
    The code of a star for drawing is of magnitude (m - 30) / 20, that of another 10 + m / 50: none of those
    is brighter than FLOOR. The stars of a cell stand brightest first.
"""
import glob
import struct
import sys

import numpy as np
from astropy.io import fits

FLOOR = 10.0          # VT to which file 07 is for drawing
FAINT_STEPS = 50      # per magnitude, of the stars that are not for drawing, from FLOOR on
TYCHO_COMPLETE = 11.0  # VT; Hog et al. 2000: 99 per cent complete to V 11.0
SAME_STAR = 5.0       # arcsec; between a star of stars.csv and its entry in Tycho-2
SAME_LIGHT = 0.5      # mag; less light than that in Tycho-2 and the star is not the same
STARS_PER_CELL = 10   # that the index files keep
MAG_ZERO, MAG_STEPS = 30, 20


def read_index(folder, scale):
    """Returns unit vectors, VT and NSIDE of one index file."""
    path = glob.glob(f"{folder}/usr/share/astrometry/index-tycho2-{scale}.littleendian.fits")[0]
    with fits.open(path) as file:
        def table(name):
            unit = next(u for u in file[1:] if name in u.columns.names)
            return unit.header["NAXIS2"], unit.fileinfo()["datLoc"]
        count, at = table("kdtree_data_stars")
        raw = np.fromfile(path, "<u4", 3 * count, offset=at).reshape(count, 3)
        count, at = table("MAG_VT")
        mag = np.fromfile(path, ">f4", count, offset=at)  # the only table in FITS's own byte order
        nside = next(u.header["CUTNSIDE"] for u in file[1:] if "CUTNSIDE" in u.header)
    return raw, mag.astype(float), nside


def vectors(raw):
    xyz = raw / (2**31 - 0.5) - 1
    length = np.linalg.norm(xyz, axis=1)
    assert np.abs(length - 1).max() < 1e-8, "not unit vectors: has the byte order changed?"
    return xyz / length[:, None]


def cell_of(xyz, n):
    """Returns ring-order cell and the place u, v in it (Calabretta & Roukema 2007, MNRAS 381, 865)."""
    z = xyz[:, 2]
    t = np.arctan2(xyz[:, 1], xyz[:, 0]) % (2 * np.pi) * 4 / np.pi
    sigma = np.sqrt(3 * (1 - np.abs(z)))
    middle = 2 * np.floor(t / 2) + 1
    polar = np.abs(z) > 2 / 3
    y = np.where(polar, np.sign(z) * (2 - sigma), 1.5 * z)
    t = np.where(polar, middle + (t - middle) * sigma, t)
    u, v = (y - 1 + t) * n / 2, (y - 1 - t) * n / 2
    fu, fv = np.floor(u), np.floor(v)
    ring = np.rint(n - fu - fv - 1).astype(int)
    t = (fu - fv) / n  # of the cell's middle
    cap = np.minimum(np.minimum(ring, 4 * n - ring), n)
    gore = np.floor(t / 2)
    in_cap = gore * cap + ((t - 2 * gore - 1) * n + cap - 1) / 2
    in_belt = (t * n - (ring + n + 1) % 2) / 2
    place = np.rint(np.where(cap < n, in_cap, in_belt)).astype(int) % (4 * cap)
    return ring_start(ring, n) + place, u - fu, v - fv


def ring_start(ring, n):
    north = 2 * ring * (ring - 1)
    south = 12 * n * n - 2 * (4 * n - ring) * (4 * n - ring + 1)
    belt = 2 * n * (n - 1) + (ring - n) * 4 * n
    return np.where(ring < n, north, np.where(ring <= 3 * n, belt, south))


def read_bright(path):
    """Returns unit vectors of stars.csv for J2000.0 and for 1991.25, and V."""
    rows = np.genfromtxt(path, delimiter=",", names=True, dtype=None, encoding="utf-8", usecols=(1, 2, 3, 4, 5),
                         filling_values=0)
    ra, dec, mag, motion_ra, motion_dec = (np.asarray(rows[name], float) for name in rows.dtype.names)
    ra, dec = np.radians(ra), np.radians(dec)
    back = np.radians((1991.25 - 2000) / 3600e3)
    then = unit(ra + back * motion_ra / np.cos(dec), dec + back * motion_dec)
    return unit(ra, dec), then, mag


def unit(ra, dec):
    return np.stack([np.cos(dec) * np.cos(ra), np.cos(dec) * np.sin(ra), np.sin(dec)], axis=1)


def lacking(bright, then, bright_mag, xyz, mag):
    """Returns which stars of stars.csv the others lack, and which of the others those replace: one with too
    little light (a component of a pair, a red star's VT), or the same star at its place of 1991.25, for
    the index takes the brightest from Tycho-2's supplement, which gives that epoch."""
    order = np.argsort(xyz[:, 2])
    z = xyz[order, 2]
    reach = np.radians(SAME_STAR / 3600)

    def near(place):
        few = order[np.searchsorted(z, place[2] - reach):np.searchsorted(z, place[2] + reach)]
        few = few[np.linalg.norm(xyz[few] - place, axis=1) < reach]
        return few, -2.5 * np.log10(np.sum(10 ** (-0.4 * mag[few]))) if len(few) else 99

    lack, replaced = [], []
    for k in range(len(bright)):
        here, light = near(bright[k])
        if light > bright_mag[k] + SAME_LIGHT:
            lack.append(k)
            replaced.extend(here)
            old, old_light = near(then[k])
            if abs(old_light - bright_mag[k]) <= SAME_LIGHT:
                replaced.extend(old)
    return np.array(lack, int), np.unique(np.array(replaced, int))


def completeness(raw7, mag7, n7, tenth, n):
    """Returns the magnitude to which each cell is complete: to its tenth star or to FLOOR, whichever is
    fainter; but FLOOR is not reached where a cell of file 07 is so crowded that its tenth is brighter."""
    reached = np.full(12 * n * n, FLOOR)
    xyz = vectors(raw7)
    cell, u, v = cell_of(xyz, n7)
    count = np.bincount(cell, minlength=12 * n7 * n7)
    faintest = np.full(12 * n7 * n7, -9.0)
    np.maximum.at(faintest, cell, mag7)
    crowded = np.flatnonzero((count >= STARS_PER_CELL) & (faintest < FLOOR))
    reach = np.radians(0.5)  # more than a cell of file 07 is wide: too many cells rather than too few
    for c in crowded:
        middle = xyz[cell == c].mean(axis=0)
        middle /= np.linalg.norm(middle)
        tangent = np.cross(middle, [0, 0, 1] if abs(middle[2]) < 0.9 else [1, 0, 0])
        tangent /= np.linalg.norm(tangent)
        other = np.cross(middle, tangent)
        a, b = np.meshgrid(np.linspace(-reach, reach, 21), np.linspace(-reach, reach, 21))
        points = middle + a.reshape(-1, 1) * tangent + b.reshape(-1, 1) * other
        points /= np.linalg.norm(points, axis=1)[:, None]
        inside = cell_of(points, n7)[0] == c
        touched = np.unique(np.concatenate([cell_of(points[inside], n)[0], cell_of(xyz[cell == c], n)[0]]))
        reached[touched] = np.minimum(reached[touched], faintest[c])
    print(len(crowded), "crowded cells of file 07; cells not complete to", FLOOR, (reached < FLOOR).sum())
    return np.minimum(np.maximum(reached, tenth), TYCHO_COMPLETE)


def main(folder, bright_path, out_path):
    raw10, mag10, n = read_index(folder, "10")
    raw7, mag7, n7 = read_index(folder, "07")
    cell = cell_of(vectors(raw10), n)[0]
    count = np.bincount(cell, minlength=12 * n * n)
    assert count.max() == STARS_PER_CELL, "the index has other cells than its header says"
    tenth = np.full(12 * n * n, -9.0)
    np.maximum.at(tenth, cell, mag10)
    tenth[count < STARS_PER_CELL] = TYCHO_COMPLETE  # all that Tycho-2 has

    # File 10 comes first, so that of a star that both have its row is kept, which tells that it is drawn.
    raw, first = np.unique(np.concatenate([raw10, raw7]), axis=0, return_index=True)
    mag = np.concatenate([mag10, mag7])[first]
    drawn = (first < len(raw10)) | (mag <= FLOOR)
    xyz = vectors(raw)
    print(len(raw10), "stars of file 10,", len(xyz), "with those of file 07")
    bright, then, bright_mag = read_bright(bright_path)
    lack, wrong = lacking(bright, then, bright_mag, xyz[drawn], mag[drawn])
    wrong = np.flatnonzero(drawn)[wrong]
    print(len(lack), "of stars.csv added to", bright_mag[lack].min(), bright_mag[lack].max(),
          ";", len(wrong), "replaced, of VT", np.round(np.sort(mag[wrong])[:12], 2))
    xyz, mag, drawn = np.delete(xyz, wrong, axis=0), np.delete(mag, wrong), np.delete(drawn, wrong)
    xyz, mag = np.concatenate([xyz, bright[lack]]), np.concatenate([mag, bright_mag[lack]])
    drawn = np.concatenate([drawn, np.ones(len(lack), bool)])

    complete = completeness(raw7, mag7, n7, tenth, n)
    complete = np.minimum(complete, (255 - MAG_ZERO) / MAG_STEPS)
    cell, u, v = cell_of(xyz, n)
    code = np.rint(mag * MAG_STEPS).astype(int) + MAG_ZERO
    drawn &= code <= 255  # to VT 11.25; fainter ones are in the emptiest cells
    assert code.min() >= 0 and mag[~drawn].min() > FLOOR
    code = np.where(drawn, code, np.rint((mag - FLOOR) * FAINT_STEPS).astype(int))
    print("faintest", mag.max(), ";", (code > 255).sum(), "fainter than the code goes left out")
    kept = code <= 255
    cell, u, v, code, mag, drawn = cell[kept], u[kept], v[kept], code[kept], mag[kept], drawn[kept]
    order = np.lexsort((mag, ~drawn, cell))
    stars = np.zeros(len(order), np.dtype([("mag", "u1"), ("u", "<u2"), ("v", "<u2")]))
    stars["mag"] = code[order]
    stars["u"], stars["v"] = (u[order] * 65536).astype(int), (v[order] * 65536).astype(int)
    starts = np.searchsorted(cell[order], np.arange(12 * n * n + 1)).astype("<u4")
    limits = (np.floor(complete * MAG_STEPS + 1e-6) + MAG_ZERO).astype("u1")
    drawn_count = np.bincount(cell[drawn], minlength=12 * n * n)
    assert drawn_count.max() <= 255, "more stars for drawing than a cell can count"
    with open(out_path, "wb") as out:
        out.write(b"DEEP" + struct.pack("<HHI", 2, n, len(stars)))
        out.write(starts.tobytes() + limits.tobytes() + drawn_count.astype("u1").tobytes() + stars.tobytes())
    print(len(stars), "stars,", drawn.sum(), "for drawing; complete to, by percentile of the cells",
          dict(zip([0, 1, 5, 25, 50, 75, 95], np.percentile(complete, [0, 1, 5, 25, 50, 75, 95]).round(2))))


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit("usage: pack.py DIR stars.csv stars.bin")
    main(*sys.argv[1:])
