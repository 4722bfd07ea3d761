"""What is to be said of an O-ring: the size, what it is taken for, its fit, its rubber; as text and for JSON.

Here belong the words and the layout. The numbers come from mechanics; the command line and the application
only hand in what was asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.mechanics import gland as glands
from benchcheck.mechanics import o_ring, rubber


@dataclass(frozen=True, slots=True)
class Answer:
    """All that was asked about one size; what was not asked is empty."""

    size: o_ring.Size
    gland_text: str | None = None
    fit: glands.Fit | None = None
    fitting: tuple[o_ring.Size, ...] = ()
    fluids: tuple[rubber.Compatibility, ...] = ()
    life: rubber.ShelfLife | None = None


def answer(
    size: str,
    *,
    gland: str | None = None,
    material: str | None = None,
    fluids: Sequence[str] = (),
    cured: str | None = None,
    rule: str | None = None,
) -> Answer:
    """Works out what was asked. Raises UnknownSize, GlandError or RubberError with one sentence to show."""
    ring = o_ring.size(size)
    if (fluids or cured or rule) and not material:
        raise rubber.RubberError("fluids and shelf life depend on the rubber: name it, such as NBR")
    if bool(cured) != bool(rule):
        raise rubber.RubberError('shelf life needs a cure date and a rule: "SAE ARP5316" or "ISO 2230"')
    limit = rubber.stretch_limit(material) if material else glands.STRETCH_LIMIT
    where = glands.gland(gland) if gland else None
    return Answer(
        size=ring,
        gland_text=gland,
        fit=glands.fit(ring, where, stretch_limit=limit) if where else None,
        fitting=glands.fitting_sizes(where, stretch_limit=limit) if where else (),
        fluids=tuple(rubber.compatibility(material, fluid) for fluid in fluids) if material else (),
        life=rubber.shelf_life(material, rule, cured) if material and rule and cured else None,
    )


def as_text(said: Answer) -> str:
    """The answer for a person, with its assumptions and sources."""
    blocks = [_size_lines(said.size), _look_alike_lines(said.size)]
    if said.fit:
        blocks.append(_fit_lines(said, said.fit))
    if said.fluids:
        blocks.append(["Rubber and fluid", *(_fluid_line(one) for one in said.fluids)])
    if said.life:
        blocks.append(["Shelf life", f"  {_life_sentence(said.life)}"])
    blocks.append(["Assumed", *(f"  {line}" for line in assumptions(said))])
    blocks.append(["Sources", *(f"  {line}" for line in sources(said))])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def as_json(said: Answer) -> dict[str, object]:
    """The answer for programs; a quantity is {"value", "unit"}, a share is of one."""
    ring = said.size
    return {
        "size": ring.designation,
        "inside_diameter": _inch(ring.inside_diameter_inch),
        "inside_diameter_tolerance": _inch(ring.inside_diameter_tolerance_inch),
        "section": _inch(ring.section_inch),
        "section_tolerance": _inch(ring.section_tolerance_inch),
        "outside_diameter": _inch(ring.outside_diameter_inch),
        "look_alikes": [
            {
                "size": other.designation,
                "why": str(other.resemblance),
                "inside_diameter": _inch(other.inside_diameter_inch),
                "section": _inch(other.section_inch),
                "difference": other.difference,
            }
            for other in o_ring.look_alikes(ring)
        ],
        "fit": _fit_json(said, said.fit) if said.fit else None,
        "fluids": [
            {
                "rubber": one.rubber,
                "fluid": one.fluid,
                "verdict": str(one.verdict),
                "reason": one.reason,
                "source": one.source,
            }
            for one in said.fluids
        ],
        "shelf_life": _life_json(said.life) if said.life else None,
        "assumptions": list(assumptions(said)),
        "sources": list(sources(said)),
    }


def assumptions(said: Answer) -> tuple[str, ...]:
    """What was taken for granted."""
    lines = ["which sizes are taken for each other: common practice"]
    if said.fit and said.fit.gland.form is not glands.Form.BOSS:
        lines.append("a length without a unit is inches; fit is judged at nominal dimensions")
        if said.fit.width_assumed:
            lines.append("groove as wide as is usual for this section, with no back-up ring")
    if said.fit and said.fit.gland.thread:
        lines.append("which ring belongs to which boss: from memory of SAE J1926-1")
    if said.fluids:
        lines.append("a rubber is judged by its family; the seal maker's word on the compound overrules it")
    return tuple(lines)


def sources(said: Answer) -> tuple[str, ...]:
    """Where the numbers are from."""
    lines = ["sizes and tolerances: AS568"]
    if said.fit and said.fit.gland.form is not glands.Form.BOSS:
        lines.append("squeeze and stretch: seal suppliers' guides; fill of 85 %: handbooks, from memory")
        if said.fit.usual_squeeze:
            lines.append("usual squeeze and width: open gland table by section")
    lines += sorted({f"rubber and fluid: {one.source}" for one in said.fluids if one.source != "none"})
    if said.life:
        lines.append(f"shelf life: {said.life.source}")
    return tuple(lines)


def _size_lines(ring: o_ring.Size) -> list[str]:
    return [
        f"AS568 {ring.designation}",
        f"  inside diameter  {ring.inside_diameter_inch:7.3f} ±{ring.inside_diameter_tolerance_inch:.3f} in"
        f"  {ring.inside_diameter_millimetre:8.2f} ±{ring.inside_diameter_tolerance_millimetre:.2f} mm",
        f"  section          {ring.section_inch:7.3f} ±{ring.section_tolerance_inch:.3f} in"
        f"  {ring.section_millimetre:8.2f} ±{ring.section_tolerance_millimetre:.2f} mm",
        f"  outside diameter {ring.outside_diameter_inch:7.3f}        in"
        f"  {ring.inside_diameter_millimetre + 2 * ring.section_millimetre:8.2f}       mm",
    ]


def _look_alike_lines(ring: o_ring.Size) -> list[str]:
    others = o_ring.look_alikes(ring)
    if not others:
        return [f"No size is near enough to be taken for {ring.designation}"]
    width = max(len(other.designation) for other in others)
    return [
        f"Taken for {ring.designation}",
        *(f"  {other.designation:{width}}  {other.difference}" for other in others),
    ]


def _fit_lines(said: Answer, fit: glands.Fit) -> list[str]:
    lines = [f"In the gland: {said.gland_text}"]
    if fit.stretch:
        lines.append(_gauge("stretch", fit.stretch, 0.0, fit.stretch_limit))
    if fit.squeeze:
        high = glands.SQUEEZE_LIMIT_MOVING if fit.gland.moving else glands.SQUEEZE_LIMITS[1]
        lines.append(_gauge("squeeze", fit.squeeze, glands.SQUEEZE_LIMITS[0], high))
        if fit.usual_squeeze:
            low, high = fit.usual_squeeze
            lines.append(
                "          usual for this section, tolerances and all: "
                f"{glands.percent(low, 0)} to {glands.percent(high, 0)}"
            )
    if fit.fill:
        lines.append(_gauge("fill", fit.fill, 0.0, glands.FILL_LIMIT))
    if fit.clearance_inch:
        gap = fit.clearance_inch
        lines.append(
            f"  outside   {_smaller(gap.nominal)} than the groove   "
            f"tolerances {_smaller(gap.low)} to {_smaller(gap.high)}"
        )
    lines += [f"  DOES NOT FIT: {sentence}." for sentence in fit.misfits.values()] or ["  It fits."]
    names = ", ".join(ring.designation for ring in said.fitting[:12])
    more = f" and {len(said.fitting) - 12} more" if len(said.fitting) > 12 else ""
    lines.append(f"  sizes that fit this gland: {names or 'none'}{more}")
    return lines


def _smaller(clearance_inch: float) -> str:
    return f"{abs(clearance_inch):.3f} in {'smaller' if clearance_inch >= 0 else 'larger'}"


def _gauge(name: str, band: glands.Band, low: float, high: float) -> str:
    """A line with the value, a scale with the allowed part in brackets, and what the tolerances reach."""
    cells, room = 20, 5
    place = room + round((band.nominal - low) / (high - low) * (cells - 1))
    scale = [" "] * room + ["-"] * cells + [" "] * room
    scale[min(max(place, 0), len(scale) - 1)] = "#"
    drawn = "".join(scale[:room]) + "[" + "".join(scale[room:-room]) + "]" + "".join(scale[-room:])
    percent = glands.percent
    return (
        f"  {name:8}{percent(band.nominal):>8} {drawn} {percent(low, 0)} to {percent(high, 0)}"
        f"   tolerances {percent(band.low)} to {percent(band.high)}"
    )


def _fluid_line(one: rubber.Compatibility) -> str:
    return f"  {one.rubber} and {one.fluid}: {one.verdict.upper()}. {one.reason}"


def _life_sentence(life: rubber.ShelfLife) -> str:
    if life.end is None:
        return f"{life.rubber} has no limit by {life.rule}"
    more = f", {life.extension_years} more after inspection" if life.extension_years else ""
    return (
        f"{life.rubber} keeps {life.years} years by {life.rule}{more}: last good day {life.end.isoformat()}"
    )


def _inch(value: float) -> dict[str, object]:
    return {"value": round(value, 4), "unit": "in"}


def _band_json(band: glands.Band | None) -> dict[str, float] | None:
    if band is None:
        return None
    return {"nominal": round(band.nominal, 4), "low": round(band.low, 4), "high": round(band.high, 4)}


def _fit_json(said: Answer, fit: glands.Fit) -> dict[str, object]:
    return {
        "gland": said.gland_text,
        "form": str(fit.gland.form),
        "fits": not fit.misfits,
        "stretch": _band_json(fit.stretch),
        "squeeze": _band_json(fit.squeeze),
        "fill": _band_json(fit.fill),
        "clearance": _inch(fit.clearance_inch.nominal) if fit.clearance_inch else None,
        "section_fitted": _inch(fit.section_fitted_inch) if fit.section_fitted_inch else None,
        "misfits": [{"misfit": str(misfit), "message": sentence} for misfit, sentence in fit.misfits.items()],
        "sizes_that_fit": [ring.designation for ring in said.fitting],
    }


def _life_json(life: rubber.ShelfLife) -> dict[str, object]:
    return {
        "rubber": life.rubber,
        "rule": str(life.rule),
        "cured": life.cured.isoformat(),
        "years": life.years,
        "extension_years": life.extension_years,
        "end": life.end.isoformat() if life.end else None,
        "source": life.source,
    }
