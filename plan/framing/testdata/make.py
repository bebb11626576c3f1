"""Makes tangent.csv and equinox.csv. Needs Debian's python3-astropy and python3-erfa."""
import random, numpy as np, erfa, astropy
from astropy.wcs import WCS
import astropy.wcs as aw
random.seed(20261205)
out = open("tangent.csv", "w")
out.write("# Gnomonic projection by wcslib %s through astropy.wcs (Astropy %s). All angles in degrees.\n" % (aw._wcs.__version__, astropy.__version__))
out.write("# CTYPE RA---TAN, DEC--TAN; CD = s*[[-cos t, sin t], [sin t, cos t]], t the position angle of +y, s = scale_arcsec/3600.\n")
out.write("id,ra0_deg,dec0_deg,ra_deg,dec_deg,angle_deg,scale_arcsec,xi_deg,eta_deg,x_px,y_px\n")
n = 0
while n < 200:
    ra0 = random.uniform(0, 360); dec0 = random.choice([random.uniform(-90, 90), 90.0, -90.0, 0.0, 89.9, -69.1])
    t = random.uniform(0, 360); scale = random.choice([0.4, 1.6157, 4.0, 60.0])
    ra0, dec0, t = round(ra0, 6), round(dec0, 6), round(t, 4)
    rho = random.choice([0.01, 0.5, 2, 10, 50]) * random.random(); pa = random.uniform(0, 2*np.pi)
    # a place at distance rho, position angle pa
    d0 = np.radians(dec0); r = np.radians(rho)
    dec = np.arcsin(np.sin(d0)*np.cos(r) + np.cos(d0)*np.sin(r)*np.cos(pa))
    dra = np.arctan2(np.sin(r)*np.sin(pa), np.cos(d0)*np.cos(r) - np.sin(d0)*np.sin(r)*np.cos(pa))
    ra, dec = round((ra0 + np.degrees(dra)) % 360, 8), round(np.degrees(dec), 8)
    c, s = np.cos(np.radians(t)), np.sin(np.radians(t))
    def make(cd):
        w = WCS(naxis=2); w.wcs.ctype = ["RA---TAN", "DEC--TAN"]; w.wcs.crval = [ra0, dec0]; w.wcs.crpix = [0, 0]
        w.wcs.lonpole = 180.0
        w.wcs.cd = cd; w.wcs.set(); return w
    xi, eta = make(np.eye(2)).wcs_world2pix([[ra, dec]], 0)[0] + 1
    k = scale/3600
    x, y = make(k*np.array([[-c, s], [s, c]])).wcs_world2pix([[ra, dec]], 0)[0] + 1
    n += 1
    out.write("%d,%.6f,%.6f,%.8f,%.8f,%.4f,%.4f,%.12f,%.12f,%.9f,%.9f\n" % (n, ra0, dec0, ra, dec, t, scale, xi, eta, x, y))
out.close()

out = open("equinox.csv", "w")
out.write("# Position angle, at the apparent place of date, of the direction that was north at the place in the ICRF.\n")
out.write("# ERFA %s through pyerfa %s: pnm06a, epv00 and ab on two points 1e-5 rad apart, TT = UTC + 69.184 s. Degrees.\n" % (erfa.__version__, erfa.__version__))
out.write("id,utc,ra_deg,dec_deg,turn_deg\n")
import datetime
for i in range(120):
    day = datetime.datetime(2018, 1, 1) + datetime.timedelta(days=random.randrange(0, 365*18), hours=random.randrange(24))
    d1, d2 = erfa.dtf2d("UTC", day.year, day.month, day.day, day.hour, 0, 0.0)
    tt = d2 + 69.184/86400
    ra, dec = round(random.uniform(0, 360), 5), round(random.uniform(-87, 87), 5)
    m = erfa.pnm06a(d1, tt); pvh, pvb = erfa.epv00(d1, tt)
    v = pvb['v']/173.1446326846693
    bm1 = np.sqrt(1 - v.dot(v)); sun = np.linalg.norm(pvh['p'])
    def app(ra, dec):
        p = erfa.s2c(ra, dec); return m.dot(erfa.ab(p, v, sun, bm1))
    a = app(np.radians(ra), np.radians(dec)); b = app(np.radians(ra), np.radians(dec) + 1e-5)
    turn = np.degrees(erfa.pap(a, b)); out.write("%d,%sZ,%.5f,%.5f,%.7f\n" % (i+1, day.isoformat(), ra, dec, (turn+180) % 360 - 180))
