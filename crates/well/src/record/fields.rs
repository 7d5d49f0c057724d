//! How each kind of value is read from a node.

use quantity::{Kind, Quantity};
use toml::de::{DeTable, DeValue};

use super::checks;
use super::{Context, FieldDoc, Node, Shape};

/// The longest list a job file may hold.
const LONGEST_LIST: usize = 2_000;

/// A value that can be read from a node of a job file.
pub trait Field: Sized {
    /// Its shape.
    fn shape() -> Shape;
    /// Reads it; `None` after a finding has been made.
    fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self>;
    /// Reads it from the text of a default.
    fn from_default(text: &str) -> Option<Self> {
        let _ = text;
        None
    }
}

/// Kinds that may be negative in a job file.
fn may_be_negative(kind: &Kind) -> bool {
    matches!(
        kind.name,
        "temperature"
            | "temperature difference"
            | "temperature gradient"
            | "angle"
            | "ratio"
            | "true vertical depth"
            | "gauge pressure"
    )
}

fn wrong(node: &Node<'_>, cx: &mut Context, wanted: &str) {
    let found = node.get_ref().type_str();
    cx.say(&checks::TYPE, format!("{} wants {wanted}, found {found}", name(cx)), node.span(), None);
}

fn name(cx: &Context) -> String {
    let path = cx.path();
    if path.is_empty() { "the job file".into() } else { format!("`{path}`") }
}

fn read_quantity<Q: Quantity>(node: &Node<'_>, cx: &mut Context) -> Option<Q> {
    let kind = Q::KIND;
    let text = match node.get_ref() {
        DeValue::String(s) => s.to_string(),
        DeValue::Integer(i) if kind.unitless => i.as_str().to_string(),
        DeValue::Float(f) if kind.unitless => f.as_str().to_string(),
        DeValue::Integer(_) | DeValue::Float(_) => {
            let message = format!("{} is a bare number; a {} needs its unit", name(cx), kind.name);
            let bare = match node.get_ref() {
                DeValue::Integer(i) => i.as_str().to_string(),
                DeValue::Float(f) => f.as_str().to_string(),
                _ => String::new(),
            };
            let finite = bare.parse::<f64>().map_or(true, f64::is_finite);
            let write = match finite {
                true => format!("Write \"{bare} {}\"", kind.field),
                false => format!("Write a finite number with its unit, such as \"1 {}\"", kind.field),
            };
            let next = format!("{write}; units that fit: {}.", kind.unit_list());
            cx.say(&checks::UNIT, message, node.span(), Some(next));
            return None;
        }
        _ => {
            wrong(node, cx, &format!("a {} as text with its unit, such as \"1 {}\"", kind.name, kind.field));
            return None;
        }
    };
    match Q::parse(&text) {
        Err(e) => {
            let next =
                kind.unitless.then(|| "Write the number alone, such as 0.05, or as \"5 %\".".to_string());
            cx.say(&checks::UNIT, format!("{}: {e}", name(cx)), node.span(), next);
            None
        }
        Ok(q) if q.si() < 0.0 && !may_be_negative(kind) => {
            let message = format!("{} is \"{text}\"; a {} here cannot be negative", name(cx), kind.name);
            cx.say(&checks::NEGATIVE, message, node.span(), None);
            None
        }
        Ok(q) if is_absurd(kind, q.si()) => {
            let message =
                format!("{} is \"{text}\"; no {} of a well is that large or that small", name(cx), kind.name);
            cx.say(&checks::RANGE, message, node.span(), None);
            None
        }
        Ok(q) => Some(q),
    }
}

/// The coldest and the hottest temperature a job file may hold, K: -100 and 500 degC.
const COLDEST: f64 = 173.15;
const HOTTEST: f64 = 773.15;

/// Whether an SI number is one that no well has: it would only run over in a product.
fn is_absurd(kind: &Kind, si: f64) -> bool {
    if kind.name == "temperature" {
        return !(COLDEST..=HOTTEST).contains(&si);
    }
    let long = matches!(kind.name, "length" | "diameter" | "measured depth" | "true vertical depth");
    let most = if long { 1e6 } else { 1e12 };
    si != 0.0 && !(1e-15..=most).contains(&si.abs())
}

macro_rules! quantities {
    ($($q:ident)+) => {$(
        impl Field for quantity::$q {
            fn shape() -> Shape { Shape::Quantity(<quantity::$q as Quantity>::KIND) }
            fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self> { read_quantity(node, cx) }
            fn from_default(text: &str) -> Option<Self> { <Self as Quantity>::parse(text).ok() }
        }
    )+};
}

quantities! {
    Length Diameter MeasuredDepth TrueVerticalDepth Angle Curvature Area Volume Capacity Mass MassPerLength Density
    Pressure GaugePressure AbsolutePressure PressureGradient Temperature TemperatureDifference
    TemperatureGradient FlowRate Velocity Force Torque Power Time Viscosity Consistency Concentration
    Compressibility Diffusivity Conductivity VolumetricHeat SpecificHeat MolarEnergy RecessionRate Expansion
    RateSquaredLoss Leakoff Spurt Toughness Ratio
}

impl Field for String {
    fn shape() -> Shape {
        Shape::Text
    }
    fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self> {
        match node.get_ref() {
            DeValue::String(s) => Some(s.to_string()),
            _ => {
                wrong(node, cx, "text in double quotes");
                None
            }
        }
    }
    fn from_default(text: &str) -> Option<Self> {
        Some(text.to_string())
    }
}

impl Field for bool {
    fn shape() -> Shape {
        Shape::Bool
    }
    fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self> {
        match node.get_ref() {
            DeValue::Boolean(b) => Some(*b),
            _ => {
                wrong(node, cx, "true or false");
                None
            }
        }
    }
    fn from_default(text: &str) -> Option<Self> {
        text.parse().ok()
    }
}

/// The largest whole number a job file may hold.
const LARGEST_WHOLE: i64 = 1_000_000_000;

impl Field for usize {
    fn shape() -> Shape {
        Shape::Whole
    }
    fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self> {
        let DeValue::Integer(i) = node.get_ref() else {
            wrong(node, cx, "a whole number");
            return None;
        };
        let number = i64::from_str_radix(&i.as_str().replace('_', ""), i.radix()).ok();
        match number {
            Some(n) if (0..=LARGEST_WHOLE).contains(&n) => usize::try_from(n).ok(),
            _ => {
                let message = format!("{} is {}; it must be 0 to {LARGEST_WHOLE}", name(cx), i.as_str());
                cx.say(&checks::RANGE, message, node.span(), None);
                None
            }
        }
    }
    fn from_default(text: &str) -> Option<Self> {
        text.parse().ok()
    }
}

impl<T: Field> Field for Vec<T> {
    fn shape() -> Shape {
        Shape::List(T::shape)
    }
    fn read(node: &Node<'_>, cx: &mut Context) -> Option<Self> {
        let DeValue::Array(array) = node.get_ref() else {
            wrong(node, cx, "a list");
            return None;
        };
        if array.len() > LONGEST_LIST {
            let message = format!("{} holds {} items; {LONGEST_LIST} is the most", name(cx), array.len());
            cx.say(&checks::RANGE, message, node.span(), None);
            return None;
        }
        let items: Vec<Option<T>> = array
            .iter()
            .enumerate()
            .map(|(i, item)| cx.within(format!("[{}]", i + 1), item.span(), |cx| T::read(item, cx)))
            .collect();
        items.into_iter().collect()
    }
    fn from_default(text: &str) -> Option<Self> {
        text.split(',').filter(|t| !t.trim().is_empty()).map(|t| T::from_default(t.trim())).collect()
    }
}

/// Reads one word of a list; used by the `choice!` macro.
pub(crate) fn read_choice<T: Copy>(
    node: &Node<'_>,
    cx: &mut Context,
    words: &[(&'static str, &'static str)],
    values: &[T],
) -> Option<T> {
    let DeValue::String(text) = node.get_ref() else {
        wrong(node, cx, "a word in double quotes");
        return None;
    };
    let found = words.iter().position(|(w, _)| *w == text.as_ref());
    if found.is_none() {
        let list = words.iter().map(|(w, _)| format!("\"{w}\"")).collect::<Vec<_>>().join(", ");
        let near = physics::registry::nearest(text, words.iter().map(|(w, _)| *w));
        let near = near.map(|n| format!(" (nearest: \"{n}\")")).unwrap_or_default();
        let message = format!("{} is \"{text}\"{near}; it must be one of {list}", name(cx));
        cx.say(&checks::CHOICE, message, node.span(), None);
    }
    found.and_then(|i| values.get(i).copied())
}

/// The table of a record, or a finding; used by the `record!` macro.
pub(crate) fn table<'a, 'i>(node: &'a Node<'i>, cx: &mut Context) -> Option<&'a DeTable<'i>> {
    match node.get_ref() {
        DeValue::Table(t) => Some(t),
        _ => {
            wrong(node, cx, "a table");
            None
        }
    }
}

/// Makes a finding for every key that is not a field, naming the nearest.
pub(crate) fn refuse_unknown(table: &DeTable<'_>, fields: &[FieldDoc], cx: &mut Context) {
    for key in table.keys() {
        let text: &str = key.get_ref();
        if fields.iter().any(|f| f.key == text) {
            continue;
        }
        let near = physics::registry::nearest(text, fields.iter().map(|f| f.key));
        let near = near.map(|n| format!("; the nearest is `{n}`")).unwrap_or_default();
        let all = fields.iter().map(|f| f.key).collect::<Vec<_>>().join(", ");
        let message = format!("`{text}` is not a field of {}{near}", name(cx));
        cx.say(&checks::UNKNOWN, message, key.span(), Some(format!("Fields here: {all}.")));
    }
}

/// Reads a field that is present.
pub(crate) fn present<T: Field>(table: &DeTable<'_>, key: &str, cx: &mut Context) -> Option<Option<T>> {
    let (_, node) = table.iter().find(|(k, _)| k.get_ref() == key)?;
    Some(cx.within(key.to_string(), node.span(), |cx| T::read(node, cx)))
}

/// Makes the finding for a field that must be given.
pub(crate) fn missing<T: Field>(doc: &FieldDoc, span: std::ops::Range<usize>, cx: &mut Context) {
    let example = match T::shape() {
        Shape::Quantity(kind) if kind.unitless => format!("{} = 1.0", doc.key),
        Shape::Quantity(kind) => format!("{} = \"1 {}\"", doc.key, kind.field),
        Shape::Text => format!("{} = \"text\"", doc.key),
        Shape::Whole => format!("{} = 1", doc.key),
        Shape::Bool => format!("{} = true", doc.key),
        Shape::Choice(words) => format!("{} = \"{}\"", doc.key, words.first().map_or("", |w| w.0)),
        Shape::List(_) => format!("{} = [ ... ]", doc.key),
        Shape::Table(_) => format!("a table [{}]", doc.key),
    };
    let message = format!("{} lacks `{}`: {}", name(cx), doc.key, doc.doc.trim());
    cx.say(&checks::MISSING, message, span, Some(format!("Add, with your value: {example}.")));
}
