"""What is said once where it must be said twice: the order, the size and the number of rings."""

from __future__ import annotations

from benchcheck.procedure.finding import Severity
from tests.checking.small_pump import SMALL_PUMP, assert_as_marked, rules_found, small_pump

OFF = 'off = ["F1", "cover", "G1", "lip", "shaft"]'
DISC = '[[part]]\nid = "disc"{mark}\ninto = "shaft"\nfrom = "keyed end"\n'
KIT = SMALL_PUMP[SMALL_PUMP.index("[kit]") : SMALL_PUMP.index("[[step]]")]
GLAND = 'gland = { bore = "2.250 in", depth = "0.081 in" }\n'


def test_the_order_of_a_part() -> None:
    fitted = ('part = "shaft"\n\n', 'parts = ["shaft", "disc"]\n\n')
    (finding,) = assert_as_marked(small_pump(fitted, more=DISC.format(mark="  # ← order-stated-once")))
    assert finding.severity is Severity.ERROR
    off = (OFF, 'off = ["F1", "cover", "G1", "lip", "shaft", "disc"]')
    assert rules_found(small_pump(fitted, off, more=DISC.format(mark=""))) == []
    stacked = ('order = ["cover", "lip", "shaft"]', 'order = ["cover", "lip", "disc", "shaft"]')
    assert rules_found(small_pump(fitted, stacked, more=DISC.format(mark=""))) == []


def test_a_stack_of_one_part_says_nothing_of_an_order() -> None:
    fitted = ('part = "shaft"\n\n', 'parts = ["shaft", "disc"]\n\n')
    stack = ('shaft"] }]', 'shaft"] }, { on = "shaft", from = "keyed end", order = ["disc"] }]')
    assert "order-stated-once" in rules_found(small_pump(fitted, stack, more=DISC.format(mark="")))


def test_the_size_of_a_ring() -> None:
    line = ('takes = "-137"\n', 'takes = "-137"  # ← ring-size-stated-once\n')
    kit = ('{ ring = "-137", material = "NBR" }', '{ ring = "-138", material = "NBR" }')
    (finding,) = assert_as_marked(
        small_pump((GLAND, ""), line, kit), "kit-lacks-a-ring", "kit-holds-a-ring-too-many"
    )
    assert finding.severity is Severity.ADVICE
    assert rules_found(small_pump((GLAND, ""))) == []


def test_the_number_of_rings() -> None:
    text = small_pump((KIT, ""), ("[[groove]]\n", "[[groove]]  # ← ring-count-stated-once\n"))
    (finding,) = assert_as_marked(text)
    assert finding.severity is Severity.ADVICE
