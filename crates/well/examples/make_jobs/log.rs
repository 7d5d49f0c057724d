//! Logs as LAS 2.0 text.

use super::unit::Unit;

/// One curve.
pub struct Curve {
    /// Mnemonic.
    pub name: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// What it is.
    pub about: &'static str,
    /// Decimals.
    pub decimals: usize,
    /// Values, NaN where there is none.
    pub values: Vec<f64>,
}

/// What the head of the file says.
pub struct Head {
    /// Well.
    pub well: &'static str,
    /// Field.
    pub field: &'static str,
    /// Kind of log.
    pub service: &'static str,
    /// Date.
    pub date: &'static str,
    /// Parameters: mnemonic, unit, value, meaning.
    pub parameters: &'static [(&'static str, &'static str, &'static str, &'static str)],
    /// Remark lines.
    pub remarks: &'static [&'static str],
}

/// What stands for no value.
const NULL: f64 = -999.25;

/// The text of the file; depths in its unit, evenly `step` apart.
pub fn text(head: &Head, unit: Unit, depths: &[f64], step: f64, curves: &[Curve]) -> String {
    let symbol = match unit {
        Unit::Feet => "F",
        Unit::Metres => "M",
    };
    let (top, bottom) = (depths.first().copied().unwrap_or(0.0), depths.last().copied().unwrap_or(0.0));
    let mut out =
        String::from("~VERSION INFORMATION\n VERS.   2.0 : CWLS LOG ASCII STANDARD - VERSION 2.0\n");
    out += " WRAP.    NO : ONE LINE PER DEPTH STEP\n~WELL INFORMATION\n#MNEM.UNIT    DATA : DESCRIPTION\n";
    for (name, value, about) in
        [("STRT", top, "START DEPTH"), ("STOP", bottom, "STOP DEPTH"), ("STEP", step, "STEP")]
    {
        out += &format!(" {name}.{symbol}  {value:.4} : {about}\n");
    }
    out += &format!(" NULL.  {NULL:.2} : NULL VALUE\n");
    for (name, value, about) in [
        ("COMP", "NONE, INVENTED EXAMPLE", "COMPANY"),
        ("WELL", head.well, "WELL"),
        ("FLD", head.field, "FIELD"),
        ("LOC", "NONE", "LOCATION"),
        ("PROV", "NONE", "PROVINCE"),
        ("SRVC", head.service, "SERVICE COMPANY"),
        ("DATE", head.date, "LOG DATE"),
        ("UWI", "NONE", "UNIQUE WELL ID"),
    ] {
        out += &format!(" {name}.  {value} : {about}\n");
    }
    out += &format!(
        "~CURVE INFORMATION\n#MNEM.UNIT : DESCRIPTION\n DEPT.{symbol} : MEASURED DEPTH OF THE LOG\n"
    );
    for curve in curves {
        out += &format!(" {}.{} : {}\n", curve.name, curve.unit, curve.about);
    }
    out += "~PARAMETER INFORMATION\n";
    for (name, symbol, value, about) in head.parameters {
        out += &format!(" {name}.{symbol}  {value} : {about}\n");
    }
    out += "~OTHER INFORMATION\n";
    head.remarks.iter().for_each(|line| out += &format!(" {line}\n"));
    out + &data(depths, curves)
}

fn data(depths: &[f64], curves: &[Curve]) -> String {
    let names: String = curves.iter().map(|c| format!(" {:>9}", c.name)).collect();
    let mut out = format!("~A    DEPT{names}\n");
    for (i, depth) in depths.iter().enumerate() {
        out += &format!("{depth:>10.1}");
        for curve in curves {
            let value = curve.values.get(i).copied().filter(|v| v.is_finite());
            match value {
                Some(v) => out += &format!(" {v:>9.*}", curve.decimals),
                None => out += &format!(" {NULL:>9.2}"),
            }
        }
        out.push('\n');
    }
    out
}
