//! The tally: joints as strapped on the rack.

use super::noise::Noise;
use super::unit::{FOOT, Unit};

/// What lies on the rack.
pub struct Plan {
    /// Lines of the head, without their marks.
    pub head: &'static [&'static str],
    /// Unit of the file.
    pub unit: Unit,
    /// Full-length joints.
    pub count: usize,
    /// Joints on one rack.
    pub rack: usize,
    /// Marker joints: name and length in feet.
    pub marker: &'static [(&'static str, f64)],
    /// Pup joints: name and length in feet.
    pub pup: &'static [(&'static str, f64)],
    /// Outer diameter, weight and grade, as stencilled.
    pub stencil: &'static str,
    /// First letters of the serials.
    pub serial: &'static str,
    /// What each length loses at make-up, metres; 0 where the file states made-up lengths.
    pub make_up: f64,
}

/// Mean, spread, shortest and longest of range 3 pipe, feet.
const RANGE_3: [f64; 4] = [41.5, 1.5, 36.0, 48.0];

/// The text of the file.
pub fn text(plan: &Plan, noise: &mut Noise) -> String {
    let mut out: String = plan.head.iter().map(|line| format!("# {line}\n")).collect();
    let symbol = plan.unit.symbol();
    out += &format!("Joint No,Serial,Type,Pipe,Length ({symbol}),Remark\n");
    let mut number = 0;
    let mut heat = 4210;
    for i in 0..plan.count {
        if i % plan.rack == 0 {
            out += &format!("# rack {}\n", i / plan.rack + 1);
        }
        heat += usize::from(i % 37 == 36);
        number += 1;
        let length = full_length(noise) * FOOT + plan.make_up;
        let serial = format!("{}-{heat}-{number:04}", plan.serial);
        out += &line(plan, number, &serial, "joint", length, remark(noise));
    }
    for (kind, list) in [("marker", plan.marker), ("pup", plan.pup)] {
        out += &format!("# {kind} joints\n");
        for (name, feet) in list {
            number += 1;
            let length = (feet + 0.06 * noise.normal()) * FOOT + plan.make_up;
            let serial = format!("{}-{}-{number:04}", plan.serial, kind.to_uppercase());
            out += &line(plan, number, &serial, kind, length, name);
        }
    }
    out
}

fn line(plan: &Plan, number: usize, serial: &str, kind: &str, metres: f64, remark: &str) -> String {
    let length = plan.unit.of_metres(metres);
    let decimals = if plan.unit == Unit::Feet { 2 } else { 3 };
    format!("{number},{serial},{kind},{},{length:.decimals$},{remark}\n", plan.stencil)
}

fn full_length(noise: &mut Noise) -> f64 {
    let [mean, spread, least, most] = RANGE_3;
    loop {
        let length = mean + spread * noise.normal();
        if (least..=most).contains(&length) {
            return length;
        }
    }
}

/// Most joints have none.
fn remark(noise: &mut Noise) -> &'static str {
    match noise.between(0.0, 1.0) {
        x if x < 0.02 => "light rust on pin; cleaned",
        x if x < 0.03 => "coupling stencil unclear; checked against the mill list",
        x if x < 0.04 => "strapped twice",
        _ => "",
    }
}
