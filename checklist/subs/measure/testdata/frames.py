"""Frames with known stars, made with numpy. Every profile is integrated over the pixels."""

import math

import numpy as np


def profile(kind, hfd, size, dx, dy, ratio=1.0, angle_deg=0.0, beta=3.0):
    """The share of a star's light in each pixel of a square, its centre dx, dy from the middle one.

    hfd is the half-flux diameter before the pixels; ratio squeezes the axis across angle_deg and
    stretches the one along it, so that their product stays."""
    n = 9  # points along a side of a pixel
    half = size // 2
    steps = (np.arange(size * n) + 0.5) / n - 0.5 - half
    x, y = np.meshgrid(steps - dx, steps - dy)
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    u, v = (x * c + y * s) / math.sqrt(ratio), (-x * s + y * c) * math.sqrt(ratio)
    r2 = u * u + v * v
    if kind == "gauss":
        sigma = hfd / (2 * math.sqrt(2 * math.log(2)))
        value = np.exp(-r2 / (2 * sigma**2)) / (2 * math.pi * sigma**2)
    else:
        alpha = hfd / (2 * math.sqrt(2 ** (1 / (beta - 1)) - 1))
        value = (beta - 1) / (math.pi * alpha**2) * (1 + r2 / alpha**2) ** -beta
    return value.reshape(size, n, size, n).mean(axis=(1, 3))


def add(frame, cx, cy, flux, share):
    half = share.shape[0] // 2
    h, w = frame.shape
    x0, x1 = max(cx - half, 0), min(cx + half + 1, w)
    y0, y1 = max(cy - half, 0), min(cy + half + 1, h)
    if x0 < x1 and y0 < y1:
        frame[y0:y1, x0:x1] += flux * share[y0 - cy + half : y1 - cy + half, x0 - cx + half : x1 - cx + half]


def field(seed, width, height, stars, kind="gauss", hfd=3.2, faint=1000.0, bright=2e6, gain=1.0, sky=900.0,
          gradient=300.0, hot=0, read=4.0, beta=3.0, ratio=1.0, angle_deg=0.0, apart=0):
    """A frame as a camera of 16 bits writes it, and its stars: x, y, flux. gain is in electrons per ADU. Hot
    pixels lie at least apart pixels from any star."""
    rng = np.random.default_rng(seed)
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    frame = sky + gradient * (x / width + 0.5 * y / height)
    del x, y
    # As many stars ten times brighter as three profiles as many: the slope of counts in the Milky Way.
    u = rng.random(stars)
    slope = 0.6
    flux = faint * (1 - u * (1 - (bright / faint) ** -slope)) ** (-1 / slope)
    place = rng.random((stars, 2)) * [width - 1, height - 1]
    size = 2 * int(math.ceil((3 if kind == "gauss" else 8) * hfd)) + 1
    profiles = {}
    for (px, py), f in zip(place, flux):
        # Places are to a twentieth of a pixel, so that few profiles need making.
        key = (round(px * 20) - 20 * round(px), round(py * 20) - 20 * round(py))
        if key not in profiles:
            profiles[key] = profile(kind, hfd, size, key[0] / 20, key[1] / 20, ratio, angle_deg, beta)
        add(frame, round(px), round(py), f, profiles[key])
    place = np.round(place * 20) / 20
    frame = rng.normal(frame, np.sqrt(frame / gain + read**2)).astype(np.float32)
    while hot > 0:
        x, y = rng.integers(width), rng.integers(height)
        if apart == 0 or np.hypot(place[:, 0] - x, place[:, 1] - y).min() > apart:
            frame[y, x] += rng.uniform(500, 60000)
            hot -= 1
    frame = np.clip(np.round(frame), 0, 65535).astype(np.uint16)
    return frame, np.column_stack([place, flux])
