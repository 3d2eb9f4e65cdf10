"""Physical constants, each once, with its unit in its name and its source beside it."""

# IEC 60028 (1925), International Annealed Copper Standard, at 20 °C; from memory.
COPPER_RESISTIVITY_OHM_M = 1.7241e-8
COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393
REFERENCE_TEMPERATURE_C = 20.0

# ASTM B258: No. 36 is 0.0050 in, No. 0000 is 0.4600 in, with 39 equal ratios between; from memory.
AWG_36_DIAMETER_MM = 0.127
AWG_RATIO = 92.0
AWG_STEPS = 39

# One circular mil is the area of a circle of a thousandth of an inch; 1 in = 25.4 mm exactly.
MM_PER_MIL = 0.0254
METRES_PER_FOOT = 0.3048

# International table BTU 1055.05585262 J, over one hour.
WATTS_PER_BTU_PER_HOUR = 1055.05585262 / 3600.0

# Air at sea level near 20 °C: common engineering values, no source. Warm air is thinner and needs more flow.
AIR_DENSITY_KG_M3 = 1.2
AIR_HEAT_CAPACITY_J_KGK = 1005.0
CUBIC_METRES_PER_CUBIC_FOOT = METRES_PER_FOOT**3

# ISO 2533:1975 standard atmosphere, troposphere: temperature falls by this share of 288.15 K per metre.
ISA_LAPSE_PER_M = 2.25577e-5
ISA_DENSITY_EXPONENT = 4.2559
ISA_PRESSURE_EXPONENT = 5.2559

# ISO 2533:1975: pressure at sea level, and the gas constant of dry air; 0 °C is 273.15 K by definition of the Celsius scale.
ISA_PRESSURE_PA = 101_325.0
AIR_GAS_CONSTANT_J_KGK = 287.05287
ZERO_CELSIUS_K = 273.15

# ISO 80000-3, standard acceleration of free fall; exact by definition.
FREE_FALL_M_S2 = 9.80665
