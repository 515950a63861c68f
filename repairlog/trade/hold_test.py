"""A pressure test by holding: what the gauge should show, what was lost, and what such a test can show at all."""

from __future__ import annotations

from dataclasses import dataclass

from repairlog.trade.gas import BASE_PRESSURE_PSIA
from repairlog.trade.unworkable import within

BASE_R = 519.67
PASS, FAIL, CANNOT_SAY = "pass", "fail", "cannot say"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """`gauge` in psi, `atmosphere` in psia, `temperature` in degrees Rankine; None where it was not taken."""

    gauge: float
    atmosphere: float
    temperature: float | None

    @property
    def absolute(self) -> float:
        """Psi absolute."""
        return self.gauge + self.atmosphere


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """Pressures in psi, volumes in standard cubic feet, leaks in standard cubic feet an hour; None where temperatures
    or what the instruments can show were not given. `reason`: the code of why the verdict is what it is."""

    expected_end_psig: float | None
    drop_corrected_psi: float | None
    lost_scf: float | None
    leak_scfh: float | None
    gauge_only_scf: float
    gauge_share_scfh: float | None
    temperature_share_scfh: float | None
    smallest_leak_scfh: float | None
    verdict: str
    reason: str


def hold(
    *,
    volume_ft3: float,
    start: Reading,
    end: Reading,
    hours: float,
    resolution_psi: float | None,
    uncertainty_r: float | None,
    limit_scfh: float | None,
) -> Hold:
    """The test worked out. It passes only where the leak found, and the smallest leak that gauge and thermometer could
    have shown beside it, stay within the limit together; an instrument said to have no step or no doubt passes none.
    Raises `Unworkable` for a pressure above 1,000 psi.

    Source: the gas law at constant volume, P2 = P1 T2/T1 in absolute pressure and temperature; base 60 F, 14.73 psia.
    """
    for reading, field in ((start, "start"), (end, "end")):
        within(reading.gauge, field=field, least=-reading.atmosphere, most=1000.001, unit="psi")
        if reading.temperature is not None:
            within(reading.temperature - 459.67, field=field, least=-40, most=140, unit="°F")
    expected = lost = None
    if start.temperature is not None and end.temperature is not None:
        expected = start.absolute * end.temperature / start.temperature - end.atmosphere
        lost = volume_ft3 * _amount(start, end)
    shares = _shares(volume_ft3, (start, end), hours=hours, resolution=resolution_psi, uncertainty=uncertainty_r)
    given = [it for it in shares if it is not None]
    smallest, whole = sum(given) if given else None, len(given) == 2 and min(given) > 0
    leak = None if lost is None else lost / hours
    verdict, reason = _verdict(leak, smallest if whole else None, limit=limit_scfh)
    return Hold(
        expected_end_psig=expected,
        drop_corrected_psi=None if expected is None else expected - end.gauge,
        lost_scf=lost,
        leak_scfh=leak,
        gauge_only_scf=volume_ft3 * (start.gauge - end.gauge) / BASE_PRESSURE_PSIA,
        gauge_share_scfh=shares[0],
        temperature_share_scfh=shares[1],
        smallest_leak_scfh=smallest,
        verdict=verdict,
        reason=reason,
    )


def _amount(start: Reading, end: Reading) -> float:
    """Standard cubic feet lost for a cubic foot of line."""
    assert start.temperature is not None
    assert end.temperature is not None
    return BASE_R / BASE_PRESSURE_PSIA * (start.absolute / start.temperature - end.absolute / end.temperature)


def _shares(
    volume: float,
    readings: tuple[Reading, Reading],
    *,
    hours: float,
    resolution: float | None,
    uncertainty: float | None,
) -> tuple[float | None, float | None]:
    """What one step of the gauge and the thermometer's doubt may hide, by whichever of the readings hides more."""
    for_a_psi = [
        (volume * BASE_R / (BASE_PRESSURE_PSIA * it.temperature) / hours, it.absolute / it.temperature)
        for it in readings
        if it.temperature is not None
    ]
    if len(for_a_psi) < 2:
        return None, None
    return (
        None if resolution is None else resolution * max(psi for psi, _degree in for_a_psi),
        None if uncertainty is None else uncertainty * max(psi * degree for psi, degree in for_a_psi),
    )


def _verdict(leak: float | None, smallest: float | None, *, limit: float | None) -> tuple[str, str]:
    if limit is None:
        return CANNOT_SAY, "no_limit"
    if leak is None:
        return CANNOT_SAY, "no_temperatures"
    if leak > limit:
        return FAIL, "leak_above_limit"
    if smallest is None:
        return CANNOT_SAY, "instruments_unknown"
    if smallest >= limit:
        return CANNOT_SAY, "instruments_too_coarse"
    if leak < -smallest:
        return CANNOT_SAY, "pressure_rose"
    if leak + smallest > limit:
        return CANNOT_SAY, "too_near_the_limit"
    return PASS, "leak_within_limit"
