#!/usr/bin/env python3
"""Writes gnu_units.txt: what GNU units (Debian package `units`) makes of each unit of core/units.hpp, in SI.

Each line: the name of a tag, or a kind and a spelling of core/quantity_text.hpp, a tabulator, the size in SI. Run again after a new tag: python3 gnu_units.py > gnu_units.txt
"""
import subprocess

# name of the tag: the unit in GNU units' own words, the SI unit it is measured in
TAGS = {
    "metre": ("meter", "m"), "mm": ("millimeter", "m"), "cm": ("centimeter", "m"), "inch": ("inch", "m"),
    "thou": ("inch/1000", "m"), "mm2": ("millimeter^2", "m^2"), "mm3": ("millimeter^3", "m^3"),
    "kg": ("kilogram", "kg"), "gram": ("gram", "kg"), "lb": ("pound", "kg"), "second": ("second", "s"),
    "Hz": ("hertz", "1/s"), "kHz": ("kilohertz", "1/s"), "metre_per_second": ("meter/second", "m/s"),
    "metre_per_second2": ("meter/second^2", "m/s^2"), "standard_gravity": ("gravity", "m/s^2"),
    "N": ("newton", "kg m/s^2"), "kgf": ("kgf", "kg m/s^2"), "lbf": ("lbf", "kg m/s^2"),
    "kg_per_m": ("kilogram/meter", "kg/m"), "g_per_m": ("gram/meter", "kg/m"), "lb_per_in": ("pound/inch", "kg/m"),
    "kg_per_m3": ("kilogram/meter^3", "kg/m^3"), "Pa": ("pascal", "N/m^2"), "MPa": ("megapascal", "N/m^2"),
    "GPa": ("gigapascal", "N/m^2"), "psi": ("psi", "N/m^2"), "rad": ("radian", "radian"), "deg": ("degree", "radian"),
    "per_metre": ("1/meter", "1/m"), "N_per_m": ("newton/meter", "N/m"), "N_per_mm": ("newton/millimeter", "N/m"),
    "mm_per_N": ("millimeter/newton", "m/N"), "N_m": ("newton meter", "N m"), "N_mm": ("newton millimeter", "N m"),
    "lbf_in": ("lbf inch", "N m"), "N_m_per_rad": ("newton meter/radian", "N m/radian"),
    "mm4": ("millimeter^4", "m^4"), "N_m2": ("newton meter^2", "N m^2"), "N_mm2": ("newton millimeter^2", "N m^2"),
    "per_kelvin": ("1/kelvin", "1/K"), "kelvin": ("kelvin", "K"),
}

# kind: (SI unit, {spelling: None where GNU units reads it as it stands, else its word for it})
SPELLINGS = {
    "length": ("m", {"mm": None, "cm": None, "m": None, "in": None, "inch": None, "inches": None, '"': "inch",
                     "thou": None, "um": None}),
    "force": ("N", {"N": None, "lbf": None, "kgf": None}),
    "mass": ("kg", {"g": None, "kg": None, "lb": None}),
    "frequency": ("1/s", {"Hz": None, "kHz": None}),
    "linear_density": ("kg/m", {"g/m": None, "kg/m": None, "lb/in": None}),
    "density": ("kg/m^3", {"kg/m^3": None, "kg/m3": None, "g/cm^3": None, "g/cm3": None}),
    "stress": ("N/m^2", {"GPa": None, "MPa": None, "Pa": None, "psi": None}),
    "angle": ("radian", {"deg": "degree", "°": "degree", "rad": "radian"}),
    "stiffness": ("N/m", {"N/mm": None, "N/m": None}),
    "rotational_stiffness": ("N m/radian", {"N m/rad": "N m/radian"}),
    "moment": ("N m", {"N m": None, "N mm": None, "lbf in": None}),
    "flexural_rigidity": ("N m^2", {"N m^2": None, "N m2": None, "N mm^2": None, "N mm2": None}),
    "second_moment": ("m^4", {"mm^4": None, "mm4": None}),
    "curvature": ("1/m", {"1/m": None}),
    "area": ("m^2", {"mm^2": None, "mm2": None}),
    "volume": ("m^3", {"cm^3": None, "cm3": None, "mm^3": None, "mm3": None}),
    "compliance": ("m/N", {"mm/N": None}),
    "duration": ("s", {"s": None}),
    "velocity": ("m/s", {"m/s": None}),
    "acceleration": ("m/s^2", {"m/s^2": None, "m/s2": None}),
    "thermal_expansion": ("1/K", {"1/K": None}),
    "temperature_difference": ("K", {"K": None}),
}


def size_in(unit, si):
    run = ["units", "--terse", "--output-format", "%.17g", unit, si]
    return subprocess.run(run, capture_output=True, text=True, check=True).stdout.strip()


version = subprocess.run(["units", "--version"], capture_output=True, text=True, check=True).stdout.splitlines()[0]
print(f"# {version}, by gnu_units.py")
for tag, (unit, si) in TAGS.items():
    print(tag, size_in(unit, si), sep="\t")
for kind, (si, spellings) in SPELLINGS.items():
    for spelled, word in spellings.items():
        print(f"{kind} {spelled}", size_in(word or spelled, si), sep="\t")
