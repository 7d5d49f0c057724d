//! The quantity types. Each line of a table is: constructor and getter name, text symbol,
//! SI factor, decimals shown. The first unit is the SI unit.

use crate::constant::*;
use crate::kind::{Kind, Quantity, Unit};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident($plain:literal, $field:literal, $metric:literal $(, $unitless:ident)?) {
        $($make:ident $get:ident $sym:literal = $factor:expr $(, + $offset:expr)? ; $dec:literal)+
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(pub(crate) f64);

        impl Quantity for $name {
            const KIND: &'static Kind = &Kind {
                name: $plain,
                units: &[$(Unit { symbol: $sym, factor: $factor, offset: 0.0 $(+ $offset)?, decimals: $dec }),+],
                field: $field,
                metric: $metric,
                unitless: false $(|| quantity!(@yes $unitless))?,
            };
            fn from_si(si: f64) -> Self { Self(si) }
            fn si(self) -> f64 { self.0 }
        }

        impl $name {
            /// Zero in SI.
            pub const ZERO: Self = Self(0.0);
            $(
                #[doc = concat!("From a number in `", $sym, "`.")]
                pub const fn $make(value: f64) -> Self { Self(value * $factor $(+ $offset)?) }
                #[doc = concat!("The number in `", $sym, "`.")]
                pub const fn $get(self) -> f64 { (self.0 $(- $offset)?) / $factor }
            )+
            /// The absolute value.
            pub fn abs(self) -> Self { Self(self.0.abs()) }
            /// The lesser of two.
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// The greater of two.
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// Total order, for sorting.
            pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering { self.0.total_cmp(&other.0) }
        }

        impl std::str::FromStr for $name {
            type Err = crate::UnitError;
            fn from_str(text: &str) -> Result<Self, Self::Err> { <Self as Quantity>::parse(text) }
        }
        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                crate::said::print(crate::Value::of(*self), f)
            }
        }
        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, k: f64) -> Self { Self(self.0 * k) }
        }
        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, k: f64) -> Self { Self(self.0 / k) }
        }
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                crate::dynamic::serialize_si(self.0, Self::KIND, s)
            }
        }
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                let text = <String as serde::Deserialize>::deserialize(d)?;
                <Self as Quantity>::parse(&text).map_err(serde::de::Error::custom)
            }
        }
        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> { stringify!($name).into() }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": "object",
                    "description": concat!($plain, ", in SI"),
                    "properties": {
                        "value": { "type": "number" },
                        "unit": { "const": Self::KIND.si_unit().symbol }
                    },
                    "required": ["value", "unit"],
                    "additionalProperties": false
                })
            }
        }
    };
    (@yes unitless) => { true };
}

/// Adds `+`, `-`, negation, sums and the ratio of two: for types that are differences, not
/// points on a scale.
macro_rules! additive {
    ($($name:ident),+ $(,)?) => {$(
        impl std::ops::Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl std::ops::Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl std::ops::Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl std::ops::AddAssign for $name { fn add_assign(&mut self, o: Self) { self.0 += o.0; } }
        impl std::ops::SubAssign for $name { fn sub_assign(&mut self, o: Self) { self.0 -= o.0; } }
        impl std::ops::Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0 / o.0 } }
        impl std::iter::Sum for $name { fn sum<I: Iterator<Item = Self>>(it: I) -> Self { it.fold(Self(0.0), |a, b| a + b) } }
    )+};
}

quantity! {
    /// A length along the string or the hole (not a depth, not a diameter).
    Length("length", "ft", "m") {
        m in_m "m" = 1.0; 2
        ft in_ft "ft" = FOOT; 2
        inch in_inch "in" = INCH; 3
        mm in_mm "mm" = 1e-3; 1
        cm in_cm "cm" = 1e-2; 2
        km in_km "km" = 1e3; 3
        survey_ft in_survey_ft "ftUS" = SURVEY_FOOT; 2
    }
}
quantity! {
    /// A diameter, gap or wall: a length people read in inches or millimetres.
    Diameter("diameter", "in", "mm") {
        m in_m "m" = 1.0; 4
        inch in_inch "in" = INCH; 4
        mm in_mm "mm" = 1e-3; 2
        cm in_cm "cm" = 1e-2; 3
        ft in_ft "ft" = FOOT; 3
    }
}
quantity! {
    /// Measured depth: along the hole from the depth datum.
    MeasuredDepth("measured depth", "ft", "m") {
        m in_m "m" = 1.0; 2
        ft in_ft "ft" = FOOT; 1
        survey_ft in_survey_ft "ftUS" = SURVEY_FOOT; 1
    }
}
quantity! {
    /// True vertical depth: vertically below the depth datum.
    TrueVerticalDepth("true vertical depth", "ft", "m") {
        m in_m "m" = 1.0; 2
        ft in_ft "ft" = FOOT; 1
        survey_ft in_survey_ft "ftUS" = SURVEY_FOOT; 1
    }
}
quantity! {
    /// An angle.
    Angle("angle", "deg", "deg") {
        rad in_rad "rad" = 1.0; 5
        deg in_deg "deg" = DEGREE; 2
    }
}
quantity! {
    /// Curvature of the hole (dogleg severity, build and turn rate).
    Curvature("dogleg severity", "deg/100ft", "deg/30m") {
        rad_per_m in_rad_per_m "rad/m" = 1.0; 6
        deg_per_100ft in_deg_per_100ft "deg/100ft" = DEGREE / (100.0 * FOOT); 2
        deg_per_30m in_deg_per_30m "deg/30m" = DEGREE / 30.0; 2
        deg_per_10m in_deg_per_10m "deg/10m" = DEGREE / 10.0; 2
        deg_per_m in_deg_per_m "deg/m" = DEGREE; 4
    }
}
quantity! {
    /// An area.
    Area("area", "in2", "cm2") {
        m2 in_m2 "m2" = 1.0; 6
        in2 in_in2 "in2" = INCH * INCH; 3
        cm2 in_cm2 "cm2" = 1e-4; 2
        ft2 in_ft2 "ft2" = FOOT * FOOT; 2
    }
}
quantity! {
    /// A volume.
    Volume("volume", "bbl", "m3") {
        m3 in_m3 "m3" = 1.0; 3
        bbl in_bbl "bbl" = BARREL; 2
        gal in_gal "gal" = GALLON; 1
        l in_l "L" = 1e-3; 1
        ft3 in_ft3 "ft3" = FOOT * FOOT * FOOT; 2
    }
}
quantity! {
    /// Volume per unit length: the capacity of a bore or an annulus.
    Capacity("capacity", "bbl/ft", "L/m") {
        m3_per_m in_m3_per_m "m3/m" = 1.0; 6
        bbl_per_ft in_bbl_per_ft "bbl/ft" = BARREL / FOOT; 5
        l_per_m in_l_per_m "L/m" = 1e-3; 3
        gal_per_ft in_gal_per_ft "gal/ft" = GALLON / FOOT; 4
    }
}
quantity! {
    /// A mass.
    Mass("mass", "lb", "kg") {
        kg in_kg "kg" = 1.0; 0
        lb in_lb "lb" = POUND; 0
        t in_t "t" = 1e3; 2
        klb in_klb "klb" = 1e3 * POUND; 1
        g in_g "g" = 1e-3; 1
    }
}
quantity! {
    /// Mass per unit length of pipe.
    MassPerLength("mass per length", "lb/ft", "kg/m") {
        kg_per_m in_kg_per_m "kg/m" = 1.0; 2
        lb_per_ft in_lb_per_ft "lb/ft" = POUND / FOOT; 2
    }
}
quantity! {
    /// A density.
    Density("density", "lb/gal", "kg/m3") {
        kg_per_m3 in_kg_per_m3 "kg/m3" = 1.0; 1
        lb_per_gal in_lb_per_gal "lb/gal" = POUND_PER_GALLON; 3
        g_per_cm3 in_g_per_cm3 "g/cm3" = 1e3; 4
        lb_per_ft3 in_lb_per_ft3 "lb/ft3" = POUND / (FOOT * FOOT * FOOT); 2
    }
}
quantity! {
    /// A pressure difference, a rating, a stress or a modulus.
    Pressure("pressure difference", "psi", "MPa") {
        pa in_pa "Pa" = 1.0; 0
        psi in_psi "psi" = PSI; 0
        kpa in_kpa "kPa" = 1e3; 1
        mpa in_mpa "MPa" = 1e6; 3
        bar in_bar "bar" = 1e5; 2
        ksi in_ksi "ksi" = 1e3 * PSI; 2
        gpa in_gpa "GPa" = 1e9; 3
    }
}
quantity! {
    /// A pressure above the atmosphere, as a gauge reads it.
    GaugePressure("gauge pressure", "psi", "MPa") {
        pa in_pa "Pa" = 1.0; 0
        psi in_psi "psi" = PSI; 0
        kpa in_kpa "kPa" = 1e3; 1
        mpa in_mpa "MPa" = 1e6; 3
        bar in_bar "bar" = 1e5; 2
    }
}
quantity! {
    /// A pressure above vacuum.
    AbsolutePressure("absolute pressure", "psia", "MPa") {
        pa in_pa "Pa" = 1.0; 0
        psi in_psi "psia" = PSI; 0
        kpa in_kpa "kPa" = 1e3; 1
        mpa in_mpa "MPa" = 1e6; 3
        bar in_bar "bar" = 1e5; 2
    }
}
quantity! {
    /// Pressure per unit length or depth.
    PressureGradient("pressure gradient", "psi/ft", "kPa/m") {
        pa_per_m in_pa_per_m "Pa/m" = 1.0; 1
        psi_per_ft in_psi_per_ft "psi/ft" = PSI / FOOT; 4
        kpa_per_m in_kpa_per_m "kPa/m" = 1e3; 3
        psi_per_1000ft in_psi_per_1000ft "psi/1000ft" = PSI / (1e3 * FOOT); 1
    }
}
quantity! {
    /// A temperature on a scale.
    Temperature("temperature", "degF", "degC") {
        kelvin in_kelvin "K" = 1.0; 2
        deg_c in_deg_c "degC" = 1.0, + CELSIUS_ZERO; 1
        deg_f in_deg_f "degF" = 1.0 / 1.8, + FAHRENHEIT_ZERO; 1
    }
}
quantity! {
    /// A difference between two temperatures.
    TemperatureDifference("temperature difference", "degF", "degC") {
        kelvin in_kelvin "K" = 1.0; 2
        deg_c in_deg_c "degC" = 1.0; 2
        deg_f in_deg_f "degF" = 1.0 / 1.8; 1
    }
}
quantity! {
    /// Temperature per unit vertical depth.
    TemperatureGradient("temperature gradient", "degF/100ft", "degC/100m") {
        k_per_m in_k_per_m "K/m" = 1.0; 5
        deg_f_per_100ft in_deg_f_per_100ft "degF/100ft" = 1.0 / 1.8 / (100.0 * FOOT); 3
        deg_c_per_100m in_deg_c_per_100m "degC/100m" = 0.01; 3
        deg_c_per_m in_deg_c_per_m "degC/m" = 1.0; 5
        deg_f_per_ft in_deg_f_per_ft "degF/ft" = 1.0 / 1.8 / FOOT; 5
    }
}
quantity! {
    /// A volumetric rate.
    FlowRate("rate", "bbl/min", "m3/min") {
        m3_per_s in_m3_per_s "m3/s" = 1.0; 5
        bbl_per_min in_bbl_per_min "bbl/min" = BARREL / MINUTE; 1
        m3_per_min in_m3_per_min "m3/min" = 1.0 / MINUTE; 3
        gal_per_min in_gal_per_min "gal/min" = GALLON / MINUTE; 1
        l_per_min in_l_per_min "L/min" = 1e-3 / MINUTE; 1
        m3_per_day in_m3_per_day "m3/d" = 1.0 / DAY; 1
        bbl_per_day in_bbl_per_day "bbl/d" = BARREL / DAY; 0
    }
}
quantity! {
    /// A velocity.
    Velocity("velocity", "ft/s", "m/s") {
        m_per_s in_m_per_s "m/s" = 1.0; 3
        ft_per_s in_ft_per_s "ft/s" = FOOT; 2
        ft_per_min in_ft_per_min "ft/min" = FOOT / MINUTE; 1
        m_per_min in_m_per_min "m/min" = 1.0 / MINUTE; 2
    }
}
quantity! {
    /// An acceleration.
    Acceleration("acceleration", "ft/s2", "m/s2") {
        m_per_s2 in_m_per_s2 "m/s2" = 1.0; 4
        ft_per_s2 in_ft_per_s2 "ft/s2" = FOOT; 3
    }
}
quantity! {
    /// A force.
    Force("force", "lbf", "kN") {
        n in_n "N" = 1.0; 0
        lbf in_lbf "lbf" = POUND_FORCE; 0
        kn in_kn "kN" = 1e3; 2
        klbf in_klbf "klbf" = 1e3 * POUND_FORCE; 1
        dan in_dan "daN" = 10.0; 0
    }
}
quantity! {
    /// Force per unit length.
    ForcePerLength("force per length", "lbf/ft", "N/m") {
        n_per_m in_n_per_m "N/m" = 1.0; 2
        lbf_per_ft in_lbf_per_ft "lbf/ft" = POUND_FORCE / FOOT; 2
        lbf_per_in in_lbf_per_in "lbf/in" = POUND_FORCE / INCH; 1
    }
}
quantity! {
    /// A torque or bending moment.
    Torque("torque", "ft.lbf", "N.m") {
        n_m in_n_m "N.m" = 1.0; 0
        ft_lbf in_ft_lbf "ft.lbf" = FOOT * POUND_FORCE; 0
        kn_m in_kn_m "kN.m" = 1e3; 2
    }
}
quantity! {
    /// An energy.
    Energy("energy", "ft.lbf", "J") {
        j in_j "J" = 1.0; 1
        ft_lbf in_ft_lbf "ft.lbf" = FOOT * POUND_FORCE; 1
        kj in_kj "kJ" = 1e3; 2
    }
}
quantity! {
    /// Power, such as hydraulic horsepower.
    Power("power", "hp", "kW") {
        w in_w "W" = 1.0; 0
        hp in_hp "hp" = HORSEPOWER; 0
        kw in_kw "kW" = 1e3; 0
    }
}
quantity! {
    /// A span of time.
    Time("time", "min", "min") {
        seconds in_seconds "s" = 1.0; 1
        minutes in_minutes "min" = MINUTE; 1
        hours in_hours "h" = HOUR; 2
        days in_days "d" = DAY; 2
        ms in_ms "ms" = 1e-3; 1
    }
}
quantity! {
    /// Dynamic viscosity.
    Viscosity("viscosity", "cP", "mPa.s") {
        pa_s in_pa_s "Pa.s" = 1.0; 5
        cp in_cp "cP" = 1e-3; 2
        mpa_s in_mpa_s "mPa.s" = 1e-3; 2
    }
}
quantity! {
    /// Consistency of a power-law fluid, `tau = K * rate^n`; the unit holds the fluid's own n.
    Consistency("consistency", "lbf.s^n/ft2", "Pa.s^n") {
        pa_sn in_pa_sn "Pa.s^n" = 1.0; 5
        lbf_sn_per_ft2 in_lbf_sn_per_ft2 "lbf.s^n/ft2" = POUND_FORCE / (FOOT * FOOT); 6
    }
}
quantity! {
    /// Proppant added per unit of clean fluid.
    Concentration("proppant concentration", "ppa", "kg/m3") {
        kg_per_m3 in_kg_per_m3 "kg/m3" = 1.0; 0
        ppa in_ppa "ppa" = POUND_PER_GALLON; 2
        lb_per_gal in_lb_per_gal "lb/gal" = POUND_PER_GALLON; 2
    }
}
quantity! {
    /// Relative volume change per pressure.
    Compressibility("compressibility", "1/psi", "1/GPa") {
        per_pa in_per_pa "1/Pa" = 1.0; 15
        per_psi in_per_psi "1/psi" = 1.0 / PSI; 9
        per_gpa in_per_gpa "1/GPa" = 1e-9; 4
    }
}
quantity! {
    /// Diffusivity, of heat or of a fluid in rubber.
    Diffusivity("diffusivity", "ft2/h", "mm2/s") {
        m2_per_s in_m2_per_s "m2/s" = 1.0; 14
        mm2_per_s in_mm2_per_s "mm2/s" = 1e-6; 4
        ft2_per_h in_ft2_per_h "ft2/h" = FOOT * FOOT / HOUR; 5
    }
}
quantity! {
    /// Thermal conductivity.
    Conductivity("thermal conductivity", "W/(m.K)", "W/(m.K)") {
        w_per_mk in_w_per_mk "W/(m.K)" = 1.0; 3
        btu_per_hftf in_btu_per_hftf "Btu/(h.ft.degF)" = BTU / HOUR / FOOT * 1.8; 3
    }
}
quantity! {
    /// Heat capacity per volume.
    VolumetricHeat("volumetric heat capacity", "MJ/(m3.K)", "MJ/(m3.K)") {
        j_per_m3k in_j_per_m3k "J/(m3.K)" = 1.0; 0
        mj_per_m3k in_mj_per_m3k "MJ/(m3.K)" = 1e6; 3
    }
}
quantity! {
    /// Heat capacity per mass.
    SpecificHeat("specific heat capacity", "J/(kg.K)", "J/(kg.K)") {
        j_per_kgk in_j_per_kgk "J/(kg.K)" = 1.0; 1
        kj_per_kgk in_kj_per_kgk "kJ/(kg.K)" = 1e3; 4
        btu_per_lbf in_btu_per_lbf "Btu/(lb.degF)" = BTU / POUND * 1.8; 4
    }
}
quantity! {
    /// Heat flow per area and degree: a film or an overall heat transfer coefficient.
    HeatTransfer("heat transfer coefficient", "Btu/(h.ft2.degF)", "W/(m2.K)") {
        w_per_m2k in_w_per_m2k "W/(m2.K)" = 1.0; 2
        btu_per_hft2f in_btu_per_hft2f "Btu/(h.ft2.degF)" = BTU / HOUR / (FOOT * FOOT) * 1.8; 3
    }
}
quantity! {
    /// Volume per amount of substance, such as a solvent's.
    MolarVolume("molar volume", "cm3/mol", "cm3/mol") {
        m3_per_mol in_m3_per_mol "m3/mol" = 1.0; 8
        cm3_per_mol in_cm3_per_mol "cm3/mol" = 1e-6; 2
    }
}
quantity! {
    /// Amount of substance per volume, such as the chains of a rubber.
    AmountConcentration("amount concentration", "mol/m3", "mol/m3") {
        mol_per_m3 in_mol_per_m3 "mol/m3" = 1.0; 2
        mol_per_l in_mol_per_l "mol/L" = 1e3; 4
    }
}
quantity! {
    /// Energy per amount of substance, such as an activation energy.
    MolarEnergy("molar energy", "kJ/mol", "kJ/mol") {
        j_per_mol in_j_per_mol "J/mol" = 1.0; 0
        kj_per_mol in_kj_per_mol "kJ/mol" = 1e3; 2
    }
}
quantity! {
    /// Loss of surface per time, such as a dissolving ball's (per side).
    RecessionRate("recession rate", "in/h", "mm/h") {
        m_per_s in_m_per_s "m/s" = 1.0; 12
        mm_per_h in_mm_per_h "mm/h" = 1e-3 / HOUR; 4
        in_per_h in_in_per_h "in/h" = INCH / HOUR; 5
        mm_per_year in_mm_per_year "mm/y" = 1e-3 / (365.25 * DAY); 1
    }
}
quantity! {
    /// Mass lost from a surface per area and time, such as a dissolving ball's.
    MassFlux("mass loss rate", "mg/(cm2.h)", "mg/(cm2.h)") {
        kg_per_m2s in_kg_per_m2s "kg/(m2.s)" = 1.0; 9
        mg_per_cm2h in_mg_per_cm2h "mg/(cm2.h)" = 1e-2 / HOUR; 3
        mg_per_cm2d in_mg_per_cm2d "mg/(cm2.d)" = 1e-2 / DAY; 2
    }
}
quantity! {
    /// Thermal expansion per degree.
    Expansion("thermal expansion", "1/degF", "1/K") {
        per_k in_per_k "1/K" = 1.0; 9
        per_deg_f in_per_deg_f "1/degF" = 1.8; 9
    }
}
quantity! {
    /// Pressure drop per rate squared, of a fixed restriction.
    RateSquaredLoss("loss coefficient", "psi/(bbl/min)2", "kPa/(m3/min)2") {
        si in_si "Pa/(m3/s)2" = 1.0; 0
        psi_per_bpm2 in_psi_per_bpm2 "psi/(bbl/min)2" = PSI / (BARREL / MINUTE * (BARREL / MINUTE)); 4
        kpa_per_m3min2 in_kpa_per_m3min2 "kPa/(m3/min)2" = 1e3 * MINUTE * MINUTE; 3
    }
}
quantity! {
    /// Rate of shear in a fluid.
    ShearRate("shear rate", "1/s", "1/s") {
        per_second in_per_second "1/s" = 1.0; 1
    }
}
quantity! {
    /// Pressure change per time.
    PressureRate("pressure rate", "psi/s", "MPa/min") {
        pa_per_s in_pa_per_s "Pa/s" = 1.0; 0
        psi_per_s in_psi_per_s "psi/s" = PSI; 1
        psi_per_min in_psi_per_min "psi/min" = PSI / MINUTE; 1
        mpa_per_min in_mpa_per_min "MPa/min" = 1e6 / MINUTE; 3
    }
}
quantity! {
    /// Volume per mass.
    SpecificVolume("specific volume", "ft3/lb", "m3/kg") {
        m3_per_kg in_m3_per_kg "m3/kg" = 1.0; 9
        ft3_per_lb in_ft3_per_lb "ft3/lb" = FOOT * FOOT * FOOT / POUND; 6
    }
}
quantity! {
    /// Pressure drop per root of the rate, of a tortuous entry to a fracture.
    RateRootLoss("root-rate loss coefficient", "psi/(bbl/min)0.5", "kPa/(m3/min)0.5") {
        si in_si "Pa/(m3/s)0.5" = 1.0; 0
        psi_per_root_bpm in_psi_per_root_bpm "psi/(bbl/min)0.5" = PSI / ROOT_BARREL_PER_MINUTE; 2
        kpa_per_root_m3min in_kpa_per_root_m3min "kPa/(m3/min)0.5" = 1e3 * ROOT_MINUTE; 2
    }
}
quantity! {
    /// Leak-off coefficient of a fracture's wall: the depth lost grows with the root of time.
    Leakoff("leak-off coefficient", "ft/min0.5", "mm/min0.5") {
        m_per_root_s in_m_per_root_s "m/s0.5" = 1.0; 9
        ft_per_root_min in_ft_per_root_min "ft/min0.5" = FOOT / ROOT_MINUTE; 6
        m_per_root_min in_m_per_root_min "m/min0.5" = 1.0 / ROOT_MINUTE; 7
        mm_per_root_min in_mm_per_root_min "mm/min0.5" = 1e-3 / ROOT_MINUTE; 4
    }
}
quantity! {
    /// Volume lost at once per area of newly opened wall.
    Spurt("spurt loss", "gal/100ft2", "L/m2") {
        m3_per_m2 in_m3_per_m2 "m3/m2" = 1.0; 7
        gal_per_100ft2 in_gal_per_100ft2 "gal/100ft2" = GALLON / (100.0 * FOOT * FOOT); 4
        l_per_m2 in_l_per_m2 "L/m2" = 1e-3; 4
    }
}
quantity! {
    /// Fracture toughness, the critical stress intensity of a crack.
    Toughness("fracture toughness", "psi.in0.5", "MPa.m0.5") {
        pa_root_m in_pa_root_m "Pa.m0.5" = 1.0; 0
        psi_root_inch in_psi_root_inch "psi.in0.5" = PSI * ROOT_INCH; 0
        mpa_root_m in_mpa_root_m "MPa.m0.5" = 1e6; 3
    }
}
quantity! {
    /// Mean width of a fracture per net pressure.
    WidthCompliance("fracture compliance", "ft/psi", "mm/MPa") {
        m_per_pa in_m_per_pa "m/Pa" = 1.0; 15
        ft_per_psi in_ft_per_psi "ft/psi" = FOOT / PSI; 9
        mm_per_mpa in_mm_per_mpa "mm/MPa" = 1e-9; 5
    }
}
quantity! {
    /// Mass per area, such as of proppant on a fracture's face.
    ArealMass("mass per area", "lb/ft2", "kg/m2") {
        kg_per_m2 in_kg_per_m2 "kg/m2" = 1.0; 3
        lb_per_ft2 in_lb_per_ft2 "lb/ft2" = POUND / (FOOT * FOOT); 3
    }
}
quantity! {
    /// A pure number: a ratio, fraction, factor or exponent. A bare number is a full statement.
    Ratio("ratio", "", "", unitless) {
        of in_one "" = 1.0; 4
        percent in_percent "%" = 0.01; 2
    }
}

additive! {
    Length, Diameter, Angle, Curvature, Area, Volume, Capacity, Mass, MassPerLength, Density, Pressure,
    PressureGradient, TemperatureDifference, TemperatureGradient, FlowRate, Velocity, Acceleration, Force,
    ForcePerLength, Torque, Energy, Power, Time, Viscosity, Concentration, Compressibility, RecessionRate,
    RateSquaredLoss, Ratio, MolarEnergy, Diffusivity, MassFlux, ShearRate, PressureRate, SpecificVolume, RateRootLoss,
}
