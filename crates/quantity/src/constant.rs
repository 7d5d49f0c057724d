//! Conversion constants, each built from an exact definition.
//!
//! Sources: the international yard and pound (1959) for the foot and the pound; the
//! definition of the US gallon as 231 cubic inches and the oil barrel as 42 US gallons; the
//! standard acceleration of gravity of the 3rd CGPM (1901). No constant here is rounded.

/// Standard acceleration of gravity, m/s² (exact).
pub const GRAVITY: f64 = 9.806_65;
/// Inch, m (exact).
pub const INCH: f64 = 0.0254;
/// Foot, m (exact).
pub const FOOT: f64 = 0.3048;
/// US survey foot, m (exact, 1200/3937).
pub const SURVEY_FOOT: f64 = 1200.0 / 3937.0;
/// Avoirdupois pound, kg (exact).
pub const POUND: f64 = 0.453_592_37;
/// Pound-force, N (exact).
pub const POUND_FORCE: f64 = POUND * GRAVITY;
/// US gallon, m³ (exact, 231 in³).
pub const GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// Oil barrel, m³ (exact, 42 US gallons).
pub const BARREL: f64 = 42.0 * GALLON;
/// Pound-force per square inch, Pa.
pub const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// Pound per US gallon, kg/m³.
pub const POUND_PER_GALLON: f64 = POUND / GALLON;
/// Horsepower (550 foot pound-force per second), W.
pub const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;
/// Standard atmosphere, Pa (exact).
pub const ATMOSPHERE: f64 = 101_325.0;
/// Offset of the Celsius scale, K (exact).
pub const CELSIUS_ZERO: f64 = 273.15;
/// Offset of the Fahrenheit scale, K: 0 °F in kelvin.
pub const FAHRENHEIT_ZERO: f64 = CELSIUS_ZERO - 32.0 / 1.8;
/// Molar gas constant, J/(mol K) (exact since 2019).
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;
/// Degree, rad.
pub const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// Minute, s.
pub const MINUTE: f64 = 60.0;
/// Hour, s.
pub const HOUR: f64 = 3600.0;
/// Day, s.
pub const DAY: f64 = 86_400.0;
/// British thermal unit (International Table), J (exact).
pub const BTU: f64 = 1_055.055_852_62;
/// Root of one oil barrel per minute, (m³/s)^0.5: the root is no constant function, a test squares it.
pub const ROOT_BARREL_PER_MINUTE: f64 = 0.051_476_093_954_378_47;
/// Root of one minute in seconds, s^0.5.
pub const ROOT_MINUTE: f64 = 7.745_966_692_414_834;
/// Root of one inch in metres, m^0.5.
pub const ROOT_INCH: f64 = 0.159_373_774_505_092_27;
