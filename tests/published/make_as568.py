"""Writes the O-ring table modules of the package from the published tables beside this script.

Run it after a change of a table:  python tests/published/make_as568.py
A test compares what it would write with what stands in the package, so neither can drift alone.
"""

from __future__ import annotations

import csv
from pathlib import Path

HERE = Path(__file__).parent
TABLES = HERE.parent.parent / "benchcheck" / "mechanics" / "tables"

SIZES_HEAD = '''\
"""AS568 O-ring sizes: 369 dash numbers with inside diameter, section and their tolerances.

Written by tests/published/make_as568.py from tests/published/as568_orings.csv: change the table, then run it.
The 349 sizes of the series 0xx to 4xx come from the file data/o-ring_parameters.csv of bd-warehouse 0.4.0,
licensed under the Apache License, Version 2.0 (http://www.apache.org/licenses/LICENSE-2.0). Changed here: the
inch columns are the millimetre columns divided by 25.4 and rounded to 0.001 in, and the layout is another.
The 20 boss sizes of the series 9xx come from one open inch table, seen but not cross-checked.
"""

from __future__ import annotations

# dash number: inside diameter, its tolerance, section, its tolerance [inch]; then the same four [millimetre].
SIZES: dict[str, tuple[float, float, float, float, float, float, float, float]] = {
'''

GLANDS_HEAD = '''\
"""Usual O-ring gland dimensions by section: depth, width and squeeze, for static and for moving seals.

Written by tests/published/make_as568.py from oring_gland_static.csv and oring_gland_dynamic.csv beside it:
change the tables, then run it. Both come from the files data/o-ring_static_gland_parameters.csv and
data/o-ring_dynamic_gland_parameters.csv of bd-warehouse 0.4.0, licensed under the Apache License, Version 2.0
(http://www.apache.org/licenses/LICENSE-2.0). Changed here: only the columns that are used are kept.
"""

from __future__ import annotations

# section [mm]: depth from, to [mm]; width without back-up ring [mm]; squeeze from, to [%].
'''

SIZE_COLUMNS = ("id_in", "id_tol_in", "cs_in", "cs_tol_in", "id_mm", "id_tol_mm", "cs_mm", "cs_tol_mm")
GLAND_TABLES = (
    ("STATIC_RADIAL", "static", ("d_r_min", "d_r_max", "g_w_0", "sq_r_p_min", "sq_r_p_max")),
    ("STATIC_FACE", "static", ("d_a_min", "d_a_max", "g_w_0", "sq_a_p_min", "sq_a_p_max")),
    ("DYNAMIC_RADIAL", "dynamic", ("d_min", "d_max", "g_w_0", "sq_p_min", "sq_p_max")),
)


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a published table, without its comment lines."""
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def number(text: str) -> str:
    """A number of a table as Python writes it (".69" becomes "0.69", "28" becomes "28.0")."""
    return "0" + text if text.startswith(".") else text if "." in text else text + ".0"


def sizes_module() -> str:
    """The text of benchcheck/mechanics/tables/as568.py."""
    lines = [
        f'    "{row["dash"]}": ({", ".join(number(row[column]) for column in SIZE_COLUMNS)}),'
        for row in rows("as568_orings.csv")
    ]
    return SIZES_HEAD + "\n".join(lines) + "\n}\n"


def glands_module() -> str:
    """The text of benchcheck/mechanics/tables/o_ring_glands.py."""
    tables = []
    for name, kind, columns in GLAND_TABLES:
        lines = [
            f"    {number(row['w'])}: ({', '.join(number(row[column]) for column in columns)}),"
            for row in rows(f"oring_gland_{kind}.csv")
        ]
        head = f"{name}: dict[float, tuple[float, float, float, float, float]] = {{\n"
        tables.append(head + "\n".join(lines) + "\n}\n")
    return GLANDS_HEAD + "\n".join(tables)


if __name__ == "__main__":
    (TABLES / "as568.py").write_text(sizes_module(), encoding="utf-8")
    (TABLES / "o_ring_glands.py").write_text(glands_module(), encoding="utf-8")
