"""Worked checks 37 to 48 and 66 to 70: cabinets, mains, heat, pathways."""

from firstfix.physics.cabinet import hole_heights_mm, opening_height_mm, panel_height_mm
from firstfix.physics.copper import area_kcmil
from firstfix.physics.mains import (
    backup_power,
    backup_time,
    bonding_backbone_awg,
    bonding_backbone_kcmil,
    continuous_power,
    devices_on_residual_current,
)
from firstfix.physics.pathway import ampacity_factor, bend_radius_mm, cables_that_fit, mains_separation_mm
from firstfix.physics.thermal import (
    Standing,
    airflow_m3h,
    btu_per_hour,
    cubic_feet_per_minute,
    density_ratio,
    effective_area,
    poe_heat,
    pressure_ratio,
    temperature_rise,
)
from firstfix.standards.mains import mains_limits
from firstfix.standards.thermal import air_classes, cabinet_heat
from standards.worked import Calculations, Check, parametrized, verify


def on_residual_current(leakage_ma: float, rating_ma: float, share: str) -> int:
    known = mains_limits()
    limit = {"advised": known.leakage_advised, "most": known.leakage_most}[share]
    return devices_on_residual_current(leakage_ma, rating_ma, limit.value)


def area(height: float, width: float, depth: float, standing: str) -> float:
    return effective_area(height, width, depth, Standing(standing))


def rise(height: float, width: float, depth: float, standing: str, heat_w: float) -> float:
    steel = cabinet_heat()["painted-steel"].heat_w_per_m2k
    return temperature_rise(heat_w, area(height, width, depth, standing), steel)


def inlet(air_class: str, celsius: float) -> str:
    row = air_classes()[air_class]
    if row.recommends(celsius):
        return "recommended"
    return "allowable" if row.allows(celsius) else "outside"


def airflow(heat_w: float, rise_k: float, altitude_m: float = 0.0) -> float:
    return airflow_m3h(heat_w, rise_k, density_ratio(altitude_m))


CABINET: Calculations = {
    "panel height": panel_height_mm,
    "opening height": opening_height_mm,
    "holes": lambda units: " ".join(f"{height:.3f}" for height in hole_heights_mm(units)),
}
MAINS: Calculations = {
    "continuous power": continuous_power,
    "backup power": backup_power,
    "backup minutes": lambda **given: backup_time(**given) / 60,
    "devices on residual current": on_residual_current,
    "backbone kcmil": bonding_backbone_kcmil,
    "backbone gauge": bonding_backbone_awg,
    "area kcmil": area_kcmil,
}
THERMAL: Calculations = {
    "btu per hour": btu_per_hour,
    "airflow": airflow,
    "airflow cfm": lambda **given: cubic_feet_per_minute(airflow(**given)),
    "density ratio": density_ratio,
    "pressure ratio": pressure_ratio,
    "effective area": area,
    "rise": rise,
    "poe heat": lambda **given: poe_heat(**given).heat_w,
    "poe input": lambda **given: poe_heat(**given).input_w,
    "inlet": inlet,
}
PATHWAY: Calculations = {
    "separation": mains_separation_mm,
    "cables that fit": cables_that_fit,
    "bend radius": bend_radius_mm,
    "ampacity factor": ampacity_factor,
}


@parametrized("cabinet")
def test_cabinet(check: Check) -> None:
    verify(check, CABINET)


@parametrized("mains")
def test_mains(check: Check) -> None:
    verify(check, MAINS)


@parametrized("thermal")
def test_thermal(check: Check) -> None:
    verify(check, THERMAL)


@parametrized("pathway")
def test_pathway(check: Check) -> None:
    verify(check, PATHWAY)
