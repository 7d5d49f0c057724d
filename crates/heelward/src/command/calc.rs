//! `calc`: one relation with its workings, or the register.

use physics::{Error, Relation};
use plan::Step;
use report::terminal::{relation, working};
use report::text::family::Family;
use report::text::json;

use super::Outcome;
use crate::VERSION;
use crate::cli::Calc;
use crate::embedded;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;

pub(crate) fn run(args: &Calc, screen: &mut Screen) -> Outcome {
    let text = match (&args.relation, args.list) {
        (Some(name), true) => one(find(name)?, args.json, screen)?,
        (Some(name), false) => compute(find(name)?, args, screen)?,
        (None, _) => list(args, screen)?,
    };
    screen.data(&text)?;
    Ok(Ended::Done)
}

fn find(name: &str) -> Result<&'static Relation, Fault> {
    physics::registry::find(name).map_err(|e| Fault::input(e.to_string()))
}

fn compute(relation: &'static Relation, args: &Calc, screen: &Screen) -> Result<String, Fault> {
    let mut call = relation.call();
    let mut seen: Vec<&str> = Vec::new();
    for input in &args.inputs {
        let (name, text) = split(input, relation, screen)?;
        if seen.contains(&name) {
            return Err(Fault::input_next(format!("`{name}` is given twice"), "Give each input once."));
        }
        seen.push(name);
        call = call.text(name, text);
    }
    let evaluation = call.run().map_err(|e| refused(&e, relation, screen))?;
    let step = Step::of(&evaluation);
    Ok(match args.json {
        true => json::text(&json::step(&step, VERSION)),
        false => working::step(&step, &embedded::bibliography()?, &screen.look),
    })
}

fn split<'a>(input: &'a str, relation: &Relation, screen: &Screen) -> Result<(&'a str, &'a str), Fault> {
    input.split_once('=').map(|(name, text)| (name.trim(), text)).ok_or_else(|| {
        let what = format!("`{input}` is not an input; inputs are written name=value");
        Fault::input_next(what, format!("Type it as: {}", relation::call(relation, &screen.look)))
    })
}

fn refused(error: &Error, relation: &Relation, screen: &Screen) -> Fault {
    let call = || format!("Type it as: {}", relation::call(relation, &screen.look));
    match error {
        Error::Missing { .. } | Error::UnknownInput { .. } => Fault::input_next(error.to_string(), call()),
        Error::NotFinite { .. } | Error::Domain { .. } | Error::NoSolution { .. } => Fault::input_next(
            error.to_string(),
            format!("`heelward calc --list {}` shows its inputs and range.", relation.name),
        ),
        _ => Fault::input(error.to_string()),
    }
}

fn one(relation: &'static Relation, as_json: bool, screen: &Screen) -> Result<String, Fault> {
    let families = embedded::families()?;
    let family = families.of(relation.name);
    if !as_json {
        return Ok(relation::page(relation, family, &screen.look));
    }
    let alone = Family { name: family, title: "", relations: vec![relation] };
    Ok(json::text(&json::relations([&alone].into_iter(), VERSION)))
}

fn list(args: &Calc, screen: &Screen) -> Result<String, Fault> {
    let families = embedded::families()?;
    let chosen: Vec<&Family> = match &args.family {
        None => families.0.iter().collect(),
        Some(name) => vec![families.find(name).ok_or_else(|| {
            let what = format!("no family is called `{name}`");
            Fault::input_next(what, format!("The families are: {}.", families.names()))
        })?],
    };
    Ok(match args.json {
        true => json::text(&json::relations(chosen.into_iter(), VERSION)),
        false => relation::list(chosen.into_iter(), &screen.look),
    })
}
