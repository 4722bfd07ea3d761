"""Rings against their grooves, their lubricants and the kit."""

from __future__ import annotations

import pytest

from benchcheck.checking.rings import fluids_in
from benchcheck.procedure.finding import Finding, Severity
from tests.checking.small_pump import assert_as_marked, changed, findings, main_pump, rules_found, small_pump

TAKES = 'takes = "-137"\nmaterial = "NBR"\ngland = { bore = "2.250 in", depth = "0.081 in" }'
KIT = '[kit]\nholds = [{ ring = "-137", material = "NBR" }, { part = "lip" }]'


def groove(
    takes: str = 'takes = "-137"',
    material: str = 'material = "NBR"',
    gland: str = 'gland = { bore = "2.250 in", depth = "0.081 in" }',
    more: str = "",
    kit: str = "",
) -> str:
    """The small pump with another groove, and no kit unless one is told."""
    return small_pump((TAKES, "\n".join((takes, material, gland, more))), (KIT, kit))


def one(text: str, *consequences: str) -> Finding:
    (finding,) = assert_as_marked(text, "ring-count-stated-once", *consequences)
    return finding


@pytest.mark.parametrize("size", ["-179", "-004X", "52 x 2.6", "1/2"])
def test_a_size_that_is_none(size: str) -> None:
    one(groove(takes=f'takes = "{size}"  # ← ring-size-unknown'))


@pytest.mark.parametrize("size", ["-137", "137", "AS568-137", "AS568A-137"])
def test_a_size_may_be_spelled_as_on_any_bag(size: str) -> None:
    assert rules_found(small_pump(('takes = "-137"', f'takes = "{size}"'))) == []


def test_an_unknown_size_in_one_variant_is_found_there() -> None:
    text = small_pump(
        ('models = ["XMPL-S1"]', 'models = ["XMPL-S1"]\nvariants = ["R", "L"]'),
        ('takes = "-137"', 'takes = { R = "-137", L = "-999" }  # ← ring-size-unknown at "-999"'),
    )
    found = assert_as_marked(text, *{each.rule for each in findings(text)} - {"ring-size-unknown"})
    assert "no size -999" in found[0].message


# Expected squeeze and stretch are worked out by hand from the sizes of AS568: (section − depth) / section,
# and (bore − 2 depth − inside diameter) / inside diameter.
@pytest.mark.parametrize(
    ("size", "gland", "said"),
    [
        # -150: 2.862 in inside on a seat of 2.088 in
        ("-150", 'bore = "2.250 in", depth = "0.081 in"', "lies loose"),
        # -130: 1.612 in on 2.088 in, 29.5 %
        ("-130", 'bore = "2.250 in", depth = "0.081 in"', "stretched by 29.5 %"),
        # 0.103 in of section in a depth of 0.100 in: 2.9 %
        ("-137", 'bore = "2.250 in", depth = "0.100 in"', "squeezed by 2.9 %"),
        # and in 0.055 in: 46.6 %
        ("-137", 'bore = "2.160 in", depth = "0.055 in"', "squeezed by 46.6 %"),
        ("-137", 'bore = "2.250 in", depth = "0.110 in"', "would not be squeezed"),
        # π/4 · 0.103² / (0.081 · 0.110) = 93.5 %
        ("-137", 'bore = "2.250 in", depth = "0.081 in", width = "0.110 in"', "fills 94 %"),
        # -151 is 3.193 in outside, the groove 3.075 in
        ("-151", 'outside = "3.075 in", depth = "0.077 in"', "0.118 in larger"),
        # -150 is 3.068 in outside, the groove 3.200 in
        ("-150", 'outside = "3.200 in", depth = "0.077 in"', "0.132 in on the diameter clear"),
        # -016 is 0.614 in inside: on a shaft of 0.700 in stretched by 14 %
        ("-016", 'shaft = "0.700 in", depth = "0.050 in"', "stretched by 14.0 %"),
        # -156 has a centre line of π · (4.237 + 0.103) in = 346.3 mm
        ("-156", 'centre_line = "375 mm", depth = "1.96 mm"', "stretched by 8.3 %"),
        ("-156", 'centre_line = "340 mm", depth = "1.96 mm"', "lies loose"),
        # by its number the ring of a boss for a tube of 6/16 in
        ("-908", 'boss = "9/16-18 UNF"', "-906 is"),
        ("-137", 'boss = "9/16-18"', "-906 is"),
    ],
)
def test_a_ring_that_does_not_fit_its_groove(size: str, gland: str, said: str) -> None:
    takes = f'takes = "{size}"  # ← ring-does-not-fit'
    finding = one(groove(takes=takes, gland=f"gland = {{ {gland} }}"))
    assert finding.severity is Severity.ERROR
    assert said in finding.message


def test_the_remedy_names_the_nearest_sizes_that_fit() -> None:
    finding = one(groove(takes='takes = "-150"  # ← ring-does-not-fit'))
    assert "-137" in finding.remedy
    nothing_fits = one(
        groove(
            takes='takes = "-137"  # ← ring-does-not-fit',
            gland='gland = { bore = "50 in", depth = "0.4 in" }',
        )
    )
    assert "No size of AS568 fits" in nothing_fits.remedy


def test_a_coated_ring_may_hardly_be_stretched() -> None:
    # -136 is 1.987 in inside: 5.1 % too far for any; -137 as it is, 1.9 %; on a seat of 2.135 in 4.1 %
    gland = 'gland = { bore = "2.297 in", depth = "0.081 in" }'
    assert "ring-does-not-fit" not in rules_found(groove(gland=gland))
    coated = groove(gland=gland, material='material = "fluoropolymer-coated FKM"')
    assert "ring-does-not-fit" in rules_found(coated)


@pytest.mark.parametrize(
    "gland",
    [
        'gland = { bore = "2.250 in", depth = "1.2 in" }  # ← gland-impossible',
        'gland = { boss = "9/16-19" }  # ← gland-impossible',
        'gland = { bore = "0 in", depth = "0.081 in" }  # ← gland-impossible at "0 in"',
    ],
)
def test_measures_that_leave_no_groove(gland: str) -> None:
    one(groove(gland=gland))


def test_a_rubber_that_nobody_knows() -> None:
    finding = one(groove(material='material = "NRB"  # ← rubber-unknown'))
    assert "NBR" in finding.remedy


@pytest.mark.parametrize("material", ["NBR", "nitrile", "NBR 70", "fluoropolymer-coated FKM", "EPM"])
def test_a_rubber_may_be_named_in_several_ways(material: str) -> None:
    assert "rubber-unknown" not in rules_found(groove(material=f'material = "{material}"'))


@pytest.mark.parametrize(
    ("material", "lubricant", "severity"),
    [
        # mineral oil and petroleum grease never on EPDM: seal suppliers' guides
        ("EPDM", "mineral oil", Severity.ERROR),
        ("EPDM", "a dab of petroleum grease", Severity.ERROR),
        ("EPDM", "oil, a thin film", Severity.ERROR),
        # silicone grease not for silicone rubber: from memory of suppliers' guides
        ("VMQ", "silicone grease", Severity.ERROR),
        ("CR", "mineral oil", Severity.ADVICE),
    ],
)
def test_a_rubber_and_what_destroys_it(material: str, lubricant: str, severity: Severity) -> None:
    more = f'lubricate = "{lubricant}"  # ← rubber-against-lubricant'
    assert one(groove(material=f'material = "{material}"', more=more)).severity is severity


@pytest.mark.parametrize(
    ("material", "lubricant"),
    [("EPDM", "silicone grease"), ("EPDM", "water"), ("EPDM", "keep dry, no oil"), ("NBR", "mineral oil")],
)
def test_a_rubber_and_what_it_bears(material: str, lubricant: str) -> None:
    text = groove(material=f'material = "{material}"', more=f'lubricate = "{lubricant}"')
    assert "rubber-against-lubricant" not in rules_found(text)


def test_the_oil_of_a_neighbour_counts_too() -> None:
    cover = 'id = "cover"\nends = ["outer face", "inner face"]'
    text = changed(
        groove(material='material = "EPDM"'),
        (cover, f'{cover}\nlubricate = "oil on the spigot"  # ← rubber-against-lubricant'),
    )
    assert one(text).severity is Severity.WARNING


@pytest.mark.parametrize(
    ("text", "fluids"),
    [
        ("mineral oil", ["mineral oil"]),
        ("oil, a film on thread and under the head", ["mineral oil"]),
        ("a film of clean hydraulic oil", ["mineral oil"]),
        ("silicone grease", ["silicone grease"]),
        ("grease on the lip", ["petroleum grease"]),
        ("soapy water", ["water"]),
        ("no oil; silicone grease only", []),
        ("never mineral oil", []),
        ("keep both faces dry", []),
        ("", []),
    ],
)
def test_the_fluid_that_a_text_means(text: str, fluids: list[str]) -> None:
    assert fluids_in(text) == fluids


@pytest.mark.parametrize(
    "holds",
    [
        '{ part = "lip" }',
        '{ ring = "-138", material = "NBR" }, { part = "lip" }',
        '{ ring = "-137", material = "FKM" }, { part = "lip" }',
    ],
)
def test_a_kit_that_lacks_a_ring(holds: str) -> None:
    text = small_pump((KIT, f"[kit]\nholds = [{holds}]  # ← kit-lacks-a-ring"))
    consequence = "kit-holds-a-ring-too-many" if "ring" in holds else "ring-count-stated-once"
    (finding,) = assert_as_marked(text, consequence)
    assert "`G1`" in finding.message
    assert ("FKM" in finding.message) == ("FKM" in holds)


def test_a_kit_with_a_ring_that_no_groove_takes() -> None:
    two = '{ ring = "-137", material = "NBR", count = 2 }'
    mark = '  # ← kit-holds-a-ring-too-many at "-137"'
    text = small_pump((KIT, f"[kit]\nholds = [{two}]{mark}"))
    (finding,) = assert_as_marked(text, "kit-lacks-a-part")
    assert "2 of -137 NBR" in finding.message


@pytest.mark.parametrize(
    "ring", ['"AS568-137", material = "nitrile"', '"137"', '"-137", material = "NBR 70"']
)
def test_a_bag_may_spell_its_rings_otherwise(ring: str) -> None:
    assert rules_found(small_pump((KIT, f'[kit]\nholds = [{{ ring = {ring} }}, {{ part = "lip" }}]'))) == []


def test_a_kit_without_the_part_that_is_scrap_each_time() -> None:
    text = small_pump((KIT, '[kit]\nholds = [{ ring = "-137" }]  # ← kit-lacks-a-part'))
    (finding,) = assert_as_marked(text)
    assert "`lip`" in finding.message


def test_a_part_that_comes_out_only_if_it_is_bad_needs_no_new_one() -> None:
    # in the main pump the bearing is single-use, and pressed off only where it is judged bad
    kit = main_pump().partition("[kit]")[2].partition("\n]")[0]
    assert 'part = "bearing"' not in kit
    assert "kit-lacks-a-part" not in rules_found(main_pump())


def in_fluids(fluids: str, material: str, *, touches: str = "", mark: str = "", head_mark: str = "") -> str:
    """The small pump with fluids, and a ring of another rubber."""
    told = f"touches = {touches}\n" if touches else ""
    return small_pump(
        ('main = "body"', f'main = "body"\nfluids = {fluids}{head_mark}'),
        (TAKES, f'{told}takes = "-137"\nmaterial = "{material}"{mark}'),
        (KIT, f'[kit]\nholds = [{{ ring = "-137", material = "{material}" }}, {{ part = "lip" }}]'),
    )


@pytest.mark.parametrize(
    ("fluid", "material", "severity"),
    [
        # mineral oil never on EPDM: seal suppliers' guides; the others: from memory of general tables
        ("hydraulic oil", "EPDM", Severity.ERROR),
        ("phosphate ester", "NBR", Severity.ERROR),
        ("ketone", "FKM", Severity.ERROR),
        ("hot water", "FKM", Severity.ADVICE),
    ],
)
def test_a_rubber_and_the_fluid_that_destroys_it(fluid: str, material: str, severity: Severity) -> None:
    (found,) = assert_as_marked(
        in_fluids(f'{{ "oil side" = "{fluid}" }}', material, mark="  # ← rubber-against-fluid")
    )
    assert found.severity is severity and fluid in found.message


def test_only_the_fluids_that_touch_a_ring_count() -> None:
    both = '{ "oil side" = "mineral oil", "wet end" = "water" }'
    assert rules_found(in_fluids(both, "EPDM", touches='["wet end"]')) == []
    text = in_fluids(both, "EPDM", touches='["wet end", "oil side"]', mark="  # ← rubber-against-fluid")
    assert_as_marked(text)


def test_of_several_fluids_a_groove_says_which_touch_its_ring() -> None:
    text = in_fluids('{ "oil side" = "mineral oil", "wet end" = "water" }', "NBR")
    marked = changed(text, ('id = "G1"', 'id = "G1"  # ← ring-without-its-fluid'))
    (found,) = assert_as_marked(marked)
    assert '"oil side"' in found.message and '"wet end"' in found.message


def test_a_fluid_that_is_not_known_is_judged_against_nothing() -> None:
    text = in_fluids(
        '{ "wet end" = "white liquor" }', "EPDM", head_mark='  # ← fluid-not-judged at "white liquor"'
    )
    assert_as_marked(text)


def test_another_fluid_on_the_main_pump_condemns_the_rings_on_its_side() -> None:
    text = changed(main_pump(), ('"oil side" = "hydraulic oil"', '"oil side" = "phosphate ester"'))
    wrong = [each.message.split("`")[1] for each in findings(text) if each.rule == "rubber-against-fluid"]
    assert wrong == [f"G{number}" for number in range(2, 10)]
