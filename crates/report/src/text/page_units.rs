//! What the page must know to read and show figures: the kinds of quantity with their units, the
//! channels of a run, and the words of its events. The page holds no factor of its own.

use pump::record::{CHANNELS, EventKind, Sample};
use quantity::{KINDS, Kind};
use serde_json::{Map, Value, json};

use super::json;

/// The table as JSON text, one line a row.
pub fn document() -> String {
    let none = Sample::default();
    let kinds: Map<String, Value> = KINDS.iter().map(|k| (k.name.to_string(), kind(k))).collect();
    let channels: Vec<Value> = CHANNELS
        .iter()
        .map(|c| json!({ "name": c.name, "title": c.title, "kind": (c.value)(&none).kind().name }))
        .collect();
    let events: Map<String, Value> =
        EventKind::ALL.iter().map(|e| (e.word().to_string(), json!(e))).collect();
    let note = "written by `heelward upkeep --write`; do not edit. si = value * factor + offset";
    json::lines(&json!({ "note": note, "kinds": kinds, "channels": channels, "events": events }))
}

fn kind(kind: &Kind) -> Value {
    let unit = |u: &quantity::Unit| json!({ "symbol": u.symbol, "factor": u.factor, "offset": u.offset, "decimals": u.decimals });
    json!({
        "units": kind.units.iter().map(unit).collect::<Vec<_>>(),
        "field": kind.field,
        "metric": kind.metric,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_channel_finds_its_kind_and_every_kind_its_shown_units() {
        let table: Value = serde_json::from_str(&document()).unwrap();
        for channel in table["channels"].as_array().unwrap() {
            let kind = channel["kind"].as_str().unwrap();
            let units = table["kinds"][kind]["units"].as_array().unwrap();
            for system in ["field", "metric"] {
                let shown = &table["kinds"][kind][system];
                assert!(units.iter().any(|u| &u["symbol"] == shown), "{channel}: {shown}");
            }
        }
        assert_eq!(table["events"]["ball landed"], "ball-landed");
        assert_eq!(table["events"].as_object().unwrap().len(), EventKind::ALL.len());
    }
}
