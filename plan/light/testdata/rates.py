#!/usr/bin/env python3
"""Photon rates through filters by adaptive integration over wavelength, for rates_test.go.

Written beside the Go code from the same published formulas, in other units where that is possible: zenith
distances, magnitudes and energies instead of altitudes, nanolamberts and photons. Prints the table:

    python3 rates.py > rates.csv

Made with Python 3.11 and SciPy 1.10.1 of Debian 12.
"""
import csv
import math
import sys

from scipy.integrate import quad

H, C = 6.62607015e-27, 2.99792458e10  # erg s, cm/s
BANDS = [(0.36, 1.81e-20), (0.44, 4.26e-20), (0.55, 3.64e-20), (0.64, 3.08e-20), (0.79, 2.55e-20)]  # Bessell 1979


def density(um, colours):
    """Photons s-1 cm-2 A-1 of V = 0, scaled to 1000 at 0.55 um, straight in the logarithm between the bands."""
    def at(i):
        lam, flux = BANDS[i]
        lam_cm = lam * 1e-4
        per_cm = flux * C / lam_cm**2 / (H * C / lam_cm)  # erg to photons, hertz to centimetre
        return per_cm * 1e-8 * 10 ** (-0.4 * colours[i])
    v = BANDS[2][1] / (H * 0.55e-4) * 1e-8
    if um <= BANDS[0][0]:
        return at(0) / v * 1000
    for i in range(4):
        if um <= BANDS[i + 1][0]:
            s = (um - BANDS[i][0]) / (BANDS[i + 1][0] - BANDS[i][0])
            return at(i) ** (1 - s) * at(i + 1) ** s / v * 1000
    return at(4) / v * 1000


def tau_r(um, hpa, km):  # Noll et al. 2012, eq. 3
    return hpa / 1013.25 * (0.00864 + 6.5e-6 * km) * um ** -(3.916 + 0.074 * um + 0.050 / um)


def ozone(um):
    return 0.025 * math.exp(-((um - 0.595) / 0.060) ** 2)


def extinction(um, site):
    clean = lambda x: 1.0857 * tau_r(x, site["hpa"], site["km"]) + ozone(x)
    dust = site["k"] - clean(0.55)
    if dust < 0:
        return clean(um) * site["k"] / clean(0.55)
    return clean(um) + dust * (um / 0.55) ** -1.38


def layer(z):  # Krisciunas & Schaefer 1991, eq. 3
    return 1 / math.sqrt(1 - 0.96 * math.sin(math.radians(z)) ** 2)


def kasten_young(z):
    h = 90 - z
    return 1 / (math.sin(math.radians(h)) + 0.50572 * (h + 6.07995) ** -1.6364)


def moon(um, site, z, zm, rho, phase):
    """The Moon's light in photons s-1 cm-2 A-1 arcsec-2."""
    k, kv = extinction(um, site), site["k"]
    f_r = 10**5.36 * (1.06 + math.cos(math.radians(rho)) ** 2)
    f_a = 10 ** (6.15 - rho / 40) if rho >= 10 else 6.2e7 / rho**2
    share = f_r * tau_r(um, 1, 0) / tau_r(0.55, 1, 0) + f_a * (um / 0.55) ** -1.38
    magnitude = -12.73 + 0.026 * phase + 4e-9 * phase**4
    sheds = 10 ** (-0.4 * (magnitude + 16.57))
    nl = share * sheds * 10 ** (-0.4 * k * layer(zm)) * (1 - 10 ** (-0.4 * k * layer(z))) * kv / k
    v_mag = (20.7233 - math.log(nl / 34.08)) / 0.92104
    return density(um, (1.38, 0.92, 0, -0.5, -0.95)) * 10 ** (-0.4 * v_mag)


def over(f, low, high):
    inside = [b for b, _ in BANDS if low < b < high]
    return quad(f, low, high, points=inside or None, epsabs=0, epsrel=1e-9, limit=200)[0] * 1e4  # um to A


SITES = {"outback": dict(hpa=988, km=0.21, k=0.18, sky=21.6), "mountain": dict(hpa=780, km=2.4, k=0.10, sky=21.9),
         "haze": dict(hpa=1010, km=0.0, k=0.35, sky=19.5)}
FILTERS = [("L", 550, 300), ("R", 635, 100), ("G", 530, 100), ("B", 455, 100), ("Ha", 656.28, 3), ("Ha", 656.28, 7), ("OIII", 500.68, 3)]
SKIES = [(0, 40, 60, 0), (40, 30, 8, 12), (60, 75, 100, 80)]  # zenith distances of place and Moon, apart, phase angle
SKY, DISC = (0.1, 0.8, 0, -0.9, -1.9), (1.1, 0.8, 0, -0.55, -1.1)
LINES = [(0.65628, 100), (0.48613, 100 / 2.86), (0.50068, 20), (0.49589, 20 / 2.98), (0.65834, 30), (0.65480, 30 / 2.98), (0.6724, 20)]

out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("site,filter,centre_nm,width_nm,zenith_deg,moon_zenith_deg,apart_deg,phase_deg,moonless,moonlit,galaxy_mag22,gas_100r".split(","))
for name, site in SITES.items():
    for filter_name, centre, width in FILTERS:
        low, high = (centre - width / 2) / 1000, (centre + width / 2) / 1000
        for z, zm, rho, phase in SKIES:
            x, xo = layer(z), kasten_young(z)
            own = over(lambda um: density(um, SKY) * 10 ** (-0.4 * (site["sky"] + extinction(um, site) * (x - 1))) * x, low, high)
            lit = over(lambda um: moon(um, site, z, zm, rho, phase), low, high)
            galaxy = over(lambda um: density(um, DISC) * 10 ** (-0.4 * (22 + extinction(um, site) * xo)), low, high)
            gas = sum(r * 1e6 / (4 * math.pi) / (180 * 3600 / math.pi) ** 2 * 10 ** (-0.4 * extinction(um, site) * xo)
                      for um, r in LINES if low <= um <= high)
            out.writerow([name, filter_name, centre, width, z, zm, rho, phase] + ["%.6e" % v for v in (own, lit, galaxy, gas)])
