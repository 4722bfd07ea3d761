"""Usual O-ring gland dimensions by section: depth, width and squeeze, for static and for moving seals.

Written by tests/published/make_as568.py from oring_gland_static.csv and oring_gland_dynamic.csv beside it:
change the tables, then run it. Both come from the files data/o-ring_static_gland_parameters.csv and
data/o-ring_dynamic_gland_parameters.csv of bd-warehouse 0.4.0, licensed under the Apache License, Version 2.0
(http://www.apache.org/licenses/LICENSE-2.0). Changed here: only the columns that are used are kept.
"""

from __future__ import annotations

# section [mm]: depth from, to [mm]; width without back-up ring [mm]; squeeze from, to [%].
STATIC_RADIAL: dict[float, tuple[float, float, float, float, float]] = {
    1.02: (0.69, 0.76, 1.52, 19.0, 37.0),
    1.27: (0.89, 0.99, 1.91, 17.0, 34.0),
    1.52: (1.07, 1.19, 2.29, 18.0, 33.0),
    1.78: (1.27, 1.40, 2.41, 18.0, 32.0),
    2.62: (2.03, 2.18, 3.56, 14.0, 25.0),
    3.53: (2.79, 2.95, 4.57, 14.0, 23.0),
    5.33: (4.32, 4.47, 7.11, 14.0, 21.0),
    6.99: (5.72, 5.97, 9.40, 13.0, 20.0),
}

STATIC_FACE: dict[float, tuple[float, float, float, float, float]] = {
    1.02: (0.69, 0.76, 1.52, 19.0, 37.0),
    1.27: (0.86, 0.97, 1.91, 19.0, 36.0),
    1.52: (1.07, 1.17, 2.29, 19.0, 33.0),
    1.78: (1.24, 1.37, 2.41, 19.0, 33.0),
    2.62: (1.91, 2.06, 3.56, 19.0, 29.0),
    3.53: (2.54, 2.74, 4.57, 20.0, 30.0),
    5.33: (3.94, 4.19, 7.11, 20.0, 28.0),
    6.99: (5.21, 5.42, 9.40, 20.0, 27.0),
}

DYNAMIC_RADIAL: dict[float, tuple[float, float, float, float, float]] = {
    1.02: (0.79, 0.84, 1.60, 11.0, 28.0),
    1.27: (0.99, 1.04, 1.85, 13.0, 26.0),
    1.52: (1.19, 1.24, 2.13, 14.0, 25.0),
    1.78: (1.40, 1.45, 2.41, 15.0, 25.0),
    2.62: (2.21, 2.29, 3.68, 10.0, 18.0),
    3.53: (3.02, 3.12, 4.70, 9.0, 17.0),
    5.33: (4.65, 4.78, 7.24, 8.5, 15.0),
    6.99: (5.94, 6.10, 9.52, 10.5, 17.0),
}
