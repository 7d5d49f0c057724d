//! A quantity whose kind is known only at run time: what the relation registry, the findings
//! and the workings carry.

use crate::kind::{Kind, Quantity, System, Unit};
use crate::text::{UnitError, parse_quantity, round_significant};

/// An SI number with the description of its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    si: f64,
    kind: &'static Kind,
}

impl Value {
    /// From a typed quantity.
    pub fn of<Q: Quantity>(quantity: Q) -> Self {
        Self { si: quantity.si(), kind: Q::KIND }
    }

    /// From an SI number of a kind.
    pub fn from_si(si: f64, kind: &'static Kind) -> Self {
        Self { si, kind }
    }

    /// From text with a unit of `kind`.
    pub fn parse(text: &str, kind: &'static Kind) -> Result<Self, UnitError> {
        parse_quantity(text, kind).map(|si| Self { si, kind })
    }

    /// The SI number.
    pub fn si(self) -> f64 {
        self.si
    }

    /// The kind.
    pub fn kind(self) -> &'static Kind {
        self.kind
    }

    /// Back to a type, if the kind is that type's.
    pub fn typed<Q: Quantity>(self) -> Option<Q> {
        (self.kind == Q::KIND).then(|| Q::from_si(self.si))
    }

    /// Number and unit for a person.
    pub fn text(self, system: System) -> String {
        self.kind.shown_for(system, self.si).text(self.si)
    }

    /// Number and unit as the type prints them: in the unit of the system, whatever the size.
    pub(crate) fn text_in(self, system: System) -> String {
        self.kind.shown(system).text(self.si)
    }

    /// Number with `digits` significant digits and the unit a person reads, for workings.
    pub fn exact_text(self, system: System, digits: usize) -> String {
        self.exact_text_in(self.kind.shown_for(system, self.si), digits)
    }

    /// Number with `digits` significant digits in a unit of the kind.
    pub fn exact_text_in(self, unit: &Unit, digits: usize) -> String {
        let n = round_significant(unit.from_si(self.si), digits);
        if unit.symbol.is_empty() { format!("{n}") } else { format!("{n} {}", unit.symbol) }
    }
}

impl<Q: Quantity> From<Q> for Value {
    fn from(quantity: Q) -> Self {
        Self::of(quantity)
    }
}

impl serde::Serialize for Value {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        serialize_si(self.si, self.kind, s)
    }
}

impl schemars::JsonSchema for Value {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Value".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "object",
            "description": "a figure in SI with its unit beside",
            "properties": { "value": { "type": "number" }, "unit": { "type": "string" } },
            "required": ["value", "unit"],
            "additionalProperties": false
        })
    }
}

/// Writes `{"value": SI number, "unit": SI symbol}`; ten significant digits, so that the same
/// figure reached by two routes prints the same.
pub(crate) fn serialize_si<S: serde::Serializer>(
    si: f64,
    kind: &'static Kind,
    s: S,
) -> Result<S::Ok, S::Error> {
    use serde::ser::SerializeStruct;
    let mut out = s.serialize_struct("Value", 2)?;
    out.serialize_field("value", &round_significant(si, 10))?;
    out.serialize_field("unit", kind.si_unit().symbol)?;
    out.end()
}
