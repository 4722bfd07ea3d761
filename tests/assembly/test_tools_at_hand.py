"""A tool put on a part off the pump comes out while the part stays in, as long as its end can be reached."""

from __future__ import annotations

import pytest

from benchcheck.assembly.bars import in_the_way_of
from tests.pumps import built, tiny_pump

PUMP = """
step = []
[[part]]
id = "body"
ends = ["motor end", "foot"]
[[part]]
id = "motor"
ends = ["shaft end", "fan end"]
into = "body"
from = "motor end"
shows = "fan end"
[[part]]
id = "thing"
into = "motor"
from = "{end}"
temporary = {tool}
"""


@pytest.mark.parametrize(
    ("end", "tool", "barred"),
    [
        ("fan end", "true", False),  # jack screws in a bracket
        ("fan end", "false", True),  # what was built off the pump is taken apart off the pump
        ("shaft end", "true", True),  # inside the body
    ],
)
def test_only_a_tool_at_a_free_end_comes_out_of_what_carries_it(end: str, tool: str, barred: bool) -> None:
    now = built(tiny_pump(PUMP.format(end=end, tool=tool)), "thing", "motor")
    assert in_the_way_of(now, "thing") == (("motor",) if barred else ())
