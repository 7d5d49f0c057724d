//! The unit a file is written in; the makers work in metres.

/// Feet or metres.
#[derive(Clone, Copy, PartialEq)]
pub enum Unit {
    /// Feet, inches.
    Feet,
    /// Metres, millimetres.
    Metres,
}

/// One foot in metres.
pub const FOOT: f64 = 0.3048;
/// One inch in metres.
pub const INCH: f64 = 0.0254;

impl Unit {
    /// A length in this unit.
    pub fn of_metres(self, metres: f64) -> f64 {
        match self {
            Unit::Feet => metres / FOOT,
            Unit::Metres => metres,
        }
    }

    /// A length of this unit in metres.
    pub fn to_metres(self, value: f64) -> f64 {
        match self {
            Unit::Feet => value * FOOT,
            Unit::Metres => value,
        }
    }

    /// A depth in this unit, rounded as a survey states it: whole feet, tenths of a metre.
    pub fn rounded(self, metres: f64) -> f64 {
        match self {
            Unit::Feet => self.of_metres(metres).round(),
            Unit::Metres => (metres * 10.0).round() / 10.0,
        }
    }

    /// Decimals of such a depth.
    pub fn depth_decimals(self) -> usize {
        match self {
            Unit::Feet => 0,
            Unit::Metres => 1,
        }
    }

    /// Symbol of a length.
    pub fn symbol(self) -> &'static str {
        match self {
            Unit::Feet => "ft",
            Unit::Metres => "m",
        }
    }

    /// Symbol of a curvature.
    pub fn curvature_symbol(self) -> &'static str {
        match self {
            Unit::Feet => "deg/100ft",
            Unit::Metres => "deg/30m",
        }
    }

    /// The length a curvature is stated over.
    pub fn curvature_length(self) -> f64 {
        match self {
            Unit::Feet => 100.0,
            Unit::Metres => 30.0,
        }
    }

    /// A diameter in inches or millimetres.
    pub fn diameter(self, metres: f64) -> f64 {
        match self {
            Unit::Feet => metres / INCH,
            Unit::Metres => metres * 1e3,
        }
    }
}
